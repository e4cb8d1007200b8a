"""What the overview says of patterns whose sheets and charts need not be made again, kept in the
user's cache under all that they were made from.

    known = Known(cached=True)
    key = known.key(job, path, folder)
    known.get(key, path, name) -> Page(verdict, card, files) or None
    known.put(key, page, pattern.picture, picture)
    known.close()
"""

from __future__ import annotations

import json
from hashlib import blake2b
from typing import TYPE_CHECKING, Any

from loopwright import Card, Link, Verdict
from loopwright.frozen import NamedTuple, replace
from loopwright.repository.beside import NO_PICTURE, Beside, lying_beside
from loopwright.repository.cache import opened, pages_mark
from loopwright.repository.jobs import Job
from loopwright.repository.packing import NotAVerdict, packed, unpacked

if TYPE_CHECKING:
    from loopwright.repository.cache import Cache


class Page(NamedTuple):
    """What is told of a pattern, and the digests of the files that were made of it, by their
    paths."""

    verdict: Verdict
    card: Card
    files: dict[str, str]


class Known:
    """The cache, where there is one."""

    def __init__(self, cached: bool) -> None:
        self.cache: Cache | None = opened() if cached else None
        self.mark = pages_mark() if self.cache is not None else b""

    def key(self, job: Job, path: str, folder: str) -> str:
        """By what the pages of a pattern are known: its texts, its settings, where it lies, where
        they go, and the program. A picture is looked at when they are asked for."""
        if self.cache is None:
            return ""
        made = blake2b(self.mark, digest_size=24)
        for part in (
            self.cache.key(job, detail=False),
            path.encode("utf-8", "surrogateescape"),
            folder.encode("utf-8", "surrogateescape"),
        ):
            made.update(len(part).to_bytes(8, "big"))
            made.update(part)
        return made.hexdigest()

    def get(self, key: str, path: str, called: str) -> Page | None:
        """What is known under a key of the pattern in a file, which messages call so; None where
        nothing is, or its picture is another one."""
        data = self.cache.get_data(bytes.fromhex(key)) if self.cache is not None else None
        if data is None:
            return None
        try:
            about, card, files, name, seen = json.loads(data)
            verdict = replace(unpacked(about.encode("utf-8", "surrogatepass")), name=called)
            page = Page(verdict, _card(verdict, *card), files)
        except (ValueError, TypeError, AttributeError, NotAVerdict):
            return None
        return None if name and _seen(lying_beside(path, name)) != seen else page

    def put(self, key: str, page: Page, name: str, picture: Beside) -> None:
        """Keep what is known of a pattern that names the picture ``name``, if any."""
        if self.cache is None:
            return
        card = page.card
        links = [(one.text, one.address) for one in card.links]
        about = packed(page.verdict).decode("utf-8", "surrogatepass")
        told = [card.sizes, card.worked, card.counts, card.yarn, links]
        known = [about, told, page.files, name, _seen(picture)]
        self.cache.put_data(bytes.fromhex(key), json.dumps(known).encode())

    def close(self) -> None:
        """Write what is to be kept."""
        if self.cache is not None:
            self.cache.close()


def _card(verdict: Verdict, *kept: Any) -> Card:
    sizes, worked, counts, yarn, links = kept
    return Card(
        verdict.name,
        verdict.title,
        tuple(sizes),
        worked,
        tuple((name, values) for name, values in counts),
        tuple((name, words) for name, words in yarn),
        verdict.messages,
        tuple(Link(text, address) for text, address in links),
    )


def _seen(picture: Beside) -> str:
    """What a picture is known again by; nothing where there is none to see."""
    if picture == NO_PICTURE or not picture.data:
        return ""
    return f"{picture.ending} {blake2b(picture.data, digest_size=16).hexdigest()}"
