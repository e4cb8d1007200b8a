"""Published sums, worked again by the program: a hat that fits (mamas), a blanket's stitches
(ubraintv), and what a weighed swatch says of a whole (ubraintv, watchyarn)."""

from __future__ import annotations

from fractions import Fraction

from loopwright.ir.checked import Checked
from loopwright.measure import finished
from loopwright.measure.yarn import needed
from loopwright.pipeline import check_text

INCH = Fraction(127, 5)

# mamas: head 22 in, ease 1 in, so 21 in; ten rounds of 8 more, then one of 4 more make 84 stitches,
# which at 4 stitches to the inch are 21.0 in.
HAT = """pattern: Lantern Cap
terms: US
measure head: 22 in
gauge hat: 16 sts and 14 rounds to 4 in in hdc
count body: head - 1 in, at hat sts, multiple of 4
count crown: body, multiple of 8, rounded down
part hat: in rounds, gauge hat
start: magic ring
round 1: ch 1, 8 hdc in ring, join = 8 sts
rounds 2-10 as r: ch 1, inc 8 hdc evenly, join = {8 * r} sts
round 11: ch 1, inc {body - crown} hdc evenly, join = body sts
next round: ch 1, hdc in each st around, join = 84 sts
"""

# ubraintv: a blanket of 50 x 60 in at 13 sts and 7.5 rows to 4 in has 162 x 112 = 18,144 sts; a
# swatch of 30 sts by 10 rows has 300, and each stitch takes its share of what that weighs.
BLANKET = """pattern: Harbour Blanket
terms: US
measure width: 50 in
yarn slate: "worsted wool", 100 g = 200 m, weight 4
gauge plain: 13 sts and 7.5 rows to 4 in in dc, yarn slate, weighs 9.75 g
count wide: width, at plain sts, rounded down
part blanket: flat, yarn slate, gauge plain
start: wide foundation dc
row 1: dc in each st across = 162 sts
repeat row 1: 110 more times
"""


def checked(text: str) -> Checked:
    result = check_text("published", text)
    assert result.checked is not None, [one.text for one in result.diagnostics]
    return result.checked


def test_the_hat() -> None:
    made = checked(HAT)
    assert [(count.name, count.values) for count in made.pattern.counts] == [
        ("body", (84,)),
        ("crown", (80,)),
    ]
    (size,) = finished(made)
    assert size.around is not None
    assert size.around.last == 21 * INCH


def test_the_blanket() -> None:
    made = checked(BLANKET)
    assert made.pattern.counts[0].values == (162,)  # 162.5 truncated
    (fabric,) = made.fabrics
    assert fabric.rows == 112  # the foundation is a row: 60 in are 112.5
    # 162 x 112, the foundation among them
    assert fabric.stitches + 162 == 18_144


def test_the_blanket_s_yarn_from_its_swatch() -> None:
    # The square of 13 sts and 7.5 rows has 97.5 stitches in 9.75 g: 0.1 g each, 1,814.4 g in all,
    # and 10% for tails and a swatch. A foundation stitch takes 16.4 to 20.4 of one in a row
    # (windchilde).
    (need,) = needed(checked(BLANKET).pattern, checked(BLANKET).fabrics).needs
    rows = 162 * 111 + 162 * Fraction("16.4") / Fraction("20.4")
    grams = rows / 10 * Fraction(11, 10)
    assert need.grams is not None
    assert need.metres is not None
    assert need.grams.least == need.grams.most == grams
    assert need.metres.most == 2 * grams
    assert need.how == ("weighed",)
    assert need.balls == 20  # 1,988.9 g
