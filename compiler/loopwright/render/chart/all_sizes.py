"""The charts of all sizes: one for those that differ only in how often something is repeated.

    every_size(checked, "UK")  ->  (title, SVG) of every chart that a page shows
    bare(checked, "UK")        ->  the bare drawings of its working mode, equal ones made once

Sizes are drawn alike where the same rows are chosen, with the same stitches into the same places.
What is left to say apart are numbers, and those are said as the trade writes them, ``12 (14, 16)``:
at brackets, beside the rows and in the notes. The words of such a chart tell the rows of each size.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

from loopwright.frozen import replace
from loopwright.ir.checked import Checked
from loopwright.ir.pattern import Pattern
from loopwright.render.chart.build import Plan, drawn, planned, row_texts
from loopwright.render.chart.choose import EVERYTHING_NEEDED, Selection, Wish
from loopwright.render.chart.cutting import LeftOut
from loopwright.render.chart.layout import Known
from loopwright.render.chart.merged import merged, merged_words
from loopwright.render.chart.rows_only import rows_only
from loopwright.render.chart.sides import Side
from loopwright.render.chart.svg import svg
from loopwright.render.chart.values import Chart, OtherSize, Words
from loopwright.render.chart.wedge import Wedge
from loopwright.render.speaker import Speaker, said, speaker_of, told

LONGEST_LABEL = 14  # characters of the numbers beside a row; of more, sizes are drawn by themselves


class _Same:
    """A pattern as the key of what was made of it: the very same, not an equal one."""

    def __init__(self, checked: Checked) -> None:
        self.checked = checked

    def __hash__(self) -> int:
        return id(self.checked)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and other.checked is self.checked


class _Made:
    """What was made so far of the pattern last asked for: each chart goes into several files, and
    sizes are compared by what is planned of them."""

    def __init__(self) -> None:
        self.laid: dict[str, Known] = {}
        self.plans: dict[tuple[str, int, Wish], Plan] = {}
        self.charts: dict[tuple[str, int, Wish], Chart] = {}


@lru_cache(maxsize=1)
def _made(same: _Same) -> _Made:
    return _Made()


def needed(checked: Checked, part: str, size: int, wish: Wish = EVERYTHING_NEEDED) -> Chart:
    """The chart of a part in a size with what a maker needs, made once."""
    charts = _made(_Same(checked)).charts
    if (part, size, wish) not in charts:
        charts[part, size, wish] = drawn(_plan(checked, part, size, wish))
    return charts[part, size, wish]


def _plan(checked: Checked, part: str, size: int, wish: Wish) -> Plan:
    """The same chart before it is drawn, made once."""
    made = _made(_Same(checked))
    if (part, size, wish) not in made.plans:
        laid = made.laid.setdefault(part, {})
        made.plans[part, size, wish] = planned(checked, part, size, wish, laid)
    return made.plans[part, size, wish]


def every_size(checked: Checked, who: Speaker | str) -> tuple[tuple[str, str], ...]:
    """The charts of every part, those of squares among them, as (title, SVG)."""
    speaker = speaker_of(who)
    out = []
    for part in checked.pattern.parts:
        for sizes, one in shared(checked, part.name):
            title = said("{part}{sizes}", part=part.name, sizes=sizes_words(checked.pattern, sizes))
            out.append((told(title, speaker), svg(one, speaker)))
        out += _squares(checked, part.name, speaker)
    return tuple(out)


def _squares(checked: Checked, part: str, speaker: Speaker) -> Iterator[tuple[str, str]]:
    from loopwright.render.chart import grid as squares

    found: list[tuple[list[int], list[squares.Grid]]] = []
    for size in range(len(checked.pattern.sizes)):
        made = squares.grid(checked, part, size)
        for sizes, them in found if made else ():
            if made is not None and squares.same_drawing(them[0], made):
                sizes.append(size)
                them.append(made)
                break
        else:
            found += [([size], [made])] if made else []
    for sizes, them in found:
        words = sizes_words(checked.pattern, sizes)
        of = said("{part}{sizes}", part=part, sizes=words)
        title = said("{title}: squares of the {part}", title=checked.pattern.title, part=of)
        one = replace(them[0], title=title, others=tuple(them[1:])) if len(them) > 1 else them[0]
        named = said("{title}, in squares", title=of)
        yield told(named, speaker), squares.svg(one, speaker)


def bare(checked: Checked, who: Speaker | str) -> dict[tuple[str, int], str]:
    """The bare drawing of every part in every size, with the numbers of that size's own rows."""
    out = {}
    for part in checked.pattern.parts:
        for sizes, one in shared(checked, part.name):
            own = [_plan(checked, part.name, size, EVERYTHING_NEEDED) for size in sizes]
            alike = len({tuple(_numbers(plan)) for plan in own}) == 1
            together = rows_only(one, who) if alike else ""
            for size in sizes:
                out[part.name, size] = together or rows_only(needed(checked, part.name, size), who)
    return out


def shared(checked: Checked, part: str) -> list[tuple[list[int], Chart]]:
    """The charts of a part, each with the sizes that it is of. A size that would be drawn whole is
    drawn with a few repeats where that makes it like others."""
    groups, wishes = _best(checked, part)
    out: list[tuple[list[int], Chart]] = []
    for group in groups:
        one = _of_all(checked, part, group, wishes) if len(group) > 1 else None
        if one is None:
            out += [([size], needed(checked, part, size)) for size in group]
        else:
            out.append((group, one))
    return sorted(out, key=lambda one: one[0])


def _best(checked: Checked, part: str) -> tuple[list[list[int]], Sequence[Wish]]:
    """The sizes that can be drawn alike, and what is to be wished for of each to that end: as they
    are drawn by themselves, or in one of the ways of leaving more out."""
    best: tuple[list[list[int]], Sequence[Wish]] | None = None
    for wish in (EVERYTHING_NEEDED, Wish(bracketed=True)):
        wishes = [wish] * len(checked.pattern.sizes)
        plans = _plans(checked, part, wishes)
        if wish.bracketed and not _from_the_same_lines(plans):
            break
        groups = _groups(plans)
        if best is None or len(groups) < len(best[0]):
            best = groups, wishes
        if len(groups) > 1:
            few = list(_as_few(plans, wish))
            if len(fewer := _groups(_plans(checked, part, few))) < len(best[0]):
                best = fewer, few
        if len(best[0]) == 1:
            break
    assert best is not None
    return best


def _from_the_same_lines(plans: Sequence[Plan]) -> bool:
    """Whether any two sizes are worked from the same lines of the pattern, one after another."""
    chosen = [plan.selection for plan in plans if plan.selection]
    lines = {tuple(dict.fromkeys(row.worked.line for row in one.rows)) for one in chosen}
    return len(lines) < len(plans)


def _plans(checked: Checked, part: str, wishes: Sequence[Wish]) -> list[Plan]:
    return [_plan(checked, part, size, wish) for size, wish in enumerate(wishes)]


def _as_few(plans: Sequence[Plan], wish: Wish) -> Iterator[Wish]:
    """What is to be wished for of each size so that those are drawn alike that can be: rows that
    are drawn whole with as few repeats as those that are not, rounds as a part of the circle."""
    chosen = [plan.selection for plan in plans if plan.selection]
    cut = next((one for one in chosen if one.repeat), None)
    lines = [_lines(one) for one in chosen]
    rounds = all(plan.shape.manner == "rounds" for plan in plans)
    for own, its in zip(chosen, lines, strict=True):
        if rounds:
            yield replace(wish, fan=lines.count(its) > 1)
        elif all(plan.shape.manner in ("oval", "frame") for plan in plans):
            yield replace(wish, like=1)
        elif cut is None or own.repeat or len(own.rows) != len(cut.rows):
            yield wish
        else:
            yield replace(wish, like=cut.rows[0].worked.made.length)


def _groups(plans: Sequence[Plan]) -> list[list[int]]:
    """The sizes that are drawn alike."""
    groups: list[list[int]] = []
    for size in range(len(plans)):
        for group in groups:
            if _alike(plans, group[0], size):
                group.append(size)
                break
        else:
            groups.append([size])
    return groups


def _of_all(checked: Checked, part: str, sizes: list[int], wishes: Sequence[Wish]) -> Chart | None:
    """The chart of the first of these sizes as that of all of them; None where their numbers are
    too long to stand beside the rows, or their words are not alike."""
    every = [_plan(checked, part, size, wishes[size]) for size in sizes]
    numbers = [list(map(str, one)) for one in zip(*map(_numbers, every), strict=True)]
    labels = [merged(one, sizes) or "" for one in numbers]
    words = _words_of(every, sizes)
    if words is None or max(map(len, labels), default=0) > LONGEST_LABEL:
        return None
    if labels == list(map(str, _numbers(every[0]))):
        first = needed(checked, part, sizes[0], wishes[sizes[0]])
    else:
        first = drawn(every[0], labels)
    brackets, notes, start = words
    pattern = checked.pattern
    told = zip(first.brackets, brackets, strict=True)
    others = (OtherSize(pattern.sizes[p.size], row_texts(p), p.selection) for p in every[1:])
    return replace(
        first,
        title=said(
            "{title}: chart of the {part}",
            title=pattern.title,
            part=said("{part}{sizes}", part=part, sizes=sizes_words(pattern, sizes)),
        ),
        size="-".join(pattern.sizes[size] for size in sizes),
        brackets=tuple(replace(one, text=text) for one, text in told),
        notes=notes,
        start=start,
        others=tuple(others),
    )


def _words_of(
    every: Sequence[Plan], sizes: Sequence[int]
) -> tuple[list[str], tuple[Words, ...], Words] | None:
    """What the brackets, the notes and the start say of these sizes together; None where they
    say different things."""
    if len({(len(one.brackets), len(one.notes)) for one in every}) > 1:
        return None
    said = zip(*([one.text for one in plan.brackets] for plan in every), strict=True)
    brackets = [merged(them, sizes) for them in said]
    notes = [merged_words(them, sizes) for them in zip(*(one.notes for one in every), strict=True)]
    start = merged_words([one.start for one in every], sizes)
    if start is None or None in brackets or None in notes:
        return None
    return [one or "" for one in brackets], tuple(one or () for one in notes), start


def _numbers(plan: Plan) -> list[int]:
    """The numbers of the rows drawn."""
    return [row.number for row in plan.selection.rows] if plan.selection else []


def _alike(plans: Sequence[Plan], first: int, size: int) -> bool:
    """Whether two sizes are drawn alike, but for numbers."""
    one, two = plans[first], plans[size]
    manner = one.shape.manner
    if one.selection is None or two.selection is None or manner != two.shape.manner:
        return False
    if one.yarns != two.yarns or _lines(one.selection) != _lines(two.selection):
        return False
    if _drawn(one.selection) != _drawn(two.selection):
        return False
    if _words_of((one, two), (first, size)) is None:
        return False
    return manner not in ("oval", "frame") or _as_large(one, two)


def _as_large(one: Plan, two: Plan) -> bool:
    """Whether two plans come out as wide and high when they are drawn: those do that were laid out
    as one and have the same numbers beside their rows."""
    if one.laid.plane is two.laid.plane and _numbers(one) == _numbers(two):
        return True
    return _extent(one) == _extent(two)


def _extent(plan: Plan) -> tuple[float, float]:
    """How wide and high a planned chart comes out."""
    chart = needed(plan.checked, plan.part.name, plan.size, plan.wish)
    return chart.width, chart.height


def _lines(chosen: Selection) -> tuple[int, ...]:
    """Of which line of the part each row drawn is."""
    return tuple(row.worked.line for row in chosen.rows)


def _drawn(chosen: Selection) -> tuple[object, ...]:
    """What a drawing is laid out from, without numbers."""
    rows = tuple(
        (
            row.worked.line,
            row.worked.is_round,
            row.worked.turned,
            row.worked.wrong_side,
            row.worked.shift,
            row.worked.spans,
            row.worked.made.atoms(),
            row.worked.below.atoms(),
            row.worked.edge.atoms(),
        )
        for row in chosen.rows
    )
    over = tuple((one.first, one.last, one.rows, one.more > 0) for one in chosen.over)
    repeat = chosen.repeat and (chosen.repeat.row, chosen.repeat.first, chosen.repeat.unit)
    strips = tuple(map(_strip, chosen.strips))
    sides = tuple(map(_side, chosen.sides))
    return rows, over, repeat, strips, sides, chosen.clean, _wedge(chosen.wedge)


def _side(side: Side) -> tuple[object, ...]:
    strips = tuple((strip.after, strip.unit) for strip in side.strips)
    return side.which, side.low, side.row, side.first, side.unit, side.sts, strips


def _strip(strip: LeftOut | None) -> tuple[object, ...]:
    return () if strip is None else (strip.after, strip.below, strip.unit, strip.things > 0)


def _wedge(wedge: Wedge | None) -> tuple[object, ...]:
    return () if wedge is None else (wedge.first, wedge.drawn, wedge.low, wedge.repeats, wedge.gaps)


def sizes_words(pattern: Pattern, sizes: Sequence[int]) -> str:
    """Which sizes a chart is of, for the end of its title; nothing where there is only one."""
    if len(pattern.sizes) == 1:
        return ""
    if len(sizes) == len(pattern.sizes):
        return said(", in all sizes")
    *most, last = (pattern.sizes[size] for size in sizes)
    if not most:
        return said(", size {size}", size=last)
    return said(", sizes {sizes} and {size}", sizes=", ".join(most), size=last)
