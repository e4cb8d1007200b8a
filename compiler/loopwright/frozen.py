"""Frozen values: what ``dataclass(frozen=True, slots=True)`` gives, ten times as fast to declare.

    @frozen
    class Mark:
        name: str
        span: Span = field(default=NOWHERE, compare=False)

Half a hundred small classes hold a pattern and its fabric. The standard library compiles half a
dozen methods anew for each of them whenever the program starts, and imports ``inspect`` to do so:
together a third of the time that a check may take. Here ``__init__`` alone is compiled; the rest
is shared. ``dataclasses.replace`` and ``dataclasses.fields`` take these values as any others.
"""

from __future__ import annotations

from collections.abc import Callable
from operator import attrgetter
from typing import Any, NamedTuple, NoReturn, TypeVar, cast, dataclass_transform, overload

T = TypeVar("T")
REQUIRED = object()


class _Field(NamedTuple):
    """What a field is told to be: its default, and whether it takes part in equality."""

    default: object = REQUIRED
    compare: bool = True


@overload
def field(*, default: T, compare: bool = ...) -> T: ...
@overload
def field(*, compare: bool = ...) -> Any: ...
def field(*, default: object = REQUIRED, compare: bool = True) -> object:
    """A field that takes no part in equality where ``compare`` is False."""
    return _Field(default, compare)


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen(cls: type[T]) -> type[T]:
    """Make of a class with annotated fields one whose values are slotted, cannot be changed, and
    are equal when their fields are."""
    members = dict(vars(cls))
    del members["__dict__"], members["__weakref__"]
    fields: dict[str, _Field] = {}
    for name in cls.__annotations__:
        told = members.pop(name, REQUIRED)
        fields[name] = told if type(told) is _Field else _Field(told)
    compared = [name for name, one in fields.items() if one.compare]
    members.update(
        __slots__=tuple(fields),
        __match_args__=tuple(fields),
        __dataclass_fields__=_StandardFields(fields),
        _compared=attrgetter("__class__", *compared),
    )
    made = type(cls.__name__, (_Frozen,), members)
    made.__init__ = _init(made, fields)  # type: ignore[misc]
    return cast("type[T]", made)


def replace(value: T, **changes: object) -> T:
    """The same value with some fields changed."""
    names: tuple[str, ...] = value.__match_args__  # type: ignore[attr-defined]
    for name in names:
        if name not in changes:
            changes[name] = getattr(value, name)
    return type(value)(**changes)


class _Frozen:
    """What all frozen values can do."""

    __slots__ = ()
    __match_args__: tuple[str, ...]
    _compared: Callable[[object], tuple[object, ...]]

    def __eq__(self, other: object) -> bool:
        if other is self:
            return True
        if type(other) is not type(self):
            return NotImplemented
        return self._compared(self) == self._compared(other)

    def __hash__(self) -> int:
        return hash(self._compared(self))

    def __repr__(self) -> str:
        fields = ", ".join(f"{name}={getattr(self, name)!r}" for name in self.__match_args__)
        return f"{type(self).__name__}({fields})"

    def __setattr__(self, name: str, _: object) -> NoReturn:
        raise AttributeError(f"{type(self).__name__}.{name} cannot be changed")

    def __delattr__(self, name: str) -> NoReturn:
        raise AttributeError(f"{type(self).__name__}.{name} cannot be taken out")

    def __reduce__(self) -> tuple[type, tuple[object, ...]]:
        return type(self), tuple(getattr(self, name) for name in self.__match_args__)


def _init(cls: type, fields: dict[str, _Field]) -> Callable[..., None]:
    """``__init__`` for these fields; it goes past the lock on ``__setattr__``, by way of the slots
    themselves, which is the shortest."""
    defaults = {name: one.default for name, one in fields.items() if one.default is not REQUIRED}
    takes = ", ".join(f"{name}=defaults[{name!r}]" if name in defaults else name for name in fields)
    keeps = "; ".join(f"keep_{name}(self, {name})" for name in fields) or "pass"
    made: dict[str, Any] = {}
    scope: dict[str, Any] = {f"keep_{name}": vars(cls)[name].__set__ for name in fields}
    scope["defaults"] = defaults
    exec(f"def __init__(self, {takes}): {keeps}", scope, made)
    return made["__init__"]  # type: ignore[no-any-return]


class _StandardFields:
    """``__dataclass_fields__`` of a class, made only when the standard library asks for it."""

    def __init__(self, fields: dict[str, _Field]) -> None:
        self._fields = fields

    def __get__(self, _: object, cls: Any) -> dict[str, Any]:
        import dataclasses

        specs: list[tuple[str, Any, Any]] = []
        for name, one in self._fields.items():
            default = dataclasses.MISSING if one.default is REQUIRED else one.default
            field = dataclasses.field(default=default, compare=one.compare)
            specs.append((name, cls.__annotations__[name], field))
        made = dataclasses.make_dataclass(cls.__name__, specs)
        fields = {one.name: one for one in dataclasses.fields(made)}
        cls.__dataclass_fields__ = fields
        return fields
