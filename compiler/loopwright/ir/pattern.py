"""The pattern without sizes: what the designer wrote, with every name resolved.

Lengths are in millimetres, exact. Numbers per size are tuples in the order of ``Pattern.sizes``.
"""

from __future__ import annotations

from fractions import Fraction

from loopwright.frozen import Frozen, field
from loopwright.ir.items import NOWHERE, Item, Kind
from loopwright.ir.numbers import Number
from loopwright.source import Span
from loopwright.trade.stitches import Stitch

ONE_SIZE = "one size"


class Body(Frozen):
    """The standard measure that a length was taken from: its source (``TITLES`` of
    ``trade.bodies``) and what it is of: ``adult woman, median``."""

    source: str
    of: str


class Measure(Frozen):
    """A length of the body per size, in mm, with the unit it was written in; ``bodies`` are the
    standard measures that they were taken from (None for one written out), empty if none was."""

    name: str
    lengths: tuple[Fraction, ...]
    unit: str
    span: Span = field(default=NOWHERE, compare=False)
    bodies: tuple[Body | None, ...] = ()


class Yarn(Frozen):
    """A yarn: a ball of ``grams`` holds ``metres``; ``weight`` is the trade's category 0 to 7."""

    name: str
    description: str
    grams: Fraction | None = None
    metres: Fraction | None = None
    weight: int | None = None
    colour: str = ""
    price: Fraction | None = None
    span: Span = field(default=NOWHERE, compare=False)


class Hook(Frozen):
    """A hook's size in mm, per size."""

    name: str
    mm: tuple[Fraction, ...]
    span: Span = field(default=NOWHERE, compare=False)


class Gauge(Frozen):
    """So many stitches (and rows) over a length in mm, in a stitch. ``unit`` is as written."""

    name: str
    stitches: Fraction
    rows: Fraction | None
    over: Fraction
    unit: str
    stitch: Stitch
    loop: str = ""
    in_rounds: bool = False
    hook: str = ""
    yarns: tuple[str, ...] = ()
    weighs: Fraction | None = None
    uses: Fraction | None = None
    span: Span = field(default=NOWHERE, compare=False)


class MadeTo(Frozen):
    """A measure that a count is made to, and how many times it goes into the count's length in
    each size: 1 for ``palm + 1 cm``, a half for ``bust / 2``."""

    measure: str
    shares: tuple[Fraction, ...]


class Count(Frozen):
    """A number per size, with the rule written for it. ``computed`` when it came from a length or
    from arithmetic; a given number is never changed. Where it came from a length, ``lengths`` are
    those (in mm), ``gauge`` the gauge they were taken at, ``along`` its ``sts`` or ``rows``, and
    ``made_to`` the measures they are made of."""

    name: str
    values: tuple[int, ...]
    computed: bool = False
    multiple: int = 1
    plus: int = 0
    lengths: tuple[Fraction, ...] = ()
    gauge: str = ""
    along: str = ""
    made_to: tuple[MadeTo, ...] = ()
    span: Span = field(default=NOWHERE, compare=False)


class Text(Frozen):
    """Free text: strings, and between them values to print. A value is a tuple of what prints in
    each size, or a ``Stitch``."""

    pieces: tuple[str | tuple[str, ...] | Stitch, ...]


class OwnStitch(Frozen):
    """A stitch of the designer's own: what it is made of and how high it stands."""

    name: str
    items: tuple[Item, ...]
    height: Stitch
    span: Span = field(default=NOWHERE, compare=False)


class StatedCount(Frozen):
    """One count that a row is said to come to, in certain sizes only where ``sizes`` is given."""

    n: Number
    kind: Kind
    sizes: tuple[int, ...] | None = None
    span: Span = field(default=NOWHERE, compare=False)


class Stated(Frozen):
    """All that a row is said to come to. ``counting`` is ``""``, ``ch`` (chains counted with the
    stitches) or ``no turning`` (the chain that counts as a stitch is not counted)."""

    counts: tuple[StatedCount, ...]
    counting: str = ""
    span: Span = field(default=NOWHERE, compare=False)


class Row(Frozen):
    """One written row or round, or a range of them.

    ``numbers`` are the row numbers as (first, last) ranges (empty for `next` and `setup`);
    ``label`` is the designer's name for it; ``variable`` names the number for braces; ``sizes``
    the sizes it is worked in (None for all); ``side`` is ``RS``, ``WS`` or ``""``. ``as_row``
    is the (first, last) rows it works as. A ``broken`` row was not understood: it cannot be
    worked, only passed over.
    """

    label: str
    is_round: bool
    numbers: tuple[tuple[int, int], ...]
    items: tuple[Item, ...]
    variable: str = ""
    sizes: tuple[int, ...] | None = None
    side: str = ""
    setup: bool = False
    as_row: tuple[int, int] | None = None
    broken: bool = False
    stated: Stated | None = None
    remark: Text | None = field(default=None, compare=False)
    span: Span = field(default=NOWHERE, compare=False)


class RepeatRows(Frozen):
    """A repeat line. It repeats rows ``first`` to ``last`` by number, or the ``count`` rows worked
    last. ``how`` is ``more`` (``n`` more times), ``length`` (until ``lengths`` mm), ``rows``
    (until ``n`` rows in the part) or ``sts`` (until a row of ``n`` of ``kind``)."""

    label: str
    how: str
    first: int = 0
    last: int = 0
    count: int = 0
    n: Number | None = None
    lengths: tuple[Fraction, ...] = ()
    unit: str = ""
    stated: Stated | None = None
    remark: Text | None = field(default=None, compare=False)
    span: Span = field(default=NOWHERE, compare=False)


class Edge(Frozen):
    """An edge of a part: ``last`` row, ``start``, ``row ends``, ``other row ends``, ``all round``,
    an ``opening``, or what was left ``unworked``. ``part`` is empty for the part itself. Only ``n``
    places of it, or from the ``from_nth`` on, where those are given."""

    what: str
    part: str = ""
    n: Number | None = None
    from_nth: int = 0
    span: Span = field(default=NOWHERE, compare=False)


class Start(Frozen):
    """Where a part begins. ``what`` is ``chain`` (of ``n``, joined into a ring if ``ring``),
    ``magic ring``, ``foundation`` (``n`` of ``stitch``), ``edges`` (one or more, in order) or
    ``through`` (two edges, worked through both)."""

    what: str
    n: Number | None = None
    ring: bool = False
    stitch: Stitch | None = None
    edges: tuple[Edge, ...] = ()
    then: tuple[Start, ...] = ()
    span: Span = field(default=NOWHERE, compare=False)


class Seam(Frozen):
    """Two edges sewn or crocheted together; ``runs`` are (number, opening or "") along the seam."""

    one: Edge
    two: Edge
    stitch: Stitch | None = None
    loop: str = ""
    runs: tuple[tuple[Number, str], ...] = ()
    span: Span = field(default=NOWHERE, compare=False)


class Gather(Frozen):
    """The last round threaded and drawn shut."""

    span: Span = field(default=NOWHERE, compare=False)


class Note(Frozen):
    """Free text between the rows (``note``) or printed under finishing (``finish``)."""

    text: Text = field(compare=False)
    finish: bool = False
    span: Span = field(default=NOWHERE, compare=False)


class Stripes(Frozen):
    """So many rows of each yarn, over and over."""

    bands: tuple[tuple[Number, tuple[str, ...]], ...]
    span: Span = field(default=NOWHERE, compare=False)


class ComesOut(Frozen):
    """The finished size as the designer states it: (dimension, mm per size, unit)."""

    dimensions: tuple[tuple[str, tuple[Fraction, ...], str], ...]
    span: Span = field(default=NOWHERE, compare=False)


Line = Row | RepeatRows | Seam | Gather | Note | Stripes | ComesOut


class KitItem(Frozen):
    """Something that goes into the bag, so much of it in each size. ``what`` is ``yarn``, ``hook``
    or ``thing``; ``unit`` is ``ball``, ``g`` or ``m`` of a yarn, the unit as written of anything
    else that is measured (50 cm of elastic), and empty of what is counted. ``price`` is of one."""

    what: str
    name: str
    amounts: tuple[Fraction, ...]
    unit: str = ""
    price: Fraction | None = None
    span: Span = field(default=NOWHERE, compare=False)


class Kit(Frozen):
    """What goes in the bag; ``margin`` is the share that is ordered besides (1/10 for 10%)."""

    items: tuple[KitItem, ...]
    margin: Fraction | None = None
    span: Span = field(default=NOWHERE, compare=False)


class Pace(Frozen):
    """So many stitches a minute, from ``slow`` to ``fast``, with what was written."""

    slow: Fraction
    fast: Fraction
    written: str
    span: Span = field(default=NOWHERE, compare=False)


class Part(Frozen):
    """A part. ``manner`` is ``flat``, ``rounds``, ``spiral`` or ``turned``; ``make`` is how many
    of it are made in each size, empty where that is not written."""

    name: str
    manner: str
    start: Start
    lines: tuple[Line, ...]
    yarns: tuple[str, ...] = ()
    hook: str = ""
    gauge: str = ""
    shaped: bool = False
    frilled: bool = False
    span: Span = field(default=NOWHERE, compare=False)
    make: tuple[int, ...] = ()


class Pattern(Frozen):
    """A whole pattern. ``texts`` are the free-text header lines: (label, text); ``allowance`` is
    the share of the yarn that is added for tails and a swatch, where the designer says it.
    ``shared`` where the file holds what patterns use, and is no pattern itself."""

    title: str
    terms: str
    sizes: tuple[str, ...]
    texts: tuple[tuple[str, Text], ...] = field(compare=False)
    measures: tuple[Measure, ...]
    yarns: tuple[Yarn, ...]
    hooks: tuple[Hook, ...]
    gauges: tuple[Gauge, ...]
    counts: tuple[Count, ...]
    stitches: tuple[OwnStitch, ...]
    parts: tuple[Part, ...]
    picture: tuple[str, str] | None = None
    notes: tuple[Note, ...] = ()
    allowance: Fraction | None = None
    kit: Kit | None = None
    pace: Pace | None = None
    shared: bool = False
