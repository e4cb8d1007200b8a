"""Patterns whose rounds are so large that a chart draws a wedge of them."""

from __future__ import annotations

from typing import NamedTuple


class Large(NamedTuple):
    """A pattern of one part: the first round of its wedge, of how many repeats in the first size,
    how many of those are drawn, and what its arc says. All worked out by hand: rounds of fewer than
    48 symbols are whole, and a repeat that begins with the start of a round is drawn beside one
    more."""

    text: str
    first: int
    times: int
    drawn: int
    said: str


# Every round has 6 increases; rounds 1 to 7 have 6 to 42 stitches, the start chain and the join.
HAT = Large(
    """pattern: Fathom Hat
terms: US
part hat: in rounds
start: magic ring
round 1: ch 1, 6 sc in ring, join = 6 sts
rounds 2-20 as r: ch 1, [{r - 2} sc, sc inc] 6 times, join = {6 * r} sts
""",
    8,
    6,
    2,
    "work 6 times in each round",
)
# A spiral has neither start chains nor joins; round 8 is the first of 48 stitches.
THROW = Large(
    """pattern: Tidepool Throw
terms: UK
sizes: small (medium, large)
count wedges: 6 (7, 8)
part throw: in a spiral
start: magic ring
round 1: wedges dc in ring = wedges sts
rounds 2-24 as r: [{r - 2} dc, dc inc] wedges times = {wedges * r} sts
""",
    8,
    6,
    2,
    "work 6 (7, 8) times in each round",
)
# The first of twelve repeats begins with the chain and is written by itself; another stands beside
# it.
RUG = Large(
    """pattern: Whirlpool Rug
terms: UK
part rug: in rounds
start: magic ring
round 1: ch 3 as tr, 11 tr in ring, join = 12 sts
round 2: ch 3 as tr, tr in same st, [2 tr in next st] around, join = 24 sts
rounds 3-16 as r: ch 3 as tr, tr in same st, {r - 2} tr, [2 tr in next st, {r - 2} tr] 11 times,
    join = {12 * r} sts
""",
    4,
    12,
    2,
    "work 12 times in each round",
)
# A square of four sides: half of it is drawn, with the first corner as it is begun.
GRANNY = Large(
    """pattern: Long Harbour Square
terms: UK
part square: in rounds
start: ch 4, join into ring
round 1: ch 3 as tr, 2 tr in ring, [ch 2, 3 tr in ring] 3 times, ch 2, join = 12 tr, 4 ch-2 sps
round 2: move to next ch-2 sp, ch 3 as tr, (2 tr, ch 2, 3 tr) in same sp,
    [ch 1, (3 tr, ch 2, 3 tr) in next ch-2 sp] 3 times, ch 1, join = 24 tr, 4 ch-2 sps, 4 ch-1 sps
rounds 3-14 as r: move to next ch-2 sp, ch 3 as tr, (2 tr, ch 2, 3 tr) in same sp,
    [[ch 1, 3 tr in next ch-1 sp] {r - 2} times, ch 1, (3 tr, ch 2, 3 tr) in next ch-2 sp] 3 times,
    [ch 1, 3 tr in next ch-1 sp] {r - 2} times, ch 1, join = {12 * r} tr, 4 ch-2 sps,
    {4 * (r - 1)} ch-1 sps
""",
    3,
    4,
    2,
    "work 4 times in each round",
)
# A hat that goes straight on, and of which more rounds are worked in the larger size.
MAST = Large(
    """pattern: Mast Hat
terms: UK
sizes: small (large)
count wedges: 8 (9)
part hat: in rounds
start: magic ring
round 1: ch 1, wedges htr in ring, join = wedges sts
rounds 2-14 as r: ch 1, [{r - 2} htr, htr inc] wedges times, join = {wedges * r} sts
round 15: ch 1, [htr] around, join = {wedges * 14} sts
repeat round 15: 12 (14) more times
next round: ch 1, [dc blo] around, join = {wedges * 14} sts
""",
    6,
    8,
    2,
    "work 8 (9) times in each round",
)
# Arches, shells and spaces, eight times around.
LACE = Large(
    """pattern: Sea Lace
terms: UK
part lace: in rounds
start: ch 6, join into ring
round 1: ch 1, 16 dc in ring, join = 16 sts
round 2: ch 5 as (tr, ch 2), miss 1 st, [tr, ch 2, miss 1 st] around, join = 8 tr, 8 ch-2 sps
round 3: ch 1, [dc in next tr, 3 dc in next ch-2 sp] around, join = 32 sts
round 4: ch 1, [dc, ch 5, miss 3 sts] around, join = 8 dc, 8 ch-5 sps
round 5: ch 1, [dc in next dc, (2 tr, ch 2, 2 tr) in next ch-5 sp] around, join
round 6: ch 1, [dc in next dc, ch 5, miss 2 sts, (3 tr, ch 2, 3 tr) in next ch-2 sp, ch 5,
    miss 2 sts] around, join
round 7: ch 1, [dc in next dc, 5 dc in next ch-5 sp, miss 3 sts, (3 tr, ch 3, 3 tr) in next ch-2 sp,
    miss 3 sts, 5 dc in next ch-5 sp] around, join
round 8: ch 1, [6 dc, ch 3, miss 3 sts, (4 tr, ch 3, 4 tr) in next ch-3 sp, ch 3, miss 3 sts, 5 dc]
    around, join
round 9: ch 1, [6 dc, 3 dc in next ch-3 sp, ch 2, miss 4 sts, (5 tr, ch 3, 5 tr) in next ch-3 sp,
    ch 2, miss 4 sts, 3 dc in next ch-3 sp, 5 dc] around, join
round 10: ch 1, [9 dc, 2 dc in next ch-2 sp, 5 dc, 3 dc in next ch-3 sp, 5 dc, 2 dc in next ch-2 sp,
    8 dc] around, join
""",
    4,
    8,
    2,
    "work 8 times in each round",
)
LARGE = {
    "hat": HAT,
    "throw": THROW,
    "rug": RUG,
    "granny": GRANNY,
    "mast": MAST,
    "lace": LACE,
}

# The same stitches as those of the hat, every round back over the one before.
MAT = HAT._replace(text=HAT.text.replace("in rounds", "in turned rounds"))
# Its last round is worked backwards: 19 rounds of six increases have 114 stitches.
CRAB = HAT._replace(
    text=HAT.text.replace("rounds 2-20", "rounds 2-19")
    + "round 20: ch 1, [crab sc] around, join = 114 sts\n"
)
# A square that is turned slip stitches back over a side of it before every round.
TURNED = GRANNY._replace(text=GRANNY.text.replace("in rounds", "in turned rounds"))
BOTH_WAYS = {"mat": MAT, "crab": CRAB, "turned": TURNED}
"""Rounds that do not all go the same way."""

# Six repeats, then eight: halves of three and of four are all that they have in common. Round 12
# has 72 stitches, which eight repeats of 8 and an increase take up.
UNLIKE = Large(
    """pattern: Fathom Rug
terms: UK
part rug: in rounds
start: magic ring
round 1: ch 1, 6 dc in ring, join = 6 sts
rounds 2-12 as r: ch 1, [{r - 2} dc, dc inc] 6 times, join = {6 * r} sts
rounds 13-20 as r: ch 1, [{r - 5} dc, dc inc] 8 times, join = {8 * (r - 3)} sts
""",
    8,
    2,
    1,
    "work 2 times in each round",
)
# Arches that grow by a chain a round, each round on the middles of those below and so half an arch
# further on: the twelfth begins five arches on. The 108 symbols of round 2 are too many for the
# middle; a seventh of 18 repeats is as little as can be read.
NET = Large(
    """pattern: Seine Net
terms: UK
part net: in a spiral
start: ch 18, join into ring
round 1: 36 dc in ring = 36 sts
round 2: [dc, ch 5, miss 1 st] around = 18 dc, 18 ch-5 sps
"""
    + "".join(
        f"round {n}: [dc in next ch-{n + 2} sp, ch {n + 3}] around = 18 dc, 18 ch-{n + 3} sps\n"
        for n in range(3, 13)
    ),
    2,
    18,
    3,
    "work 18 times in each round",
)
