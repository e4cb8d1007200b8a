"""The cache: what is taken from it is what would have been found, whatever happened to it."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from random import Random

import pytest

from benchmarks.repositories import generate
from conftest import Loopwright
from loopwright import Settings, Verdict
from loopwright.checks.house import House
from loopwright.frozen import replace
from loopwright.repository import cache as room
from loopwright.repository import runner
from loopwright.repository.cache import Cache, opened
from loopwright.repository.files import find
from loopwright.repository.jobs import Desk, Job, judge
from loopwright.repository.packing import NotAVerdict, packed, unpacked
from loopwright.repository.runner import How, verdicts
from loopwright.source import NotRead
from support import CASES, WORKED

PATTERN = "pattern: Dune\nterms: UK\npart a: flat\nstart: ch 9\nrow 1: 8 dc in ring = 8 sts\n"
JOB = Job("dune.crochet", PATTERN, {}, Settings())


@pytest.fixture(autouse=True)
def home(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """A cache of our own."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path


@pytest.fixture
def cache() -> Cache:
    found = opened()
    assert found is not None
    return found


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> tuple[list[str], list[Verdict]]:
    """Files, and what is to be said of them."""
    folder = tmp_path_factory.mktemp("house")
    generate(folder, 30)
    paths = find([str(folder)])
    return paths, [judge(Desk().job(path)) for path in paths]


@pytest.mark.parametrize("path", [*CASES, *WORKED], ids=lambda path: path.stem)
def test_what_is_kept_comes_back(path: Path) -> None:
    for detail in (False, True):
        verdict = judge(Desk().job(str(path)), detail=detail)
        assert replace(unpacked(packed(verdict)), name=verdict.name) == verdict


@pytest.mark.parametrize(
    "data",
    [b"", b"null", b"[]", b"{}", b"[1,2,3,4,5,6]", b'["",0,0,0,[[]],null]', b"\xff", b"[" * 9999],
)
def test_what_is_no_verdict_is_refused(data: bytes) -> None:
    with pytest.raises(NotAVerdict):
        unpacked(data)


def test_what_a_verdict_is_made_of_makes_its_key(cache: Cache) -> None:
    used = {"house.crochet": "yarn a: x\n"}
    jobs = [
        JOB,
        replace(JOB, text=PATTERN + "\n"),
        replace(JOB, settings=Settings(severities=(("not-closed", "advice"),))),
        replace(JOB, settings=Settings(house=House(terms="UK"))),
        replace(JOB, used=used),
        replace(JOB, used={"house.crochet": "yarn a: y\n"}),
        replace(JOB, used={"other.crochet": "yarn a: x\n"}),
        replace(JOB, used={"house.crochet": NotRead("there is no such file")}),
        # where one part ends and the next begins matters too
        replace(JOB, used={"house.crochetyarn a: x\n": ""}),
    ]
    keys = {cache.key(job, detail=detail) for job in jobs for detail in (False, True)}
    assert len(keys) == 2 * len(jobs)
    assert cache.key(replace(JOB, name="other.crochet"), detail=False) == cache.key(
        JOB, detail=False
    )


def test_another_program_has_other_keys(monkeypatch: pytest.MonkeyPatch, cache: Cache) -> None:
    monkeypatch.setattr(room, "program_mark", lambda: b"another")
    other = opened()
    assert other is not None
    assert other.key(JOB, detail=False) != cache.key(JOB, detail=False)


def test_the_mark_of_the_program_is_its_text(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    module = tmp_path / "one.py"
    module.write_text("a = 1\n")
    monkeypatch.setattr(room, "_program", lambda: [str(module)])
    before = room.program_mark()
    assert room.program_mark() == before
    module.write_text("a = 2\n")
    assert room.program_mark() != before
    monkeypatch.undo()
    assert any(path.endswith("pattern.lark") for path in room._program())
    assert any(path.endswith("/work/row.py") for path in room._program())


def test_a_file_that_is_moved_is_known(
    house: tuple[list[str], list[Verdict]], tmp_path: Path
) -> None:
    paths, found = house
    assert list(verdicts(paths, How(workers=1))) == found
    moved: list[str] = []
    stayed: list[Verdict] = []
    for at, path in enumerate(paths):
        if "use: " in Path(path).read_text("utf-8"):
            continue  # what it uses is found from where it lies
        moved.append(str(tmp_path / f"{at}.crochet"))
        Path(moved[-1]).write_bytes(Path(path).read_bytes())
        stayed.append(found[at])
    known = list(verdicts(moved, How(workers=1)))
    assert known == [replace(one, name=name) for one, name in zip(stayed, moved, strict=True)]
    assert len(moved) > 20


def test_nothing_is_checked_twice(
    house: tuple[list[str], list[Verdict]], monkeypatch: pytest.MonkeyPatch
) -> None:
    paths, found = house
    list(verdicts(paths, How(workers=1)))
    asked: list[str] = []
    monkeypatch.setattr(
        runner, "judge", lambda job, detail: (asked.append(job.name), judge(job))[1]
    )
    assert list(verdicts(paths, How(workers=1))) == found
    assert asked == []
    assert list(verdicts(paths, How(workers=1, cached=False))) == found
    assert asked == paths


def test_damage_costs_time_and_nothing_else(
    house: tuple[list[str], list[Verdict]], home: Path
) -> None:
    """Bytes of the store are changed, cut off and put in at random, many times."""
    paths, found = house[0][:10], house[1][:10]
    rng = Random(5)
    list(verdicts(paths, How(workers=1)))
    (store,) = (home / "cache" / "loopwright").glob("verdicts-*.sqlite")
    for turn in range(60):
        data = bytearray(store.read_bytes())
        match turn % 3:
            case 0:
                for _ in range(rng.choice((1, 10, 500))):
                    data[rng.randrange(len(data))] = rng.randrange(256)
            case 1:
                del data[rng.randrange(len(data)) :]
            case _:
                at = rng.randrange(len(data))
                data[at:at] = rng.randbytes(rng.choice((1, 100, 5000)))
        store.write_bytes(data)
        assert list(verdicts(paths, How(workers=1))) == found, turn
        assert list(verdicts(paths, How(workers=1))) == found, turn


def test_a_verdict_that_was_changed_is_not_believed(cache: Cache, home: Path) -> None:
    key = cache.key(JOB, detail=False)
    cache.put(key, judge(JOB))
    other = replace(judge(JOB), messages=())
    cache.close()
    (store,) = (home / "cache" / "loopwright").glob("verdicts-*.sqlite")
    with sqlite3.connect(store) as base:
        base.execute("UPDATE verdicts SET data = substr(data, 1, 16) || ?", (packed(other),))
    base.close()
    again = opened()
    assert again is not None
    assert again.get(key) is None
    # nor one that is put under the key of another
    with sqlite3.connect(store) as base:
        base.execute("DELETE FROM verdicts")
        base.execute("INSERT INTO verdicts VALUES (?, 0, ?)", (key, room._seal(b"x", b"y") + b"y"))
    base.close()
    assert again.get(key) is None
    again.put(key, judge(JOB))
    again.close()
    last = opened()
    assert last is not None
    assert last.get(key) == replace(judge(JOB), name="")


def test_a_store_that_cannot_be_is_done_without(
    house: tuple[list[str], list[Verdict]], home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    paths, found = house
    folder = home / "cache" / "loopwright"
    (folder / f"verdicts-{room.LAYOUT}.sqlite").mkdir(parents=True)
    folder.chmod(0o700)
    assert list(verdicts(paths, How(workers=1))) == found
    monkeypatch.setenv("XDG_CACHE_HOME", str(home / "file" / "cache"))
    (home / "file").write_text("in the way")
    assert list(verdicts(paths, How(workers=1))) == found


def test_a_folder_that_others_may_write_is_not_trusted(home: Path) -> None:
    folder = home / "cache" / "loopwright"
    folder.mkdir(parents=True)
    folder.chmod(0o777)
    assert opened() is None


def test_a_run_that_writes_is_waited_for_not_for_ever(
    house: tuple[list[str], list[Verdict]], home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    paths, found = house
    list(verdicts(paths[:20], How(workers=1)))
    (store,) = (home / "cache" / "loopwright").glob("verdicts-*.sqlite")
    monkeypatch.setattr(room, "PATIENCE", 0.1)
    base = sqlite3.connect(store, isolation_level=None)
    base.execute("BEGIN EXCLUSIVE")
    assert list(verdicts(paths, How(workers=1))) == found
    base.execute("ROLLBACK")
    base.close()
    assert list(verdicts(paths, How(workers=1))) == found


def test_the_store_does_not_grow_for_ever(cache: Cache, monkeypatch: pytest.MonkeyPatch) -> None:
    """Past the most that it may hold, the half goes that was asked for longest ago."""
    monkeypatch.setattr(room, "MOST_BYTES", 100_000)
    keys = [bytes([at // 256, at % 256]) * 12 for at in range(2000)]
    cache.today = 1
    for key in keys[:1000]:
        cache.put(key, judge(JOB))
    cache.close()
    later = opened()
    assert later is not None
    for key in keys[1000:]:
        later.put(key, judge(JOB))
    later.close()
    last = opened()
    assert last is not None
    assert last._base is not None
    (left,) = last._base.execute("SELECT COUNT(*) FROM verdicts").fetchone()
    assert 0 < left <= 1500
    assert last.get(keys[1999]) is not None


def test_no_cache_reads_and_writes_none(
    loopwright: Loopwright, house: tuple[list[str], list[Verdict]], home: Path
) -> None:
    loopwright("check", *house[0], "--no-cache")
    assert not list(home.rglob("verdicts-*"))
    loopwright("check", *house[0])
    assert list(home.rglob("verdicts-*"))
