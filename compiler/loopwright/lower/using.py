"""``use: FILE``: yarns, hooks, gauges and own stitches from another file.

The texts of the files are handed in. Each is lowered once, by itself, in its own terms and with its
own sizes; what it gives is neutral already, and is put under its names in the pattern that uses it.

    library.shelf("../shared/house.crochet", ("mittens.crochet",)) -> Shelf
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from loopwright.diagnostics import ERROR, Diagnostic
from loopwright.frozen import NamedTuple, replace
from loopwright.ir.items import Change, Work
from loopwright.ir.numbers import Given, Named, Number, PerSize
from loopwright.ir.pattern import Gauge, Hook, OwnStitch, Yarn
from loopwright.lower import faults
from loopwright.lower.context import SHARED_NAMES, Context
from loopwright.source import NotRead, Span, beside
from loopwright.syntax.lines import Line

GIVING = frozenset(
    [
        "shared",
        "pattern",
        "terms",
        "sizes",
        "use",
        "yarn",
        "hook",
        "gauge",
        "tension",
        "stitch",
        "count",
        "measure",
        "notation",
    ]
)
"""Lines of a used file that are read: those that give something, and those that these need."""

Tables = Mapping[str, Mapping[str, Any]]


class UsedFile(NamedTuple):
    """A file that is used: where its offsets begin, and its lines, moved there."""

    base: int
    lines: list[Line]


class Shelf(NamedTuple):
    """What a file gives: by kind of name and name. ``fault`` is the first thing that is wrong with
    it."""

    sizes: tuple[str, ...]
    tables: Tables
    fault: Diagnostic | None


class Library:
    """The files that there are to use, by their paths from the folder of the pattern. ``own`` is
    the pattern's file itself, ``also`` what it uses without a line that says so."""

    def __init__(
        self,
        files: Mapping[str, UsedFile | NotRead],
        own: str = "",
        also: tuple[str, ...] = (),
        lower: Callable[[list[Line], Library, tuple[str, ...]], Context] | None = None,
    ) -> None:
        self.files = files
        self.own = own
        self.also = tuple(one for one in also if one != own)
        self.lower = lower
        self._shelves: dict[str, Shelf] = {}

    def lines(self) -> list[Line]:
        """The lines of all files."""
        return [
            line for one in self.files.values() if isinstance(one, UsedFile) for line in one.lines
        ]

    def shelf(self, key: str, chain: tuple[str, ...]) -> Shelf | NotRead:
        """What a file gives, or why it cannot be used; ``chain`` are the files that lead to it."""
        if key in chain:
            round_ = " uses ".join(f"`{one}`" for one in (*chain[chain.index(key) :], key))
            apart = "Take one of these `use` lines out; what both need can go into a third file."
            return NotRead(f"the files go round in a ring: {round_}", apart)
        if key in self._shelves:
            return self._shelves[key]
        found = self.files.get(key, NotRead("there is no such file"))
        if isinstance(found, NotRead):
            return found
        assert self.lower is not None
        lines = [line for line in found.lines if line.label in GIVING]
        ctx = self.lower(lines, self, (*chain, key))
        fault = next((one for one in ctx.out if one.severity == ERROR), None)
        tables = {what: _settled(ctx, table) for what, table in _tables(ctx).items()}
        shelf = self._shelves[key] = Shelf(ctx.sizes, tables, fault)
        return shelf


NOTHING = Library({})


def _tables(ctx: Context) -> dict[str, dict[str, Any]]:
    return {"yarn": ctx.yarns, "hook": ctx.hooks, "gauge": ctx.gauges, "stitch": ctx.owns}


def _settled(ctx: Context, table: dict[str, Any]) -> dict[str, Any]:
    """A table with the counts of its own file put in for their names."""
    values = {name: _per_size(count.values) for name, count in ctx.counts.items()}
    if not values:
        return table
    return {
        name: replace(one, items=_with(one.items, values)) if type(one) is OwnStitch else one
        for name, one in table.items()
    }


def _per_size(values: tuple[int, ...]) -> Number:
    return Given(values[0]) if len(set(values)) == 1 else PerSize(tuple(map(Given, values)))


def _with(value: Any, names: Mapping[str, Number]) -> Any:
    """Items with numbers put in for the names of counts."""
    if type(value) is Named:
        return names.get(value.name, value)
    if type(value) is tuple:
        return tuple(_with(one, names) for one in value)
    if hasattr(value, "__match_args__") and not isinstance(value, tuple):
        kept = {name: _with(getattr(value, name), names) for name in value.__match_args__}
        return type(value)(**kept)
    return value


# ------------------------------------------------------------------ into the pattern
def use(ctx: Context, library: Library, written: str, span: Span, chain: tuple[str, ...]) -> None:
    """Bring what a file gives into a pattern. ``span`` is where it says so."""
    key = beside(chain[-1], written)
    if key is None:
        why = NotRead("it is not a path from this file's own folder, with `/` between folders")
        _cannot(ctx, span, written, why)
        return
    shelf = library.shelf(key, chain)
    if isinstance(shelf, NotRead):
        _cannot(ctx, span, written, shelf)
        return
    if shelf.fault is not None:
        ctx.say(faults.used_is_faulty(span, written, shelf.fault))
        ctx.lost = True
    for what in SHARED_NAMES:
        for name, one in shelf.tables[what].items():
            if _bring(ctx, what, name, one, shelf, span):
                ctx.brought[what, name] = written


def _cannot(ctx: Context, span: Span, written: str, why: NotRead) -> None:
    ctx.lost = True
    ctx.say(faults.cannot_use(span, written, why.why, why.hint))


def _bring(ctx: Context, what: str, name: str, one: Any, shelf: Shelf, span: Span) -> bool:
    """Put one thing under its name; whether it came from there."""
    table = _tables(ctx)[what]
    if name in table:
        if table[name].span != one.span:
            ctx.say(faults.name_taken(span, what, name, table[name].span))
        return False
    fitted = _fitted(one, shelf.sizes, ctx.sizes)
    if fitted is None:
        ctx.unfit[what, name] = span
        if type(one) is Hook:
            fitted = replace(one, mm=one.mm[:1] * len(ctx.sizes))
    table[name] = one if fitted is None else fitted
    return True


def _fitted(one: Any, theirs: tuple[str, ...], ours: tuple[str, ...]) -> Any | None:
    """What a file gives, for the sizes of the pattern; None where it was given for others."""
    if theirs == ours:
        return one
    if type(one) is Hook:
        return replace(one, mm=one.mm[:1] * len(ours)) if len(set(one.mm)) == 1 else None
    return None if type(one) is OwnStitch and _by_size(one.items) else one


def _by_size(value: Any) -> bool:
    """Whether a number per size stands in items."""
    if type(value) is PerSize:
        return True
    inner = value if type(value) is tuple else ()
    if hasattr(value, "__match_args__") and not isinstance(value, tuple):
        inner = tuple(getattr(value, name) for name in value.__match_args__)
    return any(_by_size(kid) for kid in inner)


# ------------------------------------------------------------------ what is left of it
def leave_unused(ctx: Context) -> None:
    """Take out what came from other files and is not used, and say what is used and does not fit
    the sizes."""
    needed = [pair for pair in ctx.brought if pair in ctx.used]
    seen = set(needed)
    while needed:
        what, name = needed.pop()
        more = _needs(_tables(ctx)[what][name])
        needed += [pair for pair in more if pair in ctx.brought and pair not in seen]
        seen.update(more)
    for what, table in _tables(ctx).items():
        for name in list(table):
            if (what, name) in ctx.brought and (what, name) not in seen:
                del table[name]
    for pair, span in ctx.unfit.items():
        if pair in seen:
            ctx.say(faults.of_other_sizes(span, *pair, ctx.brought[pair]))


def _needs(one: Yarn | Hook | Gauge | OwnStitch) -> list[tuple[str, str]]:
    """The names that something is made of."""
    if type(one) is Gauge:
        return [
            *(("yarn", yarn) for yarn in one.yarns),
            *([("hook", one.hook)] if one.hook else []),
        ]
    return list(_named_in(one.items)) if type(one) is OwnStitch else []


def _named_in(value: Any) -> list[tuple[str, str]]:
    out: list[tuple[str, str]] = []
    if type(value) is Work and value.own:
        out.append(("stitch", value.own))
    elif type(value) is Change:
        out += [("yarn", yarn) for yarn in value.yarns]
    if type(value) is tuple:
        for kid in value:
            out += _named_in(kid)
    elif hasattr(value, "__match_args__") and not isinstance(value, tuple):
        for name in value.__match_args__:
            out += _named_in(getattr(value, name))
    return out
