"""Patterns for the less common things of the notation: a frame for each, filled in at random.

The numbers are drawn freely, so that some of the patterns come out and others do not; both workers
must say the same either way.
"""

from __future__ import annotations

from collections.abc import Callable

from hypothesis import strategies as st

from properties.tokens import Draw

HEAD = "pattern: Flotsam\nterms: UK\n"


class Dice:
    """Numbers and words for a frame."""

    def __init__(self, draw: Draw) -> None:
        self.draw = draw

    def n(self, low: int, high: int) -> int:
        """A number between two."""
        return int(self.draw(st.integers(low, high)))

    def off(self, right: int) -> int:
        """A number that is right three times in four, else one more."""
        return right + (self.n(0, 3) == 3)

    def one(self, *words: str) -> str:
        """One of some words."""
        return str(self.draw(st.sampled_from(words)))

    def rounds(self) -> tuple[str, str]:
        """Joined rounds or a spiral, and how a round of it ends."""
        return ("in rounds", ", join") if self.n(0, 1) else ("in a spiral", "")

    def word(self) -> str:
        """A stitch."""
        return self.one("dc", "htr", "tr", "dtr")


def openings(d: Dice) -> str:
    """A mitten: a thumb's opening, chains worked after it, and the thumb itself."""
    manner, join = d.rounds()
    n, over, before = d.n(10, 20), d.n(2, 5), d.n(1, 4)
    chains = d.one("", f" with ch {d.n(1, 6)}")
    rest = n - before - over
    return f"""{HEAD}part hand: in rounds
start: ch {n}, join into ring
round 1: {d.one("", "ch 1, ")}{d.word()} in each ch around, join = {d.off(n)} sts
round 2: ch 2, {before} tr, opening thumb over {over} sts{chains}, {d.off(rest)} tr, join
round 3: ch 2, {before} tr, {d.one(f"tr in each of next {over} ch", f"{over} tr in next sp")},
    [tr] around, join
part thumb: {manner}
start: around thumb
round 1: [{d.word()}] around{join}
round 2: [tr2tog] around{d.one(join, ", join")}
"""


def granny(d: Dice) -> str:
    """A granny square, or what it becomes with other numbers."""
    sides, a, c = d.n(2, 5), d.n(1, 3), d.n(1, 3)
    times, side = d.off(sides - 1), d.one("around", f"{sides - 1} times")
    corner = f"({a} tr, ch {c}, {a} tr) in next ch-{c} sp"
    edge = f", {a} tr in next ch-1 sp, ch 1"
    plus = edge if d.n(0, 1) else ""
    return f"""{HEAD}part square: in rounds
start: {d.one("magic ring", "ch 4, join into ring")}
round 1: ch 3 as tr, {a} tr in ring, ch {c}, [{a} tr in ring, ch {c}] {sides - 1} times, join
round 2: move to next ch-{c} sp, ch 3 as tr, ({a} tr, ch {c}, {a} tr) in same sp, ch 1,
    [{corner}, ch 1] {side}, join
round 3: move to next ch-{d.off(c)} sp, ch {d.n(1, 3)} as htr, ({a} tr, ch {c}, tr) in same sp,
    ch 1{d.one(plus, edge)}, [{corner}, ch 1{plus}] {times} times, join
"""


def mesh(d: Dice) -> str:
    """Filet mesh with counted chains, and rows that work their tops and spaces."""
    n = d.n(3, 8)
    ending = d.one("across", f"{d.off(n - 1)} times")
    last = d.one("tr in top of ch-3", "tr in last st", "tr")
    back = f"tr in next ch-1 sp, {last}"
    return f"""{HEAD}part net: flat
start: ch {2 * n + 2}
row 1: dc in 2nd ch from hook, dc in each ch across = {2 * n + 1} dc
row 2: ch 4 as (tr, ch 1), miss 1 st, tr, [ch 1, miss 1 st, tr] {ending} = {d.off(n)} ch-1 sps
row 3: ch 3 as tr, tr in next ch-1 sp,
    [tr in next tr, tr in next ch-1 sp] {d.n(n - 2, n - 1)} times, {last}
row 4: ch 1, {d.one("dc", "2 dc")} in each st across
row 5: ch 5 as (tr, ch 2), miss {d.n(1, 2)} sts,
    [{d.word()}, ch 2, miss 2 sts] to last {d.n(1, 2)} sts, {d.one("tr in last st", back)}
"""


def shells(d: Dice) -> str:
    """A stitch of the designer's own, worked in stitches, in spaces and beside others."""
    k, a, c, m = d.n(2, 4), d.n(1, 3), d.n(1, 2), d.n(1, 2)
    n = k * (2 * m + 1)
    own = d.one(f"({a} tr, ch {c}, {a} tr) in next st", f"tr, ch {c}, {a} tr in same st")
    where = d.one("in next st", "")
    return f"""{HEAD}stitch cockle: {own}, height tr
part scarf: {d.one("flat", "in a spiral")}
start: {d.off(n)} foundation dc
row 1: [miss {m} sts, cockle {where}, miss {m} sts] {k} times = {d.off(k)} cockles
row 2: {d.one("ch 3, ", "")}[cockle in next ch-{c} sp] {d.one("across", f"{k} times")} = {k} cockles
row 3: ch 3,
    [dc in next ch-{c} sp, {d.one("", f"ch {d.n(1, 4)}, ")}cockle in next gap] {k - 1} times,
    dc in next ch-{c} sp = {d.off(k)} dc
""".replace("cockle ,", "cockle,")


def gaps(d: Dice) -> str:
    """Groups worked into the gaps between groups."""
    k, a = d.n(2, 6), d.n(2, 3)
    where = d.one(f"[miss {a} sts, tuft in next gap] around", "tuft in each gap between tufts")
    return f"""{HEAD}stitch tuft: {a} tr in next st, height tr
part mat: in rounds
start: magic ring
round 1: {k} dc in ring, join
round 2: {d.one("ch 2, ", "")}[tuft] {d.one("around", f"{k} times")}, join = {k} tufts
round 3: ch 2, {where}, join = {d.off(k)} tufts
round 4: ch 2, [miss {d.n(1, a)} sts, 2 dc in next gap] {d.off(k)} times, join
"""


def oval(d: Dice) -> str:
    """Both sides of the starting chain."""
    manner, join = d.rounds()
    n, e, f = d.n(3, 9), d.n(2, 4), d.n(1, 4)
    back = d.one(f"{n - 1} dc", f"{n - 2} dc, {d.n(1, 3)} dc in last st", "[dc] around")
    return f"""{HEAD}part sole: {manner}
start: ch {n + 1}
round 1: {f} dc in 2nd ch from hook, {d.off(n - 2)} dc, {e} dc in {d.one("last", "next")} ch,
    other side, {back}{join}
round 2: {d.one("ch 1, ", "")}[dc, dc inc] {d.one("around", f"{n} times")}{join}
"""


def edges(d: Dice) -> str:
    """Parts that begin along the edges of another."""
    manner, join = d.rounds()
    n, r, m = d.n(2, 7), d.n(1, 6), d.n(2, 4)
    first = d.one("dc in 2nd ch from hook", "miss 2 ch as dc")
    ends = d.one("row ends", "other row ends", "start", "last row")
    begin = d.one(
        f"along {ends} of cloth",
        "all round cloth",
        f"along row ends of cloth then along {ends} of cloth",
        "through last row of cloth and start of cloth",
        f"ch {d.n(2, 4)} then along row ends of cloth",
        f"over last row of cloth from {d.one('2nd', '3rd')} st",
        f"over next {m} sts of last row of cloth",
    )
    row = d.one(
        "[dc] around",
        "ch 1, [dc in next row end] around",
        f"{d.n(4, 9)} dc evenly",
        f"{m} dc, leave the rest unworked",
        f"[{m} dc, dc inc] around",
    )
    return f"""{HEAD}part cloth: flat
start: ch {n + 1}
row 1: {first}, dc in each ch across
rows 2-{r + 2}: ch 1, {d.one("dc in each st across", "dc, [dc] across", "dc inc, [dc] across")}
part edging: {manner}
start: {begin}
round 1: {row}{join}
round 2: ch 1, [dc] around{join}
"""


def left(d: Dice) -> str:
    """Stitches left unworked, and worked later."""
    n, k = d.n(6, 12), d.n(1, 4)
    leave = d.one(f"leave {d.off(k)} unworked", "leave the rest unworked")
    later = d.one(f"dc in each of {k} unworked sts", "dc")
    return f"""{HEAD}part flap: flat
start: {n} foundation dc
row 1: {d.one("ch 2, ", "ch 2 as tr, ")}{n - k - 1} tr{d.one("", " blo")}, {leave}
row 2: ch 1, dc in each st across{d.one("", f" = {n - k} sts")}
row 3: {n - k - 1} dc, {later}
part lug: flat
start: unworked of flap
row 1: [dc] across
row 2: ch 1, {d.one("dc2tog, [dc] across", "[dc] to last 1 sts, dc2tog", "dc, [dc] across")}
"""


def markers(d: Dice) -> str:
    """Markers, and what runs up to them."""
    manner, join = d.rounds()
    n, k = d.n(6, 12), d.n(2, 4)
    reach = d.one(
        "tr in each st to marked here", "[tr] to marked here", f"{k} tr", "[tr, dc] to marked here"
    )
    then = d.one("3 tr in marked here", "2 dc in next st", "dc in marked here, dc")
    return f"""{HEAD}part band: {manner}
start: magic ring
round 1: {n} dc in ring{join}
round 2: ch 1, {k} dc, mark here, {d.off(n - k)} dc{join}
round 3: {d.one("ch 2, ", "")}{reach}, {then}, {d.one("mark here, ", "")}[dc] around{join}
round 4: tr in each st to marked here, [dc inc] around{join}
"""


def sized(d: Dice) -> str:
    """Sizes, counts and numbers in braces."""
    body = [m * d.n(2, 5) for m in (4, 4, 4)]
    rows = [d.n(1, 6) for _ in body]
    per = f"{body[0]} ({body[1]}, {body[2]})"
    ribs = f"{rows[0]} ({rows[1]}, {rows[2]})"
    extra = "round 3 (b, c only): ch 2, [tr, tr inc] around, join\n" if d.n(0, 1) else ""
    number = 4 if extra else 3
    return f"""{HEAD}sizes: a (b, c)
measure palm: {d.n(10, 16)} ({d.n(12, 18)}, {d.n(14, 20)}) cm
gauge hand: {d.n(12, 20)} sts and {d.n(5, 12)} rounds to 10 cm in tr
count body: {per}, multiple of 4
count ease: palm + {d.n(1, 3)} cm, at hand sts, multiple of {d.n(1, 4)}
count ribs: {ribs}
part hand: in rounds, gauge hand
start: ch body, join into ring
round 1: ch 2, tr in each ch around, join = body sts
round 2: ch 2, {d.one("body tr evenly", "ease tr evenly", "[3 tr, tr inc] around")}, join
{extra}rounds {number}-{number + 2} as r: ch 2, {{r - 2}} tr, tr inc, [tr] around, join
repeat last round: {
        d.one(
            "ribs more times",
            "until ribs rounds",
            f"until {d.n(4, 9)} cm",
            f"{d.n(0, 2)} ({d.n(0, 2)}, 1) more times",
        )
    }
next round: ch 2, [tr2tog, 2 tr] around, join = {{body * 3 / 4}} sts
"""


def repeats(d: Dice) -> str:
    """Rows worked again by number, by `as`, and until a count."""
    n = d.n(6, 10)
    again = d.one(
        "repeat rows 2-3: 2 more times",
        f"repeat rows 2-3: until {d.n(2, 9)} cm",
        f"repeat last {d.one('2', '3')} rows: until {d.n(3, 9)} rows",
        f"repeat rows 1-3: until {d.n(3, 9)} rows",
        "repeat row 3: until 4 sts",
        f"repeat last 2 rows: {d.n(0, 3)} more times",
        "rows 4-5: as rows 2-3",
        "row 4: as row 2",
    )
    return f"""{HEAD}gauge flat: 20 sts and {d.n(5, 12)} rows to 10 cm in dc
part flap: flat, gauge flat
start: {2 * n} foundation dc
row 1: ch 1, dc in each st across
row 2: ch 3 as tr, {d.one("[tr] across", "tr in each st across", "tr, [tr] to last 1 sts, tr")}
row 3: ch 1, {d.one("dc2tog, [dc] to last 2 sts, dc2tog", "dc in each st across")}
{again}
next row: ch 1, {d.one("[dc] across", "[2 dc, dc2tog] across", f"{n} dc, leave the rest unworked")}
"""


def spiral(d: Dice) -> str:
    """A spiral with stitches left for the next round to begin in."""
    n, k = d.n(4, 8), d.n(1, 3)
    return f"""{HEAD}part ball: in a spiral
start: magic ring
round 1: {n} dc in ring
round 2: [dc inc] {d.one("around", f"{n} times")} = {2 * n} sts
round 3: [dc, tr inc] to last {d.n(1, 2)} sts, leave {k} unworked
round 4: [{d.n(1, 2)} dc] around
round 5: {d.one("dc2tog", "tr inc", "dc in next dc")}, [dc] around
"""


def joins(d: Dice) -> str:
    """A lace of chains whose rounds close with a stitch."""
    n, c = d.n(3, 7), d.n(3, 5)
    return f"""{HEAD}part lace: in rounds
start: magic ring
round 1: ch 1, {2 * n} dc in ring, join
round 2: ch 1, [dc, ch {c}, miss 1 st] {d.one(f"{d.off(n - 1)} times", "to last 2 sts")},
    dc, ch 1, miss 1 st, join with tr = {n} ch-{c} sps
round 3: ch 1, dc in same sp, [ch {c}, dc in next ch-{c} sp] {d.off(n - 1)} times, ch {c}, join
round 4: move to next ch-{c} sp, ch 3 as tr, 2 tr in same sp, [3 tr in next ch-{c} sp] around, join
"""


def spikes(d: Dice) -> str:
    """Spikes into rows further down."""
    n = 2 * d.n(3, 6)
    return f"""{HEAD}part panel: {d.one("flat", "in a spiral")}
start: {n} foundation dc
row 1: ch 1, dc in each st across
row 2: ch 1, {d.one("dc", "tr")} in each st across
row 3: ch 1, [dc, tr in next st 2 rows below] {d.one("across", f"{n // 2} times")}
row 4: ch 1, [dc in next tr, fpdtr around next st 2 rows below] across
"""


def overlays(d: Dice) -> str:
    """Stitches into earlier rounds, over what was made since."""
    n, c = d.n(3, 6), d.n(2, 4)
    deep = d.one(f"tr in next ch-{c} sp of round 2", f"2 tr in next ch-{c} sp of round 2")
    last = d.one(
        f"[dc, tr in next dc of round 1] {d.one('around', f'{d.off(n)} times')}",
        f"[dc, tr in next skipped st of round 2] {n} times, {n} dc",
        "dc in each dc around",
    )
    return f"""{HEAD}part mat: in rounds
start: magic ring
round 1: {2 * n} dc in ring, join
round 2: [dc, ch {c}, miss 1 st] around, join
round 3: [dc in next dc, ch {c}, miss next ch-{c} sp] {d.one("around", f"{d.off(n)} times")}, join
round 4: [dc in next dc, {deep}, miss next ch-{c} sp] {d.one("around", f"{n} times")}, join
round 5: {last}, join
"""


def net(d: Dice) -> str:
    """Netting: loops over loops, chains of chains, and the chain at the turn."""
    n, c = d.n(2, 5), d.n(3, 6)
    turn = d.one(f"ch {c}", f"ch {c}, turn", f"ch {c} as dtr", "")
    last = d.one(f"dc in next ch-{c} sp", "dc in last st", "tr in last st")
    into = d.one("dc in", "dc in 2nd ch of", "3 dc in") + f" next ch-{c} sp"
    return f"""{HEAD}part net: flat
start: ch {4 * n + 2}
row 1: dc in 2nd ch from hook, [ch {c}, miss 3 ch, dc in next ch] {d.one("across", f"{n} times")}
row 2: {turn}, [ch {c}, {into}] {d.one("across", f"{d.off(n)} times")}
row 3: [{d.one("ch 2, ", "")}{into}] {d.n(n - 1, n)} times, {last}
row 4: dc in each st {d.one("and ch ", "")}across
""".replace("row 2: , ", "row 2: ")


def corner_to_corner(d: Dice) -> str:
    """Blocks that grow from a corner, down chains made in the row itself."""
    r = d.n(2, 5)
    return f"""{HEAD}stitch block: sl st in next ch-3 sp, ch 3, 3 tr in same sp, height tr
part cloth: flat
start: ch 6
row 1: miss 3 ch as tr, {d.off(3)} tr
rows 2-{r} as r: ch 6, tr in 4th ch from hook, 2 tr, {{r - 1}} block = {{r - 1}} blocks
next row: {r - 1} block, {d.one("sl st in next ch-3 sp", "block")}
"""


def odds(d: Dice) -> str:
    """Picots, slip stitches, turning in words, a new first place in a row."""
    n = d.n(6, 10)
    row2 = d.one(
        "[2 dc, ch-3 picot] across",
        "sl st in each st across",
        "move to 3rd st, ch 1, [dc] across",
        "2 sl st, [dc] across",
        "[dc, ch 2, miss 1 st] across",
        "crab dc in each st across",
        "ch 3, [dc, ch 2] across",
    )
    row3 = d.one(
        "dc in each st across",
        "do not turn, ch 1, [dc] across",
        "turn, ch 1, [dc] across",
        "[fpdc] across",
        "tr in first st, [dc] across",
        "[dc in next ch-2 sp] across",
        "[dc] to last 2 sts, dc in each of last 2 sts",
        "2 dc in last st",
    )
    return f"""{HEAD}part bit: flat
start: {n} foundation tr
row 1: ch 1, {d.n(2, 3)} dc, [tr] across{d.one(", do not turn", ", turn", "")}
row 2: {row2}
row 3: {row3}
row 4: ch 1, {d.n(1, 3)} dc in next dc, [htr] across
"""


FRAMES: tuple[Callable[[Dice], str], ...] = (
    openings,
    granny,
    mesh,
    shells,
    gaps,
    oval,
    edges,
    left,
    markers,
    sized,
    repeats,
    spiral,
    joins,
    spikes,
    overlays,
    net,
    corner_to_corner,
    odds,
)


@st.composite
def framed_as(draw: Draw, frame: Callable[[Dice], str]) -> str:
    """A frame filled in."""
    return frame(Dice(draw))
