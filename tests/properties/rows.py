"""One made-up row: how it begins, what it is said to come to, and, now and then, what is wrong."""

from __future__ import annotations

from typing import NamedTuple

from hypothesis import strategies as st

from properties.bodies import body, whole
from properties.tokens import Draw, Token, Words, joined, several, space, stitches
from properties.walk import Step


class Row(NamedTuple):
    """A row's text and the edge it leaves. ``broken`` where it was written wrong on purpose;
    ``same_again`` where working it once more leaves the same edge."""

    text: str
    made: list[Token]
    broken: bool = False
    same_again: bool = False


def make_row(
    draw: Draw, words: Words, edge: list[Token], manner: str, start: str, faulty: bool
) -> Row:
    """One row over an edge; ``start`` is what it begins on where it is the first."""
    broken = faulty and draw(st.integers(0, 9)) == 9
    ending = "across" if manner == "flat" else "around"
    again = False
    if start == "magic" or (start == "ring" and draw(st.booleans())):
        steps = _into_ring(draw, words)
    elif start == "chain":
        steps = _first_on_chain(draw, words, edge, ending)
    else:
        opening, rest, used = _opening(draw, words, edge, ending)
        again = used != "loop" and bool(stitches(rest)) and draw(st.integers(0, 5)) == 5
        steps = (
            whole(draw, words, rest, ending)
            if again
            else body(draw, words, rest, ending, bool(used))
        )
        steps = _turning(opening, steps, ending) + steps
    return _ended(draw, steps, manner, broken, again)


def _into_ring(draw: Draw, words: Words) -> list[Step]:
    word = draw(st.sampled_from(words.stitches))
    n, ch = draw(st.integers(2, 12)), draw(st.integers(1, 3))
    how = draw(st.sampled_from(("plain", "counted", "spaced", "turning")))
    if how == "spaced":
        made = (several(word, 2) + space(ch)) * n
        return [Step(f"[2 {word} in ring, ch {ch}] {n} times", 0, made)]
    stitches_made = Step(f"{n} {word} in ring", 0, several(word, n))
    if how == "counted":
        return [Step(f"ch 3 as {word}", 0, [Token("st", word, 3)]), stitches_made]
    return [*([Step(f"ch {ch}", 0, [])] if how == "turning" else []), stitches_made]


def _first_on_chain(draw: Draw, words: Words, edge: list[Token], ending: str) -> list[Step]:
    """The first row on a starting chain."""
    word = draw(st.sampled_from(words.stitches))
    how = draw(st.sampled_from(("2nd", "3rd", "as")))
    begun = 2 if how == "2nd" else 3
    if how == "as":
        first = Step(f"{words.skip} 3 ch as {word}", 3, [Token("st", word, 3)])
    else:
        first = Step(f"{word} in {how} ch from hook", begun, several(word, 1))
    rest = edge[begun:]
    if not rest:
        return [first]
    if draw(st.booleans()):
        return [first, Step(f"{word} in each ch {ending}", 0, several(word, len(rest)))]
    return [first, *body(draw, words, rest, ending, True)]


def _opening(
    draw: Draw, words: Words, edge: list[Token], ending: str
) -> tuple[list[Step], list[Token], str]:
    """What the row begins with, the places left to work, and what was used."""
    how = draw(st.sampled_from(("none", "turning", "turning", "counted", "with chains", "loop")))
    n = draw(st.integers(1, 4))
    word = draw(st.sampled_from(words.stitches))
    if how == "turning":
        return [Step(f"ch {n}", 0, [])], edge, ""
    if how == "none" or edge[0].what != "st" or len(edge) < 4:
        return [], edge, ""
    if how == "counted":
        return [Step(f"ch {n} as {word}", 1, [Token("st", word, n)])], edge[1:], "st"
    if how == "with chains":
        made = [Token("st", word, n), *space(2)]
        return [Step(f"ch {n + 2} as ({word}, ch 2)", 1, made)], edge[1:], "st"
    return _loop(words, edge, n, ending)


def _loop(
    words: Words, edge: list[Token], n: int, ending: str
) -> tuple[list[Step], list[Token], str]:
    """A chain straight before a skip of two: in a flat row it takes the first place itself. One
    chain alone reaches over none, and turns."""
    gone = 3 if ending == "across" and n > 1 else 2
    if any(token.what == "sp" for token in edge[: gone + 1]):
        return [], edge, ""
    step = Step(
        f"ch {n}, {words.skip} 2 sts, {words.stitches[0]}",
        gone + 1,
        [*(space(n) if n > 1 else ()), *several(words.stitches[0], 1)],
    )
    return [step], edge[gone + 1 :], "st"


def _turning(opening: list[Step], steps: list[Step], ending: str) -> list[Step]:
    """Leave the turning chain out where a wide skip straight after would make a loop of it."""
    if not opening or not steps or opening[0].made:
        return opening
    words = steps[0].text.split()
    wide = words[0] in ("skip", "miss") and words[1] not in ("1", "next")
    return [] if wide else opening


# -------------------------------------------------------------------- the end of the row


def _ended(draw: Draw, steps: list[Step], manner: str, broken: bool, whole_row: bool) -> Row:
    """Put the row together, with its join and its count; and spoil it where that is wanted."""
    made = joined([token for step in steps for token in step.made])
    texts = [step.text for step in steps] or ["ch 1"]
    if manner in ("rounds", "turned"):
        texts.append("join")
    how = draw(st.sampled_from(("count", "drop", "twice", "number"))) if broken else ""
    if how == "drop" and len(texts) > 1:
        del texts[draw(st.integers(0, len(texts) - 1))]
    elif how == "twice":
        texts.insert(draw(st.integers(0, len(texts) - 1)), draw(st.sampled_from(texts)))
    elif how == "number":
        texts = [_spoilt(text) for text in texts]
    alike = whole_row and bool(made) and made == made[:1] * len(made) and "each st" in texts[0]
    text = ", ".join(texts) + _stated(draw, made, 1 if how == "count" else 0)
    return Row(text, made, bool(how), alike)


def _spoilt(text: str) -> str:
    """The same with the first number of stitches or chains one higher."""
    words = text.split(" ")
    for i, word in enumerate(words):
        if word.isdigit():
            return " ".join([*words[:i], str(int(word) + 1), *words[i + 1 :]])
    return text


def _stated(draw: Draw, made: list[Token], off: int) -> str:
    n = len(stitches(made))
    spaces = [token.chains for token in made if token.what == "sp"]
    how = draw(st.sampled_from(("sts", "sts", "spaces", "chains", "counting", "none")))
    if off or how == "sts" or (how != "none" and not spaces):
        return f" = {n + off} sts"
    if how == "spaces":
        return f" = {n} sts, {spaces.count(spaces[0])} ch-{spaces[0]} sps"
    if how == "chains":
        return f" = {sum(spaces)} ch, {len(spaces)} sps"
    return f" = {n + sum(spaces)} sts counting ch" if how == "counting" else ""
