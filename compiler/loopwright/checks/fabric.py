"""Fabric: what a gauge says of work that counts right and still does not lie, fit or close.

The facts are found where the fabric is measured; here they are worded. All of it is advice: gauges
are given to half a stitch, yarn gives, and makers leave the tables on purpose. So every threshold
is wide, and each rule says what it is and where it comes from.
"""

from __future__ import annotations

from loopwright.checks.told import Told, each, number, plural, stitches
from loopwright.diagnostics import ADVICE, Diagnostic, rule
from loopwright.trade.stitches import Stitch
from loopwright.trade.terms import abbreviation

FABRIC = "fabric"


@rule("turning-chain-height", FABRIC, ADVICE)
def turning_chain_height(told: Told) -> Diagnostic:
    """The chain that begins a row is much shorter or taller than the row.

    A chain that is too short draws the edge in, one that is too tall stands out as a loop. The
    usual chain is 1 for a US sc (UK dc), 2 for hdc (htr), 3 for dc (tr), 4 for tr (dtr); many
    designers work one more or one less on purpose, so advice is given from two on, and in rows of
    post stitches, which are lower, from three.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        gauge net: 14 sts and 8 rows to 10 cm in tr
        part swatch: flat, gauge net
        start: ch 16
        row 1: miss 3 ch as tr, tr in each ch across = 14 sts
        row 2: ch 1, tr in each st across = 14 sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        gauge net: 14 sts and 8 rows to 10 cm in tr
        part swatch: flat, gauge net
        start: ch 16
        row 1: miss 3 ch as tr, tr in each ch across = 14 sts
        row 2: ch 3, tr in each st across = 14 sts
    """
    fact = told.fact
    usual = number(fact, "usual")
    short = number(fact, "chains") < usual
    effect = "lower than its stitches, and draws them in"
    if not short:
        effect = "taller than its stitches, and stands out"
    word = "round" if "round" in fact.row else "row"
    others = number(fact, "others")
    also = f" So do {others} more of this part." if others > 1 else ""
    also = " So does 1 more of this part." if others == 1 else also
    name = _stitch(told, "stitch")
    text = f"A {word} of {name} begins with ch {fact.get('chains')} here, which is {effect}.{also}"
    return told.say(text, f"The usual chain for {name} is ch {usual}.")


@rule("edge-flares", FABRIC, ADVICE)
def edge_flares(told: Told) -> Diagnostic:
    """More stitches are picked up along an edge than lie flat on it.

    The band stands out in waves, and no blocking takes them away. Along row ends the published
    rates are 1 stitch to a row of US sc (UK dc), 3 to two rows of hdc (htr), 2 to a row of dc (tr),
    3 to one of tr (dtr). Advice is given where both that rate and the two gauges say a quarter too
    many.

    Breaks:
        pattern: Gull Collar
        terms: UK
        gauge plain: 16 sts and 18 rows to 10 cm in dc
        part cloth: flat, gauge plain
        start: ch 17
        row 1: dc in 2nd ch from hook, dc in each ch across = 16 sts
        row 2: ch 1, dc in each st across = 16 sts
        repeat row 2: until 18 rows
        part band: flat, gauge plain
        start: along row ends of cloth
        row 1: ch 1, 30 dc evenly = 30 sts
    Keeps:
        pattern: Gull Collar
        terms: UK
        gauge plain: 16 sts and 18 rows to 10 cm in dc
        part cloth: flat, gauge plain
        start: ch 17
        row 1: dc in 2nd ch from hook, dc in each ch across = 16 sts
        row 2: ch 1, dc in each st across = 16 sts
        repeat row 2: until 18 rows
        part band: flat, gauge plain
        start: along row ends of cloth
        row 1: ch 1, 16 dc evenly = 16 sts
    """
    return _picked_up(told, "too many for it: the edge flares", "frilled")


@rule("edge-gathers", FABRIC, ADVICE)
def edge_gathers(told: Told) -> Diagnostic:
    """Fewer stitches are picked up along an edge than lie flat on it.

    The band pulls the edge together, and the piece bulges beside it. The rates are those of
    `edge-flares`; advice is given where both the rate and the two gauges say a fifth too few.

    Breaks:
        pattern: Gull Collar
        terms: UK
        gauge plain: 16 sts and 8 rows to 10 cm in tr
        part cloth: flat, gauge plain
        start: ch 18
        row 1: miss 3 ch as tr, tr in each ch across = 16 sts
        row 2: ch 3, tr in each st across = 16 sts
        repeat row 2: until 12 rows
        part band: flat, gauge plain
        start: along row ends of cloth
        row 1: ch 1, dc in each of next 12 row ends = 12 sts
    Keeps:
        pattern: Gull Collar
        terms: UK
        gauge plain: 16 sts and 8 rows to 10 cm in tr
        part cloth: flat, gauge plain
        start: ch 18
        row 1: miss 3 ch as tr, tr in each ch across = 16 sts
        row 2: ch 3, tr in each st across = 16 sts
        repeat row 2: until 12 rows
        part band: flat, gauge plain
        start: along row ends of cloth
        row 1: ch 1, 2 dc in each of next 12 row ends = 24 sts
    """
    return _picked_up(told, "too few for it: the edge gathers", "shaped")


def _picked_up(told: Told, effect: str, word: str) -> Diagnostic:
    fact = told.fact
    many = told.each("many")
    if fact.get("rate"):
        on = plural(told.each("places"), "row end")
    else:
        on = f"{stitches(told.each('places'))} of another part"
    text = f"{stitches(many)} are worked along {on}"
    if fact.get("length"):
        text += f" ({told.each('wide')} of stitches to {told.each('length')} of edge)"
    hints = [f"About {stitches(told.each('fits'))} lie flat here."]
    if fact.get("rate"):
        name = _stitch(told, "stitch")
        rate = told.each("rate")
        hints[0] = (
            f"About {stitches(told.each('fits'))} lie flat here; the usual rate along ends of"
            f" {name} comes to {rate}."
        )
    hints.append(f"If that is meant, write `{word}` on the part's line.")
    return told.say(f"{text}, which is {effect}.", *hints)


@rule("round-ruffles", FABRIC, ADVICE)
def round_ruffles(told: Told) -> Diagnostic:
    """Rounds that grow from a middle, or about a chain, grow by more than lies flat.

    A flat round is longer than the one before by 2 pi times its height (a square by 8 times, a
    hexagon by 7). Rounds that grow faster have no room, and wave. How much is too much is read off
    the published flat circles (US sc 6 to 10 a round, hdc 8 to 12, dc 10 to 15): about a quarter
    more than the gauge's own. An oval may grow by a third more than that, as its ends are
    published. Openwork, and parts that are `frilled` or `shaped`, are left alone.

    Breaks:
        pattern: Limpet Coaster
        terms: US
        gauge disc: 16 sts and 18 rounds to 10 cm in sc
        part disc: in a spiral, gauge disc
        start: magic ring
        round 1: 9 sc in ring = 9 sts
        rounds 2-7 as r: [{r - 2} sc, sc inc] 9 times = {9 * r} sts
    Keeps:
        pattern: Limpet Coaster
        terms: US
        gauge disc: 16 sts and 18 rounds to 10 cm in sc
        part disc: in a spiral, gauge disc, frilled
        start: magic ring
        round 1: 9 sc in ring = 9 sts
        rounds 2-7 as r: [{r - 2} sc, sc inc] 9 times = {9 * r} sts
    """
    word = "frilled` (it ruffles) or `shaped` (it is no flat piece: a hat, a bowl)"
    return _growing(told, "and lying flat it has room for", "the part ruffles", word)


@rule("round-cups", FABRIC, ADVICE)
def round_cups(told: Told) -> Diagnostic:
    """Rounds that grow from a middle to the end grow by less than lies flat.

    Rounds that grow too slowly pull together, and the piece stands up like a bowl. The limits are
    those of `round-ruffles`. Advice is given only for a part that grows up to its last round and
    that no other part goes on from: a crown that goes over into the sides of a hat is meant to
    curve, and what is meant for a bowl is `shaped`.

    Breaks:
        pattern: Limpet Coaster
        terms: UK
        gauge disc: 14 sts and 8 rounds to 10 cm in tr
        part disc: in rounds, gauge disc
        start: magic ring
        round 1: ch 3 as tr, 7 tr in ring, join = 8 sts
        rounds 2-6 as r: ch 3, [{r - 2} tr, tr inc] 8 times, join = {8 * r} sts
    Keeps:
        pattern: Limpet Coaster
        terms: UK
        gauge disc: 14 sts and 8 rounds to 10 cm in tr
        part disc: in rounds, gauge disc, shaped
        start: magic ring
        round 1: ch 3 as tr, 7 tr in ring, join = 8 sts
        rounds 2-6 as r: ch 3, [{r - 2} tr, tr inc] 8 times, join = {8 * r} sts
    """
    return _growing(told, "and a flat one would be", "the part cups", "shaped`")


def _growing(told: Told, room: str, effect: str, word: str) -> Diagnostic:
    fact = told.fact
    kind = f"motif with {fact.get('corners')} corners" if fact.get("corners") else "disc"
    if fact.get("oval"):
        kind = "oval"
    text = (
        f"This round is {told.each('around')} around, {room} {told.each('room')}: {effect}."
        f" A flat {kind} of {_stitch(told, 'stitch')} grows by about {told.each('each')} stitches"
        f" a round at this gauge, this one by {told.each('grows')}."
    )
    return told.say(
        text,
        f"Grow by about {told.each('each')} stitches a round.",
        f"If that is meant, write `{word} on the part's line.",
    )


@rule("top-stays-open", FABRIC, ADVICE)
def top_stays_open(told: Told) -> Diagnostic:
    """A last round is gathered that is too wide for a thread to close.

    Stitches that are drawn up bunch, and keep about a quarter of their width; a hole of more than
    1.5 cm is left in the middle, and shows. Both figures are common practice without a source.

    Breaks:
        pattern: Lantern Cap
        terms: UK
        gauge lamp: 16 sts and 9 rounds to 10 cm in tr
        part cap: in rounds, gauge lamp
        start: ch 80, join into ring
        round 1: ch 3, tr in each ch around, join = 80 sts
        round 2: ch 3, [tr2tog] around, join = 40 sts
        gather: last round
    Keeps:
        pattern: Lantern Cap
        terms: UK
        gauge lamp: 16 sts and 9 rounds to 10 cm in tr
        part cap: in rounds, gauge lamp
        start: ch 80, join into ring
        round 1: ch 3, tr in each ch around, join = 80 sts
        round 2: ch 3, [tr4tog] around, join = 20 sts
        gather: last round
    """
    text = (
        f"The last round is {stitches(told.each('stitches'))}, {told.each('around')} around: drawn"
        f" up, it leaves a hole of about {told.each('hole')}."
    )
    return told.say(
        text, f"Decrease to {told.each('most')} stitches or fewer before it is gathered."
    )


@rule("size-off-measure", FABRIC, ADVICE)
def size_off_measure(told: Told) -> Diagnostic:
    """A part comes out at another size than the pattern says.

    A designer states what a part comes out at, or makes a count for a length; a maker who meets
    the gauge gets what the gauge makes of the stitches. A difference of more than 1 in 14, half-way
    to the next size of a published range of hats (14, 16, 18 in), and of more than 1 cm is told.

    Breaks:
        pattern: Tideline Band
        terms: US
        gauge rib: 5 sts to 3 in in sc blo
        part band: in rounds, gauge rib
        start: ch 31, join into ring
        round 1: ch 1, sc in each ch around, join = 31 sts
        comes out at: 21.5 in around
    Keeps:
        pattern: Tideline Band
        terms: US
        gauge rib: 5 sts to 3 in in sc blo
        part band: in rounds, gauge rib
        start: ch 31, join into ring
        round 1: ch 1, sc in each ch around, join = 31 sts
        comes out at: 18.5 in around
    """
    fact = told.fact
    dimension, gauge = fact.get("dimension"), fact.get("gauge")
    found, wanted = _lengths(told, "found"), _lengths(told, "wanted")
    if fact.get("count") is None:
        text = f"At the gauge `{gauge}` this part comes out at {found}; {wanted} {dimension} is stated."
        return told.say(
            text,
            f"If gauge and stitches are right, write `comes out at: {_plain(_every(told))} {dimension}`.",
            "If the size is right, the part needs another number of stitches or rows.",
        )
    count, value = fact.get("count"), told.each("value")
    text = (
        f"`{count}` is made for {wanted}, and its {value} come to {found} at the gauge `{gauge}` of"
        f" the part {fact.part}."
    )
    return told.say(text, _count_hint(told))


def _lengths(told: Told, key: str) -> str:
    """Lengths of the sizes told of, with the unit once: ``25 (31.5) cm``."""
    return _one_unit([str(fact.get(key)) for _, fact in told.facts])


def _one_unit(lengths: list[str]) -> str:
    units = {one.rpartition(" ")[2] for one in lengths}
    if len(units) > 1:
        return each(tuple(lengths))
    return f"{each(tuple(one.rpartition(' ')[0] for one in lengths))} {units.pop()}"


def _every(told: Told) -> str:
    """What a part comes out at in every size: what was stated, where that is not off."""
    lengths = list(map(str, told.fact.get("every")))  # type: ignore[call-overload]
    for size, fact in told.facts:
        lengths[size] = str(fact.get("found"))
    return _one_unit(lengths)


def _count_hint(told: Told) -> str:
    fact = told.fact
    if fact.get("other"):
        return f"Reckon it `at {fact.get('gauge')}`, the gauge that the part is worked at, in place of `at {fact.get('other')}`."
    if number(fact, "multiple") > 1:
        return f"Choose a repeat that is smaller than {fact.get('multiple')} stitches, or another length."
    return "Change the length, or the gauge."


def _plain(text: str) -> str:
    """A length as a number that the notation reads: `18.5 in` for `18½ in`."""
    for sign, decimal in (("¼", ".25"), ("½", ".5"), ("¾", ".75")):
        text = text.replace(sign, decimal)
    return f"0{text}" if text.startswith(".") else text


@rule("gauge-unlikely", FABRIC, ADVICE)
def gauge_unlikely(told: Told) -> Diagnostic:
    """A gauge fits neither the weight of its yarn nor its hook.

    A slip in a gauge (`cm` for `in`, the rows for the stitches) puts every size wrong and breaks no
    count. The trade body's table gives each weight of yarn its stitches over 4 in and its hooks. It
    is a guideline, and makers work firmer or looser on purpose: advice is given where the stitches
    suit neither the yarn nor the hook, nor the weights next to either, or where the hook is more
    than two weights away from the yarn. A toy, or what is stuffed, is worked tight on purpose, and
    its hook may be of three weights finer.

    Breaks:
        pattern: Tideline Swatch
        terms: US
        yarn rock: "wool", weight 4
        hook main: 5.5 mm
        gauge plain: 13 sts and 15 rows to 4 cm in sc, hook main, yarn rock
        part swatch: flat, yarn rock, hook main, gauge plain
        start: ch 14
        row 1: sc in 2nd ch from hook, sc in each ch across = 13 sts
    Keeps:
        pattern: Tideline Swatch
        terms: US
        yarn rock: "wool", weight 4
        hook main: 5.5 mm
        gauge plain: 13 sts and 15 rows to 4 in in sc, hook main, yarn rock
        part swatch: flat, yarn rock, hook main, gauge plain
        start: ch 14
        row 1: sc in 2nd ch from hook, sc in each ch across = 13 sts
    """
    fact = told.fact
    weight = f"weight {fact.get('weight')} ({fact.get('name')})"
    if fact.get("what") == "hook":
        hooks = f"{fact.get('smallest')} to {fact.get('largest')}"
        if not fact.get("largest"):
            hooks = f"{fact.get('smallest')} or more"
        return told.say(
            f"A hook of {told.each('hook')} is far from what a yarn of {weight} is worked with, {hooks}.",
            f"Look at the hook of the gauge `{fact.get('gauge')}` and the weight of `{fact.get('yarn')}` again.",
        )
    least, most = fact.get("least"), fact.get("most")
    usual = f"{least} to {most}" if least else f"{most} or fewer"
    text = (
        f"This gauge is {stitches(told.each('stitches'))} to 4 in; a yarn of {weight} is usually worked"
        f" at {usual}."
    )
    return told.say(
        text,
        f"Look at the numbers of the gauge `{fact.get('gauge')}`, their unit, and the weight of `{fact.get('yarn')}` again.",
    )


def _stitch(told: Told, key: str) -> str:
    """A stitch of the facts in the pattern's terms, in every size."""
    found = []
    for _, fact in told.facts:
        stitch = fact.get(key)
        found.append(abbreviation(stitch, told.terms) if isinstance(stitch, Stitch) else "stitches")
    return each(tuple(found))
