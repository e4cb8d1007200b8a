"""The bill for other programs: CSV with a row for everything in every size, and JSON.

Amounts are rounded as they are for people, and ``how`` says how each was got: ``weighed`` and
``used`` from a swatch (other stitches by published rates), ``estimate`` from published rates alone,
``stated`` by the designer.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from loopwright.measure.amounts import rounded
from loopwright.measure.kit import Entry, Order
from loopwright.measure.yarn import Between, Need
from loopwright.render.kit.reckoned import Reckoned, money, name_of
from loopwright.trade.yarn_use import SOURCES, SPREAD

Json = dict[str, object]
PIECE = "piece"
HEAD = (
    "size",
    "what",
    "name",
    "needed_g",
    "needed_g_most",
    "needed_m",
    "needed_m_most",
    "needed_balls",
    "in_bag",
    "unit",
    "left_over",
    "left_over_most",
    "left_over_unit",
    "cost",
    "how",
)


def csv(kit: Reckoned) -> str:
    """A row for everything in every size, then the bag for all sizes, then the order."""
    rows: list[Iterator[object]] = [iter(HEAD)]
    for size, name in enumerate(kit.bill.sizes):
        rows += [_row(entry, size, name, kit) for entry in kit.bill.entries]
    rows += [_all_sizes(entry, kit) for entry in kit.bill.entries]
    rows += [_ordered(one, kit) for one in kit.orders]
    return "".join(",".join(map(_cell, row)) + "\n" for row in rows)


def _cell(value: object) -> str:
    """A cell, in quotation marks where it needs them, that no spreadsheet takes for a formula."""
    shown = "" if value is None else str(value)
    if shown[:1] in ("=", "+", "@") or (shown[:1] == "-" and not shown[1:].isdecimal()):
        shown = f"'{shown}"
    if any(char in shown for char in ',"\n\r'):
        shown = '"' + shown.replace('"', '""') + '"'
    return shown


def _row(entry: Entry, size: int, name: str, kit: Reckoned) -> Iterator[object]:
    need = entry.needs[size] if entry.needs else None
    left = entry.left(size, entry.amounts[size])
    cost = entry.cost(entry.amounts[size])
    yield from (name, entry.what, name_of(entry, kit.pattern))
    yield from _pair(need.grams if need else None)
    yield from _pair(need.metres if need else None)
    yield need.balls if need else None
    yield from (_number(entry.amounts[size]), entry.unit or PIECE)
    yield from _pair(left[0] if left else None)
    yield from (left[1] if left else None, money(cost) if cost is not None else None)
    yield " ".join(how_of(entry, need))


def _all_sizes(entry: Entry, kit: Reckoned) -> Iterator[object]:
    cost = entry.cost(entry.amount)
    yield from ("all sizes", entry.what, name_of(entry, kit.pattern), *[None] * 5)
    yield from (_number(entry.amount), entry.unit or PIECE, None, None, None)
    yield from (money(cost) if cost is not None else None, " ".join(how_of(entry, None)))


def _ordered(one: Order, kit: Reckoned) -> Iterator[object]:
    yield from (f"{kit.bags} bags", one.entry.what, name_of(one.entry, kit.pattern))
    for amount in (one.grams, one.metres):
        yield from _pair(Between(amount, amount) if amount is not None else None)
    yield from (one.balls, _number(one.amount), one.entry.unit or PIECE, None, None, None)
    yield from (money(one.cost) if one.cost is not None else None, "")


def how_of(entry: Entry, need: Need | None) -> tuple[str, ...]:
    """How the figures of an entry were got."""
    ways = need.how if need is not None else ()
    return (*ways, "stated") if entry.stated else ways


def _pair(amount: Between | None) -> tuple[int | None, int | None]:
    if amount is None:
        return None, None
    if amount.least < 0:  # too little is told exactly: nobody orders by it
        return int(amount.least // 1), int(amount.most // 1)
    return rounded(amount)


def _number(value: Fraction) -> int | float:
    return int(value) if value.denominator == 1 else round(float(value), 2)


# ------------------------------------------------------------------ JSON
def json(kit: Reckoned) -> str:
    """Everything that was reckoned."""
    import json as writer

    pattern, use = kit.pattern, kit.use
    told: Json = {
        "title": pattern.title,
        "sizes": list(kit.bill.sizes),
        "allowance": {
            "share": float(use.allowance),
            "how": "stated" if use.stated else "common practice",
        },
        "spread": float(SPREAD),
        "sources": list(SOURCES),
        "without_gauge": list(use.without),
        "items": [_item(entry, kit) for entry in kit.bill.entries],
        "cost": _cost(kit, None),
        "cost_by_size": {name: _cost(kit, size) for size, name in enumerate(kit.bill.sizes)},
        "time": _time(kit),
        "order": _order(kit),
    }
    return writer.dumps(told, ensure_ascii=False, indent=1) + "\n"


def _item(entry: Entry, kit: Reckoned) -> Json:
    out: Json = {
        "what": entry.what,
        "name": name_of(entry, kit.pattern),
        "unit": entry.unit or PIECE,
        "stated": entry.stated,
        "price": _price(entry.price) if entry.price is not None else None,
        "in_bag": _number(entry.amount),
        "in_bag_by_size": {
            name: _number(amount)
            for name, amount in zip(kit.bill.sizes, entry.amounts, strict=True)
        },
    }
    if entry.what == "yarn":
        out["needed"] = {name: _need(entry, size) for size, name in enumerate(kit.bill.sizes)}
    return out


def _need(entry: Entry, size: int) -> Json | None:
    need = entry.needs[size]
    if need is None:
        return None
    left = entry.left(size, entry.amounts[size])
    return {
        "grams": _between(need.grams),
        "metres": _between(need.metres),
        "balls": need.balls,
        "how": list(need.how),
        "left_over": {**(_between(left[0]) or {}), "unit": left[1]} if left else None,
    }


def _between(amount: Between | None) -> dict[str, int | None] | None:
    if amount is None:
        return None
    least, most = _pair(amount)
    return {"least": least, "most": most}


def _cost(kit: Reckoned, size: int | None) -> Json:
    total, without = kit.bill.costs(size)
    names = [name_of(entry, kit.pattern) for entry in without]
    return {"total": _price(total), "without_price": names}


def _price(price: Fraction) -> float:
    return float(money(price).replace(",", ""))


def _time(kit: Reckoned) -> Json | None:
    pace = kit.pattern.pace
    if pace is None:
        return None
    return {
        "pace": pace.written,
        "minutes": {
            kit.bill.sizes[one.size]: {
                "stitches": one.stitches,
                "least": int(one.least),
                "most": -int(-one.most // 1),
            }
            for one in kit.time
        },
    }


def _order(kit: Reckoned) -> Json | None:
    if not kit.bags:
        return None
    return {
        "bags": kit.bags,
        "margin": float(kit.margin),
        "items": [
            {
                "what": one.entry.what,
                "name": name_of(one.entry, kit.pattern),
                "amount": _number(one.amount),
                "unit": one.entry.unit or PIECE,
                "grams": _up(one.grams),
                "metres": _up(one.metres),
                "balls": one.balls,
                "cost": _price(one.cost) if one.cost is not None else None,
            }
            for one in kit.orders
        ],
    }


def _up(value: Fraction | None) -> int | None:
    return None if value is None else rounded(Between(value, value))[1]
