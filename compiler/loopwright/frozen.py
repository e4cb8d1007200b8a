"""Frozen values: what ``dataclass(frozen=True, slots=True)`` gives, ten times as fast to declare.

    class Mark(Frozen):
        name: str
        span: Span = field(default=NOWHERE, compare=False)

    class Spot(Slotted):            what may be changed while it is being made
        s: float = 0.0
        feet: list[At] = field(default_factory=list)

    class Misread(NamedTuple):      what ``typing.NamedTuple`` gives
        start: int
        end: int

A hundred small classes hold a pattern and its fabric. The standard library compiles half a
dozen methods anew for each of them whenever the program starts, and imports ``inspect`` to do so:
together a third of the time that a check may take. Here ``__init__`` alone is compiled, once for
all classes of as many fields; the rest is shared. ``dataclasses.replace`` and ``fields`` take these
values as any others.
"""

from __future__ import annotations

from collections import _tuplegetter  # type: ignore[attr-defined]
from collections.abc import Callable, Iterable
from functools import cache
from operator import attrgetter
from types import FunctionType
from typing import TYPE_CHECKING, Any, NoReturn, TypeVar, cast, dataclass_transform, overload

T = TypeVar("T")
REQUIRED = object()


# ------------------------------------------------------------------ named tuples
class _Named(tuple[Any, ...]):
    """What all named tuples can do."""

    __slots__ = ()
    _fields: tuple[str, ...]

    @classmethod
    def _make(cls, values: Iterable[Any]) -> _Named:
        """One of so many values."""
        return cls(*values)

    def _replace(self, **changes: Any) -> _Named:
        """The same with some values changed."""
        values = [changes.pop(name, old) for name, old in zip(self._fields, self, strict=True)]
        if changes:
            raise ValueError(f"Got unexpected field names: {list(changes)!r}")
        return tuple.__new__(type(self), values)

    def _asdict(self) -> dict[str, Any]:
        """Its values by their names."""
        return dict(zip(self._fields, self, strict=True))

    def __repr__(self) -> str:
        fields = ", ".join(f"{name}={value!r}" for name, value in self._asdict().items())
        return f"{type(self).__name__}({fields})"

    def __getnewargs__(self) -> tuple[Any, ...]:
        return tuple(self)


class _Naming(type):
    """Makes a named tuple of a class with annotated fields."""

    def __new__(cls, name: str, bases: tuple[type, ...], members: dict[str, Any]) -> Any:
        if not bases:
            return super().__new__(cls, name, bases, members)
        fields = tuple(members.get("__annotations__", ()))
        defaults = {one: members.pop(one) for one in fields if one in members}
        if tuple(defaults) != fields[len(fields) - len(defaults) :]:
            raise TypeError(f"{name}: a field without a default follows one that has one")
        for at, one in enumerate(fields):
            members[one] = _tuplegetter(at, f"Field {at}, ``{one}``.")
        members.update(
            __slots__=(), __match_args__=fields, _fields=fields, _field_defaults=defaults
        )
        bare = _new_of(len(fields))
        code = bare.__code__.replace(co_varnames=("cls", *fields))
        members["__new__"] = FunctionType(code, {"new": new}, "__new__", tuple(defaults.values()))
        return type(name, (_Named,), members)


def _new_of(fields: int) -> FunctionType:
    """``__new__`` of a named tuple with so many fields, under any names."""
    return cast(FunctionType, _NEW[fields] if fields < len(_NEW) else _long_new(fields))


# What nearly all have is written out: to compile it takes longer than all the rest.
new = tuple.__new__
_NEW = (
    lambda cls: new(cls, ()),
    lambda cls, a: new(cls, (a,)),
    lambda cls, a, b: new(cls, (a, b)),
    lambda cls, a, b, c: new(cls, (a, b, c)),
    lambda cls, a, b, c, d: new(cls, (a, b, c, d)),
    lambda cls, a, b, c, d, e: new(cls, (a, b, c, d, e)),
    lambda cls, a, b, c, d, e, f: new(cls, (a, b, c, d, e, f)),
    lambda cls, a, b, c, d, e, f, g: new(cls, (a, b, c, d, e, f, g)),
    lambda cls, a, b, c, d, e, f, g, h: new(cls, (a, b, c, d, e, f, g, h)),
)


@cache
def _long_new(fields: int) -> object:
    takes = "".join(f"a{at}, " for at in range(fields))
    return eval(f"lambda cls, {takes}: new(cls, ({takes}))", {"new": new})


if TYPE_CHECKING:
    from typing import NamedTuple as NamedTuple
else:

    class NamedTuple(metaclass=_Naming):
        """What ``typing.NamedTuple`` gives, a dozen times as fast to declare: no annotation is
        compiled to see whether it is one, and of every class nothing is but its ``__new__``, once
        for all of as many fields."""


# ------------------------------------------------------------------ frozen and slotted values
class _Field(NamedTuple):
    """What a field is told to be: its default or what makes one, and whether it takes part in
    equality."""

    default: object = REQUIRED
    compare: bool = True
    factory: Callable[[], object] | None = None


@overload
def field(*, default: T, compare: bool = ...) -> T: ...
@overload
def field(*, default_factory: Callable[[], T], compare: bool = ...) -> T: ...
@overload
def field(*, compare: bool = ...) -> Any: ...
def field(
    *,
    default: object = REQUIRED,
    default_factory: Callable[[], object] | None = None,
    compare: bool = True,
) -> object:
    """A field that takes no part in equality where ``compare`` is False; ``default_factory`` makes
    a value of its own for each that is not given one."""
    return _Field(default, compare, default_factory)


class _Slotted:
    """What all such values can do."""

    __slots__ = ()
    __match_args__: tuple[str, ...]
    _compared: Callable[[object], tuple[object, ...]]
    __hash__ = None  # type: ignore[assignment]

    def __eq__(self, other: object) -> bool:
        if other is self:
            return True
        if type(other) is not type(self):
            return NotImplemented
        return self._compared(self) == self._compared(other)

    def __repr__(self) -> str:
        fields = ", ".join(f"{name}={getattr(self, name)!r}" for name in self.__match_args__)
        return f"{type(self).__name__}({fields})"

    def __reduce__(self) -> tuple[type, tuple[object, ...]]:
        return type(self), tuple(getattr(self, name) for name in self.__match_args__)


class _Frozen(_Slotted):
    """What those can that cannot be changed."""

    __slots__ = ()

    def __hash__(self) -> int:  # type: ignore[override]
        return hash(self._compared(self))

    def __setattr__(self, name: str, _: object) -> NoReturn:
        raise AttributeError(f"{type(self).__name__}.{name} cannot be changed")

    def __delattr__(self, name: str) -> NoReturn:
        raise AttributeError(f"{type(self).__name__}.{name} cannot be taken out")


class _Slotting(type):
    """Makes a class with slots of one with annotated fields."""

    def __new__(cls, name: str, bases: tuple[type, ...], members: dict[str, Any]) -> Any:
        if not bases:
            return super().__new__(cls, name, bases, members)
        base: Any = bases[0]
        fields: dict[str, _Field] = {}
        for one in members.get("__annotations__", ()):
            told = members.pop(one, REQUIRED)
            fields[one] = told if type(told) is _Field else _Field(told)
        compared = [one for one, field in fields.items() if field.compare]
        members.update(
            __slots__=tuple(fields),
            __match_args__=tuple(fields),
            __dataclass_fields__=_StandardFields(fields),
            _compared=attrgetter("__class__", *compared),
        )
        made = type(name, (base.made_of,), members)
        made.__init__ = _init(made, fields)  # type: ignore[misc]
        return made


if TYPE_CHECKING:

    @dataclass_transform(frozen_default=True, field_specifiers=(field,))
    class Frozen:
        """Values that are slotted, cannot be changed, and are equal when their fields are."""

    @dataclass_transform(field_specifiers=(field,))
    class Slotted:
        """The same that may be changed, and so cannot be kept by what they hold."""

else:

    class Frozen(metaclass=_Slotting):
        """Values that are slotted, cannot be changed, and are equal when their fields are."""

        made_of = _Frozen

    class Slotted(metaclass=_Slotting):
        """The same that may be changed, and so cannot be kept by what they hold."""

        made_of = _Slotted


def names_of(value: object) -> tuple[str, ...]:
    """The names of the fields of such a value or class; none for anything else."""
    cls = value if isinstance(value, type) else type(value)
    return cls.__match_args__ if issubclass(cls, _Slotted) else ()


def replace(value: T, **changes: object) -> T:
    """The same value with some fields changed."""
    names: tuple[str, ...] = value.__match_args__  # type: ignore[attr-defined]
    for name in names:
        if name not in changes:
            changes[name] = getattr(value, name)
    return type(value)(**changes)


def _init(cls: type, fields: dict[str, _Field]) -> Callable[..., None]:
    """``__init__`` for these fields; it goes past the lock on ``__setattr__``, by way of the slots
    themselves, which is the shortest. It is the same for all classes with as many fields that are
    made anew in the same places, and takes its arguments' names and defaults from this one."""
    free = [one.default is not REQUIRED or one.factory is not None for one in fields.values()]
    if free != sorted(free):
        raise TypeError(f"{cls.__name__}: a field without a default follows one that has one")
    keeps = [vars(cls)[name].__set__ for name in fields]
    makes = [one.factory for one in fields.values() if one.factory is not None]
    if makes or not 0 < len(keeps) < len(_INIT):
        anew = tuple(one.factory is not None for one in fields.values())
        bare = _long_init(anew)(REQUIRED, *keeps, *makes)
    else:
        bare = _INIT[len(keeps)](*keeps)
    code = bare.__code__.replace(co_varnames=("self", *fields))
    given = tuple(one.default for one, has in zip(fields.values(), free, strict=True) if has)
    return FunctionType(code, {}, "__init__", given, bare.__closure__)


# As above; what keeps a field answers None.
# fmt: off
_INIT: tuple[Any, ...] = (
    None,
    lambda p: lambda self, a: p(self, a),
    lambda p, q: lambda self, a, b: p(self, a) or q(self, b),
    lambda p, q, r: lambda self, a, b, c: p(self, a) or q(self, b) or r(self, c),
    lambda p, q, r, s: lambda self, a, b, c, d:
        p(self, a) or q(self, b) or r(self, c) or s(self, d),
    lambda p, q, r, s, t: lambda self, a, b, c, d, e:
        p(self, a) or q(self, b) or r(self, c) or s(self, d) or t(self, e),
    lambda p, q, r, s, t, u: lambda self, a, b, c, d, e, f:
        p(self, a) or q(self, b) or r(self, c) or s(self, d) or t(self, e) or u(self, f),
)
# fmt: on


@cache
def _long_init(anew: tuple[bool, ...]) -> Callable[..., FunctionType]:
    """What makes an ``__init__`` of what keeps each field and what makes each that is made anew;
    ``anew`` says which those are."""
    each = range(len(anew))
    takes = "".join(f", a{i}" for i in each)
    values = [f"(_m{i}() if a{i} is _none else a{i})" if anew[i] else f"a{i}" for i in each]
    body = "; ".join(f"_k{i}(self, {values[i]})" for i in each) or "pass"
    kept = "".join(f", _k{i}" for i in each) + "".join(f", _m{i}" for i in each if anew[i])
    lines = (f"def shape(_none{kept}):", f" def __init__(self{takes}): {body}", " return __init__")
    made: dict[str, Any] = {}
    exec("\n".join(lines), {}, made)
    return made["shape"]  # type: ignore[no-any-return]


class _StandardFields:
    """``__dataclass_fields__`` of a class, made only when the standard library asks for it."""

    def __init__(self, fields: dict[str, _Field]) -> None:
        self._fields = fields

    def __get__(self, _: object, cls: Any) -> dict[str, Any]:
        import dataclasses

        specs: list[tuple[str, Any, Any]] = []
        for name, one in self._fields.items():
            default = dataclasses.MISSING if one.default is REQUIRED else one.default
            factory = dataclasses.MISSING if one.factory is None else one.factory
            field: Any = dataclasses.field(  # type: ignore[call-overload]
                default=default, default_factory=factory, compare=one.compare
            )
            specs.append((name, cls.__annotations__[name], field))
        made = dataclasses.make_dataclass(cls.__name__, specs)
        fields = {one.name: one for one in dataclasses.fields(made)}
        cls.__dataclass_fields__ = fields
        return fields
