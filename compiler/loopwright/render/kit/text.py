"""The bill as plain text: what each size takes, what is in the bag, what many bags take."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from fractions import Fraction

from loopwright.measure.amounts import (
    balls_text,
    grams_text,
    how_text,
    left_text,
    metres_text,
    percent_text,
    plain,
)
from loopwright.measure.kit import BALL, Entry, Order
from loopwright.measure.pace import time_text
from loopwright.measure.yarn import Between, Need
from loopwright.render.kit.reckoned import Reckoned, amount_of, money, name_of

WIDTH = 78
Rows = list[tuple[str, ...]]


def text(kit: Reckoned) -> str:
    """The whole bill."""
    blocks = [f"{kit.pattern.title}: what it takes"]
    blocks += [_yarn(entry, kit) for entry in kit.bill.yarns]
    if kit.bill.yarns or kit.use.without:
        blocks.append(_wrapped(how_text(kit.use)))
    blocks.append(_bag(kit))
    if kit.time:
        blocks.append(_time(kit))
    if kit.bags:
        blocks.append(_orders(kit))
    return "\n\n".join(blocks) + "\n"


def _wrapped(words: str) -> str:
    return textwrap.fill(words, WIDTH, break_long_words=False, break_on_hyphens=False)


def _table(rows: Rows) -> str:
    """Rows under one another; the first is the head."""
    widths = [max(len(row[at]) for row in rows) for at in range(len(rows[0]))]
    lines = []
    for row in rows:
        cells = [cell.ljust(width) for cell, width in zip(row, widths, strict=True)]
        lines.append(f"  {'   '.join(cells)}".rstrip())
    return "\n".join(lines)


# ------------------------------------------------------------------ yarn
def _yarn(entry: Entry, kit: Reckoned) -> str:
    """A row a size. Where the bag of a size holds less than the one that serves all sizes, what is
    left of that one stands beside it."""
    differ = len(set(entry.amounts)) > 1
    head = ("size", "takes", "in the bag", "left over")
    rows: Rows = [(*head, f"of {amount_of(entry, entry.amount)}") if differ else head]
    for size, name in enumerate(kit.bill.sizes):
        need, amount = entry.needs[size], entry.amounts[size]
        takes = need_text(need) if need is not None else "none"
        bag = amount_of(entry, amount) if amount else "none"
        row = (name, takes, bag, _left(entry, size, amount))
        rows.append((*row, _left(entry, size, entry.amount)) if differ else row)
    return f"{_head(entry, kit)}\n{_table(rows)}"


def _left(entry: Entry, size: int, amount: Fraction) -> str:
    left = entry.left(size, amount)
    return left_text(*left) if left is not None else ""


def _head(entry: Entry, kit: Reckoned) -> str:
    ball = entry.ball
    facts = [ball.description] if ball is not None and ball.description else []
    if ball is not None and ball.grams and ball.metres:
        facts.append(f"{plain(ball.grams)} g = {plain(ball.metres)} m a ball")
    head = f"{name_of(entry, kit.pattern)}: {', '.join(facts)}" if facts else entry.name or "yarn"
    if not entry.stated and kit.pattern.kit is not None and not entry.amount:
        head += " (not on the kit line)"
    return head


def need_text(need: Need) -> str:
    """``83 g, 182 m / 199 yd, 2 balls``."""
    facts = [
        grams_text(need.grams) if need.grams is not None else "",
        metres_text(need.metres) if need.metres is not None else "",
        balls_text(need.balls) if need.balls is not None else "",
    ]
    return ", ".join(fact for fact in facts if fact)


# ------------------------------------------------------------------ the bag
def _bag(kit: Reckoned) -> str:
    made = kit.bill
    priced = any(entry.price is not None for entry in made.entries)
    head = "One bag for all sizes" if len(made.sizes) > 1 else "The bag"
    if not made.entries:
        return f"{head}: nothing is listed."
    rows: Rows = [("", "", "cost")] if priced else []
    for entry in made.entries:
        if not entry.amount:
            continue
        cost = entry.cost(entry.amount)
        cells = (amount_of(entry, entry.amount), name_of(entry, kit.pattern))
        rows.append((*cells, money(cost) if cost is not None else "") if priced else cells)
    if not rows:
        return f"{head}: nothing is in it."
    if priced:
        rows.append(("", "together", money(made.costs(None)[0])))
    lines = [f"{head}:", _table(rows).replace("\n\n", "\n").strip("\n")]
    lines += list(_bag_remarks(kit, priced=priced))
    return "\n".join(lines)


def _bag_remarks(kit: Reckoned, *, priced: bool) -> Iterator[str]:
    made = kit.bill
    without = made.costs(None)[1]
    if priced and without:
        names = ", ".join(name_of(entry, kit.pattern) for entry in without)
        yield _wrapped(f"  Without a price, and not in the cost: {names}.")
    each = [made.costs(size)[0] for size in range(len(made.sizes))]
    if priced and len(set(each)) > 1:
        told = ", ".join(
            f"{name} {money(cost)}" for name, cost in zip(made.sizes, each, strict=True)
        )
        yield _wrapped(f"  A bag for one size only costs: {told}.")


def _time(kit: Reckoned) -> str:
    pace = kit.pattern.pace
    assert pace is not None
    rows: Rows = [("size", "stitches and chains", "time")]
    rows += [(kit.bill.sizes[one.size], f"{one.stitches:,}", time_text(one)) for one in kit.time]
    words = f"At {pace.written}, without sewing up and weaving in."
    return f"Working time:\n{_table(rows)}\n{_wrapped(words)}"


# ------------------------------------------------------------------ many bags
def _orders(kit: Reckoned) -> str:
    margin = f", with {percent_text(kit.margin)} more yarn" if kit.margin else ""
    priced = any(one.cost is not None for one in kit.orders)
    rows: Rows = []
    for one in kit.orders:
        if one.amount:
            cells = (amount_of(one.entry, one.amount), name_of(one.entry, kit.pattern), _also(one))
            rows.append((*cells, money(one.cost) if one.cost is not None else ""))
    if not rows:
        return f"For {_bags(kit.bags)}: nothing is in the bag."
    if priced:
        total = sum(one.cost for one in kit.orders if one.cost is not None)
        rows.append(("", "together", "", money(total)))  # type: ignore[arg-type]
    return f"For {_bags(kit.bags)}{margin}:\n{_table(rows)}"


def _bags(n: int) -> str:
    return f"{n:,} bag{'' if n == 1 else 's'}"


def _also(one: Order) -> str:
    """The same amount of yarn in the other units."""
    units: Sequence[tuple[str, str]] = (
        ("g", grams_text(Between(one.grams, one.grams)) if one.grams is not None else ""),
        ("m", metres_text(Between(one.metres, one.metres)) if one.metres is not None else ""),
        (BALL, balls_text(one.balls) if one.balls is not None else ""),
    )
    return ", ".join(told for unit, told in units if told and unit != one.entry.unit)
