"""Verdicts of earlier runs, kept under what they were made from.

    cache = opened()
    key = cache.key(job, detail=False)
    cache.get(key) -> Verdict or None
    cache.put(key, verdict)
    cache.close()

A key is a digest of the text, the texts it uses, the settings and the program itself, so that
nothing kept is ever out of date: another program or another text has other keys. What is kept is
sealed with a digest of its own, and what does not match it counts as not there. The store is an
SQLite database, which several runs may read and write at once and which a run that is killed leaves
whole; one that is damaged all the same is thrown away. Nothing that goes wrong here is ever more
than time lost.
"""

from __future__ import annotations

import os
import sqlite3
import time
from contextlib import suppress
from hashlib import blake2b

import loopwright
from loopwright import Verdict
from loopwright.repository.jobs import Job
from loopwright.repository.packing import NotAVerdict, packed, unpacked

LAYOUT = 1
"""The number of how verdicts are kept; raise it when that changes."""

BATCH = 256
"""Verdicts that are written together."""

PATIENCE = 5.0
"""Seconds to wait for another run that is writing."""

MOST_BYTES = 1_000_000_000
"""What the store may grow to; past it, the half that was not asked for longest goes."""

SEAL = 16
"""Bytes of digest before each verdict."""

DAY = 86_400

TABLE = """CREATE TABLE IF NOT EXISTS verdicts
    (key BLOB PRIMARY KEY, day INTEGER NOT NULL, data BLOB NOT NULL) WITHOUT ROWID"""


def opened() -> Cache | None:
    """The user's cache, or None where there can be none."""
    folder = loopwright.cache_folder()
    if folder is None:
        return None
    try:
        os.makedirs(folder, mode=0o700, exist_ok=True)
        info = os.stat(folder)
    except OSError:
        return None
    # In a folder that others may write, they could say what our patterns come to.
    if hasattr(os, "getuid") and (info.st_uid != os.getuid() or info.st_mode & 0o022):
        return None
    return Cache(os.path.join(folder, f"verdicts-{LAYOUT}.sqlite"))


class Cache:
    """The store, open."""

    def __init__(self, path: str) -> None:
        self.path = path
        self.program = program_mark()
        self.today = int(time.time()) // DAY
        self._new: dict[bytes, bytes] = {}
        self._asked: list[bytes] = []
        self._base: sqlite3.Connection | None = None
        self._mended = False
        self._open()

    # ------------------------------------------------------------------ keys

    def key(self, job: Job, *, detail: bool) -> bytes:
        """By what the verdict on a job is known."""
        digest = blake2b(self.program, digest_size=24)
        parts = [repr(job.settings), "detail" if detail else "", job.text]
        if job.used:
            # Messages may name the files that are used from where this one lies.
            parts.append(job.name)
            for name in sorted(job.used):
                text = job.used[name]
                parts += [name, *(("text", text) if isinstance(text, str) else ("", repr(text)))]
        for part in parts:
            data = part.encode("utf-8", "surrogatepass")
            digest.update(len(data).to_bytes(8, "big"))
            digest.update(data)
        return digest.digest()

    # ------------------------------------------------------------------ verdicts

    def get(self, key: bytes) -> Verdict | None:
        """What is kept under a key, without the name of its file; None where nothing is."""
        data = self.get_data(key)
        if data is None:
            return None
        try:
            return unpacked(data)
        except NotAVerdict:
            return None

    def get_data(self, key: bytes) -> bytes | None:
        """The bytes that are kept under a key; None where there are none."""
        if self._base is None:
            return None
        try:
            row = self._base.execute("SELECT day, data FROM verdicts WHERE key = ?", (key,))
            found = row.fetchone()
        except sqlite3.Error as error:
            self._failed(error)
            return None
        if found is None:
            return None
        day, data = found
        if not isinstance(data, bytes) or _seal(key, data[SEAL:]) != data[:SEAL]:
            return None
        if day != self.today:
            self._asked.append(key)
        return data[SEAL:]

    def put(self, key: bytes, verdict: Verdict) -> None:
        """Keep a verdict."""
        self.put_data(key, packed(verdict))

    def put_data(self, key: bytes, data: bytes) -> None:
        """Keep bytes."""
        if self._base is None:
            return
        self._new[key] = _seal(key, data) + data
        if len(self._new) >= BATCH:
            self._write()

    def close(self) -> None:
        """Write what waits, make room where there is too much, and let go."""
        self._write()
        if self._base is not None:
            with suppress(sqlite3.Error):
                self._make_room()
        self._shut()

    # ------------------------------------------------------------------ the store

    def _open(self) -> None:
        try:
            # None: transactions are begun and ended below, and nowhere else.
            self._base = sqlite3.connect(self.path, timeout=PATIENCE, isolation_level=None)
            self._base.text_factory = bytes  # what is damaged need not be text
            self._base.execute("PRAGMA journal_mode = WAL")
            self._base.execute("PRAGMA synchronous = NORMAL")
            self._base.execute(TABLE)
        except sqlite3.Error as error:
            self._failed(error)

    def _write(self) -> None:
        new, asked = self._new, self._asked
        self._new, self._asked = {}, []
        if self._base is None or not (new or asked):
            return
        today = self.today
        try:
            self._base.execute("BEGIN IMMEDIATE")
            rows = [(key, today, data) for key, data in new.items()]
            self._base.executemany("INSERT OR REPLACE INTO verdicts VALUES (?, ?, ?)", rows)
            days = [(today, key) for key in asked]
            self._base.executemany("UPDATE verdicts SET day = ? WHERE key = ?", days)
            self._base.execute("COMMIT")
        except sqlite3.Error as error:
            with suppress(sqlite3.Error):
                self._base.execute("ROLLBACK")
            self._failed(error)

    def _make_room(self) -> None:
        assert self._base is not None
        (pages,) = self._base.execute("PRAGMA page_count").fetchone()
        (empty,) = self._base.execute("PRAGMA freelist_count").fetchone()
        (size,) = self._base.execute("PRAGMA page_size").fetchone()
        if (pages - empty) * size <= MOST_BYTES:
            return
        self._base.execute(
            "DELETE FROM verdicts WHERE key IN (SELECT key FROM verdicts ORDER BY day LIMIT"
            " (SELECT COUNT(*) / 2 FROM verdicts))"
        )

    def _failed(self, error: sqlite3.Error) -> None:
        """Go on without the store; a damaged one is thrown away first, once."""
        busy = isinstance(error, sqlite3.OperationalError) and "lock" in str(error)
        if busy:
            return  # what was to be written is found anew the next time
        self._shut()
        damaged = type(error) is sqlite3.DatabaseError or "malformed" in str(error)
        if not damaged or self._mended:
            return
        self._mended = True
        for ending in ("", "-wal", "-shm", "-journal"):
            with suppress(OSError):
                os.remove(self.path + ending)
        self._open()

    def _shut(self) -> None:
        if self._base is not None:
            with suppress(sqlite3.Error):
                self._base.close()
            self._base = None


def _seal(key: bytes, data: bytes) -> bytes:
    return blake2b(data, digest_size=SEAL, key=key).digest()


def program_mark() -> bytes:
    """A digest of the program itself, so that what another one found is never taken for ours:
    every module, the grammar, and the parser it is read with."""
    digest = blake2b(LAYOUT.to_bytes(2, "big"), digest_size=24)
    for path in sorted(_program()):
        with open(path, "rb") as file:
            data = file.read()
        digest.update(len(data).to_bytes(8, "big"))
        digest.update(data)
    return digest.digest()


def pages_mark() -> bytes:
    """A digest of all that pages are made with: every file of the program, templates and catalogues
    among them, Python, and what else has a hand in it."""
    import sys
    from importlib.metadata import PackageNotFoundError, version

    digest = blake2b(program_mark() + sys.version.encode(), digest_size=24)
    for name in ("jinja2", "markupsafe", "pint"):
        with suppress(PackageNotFoundError):
            digest.update(f"{name} {version(name)}\n".encode())
    for at, _, files in sorted(os.walk(os.path.dirname(loopwright.__file__))):
        for one in sorted(files):
            if not one.endswith((".py", ".pyc", ".lark", ".otf", ".ttf")):
                with open(os.path.join(at, one), "rb") as file:
                    digest.update(f"{one} {at}\n".encode("utf-8", "surrogateescape"))
                    digest.update(file.read())
    return digest.digest()


def _program() -> list[str]:
    from importlib.util import find_spec

    found = []
    folders = [os.path.dirname(loopwright.__file__)]
    for name in ("loopwright.grammar", "lark"):
        spec = find_spec(name)
        if spec is not None and spec.origin is not None:
            folders.append(os.path.dirname(spec.origin))
    lark = folders.pop()
    for folder in folders:
        for at, _, files in os.walk(folder):
            found += [os.path.join(at, one) for one in files if one.endswith((".py", ".lark"))]
    return [*found, os.path.join(lark, "__init__.py")]
