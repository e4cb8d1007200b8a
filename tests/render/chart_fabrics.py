"""Small fabrics written down by hand, stitch for stitch, for the tests of the chart."""

from __future__ import annotations

from loopwright.ir.checked import Checked
from loopwright.ir.fabric import Fabric, Made, Place, WorkedPart, WorkedRow
from loopwright.ir.pattern import ONE_SIZE, Edge, Part, Pattern, Start
from loopwright.ir.runs import Runs, run, runs_of
from loopwright.source import Span
from loopwright.trade.stitches import Stitch

SC = Stitch("plain")
DC = Stitch("long")
HDC = Stitch("half")
TR = Stitch("double long")
SPANS = (Span(0, 5), Span(10, 20))

LEAVES = {"st": "st", "as": "st", "skip as": "st", "ch": "sp", "open": "sp"}


def st(stitch: Stitch, step: int = 1, into: str = "st", **more: object) -> Made:
    """A stitch."""
    return Made("st", stitch, into=into, step=step, **more)  # type: ignore[arg-type]


def ch(chains: int) -> Made:
    """A run of chains."""
    return Made("ch", chains=chains)


def counted(stitch: Stitch, chains: int, step: int = 1, into: str = "st") -> Made:
    """A chain that counts as a stitch."""
    return Made("as", stitch, chains=chains, into=into, step=step)


TURN = Made("turn", chains=1)
JOIN = Made("join")


def left_by(made: list[Made]) -> list[Place]:
    """The places that a row leaves."""
    return [
        Place(LEAVES[one.what], one.stitch, one.chains if one.what != "st" else 0)
        for one in made
        if one.what in LEAVES
    ]


def part(
    manner: str,
    start: Start,
    first: list[Place],
    rows: list[list[Made]],
    times: dict[int, int] | None = None,
    shifts: dict[int, int] | None = None,
) -> tuple[Part, WorkedPart]:
    """A part from the things made in each row. ``times`` says how often a row is worked."""
    worked = []
    below: Runs[Place] = runs_of(first)
    flat = manner in ("flat", "turned")
    for i, made in enumerate(rows):
        edge = runs_of(left_by(made))
        worked.append(
            (
                (
                    WorkedRow(
                        line=i,
                        label=f"row {i + 1}",
                        number=i + 1,
                        is_round=manner != "flat",
                        made=runs_of(made),
                        below=below,
                        edge=edge,
                        counts=(),
                        turned=flat and i > 0,
                        wrong_side=flat and i % 2 == 1,
                        shift=(shifts or {}).get(i, 0),
                        spans=SPANS,
                    ),
                ),
                (times or {}).get(i, 1),
            )
        )
        below = edge.reversed() if flat else edge
        move = (shifts or {}).get(i + 1, 0)
        if move:
            places = list(below.expand())
            below = runs_of(places[move:] + places[:move])
    made_part = WorkedPart(
        name="piece",
        start=runs_of(first),
        from_chain=start.what == "chain" and not start.ring,
        from_ring=start.what == "magic ring" or start.ring,
        rows=tuple(worked),
        lines=(),
        last=worked[-1][0][0].edge,
        row_count=sum(times for _, times in worked),
        row_ends=run(Place("end", SC), len(rows)),
        worked_start=runs_of(first),
    )
    return Part("piece", manner, start, ()), made_part


def checked(*parts: tuple[Part, WorkedPart]) -> Checked:
    """A pattern of one size with these parts."""
    pattern = Pattern(
        title="Tideline Sample",
        terms="UK",
        sizes=(ONE_SIZE,),
        texts=(),
        measures=(),
        yarns=(),
        hooks=(),
        gauges=(),
        counts=(),
        stitches=(),
        parts=tuple(one for one, _ in parts),
    )
    fabric = Fabric(0, tuple(worked for _, worked in parts), (), 0, 0)
    return Checked(pattern, (fabric,))


def swatch() -> Checked:
    """12 sc on 13 chains, then rows of 12 sc in the back loop."""
    first = [st(SC, 2, "ch"), *[st(SC, 1, "ch")] * 11]
    next_rows = [[TURN, *[st(SC, 1, loop="back")] * 12] for _ in range(3)]
    return checked(part("flat", Start("chain"), [Place("ch")] * 13, [first, *next_rows]))


def coaster() -> Checked:
    """A spiral: 6 sc in a magic ring, then 6 increases in each round."""
    rows = [[st(SC, 0, "ring")] * 6]
    for r in range(2, 7):
        rows.append(([st(SC)] * (r - 2) + [st(SC), st(SC, 0)]) * 6)
    return checked(part("spiral", Start("magic ring"), [], rows))


def granny() -> Checked:
    """A square of 3 rounds from a ring of 6 chains, joined, each begun in a corner."""
    three = [st(DC, 0, "ring")] * 3
    one = [counted(DC, 3, 0, "ring"), *three[:2], ch(2)] + [*three, ch(2)] * 3 + [JOIN]
    corner = [st(DC, 0, "sp")] * 2 + [ch(2)] + [st(DC, 0, "sp")] * 3 + [ch(1)]
    two = [counted(DC, 3, 1, "sp"), *corner]
    two += [st(DC, 4, "sp"), *corner] * 3 + [JOIN]
    side = [st(DC, 4, "sp"), st(DC, 0, "sp"), st(DC, 0, "sp"), ch(1)]
    three_ = [counted(DC, 3, 1, "sp"), *corner, *side]
    three_ += [st(DC, 4, "sp"), *corner, *side] * 3 + [JOIN]
    return checked(
        part(
            "rounds",
            Start("chain", ring=True),
            [Place("ch")] * 6,
            [one, two, three_],
            shifts={1: 3, 2: 3},
        )
    )


def tube() -> Checked:
    """12 dc around an edge of 12 stitches, with front posts, then decreases to 4."""
    first = [Made("turn", chains=2), *[st(DC)] * 12, JOIN]
    post = st(DC._replace(post="front"), post=True)
    two = Made("st", DC._replace(together=2), into="st", step=1, also=(1,))
    rib = [Made("turn", chains=2), *[st(DC), st(DC), post] * 4, JOIN]
    dec = [Made("turn", chains=2), *[two, post] * 4, JOIN]
    start = Start("edges", edges=(Edge("row ends", "cuff"),))
    edge = [Place("end", SC)] * 12
    return checked(part("rounds", start, edge, [first, rib, rib, dec], times={2: 9}))


def shells() -> Checked:
    """Shells of 5 dc between sc, and over them bobbles and other bunches between sc."""
    shell = [st(DC, 3), *[st(DC, 0)] * 4]
    first = [st(SC, 2, "ch"), *[st(SC, 1, "ch")] * 18]
    second = [TURN, st(SC, 1), *[*shell, st(SC, 3)] * 3]
    third = [counted(DC, 3, 1), st(DC, 0), st(DC, 0), *([st(SC, 3), *shell] * 3)[:-2]]
    puff = Stitch("half", many="puff", legs=3)
    bob = Stitch("long", many="bobble", legs=5)
    pop = Stitch("long", many="popcorn", legs=5)
    clu = Stitch("double long", many="cluster", legs=3)
    between = [st(SC), st(SC)]
    fourth = [TURN, *between, st(puff), *between, st(bob), *between, st(pop), *between]
    fourth += [st(clu), st(SC), ch(5), st(SC, 4), st(HDC), st(TR)]
    rows = [first, second, third, fourth]
    return checked(part("flat", Start("chain"), [Place("ch")] * 20, rows))


def wide(repeats: int, times: int = 1) -> Checked:
    """Ribbing so many repeats of (3 dc, front post dc) wide, between an edge stitch at each end, on
    a chain: rows 2 and 3, then rows 4 and 5 worked so many times."""
    front = st(DC._replace(post="front"), post=True)
    back = st(DC._replace(post="back"), post=True)
    places = 4 * repeats + 2
    plain = run(Place("st", DC), places)

    def made(period: tuple[tuple[Made, int], ...]) -> Runs[Made]:
        return Runs(((st(DC), 1), (Runs(period), repeats), (st(DC), 1)))

    def row(number: int, things: Runs[Made], below: Runs[Place]) -> WorkedRow:
        left = Runs(
            tuple(
                (Runs(tuple((Place("st", one.stitch), n) for one, n in node.pairs)), times)
                if isinstance(node, Runs)
                else (Place("st", node.stitch), times)
                for node, times in things.pairs
            )
        )
        return WorkedRow(
            number - 1,
            f"row {number}",
            number,
            False,
            things,
            below,
            left,
            (),
            number > 1,
            number % 2 == 0,
            spans=SPANS,
        )

    first = row(1, run(st(DC, 1, "ch"), places), run(Place("ch"), places))
    second = row(2, made(((st(DC), 3), (front, 1))), plain)
    third = row(3, made(((back, 1), (st(DC), 3))), second.edge.reversed())
    fourth = row(4, made(((st(DC), 3), (front, 1))), third.edge.reversed())
    fifth = row(5, third.made, fourth.edge.reversed())
    rows = (((first,), 1), ((second, third), 1), ((fourth, fifth), times))
    worked = WorkedPart(
        "piece",
        run(Place("ch"), places),
        True,
        False,
        rows,
        (),
        fifth.edge,
        3 + 2 * times,
        run(Place("end", DC), 1),
        Runs(()),
    )
    return checked((Part("piece", "flat", Start("chain"), ()), worked))
