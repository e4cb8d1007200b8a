"""More frames filled in at random, as in ``features``: the rest of the notation's tables."""

from __future__ import annotations

from collections.abc import Callable

from properties.features import HEAD, Dice

BOTH = 'yarn slate: "wool"\nyarn foam: "wool"\n'


def run_on(d: Dice) -> str:
    """Spiral rounds that end after their marker, or before it."""
    n, k, left = d.n(3, 7), d.n(1, 3), d.n(1, 3)
    unit = d.one("dc inc", "tr, ch 2", "2 dc in next st, ch 1", "dc", "ch 2 as dc, tr in same st")
    on = d.one(
        f"{k} dc", "dc inc", "dc2tog", "skip 1 st, dc", f"[dc, dc inc] {k} times", "dc, turn"
    )
    far = d.one(f"dc in next {d.one('st', 'dc', 'tr')}", "2 dc in next ch-2 sp", "ch 2, dc", "fpdc")
    first = d.one(f"[dc inc] around, run on, {on}", f"[{unit}] {d.off(n)} times, run on, {far}")
    begin = d.one("", "ch 1, ", f"{k} dc, ", "dc2tog, ")
    third = d.one(
        f"[dc] to last {left} sts, leave {d.off(left)} unworked",
        f"[dc] around, run on, {on}",
        f"dc in each st around, run on, {far}, leave {left} unworked",
        "[dc, tr inc] around, run on",
        f"{n} dc, run on, dc",
        f"[dc] around, run on, dc in {d.one('first', '2nd', 'last')} st",
    )
    return f"""{HEAD}part ball: in a spiral
start: {d.one("magic ring", "ch 4, join into ring")}
round 1: {n} dc in ring{d.one("", "", f", run on, {k} dc")}
round 2: {first}
round 3: {begin}{third}
round 4: {d.one("[dc] around", f"{2 * n} dc", "[dc] around, run on, dc", "[dc2tog] around")}
repeat last round: {d.n(0, 2)} more times
part trim: in rounds
start: along last round of ball
round 1: {d.one("[dc] around", f"{2 * n} dc")}, join
"""


def marked_on(d: Dice) -> str:
    """Markers, own stitches, spaces and openings on both sides of a spiral's end."""
    n, k = d.n(4, 7), d.n(1, 3)
    on = d.one(
        "[dc] to marked side",
        "dc in each st to marked side, 2 dc in marked side",
        "dc in each ch-2 sp to marked side",
        "2 wave",
        "wave in next ch-2 sp",
        "dc in 1st ch of next ch-2 sp",
        f"opening slot over {k} sts, dc",
        "dc in next gap",
        f"move to {d.one('2nd', '3rd')} st, dc",
        "dc in same st",
        f"leave {k} unworked, dc",
        "tr in next st 2 rows below",
        "dc in base of first ch-2",
    )
    unit = d.one("dc", "wave", "dc, ch 2")
    wave = d.one("(tr, ch 2, tr) in next st", "ch 2, tr", "tr, dc in same st")
    return f"""{HEAD}stitch wave: {wave}
part cup: in a spiral
start: {n} foundation dc
round 1: {d.one("ch 1, ", "")}{k} dc, mark side, [{unit}] around, {d.one("run on, ", "")}{on}
round 2: [{d.one("dc", "dc, dc inc")}] around
part lid: in a spiral
start: over next {k} sts of last round of cup
round 1: [dc] around{d.one("", ", run on, dc", ", run on, 2 dc, leave 1 unworked")}
round 2: {d.off(k)} dc{d.one("", ", join")}
round 3: {d.one("dc in each st around", "[dc inc] around, join")}
"""


def bases(d: Dice) -> str:
    """What a chain stands on, in rounds and in rows."""
    manner, join = d.rounds()
    n, c = d.n(2, 5), d.n(1, 3)
    which = d.one("first", "first", "next")
    chain = d.off(3 + c)
    round_1 = d.one(
        f"ch {3 + c} as (tr, ch {c}), [skip 1 st, tr, ch {c}] {n - 1} times, skip 1 st",
        f"ch {3 + c} as tr, {2 * n - 1} tr",
        f"ch {3 + c}, skip 2 sts, [dc] around",
        f"dc, [ch {3 + c}, skip 1 st, dc] {n - 1} times, ch {c}, skip 1 st",
    )
    word = d.one("dc", "2 dc", "fptr", "tr blo", "(dc, ch 1, dc)")
    where = "around" if word == "fptr" else "in"
    base = f"{word} {where} base of {which} ch-{chain}"
    round_2 = d.one(
        f"{base}, 2 dc in each ch-{c} sp around",
        f"{base}, [dc] around",
        f"dc, {base}, [dc] around",
        f"[dc] around, {base}",
        f"ch {chain} as tr, [dc] around, {base}",
        f"ch {chain}, skip 2 sts, [dc] around, {base}",
        f"{base}, {n} dc, leave the rest unworked",
        f"dc in top of ch-{chain}, {base}, [dc] around",
    )
    return f"""{HEAD}part disc: {manner}
start: {2 * n} foundation dc
round 1: {round_1}{join}
round 2: {d.one("ch 1, ", "")}{round_2}{join}
round 3: {d.one("", "ch 1, ")}[dc] around{join}
"""


def bases_flat(d: Dice) -> str:
    """The same, turned, and where a chain stands in a space, in a ring or on skipped chains."""
    n, c = d.n(3, 7), d.n(1, 2)
    row_1 = d.one(
        f"skip {3 + c} ch as (tr, ch {c}), tr in each ch across",
        "skip 3 ch as tr, tr in each ch across",
        "dc in 2nd ch from hook, dc in each ch across",
    )
    row_2 = d.one(
        f"ch {3 + c} as (tr, ch {c}), [tr] across",
        "ch 3 as tr, [tr] across",
        f"ch {3 + c}, skip 2 sts, [tr] across",
        f"dc, ch {3 + c}, skip 2 sts, [tr] across",
        f"(dc, ch {c}) in first st as tr, [tr] across",
    )
    chain = d.one("3", str(3 + c), str(c))
    base = f"{d.one('tr', 'fptr around', 'dc')} in base of {d.one('next', 'first')} ch-{chain}"
    base = base.replace("around in", "around")
    tail = d.one(f"[dc] to last 1 st, {base}", f"[dc] across, {base}", f"{base}, [dc] across")
    return f"""{HEAD}part cloth: flat
start: ch {n + 4}
row 1: {row_1}
row 2: {row_2}
row 3: {tail}
row 4: ch 1, {d.one("[dc] across", "dc in each st across")}
"""


def striped(d: Dice) -> str:
    """Yarns: stripes, changes within a row, two held together."""
    n, a, b = d.n(3, 8), d.n(1, 2), d.n(1, 3)
    stripes = d.one(
        "", f"stripes: {a} rows slate, {b} rows slate + foam\n", "stripes: 1 row foam\n"
    )
    start, row_1 = d.one(
        f"{n} foundation dc|ch 1, [dc] across",
        f"ch {n + 1}|dc in 2nd ch from hook, with slate + foam, dc in each ch across",
    ).split("|")
    change = d.one(
        "with foam, [dc] across",
        f"{n - 1} dc, with foam, dc",
        "[dc, with foam] across",
        "[with slate, dc, with slate + foam] across",
        f"[dc] to last 1 st, with foam, {d.off(1)} dc",
    )
    again = d.one("2 more times", f"until {d.n(4, 8)} rows", "0 more times")
    return f"""{HEAD}{BOTH}part band: flat, yarn {d.one("slate", "foam", "slate + foam")}
{stripes}start: {start}
row 1: {row_1}
row 2: {d.one("ch 1, ", "")}{change}
repeat rows {d.one("1-2", "2-2", "2")}: {again}
next row: {d.one("ch 2, ", "with slate, ")}tr in each st across
""".replace("rows 2:", "row 2:").replace("rows 1-2", "last 2 rows")


def seams(d: Dice) -> str:
    """Two edges sewn together, with gaps that something is worked around."""
    n, r, k = d.n(4, 8), d.n(3, 5), d.n(1, 3)
    one, two = (d.one("last row", "start", "row ends", "other row ends", "last row") for _ in "12")
    other = d.one(" of back", " of back", "")
    runs = d.one("", f", {k} sts, opening slot over {n - k - 1}, {d.off(1)} sts", f", {n} sts")
    row = d.one("[dc] across", "dc inc, [dc] across", "[dc, ch 1] across", "2 sl st, [dc] across")
    after = f"""part tab: in rounds
start: around slot
round 1: {d.one("[dc] around", f"{2 * (n - k - 1)} dc")}, join
"""
    return f"""{HEAD}part back: flat
start: {d.one(f"ch {n + 1}", f"{n} foundation dc")}
row 1: {d.one("dc in 2nd ch from hook, [dc] across", "[dc] across")}
rows 2-{r}: ch 1, [dc] across
part front: flat
start: ch {d.off(n) + 1}
row 1: dc in 2nd ch from hook, [dc] across
row 2: ch 1, {row}
rows 3-{r}: ch 1, [dc] across
seam: {one} to {two}{other}{d.one(", sl st", "")}{runs}
{after if "opening" in runs else ""}"""


def rows_and_rounds(d: Dice) -> str:
    """A part with rows and rounds, a setup row, lists of rows, sides, rows as others."""
    manner = d.one("flat", "in rounds", "in a spiral", "in turned rounds")
    n = d.n(5, 9)
    three = d.one("[tr, dc] across", "2 tr, [dc] across", "dc in each tr across")
    join = d.one("", ", join", ", join, turn", ", join")
    last = d.one(
        f"row 7: {three}",
        "rows 7-8: as rows 2-3",
        "rows 7-9: as rows 3-4",
        "row 7: as row 4",
        "rows 7 and 9: ch 1, dc, [tr] across\nrow 8: ch 2, htr in each st across",
        "repeat rows 3-4: 2 more times",
        "next row: 2 dc, [tr] across",
    )
    five = d.one("row 5: [tr] across", "round 5: ch 1, 2 dc, [tr] around" + join)
    six = d.one("row 6: dc, [htr] across", "round 6: 2 dc, [htr] around" + join)
    return f"""{HEAD}part piece: {manner}
start: ch {n + 1}
setup {d.one("row (WS)", "row", "row (RS)")}: dc in 2nd ch from hook, tr, dc in each ch across
row 1 (RS): ch 1, {d.one("dc, [tr] across", "dc in each st across")}
rows 2 and 4{d.one("", " (WS)")}: ch 1, 2 dc, [{d.one("tr", "dc")}] across
row 3: {three}{d.one("", ", do not turn", ", turn")}
{five}
{six}
{last}
"""


def chain_stitches(d: Dice) -> str:
    """The designer's own stitches that begin with a chain, or hold one another."""
    n = d.n(2, 5)
    window = d.one("ch 2, tr", "ch 2, skip 2 sts, tr", "ch 3 as tr, tr", "skip 1 st, ch 1, tr")
    takes = 3 if "skip 2" in window else 2 if "," in window and "skip 1" in window else 1
    first = d.one("ch 3 as tr, ", "", "ch 3, ", "tr, ")
    into = "[dc] across" if "skip" in window else "pair in first st, [dc] across"
    within = "window, dc" if "skip" in window else "(window, ch 1) in next st"
    row_1 = d.one(f"{first}{n} window", f"{first}[window] across", f"{first}[window, pair] across")
    row_2 = d.one(
        "[window] across",
        "dc in each window across",
        "dc in each st and ch across",
        f"dc in next window, {n} pair",
        "[dc in next ch-2 sp] across",
        f"dc, {n} window",
    )
    return f"""{HEAD}stitch window: {window}, height tr
stitch pair: {d.one("2 window", "window, dc", "dc, tr in same st", within)}
part net: flat
start: {takes * n + d.n(0, 1)} foundation tr
row 1: {row_1} = {d.off(n)} windows{d.one("", f", {n} tr", ", 0 pairs")}
row 2: {row_2}
row 3: {d.one("ch 1, ", "")}{d.one("[dc] across", "[pair] across", into, into)}
"""


def cables(d: Dice) -> str:
    """Back to what was skipped, around posts, several at a time."""
    k, b = d.n(1, 3), d.one("fp", "bp")
    post = f"{b}{d.one('tr', 'dtr')}"
    second, third = d.one("2nd", "1st"), d.one("3rd", "2nd")
    cross = d.one(
        f"skip 2 sts, 2 {post}, 2 {post} around 2 skipped sts",
        f"skip 2 sts, 2 tr, 2 tr in {d.one('2', '2', '3')} skipped sts",
        f"skip 2 sts, 2 {post}, {post} around {second} skipped st, {post} around skipped st",
        f"skip 3 sts, tr, tr in {third} skipped st, tr in 1st skipped st, tr in skipped st",
        f"{post} around each of next 4 sts",
        f"{post} around next 2 sts, {b}tr2tog, {post} around next st",
        f"tog({post}, tr), tog(tr, {post}, dc) in next st, 2 {post}2tog",
        "skip next 2 sts, 2 tr in skipped st, 2 dtr",
    )
    return f"""{HEAD}part rope: {d.one("flat", "in a spiral", "flat")}
start: {4 * k + 2} foundation {d.one("tr", "htr")}
row 1: {d.one("ch 3, ", "")}tr, [{cross}] {d.one("to last 1 st", f"{d.off(k)} times")}, tr
row 2: {d.one("ch 1, ", "ch 3 as tr, ")}{d.one("[dc] across", f"[{cross}] across")}
row 3: {post} around each {d.one("tr", "st", post)} across
"""


def sides(d: Dice) -> str:
    """Row ends, several at a time, and edges one after another."""
    manner, join = d.rounds()
    n, r, k = d.n(2, 5), d.n(3, 7), d.n(1, 3)
    begin = d.one(
        "along row ends of band",
        f"along last row of band then ch {k} then along start of band",
        f"along row ends of band then ch {k} then along other row ends of band",
        "over last row of band from 2nd st then along row ends of band",
        f"over next {k} sts of last row of band then over next {k} sts of last row of band",
        "ch 3, join into ring then along start of band",
    )
    row = d.one(
        f"2 dc in each of next {d.off(r)} row ends",
        "dc in each row end around",
        f"[dc in next row end] {r} times, [dc] around",
        "dc in next ch, [dc] around",
        f"dc in each of next {r - 1} row ends, 3 dc in next row end, [dc] around",
        "dc in each st to last row end, dc in last row end",
        f"[dc] around, {k} dc in last row end",
    )
    return f"""{HEAD}part band: flat
start: {d.one(f"{n} foundation dc", f"ch {n + 3}")}
row 1: {d.one("[dc] across", "[dc] across", "skip 3 ch as tr, tr in each ch across")}
rows 2-{r}: ch 1, {d.one("[dc] across", "dc in each st across")}
part lace: {manner}
start: {begin}
round 1: {d.one("ch 1, ", "")}{row}{join}
round 2: {d.one("[dc] around", "[2 dc, dc inc] around", "dc2tog, [dc] around")}{join}
"""


def stated(d: Dice) -> str:
    """Every way of saying what a row comes to."""
    n = d.n(3, 6)
    row = d.one(
        f"ch 3 as tr, {2 * n - 1} tr = {2 * n - d.n(0, 1)} tr not counting turning ch",
        f"[dc, ch 2, skip 1 st] across = {3 * n + d.n(0, 1)} sts counting ch",
        f"[dc, 3-tr bobble] {n} times = {n} dc, {d.off(n)} bobbles",
        f"[dc, 5-tr cluster] across = {2 * n} sts, {d.off(n)} 5-tr clusters",
        f"[2 dc, ch-3 picot] across = {d.off(2 * n)} sts, {n} picots",
        f"2 ch-3 picot, [dc] across = {2 * n} dc, {d.n(1, 2)} picots",
        f"{2 * n} sl st = {2 * n} sl sts",
        f"sl st, [dc] across = {2 * n - d.n(0, 1)} sts",
        f"[dc, ch 1, skip 1 st] across = {n} sps, {n} ch, {d.off(n)} ch-1 sps",
        f"[3-htr puff, 4-tr popcorn] across = {n} puffs, {n} popcorns, {2 * n + d.n(0, 1)} sts",
        f"[tuft] across = {2 * n} tufts, {d.n(0, 1)} tr, {4 * n} sts",
        f"[dc, tuft] across = {n} tufts, {d.off(n)} dc",
        f"[fpdc, bpdc] across = {n} fpdc, {n} bpdc, {2 * n} sts",
        f"[dc2tog] across = {n} dc2tog, {d.n(0, 1)} dc",
        f"[crab dc] across = {2 * n} dc",
        f"[dc] across = {2 * n} ({2 * n + d.n(0, 1)}) sts",
        f"[dc] across = {2 * n} sts (a), {d.off(2 * n)} sts (b)",
    )
    last = d.one(
        "[dc] across",
        "dc in each bobble across, dc",
        "dc in next sl st, [dc] across",
        "[dc in next puff, dc] across",
        "[dc in next 5-tr cluster, dc] across",
        "dc in each tuft across",
        f"dc in next dc, dc in last {n} sts",
    )
    return f"""{HEAD}sizes: a (b)
stitch tuft: 2 tr in next st, height tr
part swatch: flat
start: {2 * n} foundation dc
row 1: {row}
row 2: ch 1, {last}
"""


def chains(d: Dice) -> str:
    """Certain chains of certain spaces, and chains among stitches."""
    n, c = d.n(2, 5), d.n(2, 4)
    ch, last = d.one("1st", "2nd", "3rd"), d.one("st", "2 sts")
    each = d.one("dc in each st", "[dc]", "2 dc in each dc")
    into = d.one(
        f"[dc in {ch} ch of next ch-{c} sp] across",
        f"dc in {ch} ch of first ch-{c} sp, dc in each sp across",
        f"dc in next sp, 2 dc in {ch} ch of same sp, dc in each ch-{c} sp across",
        f"dc in {ch} ch of last ch-{c} sp",
        f"[2 dc, dc in each of next {d.off(c)} ch] across",
        "dc in each st and ch to last 2 sts, dc in last 2 sts",
        f"dc in each ch across{d.one('', ', dc in last st')}",
        f"[dc] to next ch-{c} sp, (dc, ch 1, dc) in each ch-{c} sp across",
        f"{each} to next {d.one('ch', 'st')}, dc in each ch across",
        f"dc in each of next {d.off(c)} ch, dc in each ch to next {d.one('st', 'ch')}, [dc] across",
        f"dc in each st to next sp, dc in each ch-{c} sp to last {last}, dc in each of last 2 sts",
        f"(2 dc, ch 1) in each of next {n} sts, [dc] across",
        f"dc in next {n} dc, [skip next sp, dc] across",
        f"dc in next ch-{c} sp, skip next {d.n(1, 2)} sts, [dc] across",
        "skip next sp, dc in each dc across",
        "dc in first sp, dc in last sp",
        "dc in each of next 2 ch-2 sps, dc in last sp",
    )
    return f"""{HEAD}part net: {d.one("flat", "flat", "in a spiral")}
start: {2 * n + 1} foundation tr
row 1: {d.one("ch 1, ", "")}[dc, ch {c}, skip 1 st] {d.one(f"{n} times", "to last 1 st")}, dc
row 2: {d.one("", "ch 1, ", "ch 4, ", f"ch {c + 1}, skip 1 st, ")}{into}
row 3: [dc] across
"""


def first_places(d: Dice) -> str:
    """A certain stitch from here, a new first place, a chain made in the row and worked back."""
    manner, join = d.rounds()
    n, k = d.n(6, 10), d.n(1, 3)
    nth = d.one("1st", "2nd", "3rd")
    row = d.one(
        f"dc, tr in {nth} st, [dc] around",
        f"tr in {nth} dc, 2 tr in same st, [dc] around",
        f"move to {nth} st, ch 3 as tr, [dc] around",
        f"move to {nth} st, tr in same st, [dc] to last {k} sts, tr, leave the rest unworked",
        f"move to next ch-{k} sp, ch 3 as tr, tr in same sp, [dc] around",
        f"{k} dc, ch {k + 1}, dc in 2nd ch from hook, {k} dc, [dc] around",
        f"ch {k + 3}, tr in 4th ch from hook, tr in each of next {k} ch, [dc] around",
        f"[dc, ch 3, dc in {nth} ch from hook, dc, dc] around",
        f"dc in first st, [tr] around, {d.one('tr', 'fptr around', '2 dc')} in first st",
        f"tr in last st, {n - 1} dc",
        f"(dc, ch {k}) in first st as tr, [tr] around",
        f"ch {k} as dc, dc in same st, [dc] around",
    ).replace("around in first", "around first")
    return f"""{HEAD}part ring: {manner}
start: {d.one("magic ring", "ch 5, join into ring")}
round 1: {d.one("", f"ch {k}, ", "ch 3 as tr, ")}{n} dc in ring, ch {k}, dc in ring{join}
round 2: {row}{join}
round 3: {d.one("ch 1, ", "")}{d.one(f"tr in {nth} st, ", "")}[dc] around{join}
round 4: {d.one("dc in each dc around", "[dc, ch 1] around", f"[{k} dc] around")}{join}
"""


def turned(d: Dice) -> str:
    """Joined rounds that are turned, over what was made of spaces, chains and gaps."""
    n, c = d.n(3, 6), d.n(1, 3)
    ending = d.one("around", f"{d.off(n - 1)} times")
    two = d.one(
        f"ch {c + 3} as (tr, ch {c}), skip 1 st, [tr, ch {c}, skip 1 st] {ending}",
        f"[2 dc in next st, ch {c}, skip 1 st] around",
        f"ch 1, [dc, ch {c}, skip 1 st] {n - 1} times, dc, ch 1, skip 1 st, join with tr",
        f"3 dc, mark here, [dc, ch {c}] around",
    )
    three = d.one(
        f"move to next ch-{c} sp, ch 3 as tr, tr in same sp, [2 tr in next ch-{c} sp] around",
        f"dc in same sp, [dc in next ch-{c} sp] {d.one('around', f'{n - 1} times')}",
        "[dc in next gap, skip 1 st] around",
        f"2 dc in first st, [dc] around{d.one('', ', dc in top of ch-3')}",
        "dc in each st to marked here, tr in marked here, [dc] around",
        f"dc in base of first ch-{c + 3}, [dc] around",
        f"dc, opening slot over {c} sts, [dc] around",
    )
    join = (
        ""
        if "join with" in two
        else d.one(", join", ", join", ", join, turn", ", join, do not turn")
    )
    return f"""{HEAD}part ruff: in turned rounds
start: magic ring
round 1: {2 * n} dc in ring, join{d.one("", ", turn")}
round 2: {two}{join}
round 3: {d.one("", "ch 1, ", "turn, ")}{three}, join
round 4: ch 1, {d.one("dc in next tr, ", "2 dc, ")}[dc] around, join
"""


def reckoned(d: Dice) -> str:
    """Numbers that are reckoned: in braces, per size, from counts; and what changes no stitch."""
    a, b, k = d.n(2, 4), d.n(2, 4), d.n(1, 3)
    number = d.one(
        f"{{{a} ^ 2 * {b}}}",
        f"{{({a} + {b}) * 2 - {k}}}",
        f"{{-{k} + body}}",
        f"{{body / {k}}}",
        f"{a * b} ({{body / 2}})",
        f"{a * b} (body)".replace("(body)", "({body})"),
        "body",
    )
    rule = d.one("", ", even", ", odd", f", multiple of {a} plus 1, rounded up", ", rounded down")
    manner, join = d.rounds()
    return f"""{HEAD}sizes: a (b)
gauge plain: {d.n(8, 12)} sts to 10 cm in dc
count wide: {d.n(3, 6)} ({d.n(3, 6)}) cm, at plain sts{rule}
count body: {d.one("wide * 2", f"{2 * a} ({3 * b})", f"wide + {k}")}
part hem: {manner}, {d.one("make 2", "shaped", "frilled", "make 1 (2)")}
start: {d.one("ch body, join into ring", "body foundation dc")}
round 1: dc in each {d.one("st", "st and ch")} around{join} = {d.one("body", number)} sts "a hem"
rounds 2-3 as r: {d.one("[dc] around", f"{{r - {k}}} dc, [dc, dc inc] around", "{2 ^ r} dc")}{join}
next round: {number} dc, leave {d.one("the rest", f"{{{a} * {k}}}")} unworked{join}
gather: last round
"""


def pieces(d: Dice) -> str:
    """Clusters, groups, decreases and own stitches in every sort of place; and worked backwards."""
    n, k = d.n(3, 6), d.n(1, 3)
    manner, join = d.rounds()
    piece = d.one(
        "3-tr cluster", "2 tuft", "tuft", "(tr, ch 1, tr)", "tog(tr, dtr)", "4-tr popcorn", "tr2tog"
    )
    place = d.one(
        "in next ch-2 sp",
        "in each ch-2 sp around",
        f"in each of next {k} sts",
        "in first st",
        "in marked here",
        "in next tr",
        "in each st to next ch-2 sp",
        "in 2nd st",
        "in next gap",
        "in same st",
        "in 1st ch of next sp",
    )
    three = d.one(
        f"{piece} {place}, [dc] around",
        f"{k} dc, {piece} {place}, [dc] around",
        f"[{piece} {place}, dc] around",
        "crab dc in next tr, [crab dc] around",
        f"{k} crab dc, crab dc in next dc, [crab dc] around",
        f"dc, 2 ch-3 picot, {piece} {place}, ch-4 picot, [dc] around",
        f"{n} dc blo evenly",
        f"{{{n}}} dc, dec {k} tr evenly",
    )
    return f"""{HEAD}stitch tuft: {d.one("2 tr in next st", "tr, ch 1, tr in same st")}, height tr
part mat: {manner}
start: {d.one("magic ring", "ch 4, join into ring")}
round 1: ch 3 as tr, {2 * n - 1} tr in ring{join}
round 2: {d.one("", "ch 1, ")}{k} dc, mark here, tr, [ch 2, skip 1 st, tr] around{join}
round 3: {three}{join}
"""


def slipped(d: Dice) -> str:
    """Rows and rounds that slip stitch along to where they begin, and rise there."""
    manner = d.one("flat", "flat", "in rounds", "in turned rounds")
    join = "" if manner == "flat" else ", join"
    n, k = d.n(6, 12), d.n(1, 3)
    slips = d.one(
        f"{k} sl st", f"sl st in next {k} sts", "sl st in each of next 2 sts", "dc, sl st"
    )
    up = d.one("ch 1", "ch 2", "ch 3", "ch 3 as tr", "ch 1, skip 2 sts", "ch 3, skip 2 sts", "")
    first = d.one(
        "htr", "tr in same st", "[dc, tr]", "(tr, ch 1, tr) in next st", "dc inc", "sl st", "dc blo"
    )
    many = d.n(1, 3)
    first += f" {many} times" if first.startswith("[") else ""
    later = d.one(
        "htr in each st to last 2 sts, leave 2 unworked", "[tr] across", "skip next sp, dc"
    )
    return f"""{HEAD}part cap: {manner}
start: {n} foundation dc
row 1: {", ".join(one for one in (slips, up, first, later) if one)}{join}
row 2: ch 1, {d.one("[dc] across", "skip next sp, [dc] across", "dc2tog, [htr] across")}{join}
""".replace("row", "round" if join else "row").replace("across", "around" if join else "across")


RARER: tuple[Callable[[Dice], str], ...] = (
    run_on,
    marked_on,
    bases,
    bases_flat,
    striped,
    seams,
    rows_and_rounds,
    chain_stitches,
    cables,
    sides,
    stated,
    chains,
    first_places,
    turned,
    reckoned,
    pieces,
    slipped,
)
