"""The middle of a made-up row: one instruction, a walk, or a repeat with something on each side."""

from __future__ import annotations

from collections.abc import Sequence

from hypothesis import strategies as st

from properties.tokens import Draw, Token, Words, several, space, stitches
from properties.walk import Step, Walk


def whole(draw: Draw, words: Words, edge: list[Token], ending: str) -> list[Step]:
    """A row that is one instruction."""
    word = draw(st.sampled_from(words.stitches))
    n = len(stitches(edge))
    spaces = [token.chains for token in edge if token.what == "sp"]
    if ending == "across" and edge[-1].what == "sp":
        how = "sps"
    else:
        choices = ["each", "evenly", "inc", "bracket"] + (["dec"] if n > 3 else [])
        how = draw(st.sampled_from(choices + (["sps"] if spaces else [])))
    if how == "sps":
        k = draw(st.integers(1, 4))
        counted = [token.chains for token in edge if token.what == "st"]
        alike = len(set(spaces)) == 1 and not any(spaces[0] in (n, n + 2) for n in counted)
        name = f"ch-{spaces[0]} sp" if alike else "sp"
        return [Step(f"{k} {word} in each {name} {ending}", 0, several(word, k * len(spaces)))]
    return [_one_each(draw, word, n, how, ending)]


def _one_each(draw: Draw, word: str, n: int, how: str, ending: str) -> Step:
    if how == "each":
        return Step(f"{word} in each st {ending}", 0, several(word, n))
    if how == "bracket":
        return Step(f"[{word}] {ending}", 0, several(word, n))
    if how == "evenly":
        total = draw(st.integers(max(n // 2, 1), 2 * n))
        return Step(f"{total} {word} evenly", 0, several(word, total))
    k = draw(st.integers(1, n if how == "inc" else n // 2))
    if how == "inc":
        return Step(f"inc {k} {word} evenly", 0, several(word, n + k))
    # Where the decreases stand is nobody's business here, so these stitches go without names.
    return Step(f"dec {k} {word} evenly", 0, [Token("st")] * (n - k))


def body(draw: Draw, words: Words, edge: list[Token], ending: str, begun: bool) -> list[Step]:
    """A walk over the whole edge, or a repeat where the edge repeats itself."""
    if not edge:
        return []
    before = draw(st.integers(0, min(3, len(edge) - 1)))
    unit = draw(st.integers(1, min(8, len(edge) - before)))
    times = _times(edge, before, unit)
    if times < 2:
        return Walk(draw, words, edge, "st" if begun else "", last=True).go()
    lead = Walk(draw, words, edge[:before], "st" if begun else "").go()
    stretch = edge[before : before + unit]
    rest = edge[before + unit * times :]
    bracket, rest, used = _bracket(draw, words, stretch, times, rest, ending, begun or bool(lead))
    tail = Walk(draw, words, rest, used, last=True).go()
    return [*lead, bracket, *tail]


def _times(edge: Sequence[Token], before: int, unit: int) -> int:
    """How often a stretch of an edge comes again straight after itself."""
    stretch = edge[before : before + unit]
    n = 1
    while edge[before + n * unit : before + (n + 1) * unit] == stretch:
        n += 1
    return n


def _bracket(
    draw: Draw,
    words: Words,
    stretch: list[Token],
    times: int,
    rest: list[Token],
    ending: str,
    begun: bool,
) -> tuple[Step, list[Token], str]:
    """The repeat itself, what is left after it, and what was used last in it."""
    walk = Walk(draw, words, stretch, "skip" if begun else "", deep=1)
    if begun or ending == "around":
        n = draw(st.integers(0, 12))
        if 0 < n < 5:
            walk.add(Step(f"ch {n}", 0, space(n)))
    inner = walk.go()
    made = [token for step in inner for token in step.made] * times
    text = ", ".join(step.text for step in inner)
    stop = _stop(draw, inner, stretch, rest)
    used = walk.used if walk.used in ("", "st") else "skip"
    if stop:
        halves = inner[:stop], inner[stop:]
        text = " ** ".join(", ".join(step.text for step in half) for half in halves)
        made += [token for step in halves[0] for token in step.made]
        rest = rest[halves[0][-1].to :]
        times, used = times + 1, used and "skip"
    how = _how_often(draw, times, rest, ending, walk.used)
    return Step(f"[{text}] {how}", 0, made), rest, used


def _stop(draw: Draw, inner: list[Step], stretch: list[Token], rest: list[Token]) -> int:
    """Where a `**` can stand, so that the last repeat stops there; 0 for nowhere."""
    found = [0]
    for k in range(1, len(inner)):
        to = inner[k - 1].to
        worked = any(token.what != "sp" for token in stretch[:to])
        if worked and to < len(stretch) and rest[:to] == stretch[:to]:
            found.append(k)
    return int(draw(st.sampled_from(found)))


def _how_often(draw: Draw, times: int, rest: list[Token], ending: str, used: str) -> str:
    choices = [f"{times} times"]
    if used and not rest:
        choices.append(ending)
    if used and rest and all(token.what == "st" for token in rest):
        choices.append(f"to last {len(rest)} sts")
    return str(draw(st.sampled_from(choices)))
