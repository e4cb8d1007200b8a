"""Frozen values: what ``dataclass(frozen=True, slots=True)`` gives, ten times as fast to declare.

    @frozen
    class Mark:
        name: str
        span: Span = field(default=NOWHERE, compare=False)

Half a hundred small classes hold a pattern and its fabric. The standard library compiles five
methods anew for each of them whenever the program starts, and imports ``inspect`` to do so, which
is a third of the time that a check may take. Here only ``__init__`` is compiled; the rest is
shared. The values answer to ``dataclasses.replace`` and ``dataclasses.fields`` as any others do.
"""

from __future__ import annotations

from collections.abc import Callable
from operator import attrgetter
from typing import Any, NamedTuple, TypeVar, dataclass_transform

T = TypeVar("T")


class _Field(NamedTuple):
    default: Any
    compare: bool


def field(*, default: T, compare: bool = True) -> T:
    """A field with a default that takes no part in equality where ``compare`` is False."""
    return _Field(default, compare)  # type: ignore[return-value]


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen(cls: type[T]) -> type[T]:
    """Make of a class with annotated fields one whose values are slotted, frozen and compare by
    what they hold."""
    names = tuple(cls.__annotations__)
    members = {
        name: member
        for name, member in vars(cls).items()
        if name not in names and name not in ("__dict__", "__weakref__")
    }
    given = {name: member for name, member in vars(cls).items() if name in names}
    told = {name: one if type(one) is _Field else _Field(one, True) for name, one in given.items()}
    compared = [name for name in names if name not in told or told[name].compare]
    members |= {
        "__slots__": names,
        "__match_args__": names,
        "__dataclass_fields__": _Fields(told),
        "__init__": _init(names, {name: one.default for name, one in told.items()}),
        "_key": attrgetter("__class__", *compared),
        **_SHARED,
    }
    return type(cls)(cls.__name__, cls.__bases__, members)


def _init(names: tuple[str, ...], defaults: dict[str, Any]) -> Callable[..., None]:
    """``__init__`` for these fields; past the lock that ``__setattr__`` is."""
    head = ", ".join(f"{one}=defaults[{one!r}]" if one in defaults else one for one in names)
    body = "; ".join(f"set(self, {one!r}, {one})" for one in names)
    made: dict[str, Any] = {}
    scope = {"set": object.__setattr__, "defaults": defaults}
    exec(f"def __init__(self, {head}): {body}", scope, made)
    return made["__init__"]  # type: ignore[no-any-return]


class _Fields:
    """``__dataclass_fields__``, made when somebody asks for it."""

    def __init__(self, told: dict[str, _Field]) -> None:
        self.told = told

    def __get__(self, _: object, cls: type) -> dict[str, Any]:
        from dataclasses import dataclass, make_dataclass
        from dataclasses import field as standard

        del dataclass
        fields = [
            (name, kind, standard(default=self.told[name].default, compare=self.told[name].compare))
            if name in self.told
            else (name, kind)
            for name, kind in cls.__annotations__.items()
        ]
        made = make_dataclass(cls.__name__, fields)
        return made.__dataclass_fields__  # type: ignore[attr-defined, no-any-return]
