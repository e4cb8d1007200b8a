"""How makers write otherwise: each habit of the table on a line, with what is meant by it.

What is meant was written by hand, as a designer reads the line. A line is put right as a whole, so
some show more than one habit.
"""

from __future__ import annotations

import pytest

from loopwright import check, uses
from loopwright.diagnostics import Diagnostic
from loopwright.editing import mend
from loopwright.lower import habits, mending, sense
from loopwright.lower.context import Context
from loopwright.lower.habits import Habit
from loopwright.lower.mending import Mended, mended
from loopwright.pipeline import check_text
from loopwright.syntax.lines import Line, read_lines
from loopwright.trade.terms import TERMS

CERTAIN = [
    # signs
    ("row 1: 6 dc in ring “loosely”", 'row 1: 6 dc in ring "loosely"'),
    ("rows 2–9: 6 dc", "rows 2-9: 6 dc"),
    ("row 1: 6\u00a0dc\u00a0in ring", "row 1: 6 dc in ring"),
    ("row 1: 6 dc\u200b", "row 1: 6 dc"),
    ("row 1: {body ÷ 2} dc", "row 1: {body / 2} dc"),
    # labels
    ("Rnds 2-9: 6 dc", "rounds 2-9: 6 dc"),
    ("Rnd 2: 6 dc.", "round 2: 6 dc"),
    ("rd 2: 6 dc", "round 2: 6 dc"),
    ("2nd row: 6 dc", "row 2: 6 dc"),
    ("3rd rnd: 6 dc", "round 3: 6 dc"),
    ("next rnd: 6 dc", "next round: 6 dc"),
    ("Foundation row: 6 dc", "setup row: 6 dc"),
    ("size: S, L", "sizes: S (L)"),
    ("Rep rows 2-3: 4 more times.", "repeat rows 2-3: 4 more times"),
    ("row 2 6 dc", "row 2: 6 dc"),
    ("Round 2. Ch 1, 6 dc", "round 2: ch 1, 6 dc"),
    ("repeat rows 2-3 until 20 cm", "repeat rows 2-3: until 20 cm"),
    ("rows 2 to 9: 6 dc", "rows 2-9: 6 dc"),
    ("repeat row 2 through 4: 3 more times", "repeat rows 2-4: 3 more times"),
    ("repeat rounds 2 & 3: 3 more times", "repeat rounds 2-3: 3 more times"),
    ("part cuff flat", "part cuff: flat"),
    ("start ch 20", "start: ch 20"),
    ("note stuff it firmly", "note: stuff it firmly"),
    # names and sizes
    ("yarn foam: DK wool, weight 3", 'yarn foam: "DK wool", weight 3'),
    ('yarn foam: "DK", 50 g / 110 m', 'yarn foam: "DK", 50 g = 110 m'),
    ('yarn foam: "DK", 110 m per 50 g', 'yarn foam: "DK", 50 g = 110 m'),
    ("row 2: (M, L only) 6 dc", "row 2 (M, L only): 6 dc"),
    ("next round: sizes M, L only: 6 dc", "next round (M, L only): 6 dc"),
    ("sizes: S, M, L", "sizes: S (M, L)"),
    ("sizes: S/M/L", "sizes: S (M, L)"),
    ("sizes: S / M / L / XL", "sizes: S (M, L, XL)"),
    ("row 1: 8 [10, 12] dc", "row 1: 8 (10, 12) dc"),
    # what is used
    ("use: my hats/house.crochet", 'use: "my hats/house.crochet"'),
    ("use: ../hats/Mövenstein mütze.crochet", 'use: "../hats/Mövenstein mütze.crochet"'),
    ("use: hats – old/house (2).crochet  # ours", 'use: "hats – old/house (2).crochet"  # ours'),
    ("use ../house.crochet", "use: ../house.crochet"),
    ("use: “my hats/house.crochet”", 'use: "my hats/house.crochet"'),
    # parts and starts
    ("part cuff: worked in rows", "part cuff: flat"),
    ("part cuff: back and forth", "part cuff: flat"),
    ("part cuff: in joined rounds", "part cuff: in rounds"),
    ("part cuff: in spiral rounds", "part cuff: in a spiral"),
    ("start: make a magic circle", "start: magic ring"),
    ("start: foundation chain of 20", "start: ch 20"),
    ("start: 20 chains", "start: ch 20"),
    ("start: ch20", "start: ch 20"),
    ("start: ch 20, turn", "start: ch 20"),
    ("start: ch 6, join", "start: ch 6, join into ring"),
    ("start: ch 6 and join with a sl st to form a ring", "start: ch 6, join into ring"),
    # gauges and counts
    ("gauge main: 14 sts x 8 rows = 10 cm in tr", "gauge main: 14 sts and 8 rows to 10 cm in tr"),
    ('gauge main: 14 sts over 4" in tr', "gauge main: 14 sts to 4 in in tr"),
    ("gauge main: 14 stitches to 10 cm square in tr", "gauge main: 14 sts to 10 cm in tr"),
    ("count body: 28, multiple 4 + 1", "count body: 28, multiple of 4 plus 1"),
    ("count body: 2 × 14", "count body: 2 * 14"),
    ("count body: 28 / 3 round up", "count body: 28 / 3, rounded up"),
    # repeats
    ("row 2: *dc, 2 tr; rep from * to end", "row 2: [dc, 2 tr] across"),
    ("round 2: *dc, 2 tr, repeat from * around", "round 2: [dc, 2 tr] around"),
    (
        "row 2: *dc, 2 tr; rep from * across to last 2 sts, 2 dc",
        "row 2: [dc, 2 tr] to last 2 sts, 2 dc",
    ),
    ("row 2: *dc, 2 tr; rep from * to last 2 sts, 2 dc", "row 2: [dc, 2 tr] to last 2 sts, 2 dc"),
    ("row 2: *dc, 2 tr* repeat from * to * across", "row 2: [dc, 2 tr] across"),
    ("row 2: *dc, 2 tr*, rep from * to * 6 times", "row 2: [dc, 2 tr] 6 times"),
    ("round 2: (dc, tr) 5 times in next st", "round 2: ([dc, tr] 5 times) in next st"),
    ("round 2: (dc, 2 tr) 6 times", "round 2: [dc, 2 tr] 6 times"),
    ("round 2: (dc, 2 tr) rep around", "round 2: [dc, 2 tr] around"),
    ("round 2: [dc, 2 tr] x 6", "round 2: [dc, 2 tr] 6 times"),
    ("round 2: [dc, 2 tr] 6 x", "round 2: [dc, 2 tr] 6 times"),
    ("round 2: [dc, 2 tr] twice", "round 2: [dc, 2 tr] 2 times"),
    ("round 2: [dc, 2 tr] all the way around", "round 2: [dc, 2 tr] around"),
    ("row 2: 5 dc in next st 3 times", "row 2: [5 dc in next st] 3 times"),
    ("row 2: dc inc twice", "row 2: 2 dc inc"),
    ("row 2: dc dec 3 times", "row 2: 3 dc dec"),
    ("repeat row 2: 4 times more", "repeat row 2: 4 more times"),
    ("repeat row 2: 4 more repeats", "repeat row 2: 4 more times"),
    ("repeat row 2: until work measures 20 cm from start", "repeat row 2: until 20 cm"),
    # joins
    ("round 1: 6 dc in ring, sl st to join", "round 1: 6 dc in ring, join"),
    ("round 1: 6 dc in ring, join with a sl st to first dc", "round 1: 6 dc in ring, join"),
    ("round 1: 6 dc in ring, sl st to top of ch-3 (6)", "round 1: 6 dc in ring, join = 6 sts"),
    ("round 2: 6 dc, sl st to join - 6 dc", "round 2: 6 dc, join = 6 dc"),
    ("round 1: 6 dc in ring, join in first st", "round 1: 6 dc in ring, join"),
    ("round 1: 6 dc in ring, ss to first st", "round 1: 6 dc in ring, join"),
    # chains
    ("row 2: 3 ch (counts as 1 tr), tr", "row 2: ch 3 as tr, tr"),
    ("row 2: ch 4 (counts as tr and ch 1), tr", "row 2: ch 4 as (tr, ch 1), tr"),
    ("row 2: ch 3 (counts as first tr here and below), tr", "row 2: ch 3 as tr, tr"),
    ("row 2: ch 3, counts as tr, ch 1, tr", "row 2: ch 3 as tr, ch 1, tr"),
    ("row 2: ch 5 (counts as 1 tr and 2 ch), tr", "row 2: ch 5 as (tr, ch 2), tr"),
    ("row 2: ch 5 (counts as 1 tr, 2 ch), tr", "row 2: ch 5 as (tr, ch 2), tr"),
    ("row 2: ch 5 (counts as tr & 2 chains), tr", "row 2: ch 5 as (tr, ch 2), tr"),
    ("row 2: ch 4 (counts as tr and a ch), tr", "row 2: ch 4 as (tr, ch 1), tr"),
    ("row 2: ch 5 counts as tr and ch 2, tr", "row 2: ch 5 as (tr, ch 2), tr"),
    ("row 2: ch 5, counts as a tr plus 2 ch, tr", "row 2: ch 5 as (tr, ch 2), tr"),
    ("row 2: ch 4 counts as tr and a ch, tr", "row 2: ch 4 as (tr, ch 1), tr"),
    ("row 2: ch 1 (does not count as a st), dc", "row 2: ch 1, dc"),
    ("row 2: ch-3, dc", "row 2: ch 3, dc"),
    ("row 2: 3 ch, dc", "row 2: ch 3, dc"),
    # places
    ("round 1: 6 dc into the magic ring", "round 1: 6 dc in ring"),
    ("row 2: dc in all sts", "row 2: dc in each st across"),
    ("row 2: dc in all tr across", "row 2: dc in each tr across"),
    ("row 2: dc in each of first 2 sts", "row 2: dc in each of next 2 sts"),
    ("row 2: dc in every st across", "row 2: dc in each st across"),
    ("row 2: dc in ea st across", "row 2: dc in each st across"),
    ("row 2: dc into next st", "row 2: dc in next st"),
    ("row 2: fptr around the next tr", "row 2: fptr around next tr"),
    ("row 2: dc in next 5, 2 tr", "row 2: dc in next 5 sts, 2 tr"),
    ("row 2: dc in each st to end of row", "row 2: dc in each st across"),
    ("round 2: dc in each st to end", "round 2: dc in each st around"),
    ("round 2: [dc, tr] around the round", "round 2: [dc, tr] around"),
    ("row 2: dc in back loop only of each st across", "row 2: dc blo in each st across"),
    ("row 2: dc in front loops of each st across", "row 2: dc flo in each st across"),
    ("row 2: 5 dc in back loop", "row 2: 5 dc blo"),
    ("row 2: 5 dc in the front loop", "row 2: 5 dc flo"),
    ("round 2: dc2tog around = 6 sts", "round 2: [dc2tog] around = 6 sts"),
    ("round 1: 6 dc in MR", "round 1: 6 dc in ring"),
    ("row 2: tr in top of beg ch-3", "row 2: tr in top of ch-3"),
    ("row 2: tr in 3rd ch of turning ch 3", "row 2: tr in top of ch-3"),
    ("row 2: 5 dc in ch-5 loop", "row 2: 5 dc in next ch-5 sp"),
    ("row 2: 5 dc in next ch-5 lp", "row 2: 5 dc in next ch-5 sp"),
    ("row 2: dc in each of next 4 ch-5 loops", "row 2: dc in each of next 4 ch-5 sps"),
    # skips
    ("row 2: skip next 2, 5 dc", "row 2: skip 2 sts, 5 dc"),
    ("row 2: miss the first 2 sts, 5 dc", "row 2: miss 2 sts, 5 dc"),
    ("row 2: skip the next st, 5 dc", "row 2: skip 1 st, 5 dc"),
    ("row 2: sk 2 sts, 5 dc", "row 2: skip 2 sts, 5 dc"),
    ("row 2: miss ch-2 sp, 5 dc", "row 2: miss next ch-2 sp, 5 dc"),
    ("row 2: dc in each st to ch-2 sp, dc", "row 2: dc in each st to next ch-2 sp, dc"),
    ("row 2: 5 dc, leave 20 sts unworked", "row 2: 5 dc, leave 20 unworked"),
    ("row 2: 2 dc in missed st", "row 2: 2 dc in skipped st"),
    ("row 2: 3 dc, working along other side of ch, dc", "row 2: 3 dc, other side, dc"),
    # words
    ("row 2: dc evenly across", "row 2: dc evenly"),
    ("row 2: dc, ch 3 picot, dc", "row 2: dc, ch-3 picot, dc"),
    ("round 2: dc 3, tr 2", "round 2: 3 dc, 2 tr"),
    ("row 2: work 5 dc in next st", "row 2: 5 dc in next st"),
    ("row 2: 5 dc, 2 double treble in next st", "row 2: 5 dc, 2 dtr in next st"),
    ("row 1: dc in 2nd chain from hook", "row 1: dc in 2nd ch from hook"),
    ("row 2: dc in each of next 4 ch-1 spaces", "row 2: dc in each of next 4 ch-1 sps"),
    ("row 2: dc in next ch-1 space", "row 2: dc in next ch-1 sp"),
    # rows
    ("rows 4-5: same as rows 2 and 3", "rows 4-5: as rows 2-3"),
    ("round 4: repeat round 2", "round 4: as round 2"),
    ("row 2: 5 dc and turn", "row 2: 5 dc, turn"),
    ("row 2: 2 dc in next st (inc made), dc", "row 2: 2 dc in next st, dc"),
    (
        "row 1: dc in 2nd ch from hook and in each ch across",
        "row 1: dc in 2nd ch from hook, dc in each ch across",
    ),
    ("row 1: dc in second ch from hook, dc", "row 1: dc in 2nd ch from hook, dc"),
    ("row 1: htr in third ch from hook", "row 1: htr in 3rd ch from hook"),
    ("row 1: dtr in fifth ch from hook", "row 1: dtr in 5th ch from hook"),
    ("row 2: 5 dc; tr in next st", "row 2: 5 dc, tr in next st"),
    ("row 1: tr in fourth chain from hook", "row 1: tr in 4th ch from hook"),
    (
        "row 1: dc in second ch from hook and in each ch across",
        "row 1: dc in 2nd ch from hook, dc in each ch across",
    ),
    ("row 2: ch 1, dc to last 2 sts, dc2tog", "row 2: ch 1, dc in each st to last 2 sts, dc2tog"),
    ("row 2: ch 1, dc across to last st, dc", "row 2: ch 1, dc in each st to last st, dc"),
    ("row 2: dc blo to the last st, dc", "row 2: dc blo in each st to last st, dc"),
    ("row 2: dc2tog over next 2 sts, dc", "row 2: dc2tog, dc"),
    ("row 2: tr3tog over the next 3 stitches, tr", "row 2: tr3tog, tr"),
    ("row 2: dc in first 5 sts, tr", "row 2: dc in next 5 sts, tr"),
    ("row 2: *dc, 2 tr* repeat to end", "row 2: [dc, 2 tr] across"),
    ("round 2: *dc, 2 tr* to end", "round 2: [dc, 2 tr] around"),
    ("round 2: *dc, 2 tr* around", "round 2: [dc, 2 tr] around"),
    ("row 2: *dc, 2 tr*, repeat between * to end", "row 2: [dc, 2 tr] across"),
    ("round 2: *dc, 2 tr*; rep between *s around", "round 2: [dc, 2 tr] around"),
    ("round 2: dc in same st as join, dc", "round 2: dc in same st, dc"),
    ("round 2: 2 tr in same place as joining sl st, dc", "round 2: 2 tr in same st, dc"),
    ("round 2: *dc, 2 tr* 6 times", "round 2: [dc, 2 tr] 6 times"),
    ("start: ch 4, join with sl st", "start: ch 4, join into ring"),
    ("start: ch 4 and join with a slip stitch", "start: ch 4, join into ring"),
    ("part cuff: flat, yarn coal held double", "part cuff: flat, yarn coal + coal"),
    ("part cuff: flat, yarn two strands of coal", "part cuff: flat, yarn coal + coal"),
    ("part cuff: flat, yarn coal and foam held together", "part cuff: flat, yarn coal + foam"),
    # counts and ends
    (
        "row 2: 16 tr = 16 tr not counting turning ch, 2 ch-2 sps",
        "row 2: 16 tr = 16 tr, 2 ch-2 sps not counting turning ch",
    ),
    (
        "row 2: 16 tr = 16 tr excluding the turning chain",
        "row 2: 16 tr = 16 tr not counting turning ch",
    ),
    (
        "row 2: dc in each st across. Turn. (30, 36 sts)",
        "row 2: dc in each st across, turn = 30 (36) sts",
    ),
    ("row 2: dc in each st to end, turn. 5 dc.", "row 2: dc in each st across, turn = 5 dc"),
    ("round 2: (dc, tr) x 6 (12)", "round 2: [dc, tr] 6 times = 12 sts"),
    ("row 2: 5 dc = 5", "row 2: 5 dc = 5 sts"),
    ("row 2: 5 dc = 5 sts in all", "row 2: 5 dc = 5 sts"),
    ("row 2: 5 dc (5)", "row 2: 5 dc = 5 sts"),
    ("row 2: 5 dc. (5 sts)", "row 2: 5 dc = 5 sts"),
    ("row 2: 5 dc [5 dc]", "row 2: 5 dc = 5 dc"),
    ("row 2: [dc] across – 5 sts.", "row 2: [dc] across = 5 sts"),
    ("row 2: 5 dc, = 5 sts", "row 2: 5 dc = 5 sts"),
    ("round 2: [dc] around, ss. 24 tr", "round 2: [dc] around, ss = 24 tr"),
    ("row 2: 5 dc.", "row 2: 5 dc"),
    ("row 2: 5 dc; turn", "row 2: 5 dc, turn"),
    ("row 2: Ch 1, Dc in Each St to End.", "row 2: ch 1, dc in each st across"),
]
GUESSES = [
    ("row 2: ch 1, dc FLO across", "row 2: ch 1, dc flo in each st across"),
    ("row 2: ch 1, dc BLO across", "row 2: ch 1, dc blo in each st across"),
    ("sizes: 0-3 months (3-6 months)", "sizes: 0 to 3 months (3 to 6 months)"),
    ("sizes: 0/3 months (3/6 months)", "sizes: 0 to 3 months (3 to 6 months)"),
    ("round 2: 5 dc, change to foam, 5 dc", "round 2: 5 dc, with foam, 5 dc"),
    ("round 2: sl st to next ch-2 sp, ch 3", "round 2: move to next ch-2 sp, ch 3"),
    ("row 2: dc in every other st across", "row 2: [dc, skip 1 st] across"),
    ("round 2: 2 tr in each 2nd st", "round 2: [2 tr, skip 1 st] around"),
    ("round 2: tr in every 3rd st", "round 2: [tr, skip 2 sts] around"),
    ("row 2: 5 tr, tr in top of turning ch", "row 2: 5 tr, tr in last st"),
    ("row 2: 5 tr, tr in 3rd ch of ch-5", "row 2: 5 tr, tr in top of ch-5"),
    ("row 2: tr in 3rd ch of ch-5, 5 tr", "row 2: tr in 3rd ch of next ch-5 sp, 5 tr"),
    ("round 2: inc 6 evenly around", "round 2: inc 6 dc evenly"),
    ("measure head: 56", "measure head: 56 cm"),
    ('measure head: 22"', "measure head: 22 in"),
    ("row 2: ch 3 as tr, skip first 2 sts, 5 tr", "row 2: ch 3 as tr, skip 2 sts, 5 tr"),
    ("R2: 6 dc", "row 2: 6 dc"),
    ('yarn: "DK wool"', 'yarn wool: "DK wool"'),
    ('yarn: "DK 4"', 'yarn wool: "DK 4"'),
    ("yarn: DK wool, weight 3", 'yarn wool: "DK wool", weight 3'),
    ("yarn: soft cotton", 'yarn cotton: "soft cotton"'),
    ("yarn: DK 4, weight 3", 'yarn wool: "DK 4", weight 3'),
    ("row 2: working in back loops only, dc in each st", "row 2: dc blo in each st"),
    ("row 2: working in the front loop 2 dc in next st", "row 2: 2 dc flo in next st"),
    ("round 2: join yarn with ss in any ch-2 sp, ch 1", "round 2: move to next ch-2 sp, ch 1"),
    ("round 2: join foam in any ch-2 sp, ch 1", "round 2: with foam, move to next ch-2 sp, ch 1"),
    ("round 2: attach yarn to any corner, ch 1", "round 2: move to next ch-2 sp, ch 1"),
    ("hook: 4 mm", "hook main: 4 mm"),
    ("part: flat", "part main: flat"),
    ("part left cuff: flat", "part left-cuff: flat"),
    ("part left front panel: flat", "part left-front-panel: flat"),
    ("part cuff: in the round", "part cuff: in rounds"),
    ("row 2: ch 3 (counts as a st), tr", "row 2: ch 3 as tr, tr"),
    ("round 2: htr around = 6 sts", "round 2: htr in each st around = 6 sts"),
    ("round 2: dc around (36)", "round 2: dc in each st around = 36 sts"),
    ("round 2: crab st round", "round 2: crab st in each st around"),
    ("row 2: 5 tr, tr in 3rd ch of ch-4, turn", "row 2: 5 tr, tr in top of ch-4, turn"),
    ("row 2: 5 tr, tr in tch", "row 2: 5 tr, tr in last st"),
    ("sizes: S/M (L/XL)", "sizes: S-M (L-XL)"),
    ("row 2: working in front of sts just made, 3 dc", "row 2: 3 dc"),
    ("round 2: inc in each st around", "round 2: 2 dc in each st around"),
    ("round 2: [htr, inc] 6 times", "round 2: [htr, htr inc] 6 times"),
    ("round 2: inc x 6 (12)", "round 2: 6 dc inc = 12 sts"),
    ("round 2: dec around = 6 sts", "round 2: [dc dec] around = 6 sts"),
    ("row 2: 5 dc. 5 dc, tr", "row 2: 5 dc, 5 dc, tr"),
    (
        'row 2: ch 1, "mind the gap" [2 dc, dc inc] across',
        'row 2: ch 1, [2 dc, dc inc] across "mind the gap"',
    ),
    ('row 2: ch 1 "loosely", 5 dc = 5 sts', 'row 2: ch 1, 5 dc = 5 sts "loosely"'),
    ('row 2: [2 dc, "here", dc inc] across', 'row 2: [2 dc, dc inc] across "here"'),
    ('row 2: [2 dc "here"] across', 'row 2: [2 dc] across "here"'),
    ('row 2: "loosely" ch 1, 5 dc = 5 sts', 'row 2: ch 1, 5 dc = 5 sts "loosely"'),
]
SENSELESS = [
    ("row 2: blo dc in each st across", "row 2: dc blo in each st across"),
    ("row 2: dc in each of next 5 stitches", "row 2: dc in each of next 5 sts"),
    ("row 2: dc in next stitch", "row 2: dc in next st"),
    ("row 2: dc in each of next 4 chains", "row 2: dc in each of next 4 ch"),
    ("row 2: dc in each of next 4 chs", "row 2: dc in each of next 4 ch"),
    (
        "row 2: slip st in next st, slip stitch in next st",
        "row 2: sl st in next st, sl st in next st",
    ),
    ("row 2: skip 1 st, two dc in next st", "row 2: skip 1 st, 2 dc in next st"),
    ("row 2: three dc in next st", "row 2: 3 dc in next st"),
    ("row 2: four dc in next st", "row 2: 4 dc in next st"),
    ("row 2: five dc in next st", "row 2: 5 dc in next st"),
    ("row 2: six dc in next st", "row 2: 6 dc in next st"),
    ("row 2: ch 3 (counts as tr), miss first st, 5 tr", "row 2: ch 3 as tr, 5 tr"),
    ("row 2: skip first st, 5 dc", "row 2: skip 1 st, 5 dc"),
    ("row 2: one dc in each st across", "row 2: 1 dc in each st across"),
    ("row 2: trebles in each st across", "row 2: tr in each st across"),
    ("row 2: Dc in each st across", "row 2: dc in each st across"),
]
"""Lines that can be read, and make no sense as they are."""

OF_YARN = [("row 2: With foam, 5 dc", "row 2: with foam, 5 dc")]
"""The same, in a pattern with a yarn `foam`."""

SENSELESS_GUESSES = [
    ("sizes: 0-3 months (3-6 months)", "sizes: 0 to 3 months (3 to 6 months)"),
    ("sizes: 0/3 months (3/6 months)", "sizes: 0 to 3 months (3 to 6 months)"),
    ("row 2: ch 1, 3 inc evenly", "row 2: ch 1, inc 3 dc evenly"),
    ("row 2: single crochet in each st across", "row 2: sc in each st across"),
    ("row 2: 5 dc, fasten off", "row 2: 5 dc"),
    ("row 2: invdec, 3 dc", "row 2: dc dec, 3 dc"),
]
HEAD = "pattern: Otherwise\nterms: UK\npart cowl: flat\nstart: ch 6\n"


HEAD_OF_YARN = HEAD.replace("part", 'yarn foam: "DK wool"\npart', 1)


def read(line: str, sizes: tuple[str, ...] = ("one size",)) -> Mended | None:
    """A line as it is meant, in a pattern in UK terms."""
    ctx = Context()
    ctx.sizes = sizes
    ctx.terms = TERMS["UK"]
    return mended(ctx, read_lines(line)[0])


@pytest.mark.parametrize(("written", "meant"), CERTAIN)
def test_what_is_written_otherwise_is_read_as_it_is_meant(written: str, meant: str) -> None:
    found = read(written)
    assert found is not None
    assert (found.text, found.whole, found.certain) == (meant, True, True)


@pytest.mark.parametrize(("written", "meant"), GUESSES)
def test_what_may_mean_another_thing_is_only_guessed(written: str, meant: str) -> None:
    found = read(written)
    assert found is not None
    assert (found.text, found.whole, found.certain) == (meant, True, False)


OF_SIZES = [
    (2, "round 2: (dc, dc inc) x 6 (18)", "round 2: [dc, dc inc] 6 times = 18 sts", False),
    (3, "round 2: (dc, dc inc) x 6 (18)", "round 2: [dc, dc inc] 6 times = 18 sts", True),
    (2, "round 2: inc x 6 (12)", "round 2: 6 dc inc = 12 sts", False),
    (3, "round 2: inc x 6 (12)", "round 2: 6 dc inc = 12 sts", False),
    (2, "round 2: (dc, dc inc) x 6 (8) (18)", "round 2: [dc, dc inc] 6 (8) times = 18 sts", True),
    (3, "round 2: (dc, tr) x 6 (8, 9)", "round 2: [dc, tr] 6 (8, 9) times", True),
    (2, "round 2: (dc, tr) x 6 (8), dc", "round 2: [dc, tr] 6 (8) times, dc", True),
    (2, "round 2: dc, dec 12 (13) evenly", "round 2: dc, dec 12 (13) dc evenly", False),
]
"""How often something is worked, in a pattern of so many sizes: what stands in brackets at the end
is the row's count, unless there is a number in it for each further size. With two sizes one number
could be either, and is only guessed."""


@pytest.mark.parametrize(("sizes", "written", "meant", "certain"), OF_SIZES)
def test_a_count_is_no_size(sizes: int, written: str, meant: str, *, certain: bool) -> None:
    found = read(written, tuple("SML"[:sizes]))
    assert found is not None
    assert (found.text, found.whole, found.certain) == (meant, True, certain)


@pytest.mark.parametrize(("written", "meant"), SENSELESS)
def test_what_is_read_and_makes_no_sense_is_taken_as_it_is_meant(written: str, meant: str) -> None:
    assert mend(f"{HEAD}{written}\n") == f"{HEAD}{meant}\n"


@pytest.mark.parametrize(("written", "meant"), OF_YARN)
def test_a_yarn_is_no_stitch(written: str, meant: str) -> None:
    assert mend(f"{HEAD_OF_YARN}{written}\n") == f"{HEAD_OF_YARN}{meant}\n"


@pytest.mark.parametrize(("written", "meant"), SENSELESS_GUESSES)
def test_what_makes_no_sense_and_may_mean_another_thing_is_left(written: str, meant: str) -> None:
    text = f"{HEAD}{written}\n"
    found = check_text("otherwise", text).diagnostics
    assert [one.code for one in found] == ["not-understood"]
    for edit in found[0].edits:
        assert text[: edit.span.start] + edit.text + text[edit.span.end :] == f"{HEAD}{meant}\n"
    assert mend(text) == text


def test_every_habit_is_shown(monkeypatch: pytest.MonkeyPatch) -> None:
    shown: set[Habit] = set()
    slip = mending.told

    def told(line: Line, found: Mended, at: int = 0) -> Diagnostic:
        shown.update(one.habit for one in found.slips)
        return slip(line, found, at)

    monkeypatch.setattr(mending, "told", told)
    monkeypatch.setattr(sense, "told", told)
    for written, _ in CERTAIN + GUESSES + SENSELESS + SENSELESS_GUESSES:
        check_text("otherwise", f"{HEAD}{written}\n")
    for written, _ in OF_YARN:
        check_text("otherwise", f"{HEAD_OF_YARN}{written}\n")
    by_rule = {habit for rule in habits.BY_RULE.values() for habit in rule}
    others = (habits.SIGNS, habits.LABELS, habits.OF_SIZES, habits.SMALL)
    tried = by_rule.union(*others)
    assert sorted(habit.written for habit in tried - shown) == []


def test_a_line_that_means_one_thing_is_mended_and_worked() -> None:
    text = f"{HEAD}row 1: Dc into 2nd chain from hook, dc in every ch to end (6 sts).\n"
    found = check_text("otherwise", text).diagnostics
    assert [one.code for one in found] == ["not-understood", "count-differs"]
    assert text[found[1].span.start : found[1].span.end] == "(6 sts)."
    assert mend(text) == f"{HEAD}row 1: dc in 2nd ch from hook, dc in each ch across = 6 sts\n"


def test_a_guess_is_never_made_for_her() -> None:
    text = f"{HEAD}row 1: dc in 2nd ch from hook, [htr, inc] to last 2 ch, 2 dc\n"
    assert mend(text) == text


def test_what_is_certain_is_mended_beside_what_is_not() -> None:
    line = "row 1: Dc in 2nd ch from hook, dc in ea ch to last ch, barnacle in last ch"
    meant = "row 1: dc in 2nd ch from hook, dc in each ch to last ch, barnacle in last ch"
    assert mend(f"{HEAD}{line}\n") == f"{HEAD}{meant}\n"
    told = check_text("otherwise", f"{HEAD}{meant}\n").diagnostics
    assert [one.code for one in told] == ["unknown-stitch"]


def test_what_is_mended_by_one_is_mended_by_all() -> None:
    for written, meant in CERTAIN:
        if written.startswith(("row 2", "round 2")):
            assert f"{meant}\n" in mend(f"{HEAD}{written}\n")


def test_a_row_s_bare_letter_is_read_in_the_manner_of_its_part() -> None:
    head = "pattern: Otherwise\nterms: UK\npart ball: in a spiral\nstart: magic ring\n"
    (one,) = check_text("otherwise", f"{head}R1: 6 dc in ring = 6 sts\n").diagnostics
    assert [edit.text for edit in one.edits] == ["round 1"]


def test_what_is_no_start_of_chains_that_count_is_no_mend() -> None:
    assert read("row 2: ch 5 (counts as 2 tr), tr") is None


def test_a_path_that_is_put_in_quotation_marks_is_used() -> None:
    """A message for the line, and none for what the file gives."""
    strip = (
        "pattern: Strip\nterms: UK\nuse: the house.crochet\npart strip: flat, yarn slate\n"
        "start: ch 6\nrow 1: dc in 2nd ch from hook, dc in each ch across = 5 sts\n"
    )
    house = 'shared: The house\nterms: UK\nyarn slate: "DK wool"\n'
    assert uses(strip) == ("the house.crochet",)
    told = check(strip, used={"the house.crochet": house})
    assert [(one.code, one.place.line, one.place.column) for one in told.messages] == [
        ("not-understood", 3, 6)
    ]
    assert told.messages[0].hints == ('Write `"the house.crochet"`.',)
    put_right = strip.replace("the house.crochet", '"the house.crochet"')
    assert mend(strip) == put_right
    assert check(put_right, used={"the house.crochet": house}).messages == ()
    assert uses(strip.replace("use: the", "use: a.crochet, the")) == ()


def test_a_letter_with_an_accent_is_of_no_other_alphabet() -> None:
    for word, other in (("tré", False), ("tг", True)):
        (found,) = check_text("x", f"{HEAD}row 1: 5 dc, 2nd {word}\n").diagnostics
        assert ("another alphabet" in "".join(found.hints)) is other
