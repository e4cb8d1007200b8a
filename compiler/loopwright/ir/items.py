"""What a row says to do, item by item, in neutral stitches and numbers without sizes."""

from __future__ import annotations

from loopwright.frozen import Frozen, field
from loopwright.ir.numbers import Given, Number
from loopwright.source import Span
from loopwright.trade.stitches import Stitch

NOWHERE = Span(0, 0)
ONE = Given(1)


class Kind(Frozen):
    """A kind of place. ``what`` is one of

    ``st`` any stitch; ``ch`` a chain; ``sp`` a chain space (of ``chains`` chains, 0 for any);
    ``gap`` between two stitches; ``row end``; ``stitch`` the stitch ``stitch``; ``own`` the
    designer's own stitch ``own``; ``many`` all of the form ``own`` (``bobbles``); ``st and ch``.
    """

    what: str
    chains: int = 0
    stitch: Stitch | None = None
    own: str = ""


ANY_STITCH = Kind("st")


class Scope(Frozen):
    """How far an ``each`` or a repeat goes: ``end`` (around, across), ``last`` (to the last ``n``
    of ``kind``), ``next`` (to the next of ``kind``), ``marked`` (to the marker ``name``), or
    ``here`` for as long as the kind goes on. ``word`` is what was written, for the prose."""

    how: str
    n: Number = ONE
    kind: Kind = ANY_STITCH
    name: str = ""
    word: str = field(default="", compare=False)


class Target(Frozen):
    """Where a stitch goes. ``how`` is one of

    ``next`` (the next of ``kind``); ``each next`` (one after another, ``n`` of them); ``each``
    (as far as ``scope``); ``each last`` (the last ``n``); ``same``, ``first``, ``last``; ``ring``;
    ``marked`` (the marker ``name``); ``hook`` (the ``nth`` chain from the hook); ``top`` (of a
    counted chain of ``chains``); ``base`` (the place it stands on); ``chain of`` (the ``nth``
    chain of the space that is ``which``: next, first, same, last); ``nth`` (the ``nth`` of the
    kind from here); ``skipped`` (the ``nth`` just skipped, 0 for the first not yet worked);
    ``each skipped`` (``n`` of them); ``each unworked`` (``n`` of those left).
    ``below`` rows further down; ``of_row`` a certain earlier row.
    ``post`` when the stitch goes around the place instead of into it.
    """

    how: str
    kind: Kind = ANY_STITCH
    n: Number = ONE
    nth: int = 0
    which: str = "next"
    chains: int = 0
    name: str = ""
    scope: Scope | None = None
    post: bool = False
    below: int = 0
    of_row: int = 0
    span: Span = field(default=NOWHERE, compare=False)


class Work(Frozen):
    """``n`` stitches. Without a target, one in each of the next ``n`` stitches; with one, ``n``
    in that place (in each of the places). ``loop`` is ``""``, ``back``, ``front`` or ``third``.
    ``own`` names the designer's own stitch this is, in place of ``stitch``."""

    stitch: Stitch
    n: Number = ONE
    target: Target | None = None
    loop: str = ""
    own: str = ""
    span: Span = field(default=NOWHERE, compare=False)
    named: Span = field(default=NOWHERE, compare=False)


class Increase(Frozen):
    """``n`` times two stitches in the next one."""

    stitch: Stitch
    n: Number = ONE
    span: Span = field(default=NOWHERE, compare=False)


class Decrease(Frozen):
    """``n`` times the next two stitches worked together, as ``stitch``."""

    stitch: Stitch
    n: Number = ONE
    span: Span = field(default=NOWHERE, compare=False)


class Evenly(Frozen):
    """``n`` stitches spread over the whole edge (``how`` is ``all``), or a row of stitches with
    ``n`` increases (``inc``) or decreases (``dec``) spread over it."""

    stitch: Stitch
    n: Number
    how: str = "all"
    loop: str = ""
    span: Span = field(default=NOWHERE, compare=False)


class Group(Frozen):
    """Items worked in one place (or in each of several). ``as_stitch`` where the whole counts as
    that one stitch."""

    items: tuple[Item, ...]
    target: Target
    as_stitch: Stitch | None = None
    span: Span = field(default=NOWHERE, compare=False)


class Repeat(Frozen):
    """Items in square brackets: ``times`` times, or as far as ``scope``. The last repeat stops
    before item number ``stop`` where there is a ``**``."""

    items: tuple[Item, ...]
    times: Number | None = None
    scope: Scope | None = None
    stop: int | None = None
    span: Span = field(default=NOWHERE, compare=False)


class Chain(Frozen):
    """``n`` chains. ``counts_as`` is the stitch they count as, with ``and_chains`` loose chains
    after it: ``ch 4 as (tr, ch 1)``."""

    n: Number
    counts_as: Stitch | None = None
    and_chains: int = 0
    span: Span = field(default=NOWHERE, compare=False)


class Skip(Frozen):
    """``n`` places of a kind passed over; ``counts_as`` where they are starting chains that
    count."""

    n: Number
    kind: Kind
    counts_as: Stitch | None = None
    and_chains: int = 0
    span: Span = field(default=NOWHERE, compare=False)


class Join(Frozen):
    """The round's join; with a stitch, that and the chains before it close one more space."""

    stitch: Stitch | None = None
    span: Span = field(default=NOWHERE, compare=False)


class Turn(Frozen):
    """Turn the work (``turned``) or expressly do not."""

    turned: bool = True
    span: Span = field(default=NOWHERE, compare=False)


class Move(Frozen):
    """Slip stitch along to a new first place."""

    target: Target
    span: Span = field(default=NOWHERE, compare=False)


class RunOn(Frozen):
    """A spiral round that goes past its marker."""

    span: Span = field(default=NOWHERE, compare=False)


class Leave(Frozen):
    """``n`` stitches left unworked; None for all the rest."""

    n: Number | None
    span: Span = field(default=NOWHERE, compare=False)


class Opening(Frozen):
    """A named opening: ``chains`` chains over ``n`` stitches (as many as the stitches if None)."""

    name: str
    n: Number
    chains: Number | None = None
    span: Span = field(default=NOWHERE, compare=False)


class Change(Frozen):
    """Change to these yarns, held together if there are several."""

    yarns: tuple[str, ...]
    span: Span = field(default=NOWHERE, compare=False)


class Mark(Frozen):
    """A marker in the last stitch made."""

    name: str
    span: Span = field(default=NOWHERE, compare=False)


class OtherSide(Frozen):
    """Go on along the other side of the starting chain."""

    span: Span = field(default=NOWHERE, compare=False)


class Picot(Frozen):
    """``n`` picots of ``chains`` chains; a picot makes no stitch and takes no place."""

    chains: int
    n: Number = ONE
    target: Target | None = None
    span: Span = field(default=NOWHERE, compare=False)


Item = (
    Work
    | Increase
    | Decrease
    | Evenly
    | Group
    | Repeat
    | Chain
    | Skip
    | Join
    | Turn
    | Move
    | RunOn
    | Leave
    | Opening
    | Change
    | Mark
    | OtherSide
    | Picot
)
