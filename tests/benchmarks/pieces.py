"""What generated patterns are made of: parts whose counts are known while they are written.

Each function takes the pattern so far and gives the lines of one part, in UK terms. The counts are
reckoned here, row by row, as a designer would, and never asked of the compiler.
"""

from __future__ import annotations

from random import Random
from typing import NamedTuple

Numbers = list[int]
"""A number for every size."""


class Sized(NamedTuple):
    """What a pattern says at its head that its parts have to know: how many sizes it has, and
    what follows the manner of working in a ``part`` line."""

    sizes: int
    made_with: str


def per_size(values: Numbers) -> str:
    """Numbers as a pattern writes them: `12`, or `12 (14, 16)` where they differ."""
    first, *rest = map(str, values)
    return first if len(set(values)) == 1 else f"{first} ({', '.join(rest)})"


def sts(values: Numbers) -> str:
    """A stated count."""
    return f" = {per_size(values)} {'st' if set(values) == {1} else 'sts'}"


def _steps(rng: Random, sized: Sized, low: int, high: int, step: int) -> Numbers:
    """A multiple of a step for every size, growing."""
    first = rng.randint(low, high)
    grow = rng.randint(1, 3)
    return [step * (first + grow * size) for size in range(sized.sizes)]


def _n(number: int, word: str) -> str:
    """`dc` or `3 dc`."""
    return word if number == 1 else f"{number} {word}"


# ------------------------------------------------------------------ toys
def ball(rng: Random, sized: Sized, name: str) -> list[str]:
    """A stuffed piece in a spiral: every round written out, as toys are."""
    wide = rng.randint(3, 10)
    by = rng.choice((5, 6, 6, 6, 7, 8))
    lines = [
        f"part {name}: in a spiral{sized.made_with}, shaped",
        "start: magic ring",
        f"round 1: {by} dc in ring{sts([by])}",
        f"round 2: [dc inc] {rng.choice(('around', f'{by} times'))}{sts([2 * by])}",
    ]
    for row in range(3, wide + 1):
        lines.append(f"round {row}: [{_n(row - 2, 'dc')}, dc inc] {by} times{sts([row * by])}")
    row = wide + rng.randint(2, 9)
    plain = rng.choice(("[dc] around", "dc in each st around"))
    lines.append(f"rounds {wide + 1}-{row}: {plain}{sts([wide * by])}")
    if rng.random() < 0.4:
        lines.append("note: Put the eyes in between two rounds here, and stuff as you go.")
    least = rng.randint(1, wide - 1)
    for left in range(wide - 1, least - 1, -1):
        row += 1
        body = f"[{_n(left - 1, 'dc')}, dc dec]" if left > 1 else "[dc dec]"
        lines.append(f"round {row}: {body} {by} times{sts([left * by])}")
    if least < 3:
        lines.append("gather: last round")
    else:
        more = rng.randint(1, 6)
        lines.append(f"rounds {row + 1}-{row + more}: [dc] around{sts([least * by])}")
    return lines


def limb(rng: Random, sized: Sized, name: str) -> list[str]:
    """An arm or a leg: an oval or a ring, then many plain rounds, some in loops or colours."""
    by = rng.randint(5, 9)
    lines = [
        f"part {name}: in a spiral{sized.made_with}, shaped",
        "start: magic ring",
        f"round 1: {by} dc in ring{sts([by])}",
        f"round 2: [dc inc] around{sts([2 * by])}",
        f"round 3: dc blo in each st around{sts([2 * by])}",
    ]
    row, have = 3, 2 * by
    for _ in range(rng.randint(2, 8)):
        row += 1
        if rng.random() < 0.5 or have < 8:
            last = row + rng.randint(1, 4)
            lines.append(f"rounds {row}-{last}: [dc] around{sts([have])}")
            row = last
        else:
            at = rng.randint(1, have - 6)
            rest = have - at - 4
            lines.append(f"round {row}: {_n(at, 'dc')}, 2 dc dec, {rest} dc{sts([have - 2])}")
            have -= 2
    lines.append("note: Leave a long end for sewing.")
    return lines


# ------------------------------------------------------------------ flat
class Width(NamedTuple):
    """How wide a cloth is: stated by the name of a count, or in numbers where it has none."""

    values: Numbers
    count: str

    def across(self) -> str:
        """All of it, stated."""
        return f" = {self.count} sts" if self.count else sts(self.values)

    def half(self, more: int) -> str:
        """Half of it and so many more, stated."""
        if not self.count:
            return sts([one // 2 + more for one in self.values])
        return f" = {{{self.count} / 2{f' + {more}' if more else ''}}} sts"

    def start(self) -> str:
        """The chain for it."""
        return f"{{{self.count} + 1}}" if self.count else per_size([one + 1 for one in self.values])


def _moss(w: Width) -> list[str]:
    return [
        f"ch 1, [dc, ch 1, skip 1 st] across{w.half(0)}",
        f"ch 1, [dc in next ch-1 sp, dc in next dc] across{w.across()}",
        f"ch 1, [htr, dc] across{w.across()}",
    ]


def _fans(w: Width) -> list[str]:
    return [
        f"ch 1, [skip 2 sts, 5 tr in next st, skip 2 sts, dc] across{w.across()}",
        f"ch 3 as tr, [tr] across{w.across()}",
        f"ch 1, [dc] across{w.across()}",
    ]


def _pebbles(w: Width) -> list[str]:
    return [
        f"ch 1, [3 dc, 5-tr bobble] across{w.across()}",
        f"ch 1, dc in each st across{w.across()}",
        f"ch 1, dc, [5-tr bobble, 3 dc] to last 3 sts, 5-tr bobble, 2 dc{w.across()}",
        f"ch 1, dc in each st across{w.across()}",
    ]


def _clusters(w: Width) -> list[str]:
    return [
        f"ch 1, dc blo in each st across{w.across()}",
        f"ch 3 as tr, [tr2tog, ch 1] to last st, tr{w.half(1)}",
        f"ch 1, dc, [dc in next ch-1 sp, dc in next st] to last st, dc{w.across()}",
    ]


def _ribs(w: Width) -> list[str]:
    return [
        f"ch 3 as tr, tr, [fptr, 2 tr] to last st, tr{w.across()}",
        f"ch 3 as tr, 2 tr, [bptr around next fptr, tr in each of next 2 tr] across{w.across()}",
        f"ch 1, dc in each st across{w.across()}",
    ]


FABRICS = (_moss, _fans, _pebbles, _clusters, _ribs)
"""Stitch patterns for any multiple of 12: their rows, over and over."""


def _width(rng: Random, sized: Sized, name: str, plus: int) -> tuple[list[str], Width]:
    """How wide a cloth is, and the line that counts it where it has a name."""
    values = [one + plus for one in _steps(rng, sized, 2, 12, 12)]
    if rng.random() < 0.5:
        return [], Width(values, "")
    rule = "multiple of 12" + (f" plus {plus}" if plus else "")
    line = f"count {name}wide: {per_size(values)}, {rule}"
    return [line], Width(values, f"{name}wide")


def cloth(rng: Random, sized: Sized, name: str) -> list[str]:
    """A scarf, a blanket or a panel: stitch patterns, one after another, each repeated."""
    if rng.random() < 0.2:
        return ripple(rng, sized, name)
    counted, w = _width(rng, sized, name, 0)
    lines = [
        *counted,
        f"part {name}: flat{sized.made_with}",
        f"start: ch {w.start()}",
        f"row 1: dc in 2nd ch from hook, dc in each ch across{w.across()}",
    ]
    row = 1
    for fabric in rng.sample(FABRICS, rng.randint(1, 4)):
        rows = fabric(w)
        lines += [f"row {row + 1 + at}: {one}" for at, one in enumerate(rows)]
        times = rng.randint(2, 12)
        lines.append(f"repeat rows {row + 1}-{row + len(rows)}: {times} more times")
        row += len(rows) * (times + 1) + 1
        lines.append(f"row {row}: ch 1, dc in each st across{w.across()}")
    lines.append(f"repeat last row: {per_size(_steps(rng, sized, 2, 9, 1))} more times")
    return lines


def ripple(rng: Random, sized: Sized, name: str) -> list[str]:
    """A cloth in waves."""
    counted, w = _width(rng, sized, name, 1)
    wave = "[3 tr in next st, 4 tr, tr3tog, 4 tr]"
    return [
        *counted,
        f"part {name}: flat{sized.made_with}",
        f"start: ch {w.start()}",
        f"row 1: dc in 2nd ch from hook, dc in each ch across{w.across()}",
        f"row 2: ch 3 as tr, tr in same st, 4 tr, tr3tog, 4 tr, {wave} to last st,",
        f"    2 tr in last st{w.across()}",
        f"repeat row 2: {per_size(_steps(rng, sized, 6, 30, 2))} more times",
    ]


def piece(rng: Random, sized: Sized, name: str) -> list[str]:
    """A back, a front or a sleeve: plain rows, then shaping written row by row."""
    w = _steps(rng, sized, 14, 40, 2)
    lines = [
        f"part {name}: flat{sized.made_with}",
        f"start: ch {per_size([one + 1 for one in w])}",
        f"row 1 (RS): dc in 2nd ch from hook, dc in each ch across{sts(w)}",
        f"row 2: ch 1, dc blo in each st across{sts(w)}",
        f"rows 3-{rng.choice((4, 6, 8))}: ch 1, dc blo in each st across{sts(w)}",
    ]
    body = rng.choice(
        ("ch 3 as tr, [tr] across", "ch 3, tr in each st across", "ch 2, [htr] across")
    )
    lines.append(f"next row: {body}{sts(w)}")
    lines.append(f"repeat last row: {per_size(_steps(rng, sized, 6, 18, 1))} more times{sts(w)}")
    lines.append("note: Mark both ends of the last row: the armholes begin here.")
    for _ in range(rng.randint(2, 9)):
        if min(w) < 12:
            break
        if rng.random() < 0.25:
            w = [one - 4 for one in w]
            lines.append(f"next row: ch 1, 2 dc dec, [dc] to last 4 sts, 2 dc dec{sts(w)}")
        else:
            w = [one - 2 for one in w]
            lines.append(f"next row: ch 1, dc, dc2tog, [dc] to last 3 sts, dc2tog, dc{sts(w)}")
        if rng.random() < 0.4:
            lines.append(f"next row: ch 2, htr in each st across{sts(w)}")
    lines.append(f"next row: ch 1, dc in each st across{sts(w)}")
    return lines


# ------------------------------------------------------------------ in rounds
def hat(rng: Random, sized: Sized, name: str) -> list[str]:
    """A hat from the crown down, with a body in bars or plain, and a brim."""
    by = rng.choice((8, 10, 12))
    grown = rng.randint(5, 8)
    lines = [
        f"part {name}: in rounds{sized.made_with}, shaped",
        "start: magic ring",
        f"round 1: ch 2, {by} tr in ring, join{sts([by])}",
        f"round 2: ch 2, [tr inc] around, join{sts([2 * by])}",
    ]
    for row in range(3, grown + 1):
        body = f"[{_n(row - 2, 'tr')}, tr inc]"
        lines.append(f"round {row}: ch 2, {body} around, join{sts([row * by])}")
    w = [by * grown + 4 * size for size in range(sized.sizes)]
    if sized.sizes > 1:
        more = per_size([one - w[0] for one in w])
        lines.append(f"next round: ch 2, inc {more} tr evenly, join{sts(w)}")
    if all(one % 4 == 0 for one in w) and rng.random() < 0.6:
        lines.append(f"next round: ch 2, [3 tr, fptr] around, join{sts(w)}")
        bars = "[tr in each of next 3 tr, fptr around next fptr]"
        lines.append(f"next round: ch 2, {bars} around, join{sts(w)}")
    else:
        lines.append(f"next round: ch 2, tr in each st around, join{sts(w)}")
    lines.append(f"repeat last round: {per_size(_steps(rng, sized, 5, 9, 1))} more times")
    for _ in range(rng.randint(2, 5)):
        loop = rng.choice(("", " blo", " flo"))
        lines.append(f"next round: ch 1, dc{loop} in each st around, join{sts(w)}")
    return lines


def tube(rng: Random, sized: Sized, name: str) -> list[str]:
    """A cowl, a sleeve or a leg in joined rounds, narrowed here and there."""
    w = _steps(rng, sized, 4, 12, 6)
    lines = [
        f"part {name}: in rounds{sized.made_with}",
        f"start: ch {per_size(w)}, join into ring",
        f"round 1: ch 1, dc in each ch around, join{sts(w)}",
        f"round 2: ch 3 as tr, [tr] around, join{sts(w)}",
    ]
    row = 2
    for _ in range(rng.randint(3, 9)):
        row += 1
        kind = rng.randrange(4)
        if kind == 0:
            lines.append(f"round {row}: ch 1, [2 dc, ch 2, skip 1 st] around, join")
            row += 1
            up = "[dc in each of next 2 dc, dc in next ch-2 sp]"
            lines.append(f"round {row}: ch 1, {up} around, join{sts(w)}")
        elif kind == 1:
            last = row + rng.randint(1, 5)
            lines.append(f"rounds {row}-{last}: ch 3 as tr, [tr] around, join{sts(w)}")
            row = last
        elif kind == 2 and min(w) > 20:
            at = per_size([one - 4 for one in w])
            w = [one - 2 for one in w]
            lines.append(f"round {row}: ch 1, dc2tog, {at} dc, dc2tog, join{sts(w)}")
            row += 1
            w = [one - one % 6 for one in w]
            lines.append(f"round {row}: ch 1, dec {{4}} dc evenly, join{sts(w)}")
        else:
            lines.append(f"round {row}: ch 1, [dc, htr] around, join{sts(w)}")
    return lines


def square(rng: Random, sized: Sized, name: str) -> list[str]:
    """A square from the middle outwards, its rounds written out."""
    most = rng.randint(3, 7)
    lines = [
        f"part {name}: in rounds{sized.made_with}",
        "start: ch 4, join into ring",
        "round 1: ch 3 as tr, 2 tr in ring, [ch 2, 3 tr in ring] 3 times, ch 2, join"
        " = 12 tr, 4 ch-2 sps",
        "round 2: move to next ch-2 sp, ch 3 as tr, (2 tr, ch 2, 3 tr) in same sp,",
        "    [ch 1, (3 tr, ch 2, 3 tr) in next ch-2 sp] 3 times, ch 1, join"
        " = 24 tr, 4 ch-2 sps, 4 ch-1 sps",
    ]
    for row in range(3, most + 1):
        side = f"[ch 1, 3 tr in next ch-1 sp] {row - 2} times, ch 1"
        lines += [
            f"round {row}: move to next ch-2 sp, ch 3 as tr, (2 tr, ch 2, 3 tr) in same sp,",
            f"    [{side}, (3 tr, ch 2, 3 tr) in next ch-2 sp] 3 times,",
            f"    {side}, join = {12 * row} tr, 4 ch-2 sps, {4 * (row - 1)} ch-1 sps",
        ]
    # 3 tr for each group and 1 chain between two, and 2 chains at each of four corners.
    around = 12 * most + 4 * (most - 1) + 4 * 3
    lines += [
        f"round {most + 1}: move to next ch-2 sp, ch 1, 3 dc in same sp,",
        "    [dc in each st and ch to next ch-2 sp, 3 dc in next ch-2 sp] 3 times,",
        f"    dc in each st and ch around, join{sts([around])}",
    ]
    return lines


# ------------------------------------------------------------------ filet
FILET = [
    "stitch window: ch 2, tr, height tr  # open, on an open one",
    "stitch hole: ch 2, skip 2 sts, tr, height tr  # open, on a filled one",
    "stitch plug: 2 tr in next ch-2 sp, tr, height tr  # filled, on an open one",
    "stitch block: 3 tr, height tr  # filled, on a filled one",
]
"""The squares of a net, which stand at the head of a pattern that has one."""


def net(rng: Random, sized: Sized, name: str) -> list[str]:
    """A net with a picture of filled squares in it, the same to left and right."""
    wide, high = 2 * rng.randint(5, 12) + 1, rng.randint(8, 24)
    lines = [
        f"part {name}: flat{sized.made_with}",
        f"start: ch {3 * wide + 5}",
        f"row 1 (RS): skip 5 ch as (tr, ch 2), skip 2 ch, tr, [ch 2, skip 2 ch, tr] {wide - 1} times"
        f" = {wide + 1} tr, {wide} ch-2 sps",
    ]
    below = [False] * wide
    half = wide // 2
    for row in range(2, high):
        mine = [0 < at and rng.random() < 0.45 for at in range(half + 1)]
        filled = mine + mine[:half][::-1]
        words = [WORDS[now, under] for now, under in zip(filled, below, strict=True)][1:]
        many = sum(filled)
        lines.append(
            f"row {row}: ch 5 as (tr, ch 2), tr, {', '.join(_grouped(words))}"
            f" = {wide + 1 + 2 * many} tr, {wide - many} ch-2 sps"
        )
        below = filled
    return lines


WORDS = {
    (False, False): "window",
    (False, True): "hole",
    (True, False): "plug",
    (True, True): "block",
}


def _grouped(words: list[str]) -> list[str]:
    out: list[tuple[int, str]] = []
    for word in words:
        if out and out[-1][1] == word:
            out[-1] = (out[-1][0] + 1, word)
        else:
            out.append((1, word))
    return [_n(many, word) for many, word in out]
