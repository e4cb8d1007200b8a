"""What ``overview`` makes of a repository: a page of all its patterns, and the sheets and charts
that it leads to. What was made before of the same text, and lies there as it was written, is not
made again; what is made no more is taken away.

    shelf = Shelf("out")
    verdicts, cards = shelf.filled(paths)    # writes the sheets and charts
    listed = shelf.closed(page)              # writes the page, and takes away what is left over
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from contextlib import suppress

from loopwright import Card, Link, Verdict
from loopwright.repository.beside import beside
from loopwright.repository.build import made, name_of
from loopwright.repository.files import CannotRead, Wrote, handed, listing, make_folder, write_all
from loopwright.repository.jobs import Desk, Job
from loopwright.repository.known import Known, Page
from loopwright.repository.ledger import Entry, Ledger, begin, from_folder, held, intact, marks

SHEETS = {"-uk.html": "Sheet, UK terms", "-us.html": "Sheet, US terms"}
PAGE = "index.html"
BY = "overview"


class Shelf:
    """The folder of an overview, while it is filled. ``troubles`` is what has to be said of it, and
    ``unread`` of patterns that cannot be read."""

    def __init__(self, folder: str, *, cached: bool = True) -> None:
        make_folder(folder)
        self.folder = folder
        self.troubles: list[str] = []
        self.unread: list[str] = []
        self.known = Known(cached)
        self.entries: list[Entry] = []
        self.wrote = Wrote([], [])

    def filled(self, paths: Iterable[str]) -> tuple[list[Verdict], list[Card]]:
        """Write what is made of each pattern. Raises ``CannotLook``."""
        desk = Desk()
        taken: set[str] = set()
        verdicts, cards = [], []
        try:
            for path in paths:
                try:
                    job = desk.job(path)
                except CannotRead as error:
                    self.unread.append(str(error))
                    continue
                verdict, card = self._pattern(path, job, _folder(path, taken))
                verdicts.append(verdict)
                cards.append(card)
        except BaseException:
            # What was written so far is ours as well, whenever that is to be taken away.
            with suppress(Exception), held(self.folder):
                ledger = Ledger(self.folder)
                if not ledger.troubles:
                    ledger.add(self.entries)
                    ledger.done()
            raise
        finally:
            self.known.close()
        return verdicts, cards

    def closed(self, page: str) -> str:
        """Write the page, take away what it leads to no more, and write down what there is; the
        list for the reader. Raises ``CannotLook``."""
        files: list[tuple[str, str | bytes]] = [(PAGE, page)]
        with held(self.folder):
            wrote = write_all(self.folder, files)
            ledger = Ledger(self.folder)
            ledger.take_up()
            ledger.put_all(BY, [Entry("", BY, marks(files)), *self.entries])
            ledger.settle()
            ledger.done()
        self.troubles += ledger.troubles
        many, same = len(self.wrote.written), len(self.wrote.unchanged)
        of = f"{many + same:,} sheets and charts: {many:,} written, {same:,} unchanged.\n"
        return of + listing(wrote, ledger.gone)

    def _pattern(self, path: str, job: Job, folder: str) -> tuple[Verdict, Card]:
        """Write what is made of one pattern, unless it is there."""
        of = from_folder(path, self.folder)
        key = self.known.key(job, path, folder)
        found = self.known.get(key, path, job.name)
        if found is not None and intact(self.folder, found.files):
            self.entries.append(Entry(of, BY, found.files))
            self.wrote.unchanged.extend(found.files)
            return found.verdict, found.card
        pattern = job.read()
        if not pattern.comes_out:
            return pattern.verdict, pattern.card(())
        picture = beside(path, pattern)
        files, troubles = made(pattern, name_of(path), picture=picture)
        files = [(f"{folder}/{at}", text) for at, text in files]
        card = pattern.card(_links(files, name_of(pattern.name)))
        entry = Entry(of, BY, marks(files))
        if not intact(self.folder, entry.files):
            begin(self.folder, entry)
        wrote = write_all(self.folder, files)
        self.wrote.written.extend(wrote.written)
        self.wrote.unchanged.extend(wrote.unchanged)
        self.troubles += troubles
        self.entries.append(entry)
        if not troubles:
            page = Page(pattern.verdict, card, entry.files)
            self.known.put(key, page, pattern.picture, picture)
        return pattern.verdict, card


def _folder(path: str, taken: set[str]) -> str:
    """A folder of a pattern's own, called after its path; below the page whatever that path is."""
    whole = name_of(path) if handed(path) else os.path.splitext(os.path.relpath(path))[0]
    words = [word for word in whole.replace(os.sep, "/").split("/") if word not in ("", ".", "..")]
    name = first = "/".join(("patterns", *words))
    n = 1
    while name.lower() in taken:
        n += 1
        name = f"{first}-{n}"
    taken.add(name.lower())
    return name


def _links(files: list[tuple[str, str | bytes]], stem: str) -> Iterator[Link]:
    for path, _ in files:
        sheet = next((text for ending, text in SHEETS.items() if path.endswith(ending)), None)
        if sheet is not None:
            yield Link(sheet, _address(path))
        elif path.endswith(".svg"):
            name = os.path.splitext(os.path.basename(path))[0].removeprefix(f"{stem}-")
            yield Link(f"Chart, {name.replace('-', ' ')}", _address(path))


def _address(path: str) -> str:
    """A path as a link: a `:` or a `%` in it would be read as part of an address."""
    from urllib.parse import quote

    return quote(path, safe="/", errors="surrogateescape")
