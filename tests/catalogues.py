"""The catalogues of the sheet's phrases: what the code says, what each catalogue has of it.

    python tests/catalogues.py          write every .mo anew, and what a catalogue lacks or has over

A phrase is what stands in ``say("...")``, ``phrase("...")``, ``many``, ``noun`` or ``phrases``,
or in ``said``, ``said_many`` and ``said_noun``.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import redirect_stderr

from babel.messages.catalog import Catalog, Message
from babel.messages.extract import extract
from babel.messages.mofile import read_mo, write_mo
from babel.messages.pofile import read_po

from support import ROOMS

RENDER = ROOMS / "render"
PROSE = RENDER / "prose"
SPEAKING = ("prose", "changes", "chart", "schematic")
"""The renderers whose fixed phrases are in the catalogues."""
LANGUAGES = PROSE / "languages"
KEYWORDS = {
    **dict.fromkeys(("say", "phrase", "said")),
    **dict.fromkeys(("many", "noun", "phrases", "said_many", "said_noun"), (1, 2)),
}
Phrase = str | tuple[str, ...]


def phrases() -> set[Phrase]:
    """Every phrase in the code; one about several is a pair."""
    found: set[Phrase] = set()
    for path in sorted(path for room in SPEAKING for path in (RENDER / room).rglob("*.py")):
        # What is filled in may be put together by an f-string, which Babel complains of.
        with path.open("rb") as code, redirect_stderr(io.StringIO()):
            for _, message, _, _ in extract("python", code, keywords=KEYWORDS):
                found.add(message if isinstance(message, str) else tuple(message))
    return {one for one in found if one and all(isinstance(part, str) for part in one)}


def catalogue(name: str) -> Catalog:
    """A catalogue as its file has it."""
    with (LANGUAGES / f"{name}.po").open("rb") as file:
        return read_po(file, abort_invalid=True)


def names() -> list[str]:
    """The catalogues there are."""
    return sorted(path.stem for path in LANGUAGES.glob("*.po"))


def compiled(name: str) -> bytes:
    """A catalogue for machines."""
    whole = catalogue(name)
    for one in untranslated(name):
        whole.delete(one.id, one.context)
    out = io.BytesIO()
    write_mo(out, whole)
    return out.getvalue()


def entries(data: bytes) -> dict[tuple[str, object], object]:
    """What a catalogue for machines says, without its header, which holds the day it was made."""
    return {(str(one.id), one.context): one.string for one in read_mo(io.BytesIO(data)) if one.id}


def untranslated(name: str) -> list[Message]:
    """The entries of a catalogue that are left empty."""
    return [one for one in catalogue(name) if one.id and not any(one.string)]


def ids(name: str) -> set[Phrase]:
    """The phrases that a catalogue has, whatever gender they are bent for."""
    found = {one.id for one in catalogue(name) if one.id}
    return found | {one[0] for one in found if isinstance(one, tuple)}


def told() -> Iterator[str]:
    """Write what machines read, and say how each catalogue stands."""
    wanted = phrases()
    yield f"{len(wanted)} phrases"
    for name in names():
        made, path = compiled(name), LANGUAGES / f"{name}.mo"
        if not path.exists() or entries(made) != entries(path.read_bytes()):
            path.write_bytes(made)
        have = ids(name)
        yield f"{name}: {len(have)} phrases"
        over = have - wanted - {one[0] for one in wanted if isinstance(one, tuple)}
        yield from (f"  not in the code: {one!r}" for one in sorted(over, key=str))
        if name != "US":
            yield from (f"  lacks: {one!r}" for one in sorted(wanted - have, key=str))


if __name__ == "__main__":
    print("\n".join(told()))
