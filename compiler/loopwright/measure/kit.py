"""The kit: what goes in the bag, what of it each size takes, what is left over and what it costs.

A bill has an entry for everything in the bag. Where the pattern has a ``kit`` line, that says how
much of each; a yarn that it leaves out is needed all the same, and nothing of it is in the bag.
Without a ``kit`` line, or with one that names no yarn, the bag is filled with what the largest size
takes: whole balls where a ball is known.
"""

from __future__ import annotations

from fractions import Fraction

from loopwright.frozen import Frozen, replace
from loopwright.ir.fabric import Fact
from loopwright.ir.pattern import Hook, KitItem, Pattern, Yarn
from loopwright.measure.amounts import balls_text, between_text, plain, rounded
from loopwright.measure.yarn import ESTIMATE, Between, Need, YarnUse
from loopwright.source import Span

BALL, GRAMS, METRES = "ball", "g", "m"


class Entry(Frozen):
    """One thing in the bag. ``amounts`` are what the bag of each size holds, in ``unit`` (``ball``,
    ``g``, ``m``, a unit as written, or empty for pieces); ``stated`` where the designer says so.
    ``price`` is of one ball or piece, or of the whole of anything weighed or measured. Of a yarn,
    ``needs`` is what each size takes, and ``ball`` what a ball holds; it has its ``own_price``
    where the kit line gives one and not only the yarn's own line."""

    what: str
    name: str
    amounts: tuple[Fraction, ...]
    unit: str
    stated: bool
    price: Fraction | None = None
    needs: tuple[Need | None, ...] = ()
    ball: Yarn | None = None
    own_price: bool = False

    @property
    def amount(self) -> Fraction:
        """What the one bag holds that serves every size."""
        return max(self.amounts, default=Fraction(0))

    def cost(self, amount: Fraction) -> Fraction | None:
        """What so much of it costs, where it has a price."""
        if self.price is None:
            return None
        if self.unit in ("", BALL):
            return self.price * amount
        return self.price * amount / self.amount if self.amount else Fraction(0)

    def in_grams(self, amount: Fraction) -> Fraction | None:
        """So much of a yarn in grams, where that can be told."""
        return self._turned(amount, GRAMS)

    def in_metres(self, amount: Fraction) -> Fraction | None:
        """So much of a yarn in metres, where that can be told."""
        return self._turned(amount, METRES)

    def _turned(self, amount: Fraction, wanted: str) -> Fraction | None:
        if self.unit == wanted:
            return amount
        if self.ball is None or not self.ball.grams or not self.ball.metres:
            return None
        holds = {BALL: Fraction(1), GRAMS: self.ball.grams, METRES: self.ball.metres}
        return amount / holds[self.unit] * holds[wanted]

    def left(self, size: int, amount: Fraction) -> tuple[Between, str] | None:
        """What is left of so much after one size was made, in grams or else in metres; below
        nought where it is too little, None where it cannot be told."""
        need = self.needs[size] if self.needs else None
        if need is None:
            return None
        for unit, took in ((GRAMS, need.grams), (METRES, need.metres)):
            have = self._turned(amount, unit)
            if took is not None and have is not None:
                return Between(have - took.most, have - took.least), unit
        return None

    @property
    def a_ball(self) -> Fraction | None:
        """The price of a whole ball, where what is wound off is bought by the ball."""
        return self.ball.price if self.ball is not None and not self.own_price else None

    def short(self, size: int) -> bool:
        """Whether the bag holds less than a size may take."""
        left = self.left(size, self.amounts[size])
        return left is not None and left[0].least < 0


class Bill(Frozen):
    """Everything in the bag, the yarns first; ``margin`` is what is ordered besides."""

    entries: tuple[Entry, ...]
    sizes: tuple[str, ...]
    margin: Fraction | None

    @property
    def yarns(self) -> tuple[Entry, ...]:
        """The yarns."""
        return tuple(entry for entry in self.entries if entry.what == "yarn")

    def costs(self, size: int | None) -> tuple[Fraction, tuple[Entry, ...]]:
        """What one size's bag costs, or (None) the bag that serves every size; and what has no
        price and is not in it."""
        total = Fraction(0)
        without = []
        for entry in self.entries:
            amount = entry.amount if size is None else entry.amounts[size]
            cost = entry.cost(amount)
            if cost is not None:
                total += cost
            elif amount:
                without.append(entry)
        return total, tuple(without)


def bill(pattern: Pattern, use: YarnUse) -> Bill:
    """The bill of materials of a pattern."""
    items = pattern.kit.items if pattern.kit is not None else ()
    yarns = {yarn.name: yarn for yarn in pattern.yarns}
    named = [item for item in items if item.what == "yarn"]
    entries = [_stated(item, yarns, use, pattern) for item in named]
    have = {item.name for item in named}
    wanted = dict.fromkeys(need.yarn for need in use.needs)
    for name in wanted:
        if name not in have:
            entries.append(_implied(name, yarns.get(name), use, pattern, empty=bool(named)))
    entries += [_thing(item) for item in items if item.what != "yarn"]
    if pattern.kit is None:
        entries += [_hook(hook, len(pattern.sizes)) for hook in pattern.hooks]
    margin = pattern.kit.margin if pattern.kit is not None else None
    return Bill(tuple(entries), pattern.sizes, margin)


def _needs(name: str, use: YarnUse, sizes: int) -> tuple[Need | None, ...]:
    found = {need.size: need for need in use.needs if need.yarn == name}
    return tuple(found.get(size) for size in range(sizes))


def _stated(item: KitItem, yarns: dict[str, Yarn], use: YarnUse, pattern: Pattern) -> Entry:
    yarn = yarns[item.name]
    needs = _needs(item.name, use, len(pattern.sizes))
    price = item.price
    own = price is not None
    entry = Entry("yarn", item.name, item.amounts, item.unit, True, price, needs, yarn, own)
    if price is None and yarn.price is not None:
        price = yarn.price if item.unit == BALL else _by_the_ball(entry, yarn)
    return replace(entry, price=price)


def _by_the_ball(entry: Entry, yarn: Yarn) -> Fraction | None:
    """The price of a weighed or measured amount at the price of a ball."""
    grams = entry.in_grams(entry.amount)
    if grams is None or yarn.grams is None or yarn.price is None:
        return None
    return yarn.price * grams / yarn.grams


def _implied(name: str, yarn: Yarn | None, use: YarnUse, pattern: Pattern, *, empty: bool) -> Entry:
    """A yarn that the kit line does not name: nothing of it is there, or just what it takes."""
    needs = _needs(name, use, len(pattern.sizes))
    balls = all(need is None or need.balls is not None for need in needs)
    grams = all(need is None or need.grams is not None for need in needs)
    unit = BALL if balls else GRAMS if grams else METRES
    amounts = tuple(Fraction(0) if empty else _amount(need, unit) for need in needs)
    price = yarn.price if yarn is not None and unit == BALL else None
    return Entry("yarn", name, amounts, unit, False, price, needs, yarn)


def _amount(need: Need | None, unit: str) -> Fraction:
    if need is None:
        return Fraction(0)
    if unit == BALL:
        return Fraction(need.balls or 0)
    amount = need.grams if unit == GRAMS else need.metres
    return amount.most if amount is not None else Fraction(0)


def _thing(item: KitItem) -> Entry:
    return Entry(item.what, item.name, item.amounts, item.unit, True, item.price)


def _hook(hook: Hook, sizes: int) -> Entry:
    return Entry("hook", hook.name, (Fraction(1),) * sizes, "", False)


def shortages(pattern: Pattern, made: Bill) -> tuple[tuple[int, Fact], ...]:
    """Every size in which the bag holds less of a yarn than is taken, as (size, fact). The bag's
    ``enough`` is what the largest size takes."""
    kit = pattern.kit
    if kit is None:
        return ()
    spans = {item.name: item.span for item in kit.items if item.what == "yarn"}
    out = []
    for entry in made.yarns:
        short = [size for size in range(len(made.sizes)) if entry.short(size)]
        if short:
            most = max(short, key=lambda size: (_takes(entry, size)[0].most, -size))
            enough = _enough(entry, most)
            span = spans.get(entry.name, kit.span)
            out += [(size, _fact(entry, size, enough, span)) for size in short]
    return tuple(out)


def _fact(entry: Entry, size: int, enough: str, span: Span) -> Fact:
    amount, unit = _takes(entry, size)
    need = entry.needs[size]
    values: tuple[tuple[str, object], ...] = (
        ("name", entry.name),
        ("have", _bag_text(entry, entry.amounts[size])),
        ("takes", f"{between_text(amount)} {unit}"),
        ("estimate", need is not None and ESTIMATE in need.how),
        ("enough", enough),
    )
    return Fact("yarn-short", span, "", "", values)


def _takes(entry: Entry, size: int) -> tuple[Between, str]:
    """What a size takes of a yarn, in the unit in which the bag can be held against it."""
    need = entry.needs[size]
    left = entry.left(size, entry.amounts[size])
    assert need is not None
    assert left is not None
    amount = need.grams if left[1] == GRAMS else need.metres
    assert amount is not None
    return amount, left[1]


def _enough(entry: Entry, size: int) -> str:
    need = entry.needs[size]
    if entry.unit == BALL and need is not None and need.balls is not None:
        return balls_text(need.balls)
    amount, unit = _takes(entry, size)
    return f"{rounded(amount)[1]:,} {unit}"


def _bag_text(entry: Entry, amount: Fraction) -> str:
    """``nothing``, ``1 ball (50 g)``, ``80 g``."""
    if not amount:
        return "nothing"
    if entry.unit != BALL:
        return f"{plain(amount)} {entry.unit}"
    grams = entry.in_grams(amount)
    text = f"{plain(amount)} ball{'' if amount == 1 else 's'}"
    return f"{text} ({plain(grams)} g)" if grams is not None else text


class Order(Frozen):
    """How much of one thing to dye, order or wind for so many bags: in its own unit, and for a
    yarn in grams, metres and whole balls where they can be told."""

    entry: Entry
    amount: Fraction
    balls: int | None
    grams: Fraction | None
    metres: Fraction | None
    cost: Fraction | None


def order(made: Bill, bags: int, margin: Fraction) -> tuple[Order, ...]:
    """What so many bags take, each of which serves every size; the margin is on yarn only."""
    out = []
    for entry in made.entries:
        yarn = entry.what == "yarn"
        amount = entry.amount * bags * (1 + margin if yarn else 1)
        if entry.unit in ("", BALL):
            amount = Fraction(_up(amount))
        grams = entry.in_grams(amount) if yarn else None
        metres = entry.in_metres(amount) if yarn else None
        balls = _balls(entry, amount) if yarn else None
        cost = entry.cost(amount)
        if balls is not None and entry.a_ball is not None:
            cost = entry.a_ball * balls
        out.append(Order(entry, amount, balls, grams, metres, cost))
    return tuple(out)


def _balls(entry: Entry, amount: Fraction) -> int | None:
    if entry.unit == BALL:
        return int(amount)
    grams = entry.in_grams(amount)
    if grams is None or entry.ball is None or not entry.ball.grams:
        return None
    return _up(grams / entry.ball.grams)


def _up(value: Fraction) -> int:
    return -((-value.numerator) // value.denominator)
