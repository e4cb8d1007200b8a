"""What an inch is, asked of the units library once and kept for later runs."""

from __future__ import annotations

import os
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest

from loopwright import kept
from loopwright.measure import lengths

LEGAL = Fraction(254, 10)
"""The international yard and pound agreement of 1959: 25.4 mm exactly."""


@pytest.fixture
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache folder of the test's own, which does not exist yet, and nothing asked before."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    lengths.inch.cache_clear()
    return tmp_path / "loopwright"


def loaded(script: str, cache: Path) -> str:
    """What a new process prints of the units library after a script: ``True`` or ``False``."""
    told = f"import sys; from fractions import Fraction; {script}; print('pint' in sys.modules)"
    env = {**os.environ, "XDG_CACHE_HOME": str(cache.parent)}
    done = subprocess.run([sys.executable, "-c", told], env=env, capture_output=True, check=True)
    return done.stdout.decode().strip()


CM = "from loopwright.measure import length_text; length_text(Fraction(400), 'cm')"
IN = (
    "from loopwright.measure import length_text; assert length_text(Fraction(508), 'in') == '20 in'"
)


def test_the_units_library_is_loaded_for_inches_only_and_once(cache: Path) -> None:
    assert loaded(CM, cache) == "False"
    assert loaded(IN, cache) == "True"
    (path,) = cache.iterdir()
    assert path.stat().st_mode & 0o022 == 0
    assert loaded(IN, cache) == "False"


def test_the_answer_that_is_kept_is_the_library_s(cache: Path) -> None:
    assert lengths.inch() == LEGAL
    lengths.inch.cache_clear()
    assert lengths.inch() == LEGAL
    (path,) = cache.iterdir()
    assert kept.read(path.name) == b"127/5"


@pytest.mark.parametrize("data", [b"", b"127/5", b"\0\0\0\0127/5", b"rubbish" * 9])
def test_an_answer_that_is_damaged_is_asked_for_again(cache: Path, data: bytes) -> None:
    lengths.inch()
    (path,) = cache.iterdir()
    path.write_bytes(data)
    lengths.inch.cache_clear()
    assert lengths.inch() == LEGAL
    assert kept.read(path.name) == b"127/5"


@pytest.mark.parametrize("data", [b"0", b"-3", b"1/0", b"inch", b"\xff"])
def test_an_answer_that_is_no_length_is_asked_for_again(cache: Path, data: bytes) -> None:
    lengths.inch()
    (path,) = cache.iterdir()
    kept.write(path.name, data)
    lengths.inch.cache_clear()
    assert lengths.inch() == LEGAL


def test_another_edition_of_the_library_is_asked_anew(
    cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lengths.inch()
    lengths.inch.cache_clear()
    monkeypatch.setattr(kept, "mark_of", lambda _: "another")
    assert lengths.inch() == LEGAL
    assert len(list(cache.iterdir())) == 2


def test_where_nothing_can_be_kept_it_is_asked_every_time(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("")
    for base in (tmp_path / "file", Path("/dev/null"), Path("/proc/nowhere")):
        monkeypatch.setenv("XDG_CACHE_HOME", str(base))
        lengths.inch.cache_clear()
        assert lengths.inch() == LEGAL
