"""Dimensions: what one says of a part with a tape in hand, for all of its sizes at once.

hand    around at the start    16.5 (19, 21) cm
        around at the end      4 (4.5, 5.5) cm
        height, on the fabric  18 (20, 23.5) cm
"""

from __future__ import annotations

from fractions import Fraction
from math import degrees, pi

from loopwright.frozen import Frozen
from loopwright.ir.checked import Checked
from loopwright.ir.pattern import Gather
from loopwright.measure.ease import Ease, eases
from loopwright.measure.finished import finished
from loopwright.measure.form import Form, form
from loopwright.measure.growth import fans_out
from loopwright.measure.heights import NOT_KNOWN, RELATIVE
from loopwright.measure.lengths import both
from loopwright.measure.values import Extent, PartSize

SAME = Fraction(5)
"""Lengths that are nearer than this, in mm, are read off a tape as the same."""


class Dimension(Frozen):
    """One length of a part. ``where`` is ``first``, ``widest``, ``last``, ``high``, ``standing``,
    ``over`` (from end to end of what is closed at both), ``long``, ``across``, ``side``, ``around``
    or ``room``; ``words`` say it; ``lengths`` are in mm, one for each of the part's sizes (None
    where it is not known); ``about`` in openwork, and where there is an edging."""

    where: str
    words: str
    lengths: tuple[Fraction | None, ...]
    about: bool


class PartMeasures(Frozen):
    """A part in its sizes: as measured, what it is in each, its dimensions and its ease."""

    part: str
    sizes: tuple[PartSize, ...]
    forms: tuple[Form | None, ...]
    dimensions: tuple[Dimension, ...]
    eases: tuple[Ease, ...]

    @property
    def form(self) -> Form | None:
        """What it is in the first of its sizes, which is the one drawn."""
        return self.forms[0]

    @property
    def excess(self) -> int | None:
        """Where it ruffles, by how many degrees in the first size; None where it does not."""
        one = self.form
        if one is None or one.kind != "ruffle" or one.profile is None:
            return None
        return round(degrees(one.profile.excess))


def measures(checked: Checked) -> tuple[PartMeasures, ...]:
    """Every part that has a gauge, with all there is to say of its size."""
    sizes = finished(checked)
    found = eases(checked.pattern, sizes)
    gauges = {gauge.name: gauge for gauge in checked.pattern.gauges}
    worked = {(fabric.size, one.name): one for fabric in checked.fabrics for one in fabric.parts}
    out = []
    for part in checked.pattern.parts:
        own = tuple(size for size in sizes if size.part == part.name)
        if own:
            forms = tuple(
                form(part, worked[size.size, part.name], size, gauges[size.gauge]) for size in own
            )
            ease = tuple(one for one in found if one.part == part.name)
            border = any(edge.what == "all round" for edge in part.start.edges)
            fan = fans_out(part, worked[own[0].size, part.name])
            lengths = dimensions(own, forms, border=border, fan=fan)
            if any(isinstance(line, Gather) for line in part.lines):
                lengths = tuple(one for one in lengths if one.where != "last")  # it is drawn shut
            out.append(PartMeasures(part.name, own, forms, lengths, ease))
    return tuple(out)


def length_in_sizes(one: Dimension, part: PartMeasures) -> str:
    """A dimension in every size, in both measures: ``about 45.5 (51.5) cm / 18 (20¼) in``."""
    known = [mm for mm in one.lengths if mm is not None]
    if len(known) < len(one.lengths):
        return "not known"
    return ("about " if one.about else "") + both(known, part.sizes[0].unit)


def how_text(part: PartMeasures, word: str) -> str:
    """How the figures of a part were got; ``word`` is gauge or tension."""
    size = part.sizes[0]
    text = f"Widths are reckoned from the stitches of the {word} {size.gauge}"
    if size.how == NOT_KNOWN:
        text += "; heights are not known from it"
    elif size.how == RELATIVE:
        text += ", heights from its rows, those of other stitches by their usual height against it"
    else:
        text += ", heights from its rows"
    if size.openwork:
        text += "; a chain is taken to be as wide as a stitch, so sizes in openwork are about right"
    edging = " An edging of shells or loops is taken to lie flat on what it is worked on."
    return f"{text}." + edging * size.edged


def dimensions(
    sizes: tuple[PartSize, ...],
    forms: tuple[Form | None, ...],
    *,
    border: bool = False,
    fan: bool = False,
) -> tuple[Dimension, ...]:
    """The lengths to give of a part, those that say nothing new left out; of a border around a
    piece, how wide it is, as it stands up nowhere; of a ``fan``, how long its last row is."""
    first = forms[0]
    about = any(size.openwork or size.edged for size in sizes)
    kind = first.kind if first is not None else ""
    if kind in ("disc", "motif", "ruffle"):
        found = _flat(sizes, forms, first)
    elif all(one is not None and one.oval is not None for one in forms):
        found = _oval(sizes, forms)
    elif fan:
        found = _fan(sizes)
    else:
        middle = first is not None and first.middle
        found = [
            *_along(tuple(size.wide for size in sizes), "width", False),
            *_along(tuple(size.around for size in sizes), "around", middle),
            *_high(sizes, forms),
        ]
        if all(size.around is None for size in sizes):
            found = _lengthwise(found)
        elif border:
            found = [_named(row, {"high": "width"}) for row in found]
    return tuple(Dimension(where, words, lengths, about) for where, words, lengths in found)


_Row = tuple[str, str, tuple[Fraction | None, ...]]


def _along(extents: tuple[Extent | None, ...], word: str, middle: bool) -> list[_Row]:
    """The first row, the widest and the last; of a part from a middle, no first."""
    known = [one for one in extents if one is not None]
    if len(known) != len(extents):
        return []
    widest = tuple(one.widest for one in known)
    first = tuple(one.first for one in known)
    last = tuple(one.last for one in known)
    if _same(first, widest) and _same(last, widest):
        return [("widest", word, widest)]
    out: list[_Row] = []
    if not middle:
        out.append(("first", f"{word} at the start", first))
    if not _same(last, widest) and (middle or not _same(first, widest)):
        out.append(("widest", f"{word} at the widest", widest))
    out.append(("last", f"{word} at the end", last))
    return out


STRIP = 3
"""So many times as wide as it is high, a straight piece is a strip worked lengthwise."""


def _lengthwise(rows: list[_Row]) -> list[_Row]:
    """The lengths of a piece worked in rows, which lies flat: the longer way is its length,
    whether its rows run across it or along it (common practice without a source)."""
    ways = {where: lengths for where, _, lengths in rows}
    high, widest = ways.get("high", ()), ways.get("widest", ways.get("first", ()))
    pairs = [(up, wide) for up, wide in zip(high, widest, strict=False) if up and wide]
    if not pairs or len(pairs) < len(high):
        return rows
    if all(up > wide - SAME for up, wide in pairs):
        words = {"high": "length"}
    elif "last" not in ways and all(wide >= STRIP * up for up, wide in pairs):
        words = {"high": "width", "widest": "length"}
    else:
        return rows
    return [_named(row, words) for row in rows]


def _named(row: _Row, words: dict[str, str]) -> _Row:
    where, word, lengths = row
    return where, words.get(where, word), lengths


def _same(some: tuple[Fraction, ...], others: tuple[Fraction, ...]) -> bool:
    return all(abs(one - two) < SAME for one, two in zip(some, others, strict=True))


def _high(sizes: tuple[PartSize, ...], forms: tuple[Form | None, ...]) -> list[_Row]:
    high = tuple(size.high for size in sizes)
    if all(one is None for one in high):
        return []
    standing = tuple(
        Fraction(one.profile.height) if one is not None and one.profile is not None else None
        for one in forms
    )
    lower = any(
        tall is not None and low is not None and tall - low > max(SAME, tall / 20)
        for tall, low in zip(high, standing, strict=True)
    )
    if not lower:
        return [("high", "height", high)]
    if any(size.openwork for size in sizes):
        # The width of its rounds is a guess, and what stands aslant would be guessed from that.
        return [("high", "height, on the fabric", high)]
    if all(one is not None and _closed(one) for one in forms):
        # How high a ball stands is a matter of its filling.
        return [("over", "over the fabric, from end to end", high)]
    return [("high", "height, on the fabric", high), ("standing", "height, standing", standing)]


def _closed(form: Form) -> bool:
    """Whether a surface begins in a middle and closes again."""
    profile = form.profile
    return (
        form.middle and profile is not None and profile.rings[-1].radius * 2 < profile.widest.radius
    )


def _oval(sizes: tuple[PartSize, ...], forms: tuple[Form | None, ...]) -> list[_Row]:
    ovals = [one.oval for one in forms if one is not None and one.oval is not None]
    around = tuple(size.around.last if size.around is not None else None for size in sizes)
    return [
        ("long", "length", tuple(one.long for one in ovals)),
        ("widest", "width", tuple(one.wide for one in ovals)),
        ("around", "around the edge", around),
    ]


def _fan(sizes: tuple[PartSize, ...]) -> list[_Row]:
    """Rows about a middle. How wide they lie is not known: that hangs on how they bend."""
    last = tuple(size.wide.last if size.wide is not None else None for size in sizes)
    out: list[_Row] = [("last", "along the last row", last)]
    high = tuple(size.high for size in sizes)
    if any(one is not None for one in high):
        out.append(("high", "from the middle to the last row", high))
    return out


def _flat(
    sizes: tuple[PartSize, ...], forms: tuple[Form | None, ...], first: Form | None
) -> list[_Row]:
    around = tuple(size.around.last if size.around is not None else None for size in sizes)
    if first is not None and first.kind == "motif":
        sides = tuple(one / first.corners if one is not None else None for one in around)
        return [("side", "each side", sides), ("around", "around the edge", around)]
    if first is not None and first.kind == "ruffle":
        across = tuple(
            Fraction(one.profile.widest.radius * 2)
            if one is not None and one.profile is not None
            else None
            for one in forms
        )
        room = tuple(one * Fraction(pi) if one is not None else None for one in across)
        return [
            ("across", "across, laid flat", across),
            ("around", "around the edge", around),
            ("room", "of which there is room for", room),
        ]
    across = tuple(one / Fraction(pi) if one is not None else None for one in around)
    return [("across", "across", across), ("around", "around the edge", around)]
