"""The words of both editions, and how a change is called."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from loopwright.changes.values import (
    ADDED,
    COUNT,
    REMOVED,
    RENUMBERED,
    TIMES,
    WORDING,
    WORK,
    Changes,
    FactChange,
    LineChange,
    Place,
)
from loopwright.frozen import NamedTuple, replace
from loopwright.ir.pattern import Text
from loopwright.render.changes.facts import fact_words, length_words
from loopwright.render.speaker import Speaker, phrase

Texts = Mapping[Place, tuple[str, ...]]
Heads = Mapping[Place, str]


class Told(NamedTuple):
    """What each line says and is called in the old edition and in the new one, in whose words all
    of it is told, and how these print the designer's free text. ``as_written`` where the lines of
    the old edition are told as they stand in its file, because it does not come out. ``missing``
    are files that the old edition uses and that were not found."""

    old: Texts
    new: Texts
    heads: tuple[Heads, Heads]
    speaker: Speaker
    free: Callable[[Text], str]
    as_written: bool = False
    missing: tuple[str, ...] = ()


HEADINGS = {
    WORK: phrase("worked differently"),
    COUNT: phrase("the number at the end"),
    TIMES: phrase("worked more or fewer times"),
    ADDED: phrase("new"),
    REMOVED: phrase("taken out"),
    RENUMBERED: phrase("under another number"),
}
FACTS = {
    "size": phrase("size"),
    "part": phrase("part"),
    "yarn": phrase("yarn"),
    "hook": phrase("hook"),
    "gauge": phrase("tension"),
    "measure": phrase("measure"),
    "amount": phrase("yarn needed"),
    "finished": phrase("finished size"),
}
_OF_FIGURES = ("hook", "measure", "finished")
"""The facts that are a length and no name."""
TEXTS = {
    "about": phrase("introduction"),
    "designer": phrase("designer"),
    "skill": phrase("skill level"),
    "notions": phrase("notions"),
    "caution": phrase("caution"),
    "changes": phrase("changes"),
    "licence": phrase("licence"),
    "note": phrase("note"),
    "finish": phrase("finishing"),
}


def lacking(told: Told) -> str:
    """That the notice cannot be trusted, where something of the old edition was not found."""
    if not told.missing:
        return ""
    return told.speaker.say(
        "Not to be posted: the old edition uses {files}, which was not found, so that what is not"
        " known of it is told as new.",
        files=", ".join(told.missing),
    )


def seen(found: Changes, told: Told) -> Changes:
    """The changes without those that a maker cannot see: a line that only the designer wrote
    otherwise, and that the sheet tells as before."""
    lines = tuple(one for one in found.lines if one.kind != WORDING or _reads_otherwise(one, told))
    return replace(found, lines=lines)


def _reads_otherwise(one: LineChange, told: Told) -> bool:
    return told.as_written or was(one, told) != now(one, told)


def was(change: LineChange, told: Told) -> str:
    """What the old edition says there; empty where it has nothing."""
    return " ".join(told.old.get(change.old, ())) if change.old is not None else ""


def now(change: LineChange, told: Told) -> str:
    """What the new edition says there; empty where it has nothing."""
    return " ".join(told.new.get(change.new, ())) if change.new is not None else ""


def heading(change: LineChange, told: Told) -> str:
    """The part and the row: ``Hand, round 3``."""
    part = change.part.replace("-", " ").replace("_", " ")
    heads, place = (
        (told.heads[0], change.old) if change.new is None else (told.heads[1], change.new)
    )
    line = heads.get(place, change.label) if place is not None else change.label
    return f"{capital(part)}, {line}"


def capital(text: str) -> str:
    """The text with a capital."""
    return text[:1].upper() + text[1:]


def in_sizes(sizes: tuple[str, ...], found: Changes, told: Told) -> str:
    """The sizes in which something changed; empty where those are all of them."""
    if not sizes or sizes == found.every:
        return ""
    names = told.speaker.listing(sizes)
    return told.speaker.many("size {names}", "sizes {names}", len(sizes), names=names)


def counts(change: LineChange, told: Told) -> list[str]:
    """``woman: 31 sts before, now 32``, where the number changed."""
    speaker = told.speaker
    said: dict[str, list[str]] = {}
    for one in change.counts:
        for in_rows, pair in ((False, one.stitches), (True, one.rows)):
            if pair[0] is None or pair[1] is None or pair[0] == pair[1]:
                continue
            if in_rows:
                noun = speaker.row_word(change.in_rounds, pair[0])
            else:
                noun = speaker.noun("st", "sts", pair[0])
            text = speaker.say(
                "{was} {places} before, now {now}", was=pair[0], places=noun, now=pair[1]
            )
            said.setdefault(text, []).append(one.size)
    every = [one.size for one in change.counts]
    return [
        text
        if sizes == every
        else speaker.say("{size}: {spacing}", size=", ".join(sizes), spacing=text)
        for text, sizes in said.items()
    ]


def unlike(change: LineChange, told: Told) -> list[str]:
    """What is to be said of a line that reads as before and is not worked as before: its numbers,
    and where those are the same, that it is so."""
    numbers = counts(change, told)
    if numbers:
        return numbers
    return [
        told.speaker.say(
            "It reads as before, and is worked differently because of what changed elsewhere."
        )
    ]


def fact_name(fact: FactChange, found: Changes, told: Told) -> str:
    """``Yarn needed, slate, size man``."""
    word = told.speaker.say(FACTS[fact.what])
    name = named(fact, told.speaker)
    parts = [capital(word), name, in_sizes(fact.sizes, found, told)]
    return ", ".join(part for part in parts if part)


def named(fact: FactChange, speaker: Speaker) -> str:
    """What a fact is about: ``slate``, ``hat, around at the start``."""
    name = fact.name.replace("-", " ").replace("_", " ") if fact.what != "size" else fact.name
    if not fact.of:
        return name
    return speaker.say("{part}, {length}", part=name, length=length_words(fact.of, speaker))


def text_name(fact: FactChange, found: Changes, told: Told) -> str:
    """What one of the designer's free texts is called: ``Introduction, size man``."""
    word = told.speaker.say(TEXTS[fact.name]) if fact.name in TEXTS else fact.name
    sizes = in_sizes(fact.sizes, found, told)
    return capital(", ".join(part for part in (word, sizes) if part))


def fact_text(fact: FactChange, told: Told) -> str:
    """What it was and what it is."""
    before, after = both_words(fact, told)
    if not before:
        return told.speaker.say("new: {now}", now=after)
    if not after:
        return told.speaker.say("taken out: {was}", was=before)
    return told.speaker.say("{now} (before: {was})", now=after, was=before)


def both_words(fact: FactChange, told: Told) -> tuple[str, str]:
    """What it was and what it is, each in words; empty where it is not there."""
    before = fact_words(fact.was, told.speaker, told.free)
    after = fact_words(fact.now, told.speaker, told.free)
    if fact.what in _OF_FIGURES:
        before, after = told.speaker.figures(before), told.speaker.figures(after)
    return before, after


def is_wording(change: LineChange) -> bool:
    """Whether nothing is worked differently."""
    return change.kind not in HEADINGS


def rows_heading(lines: list[LineChange], speaker: Speaker) -> str:
    """What the lines that changed are called together."""
    kinds = {one.in_rounds for one in lines if one.counts}
    if len(kinds) != 1:
        return speaker.say("Rows and rounds")
    return capital(
        speaker.noun("round", "rounds", 2) if kinds.pop() else speaker.noun("row", "rows", 2)
    )
