"""Frozen values do what a frozen, slotted dataclass does: the two are held side by side."""

from __future__ import annotations

import copy
import dataclasses
import inspect
import pickle
import subprocess
import sys
import typing
from collections.abc import Callable
from typing import Any

import pytest

from loopwright.frozen import Frozen, NamedTuple, Slotted, field, names_of, replace


class Ours(Frozen):
    """A mark in a row."""

    name: str
    n: int = 1
    then: tuple[int, ...] = ()
    span: tuple[int, int] = field(default=(0, 0), compare=False)

    @property
    def twice(self) -> int:
        """Twice the number."""
        return 2 * self.n


@dataclasses.dataclass(frozen=True, slots=True)
class Standard:
    """A mark in a row."""

    name: str
    n: int = 1
    then: tuple[int, ...] = ()
    span: tuple[int, int] = dataclasses.field(default=(0, 0), compare=False)

    @property
    def twice(self) -> int:
        """Twice the number."""
        return 2 * self.n


class Alike(Frozen):
    """Holds the same as the others, and is none of them."""

    name: str
    n: int = 1
    then: tuple[int, ...] = ()
    span: tuple[int, int] = field(default=(0, 0), compare=False)


class Note(Frozen):
    """A field that is not compared can be required as well."""

    text: str = field(compare=False)


both = pytest.mark.parametrize("cls", [Ours, Standard])


@both
def test_values_are_equal_when_what_is_compared_is(cls: Any) -> None:
    assert cls("a", 2) == cls("a", n=2, span=(4, 9))
    assert hash(cls("a", 2)) == hash(cls("a", 2, span=(4, 9)))
    assert cls("a") != cls("b")
    assert cls("a") != cls("a", then=(1,))
    assert cls("a") != Alike("a")
    assert cls("a") != ("a", 1, ())


@both
def test_nothing_can_be_changed_or_added(cls: Any) -> None:
    one = cls("a")
    for change in (lambda: setattr(one, "n", 2), lambda: setattr(one, "more", 2)):
        with pytest.raises((AttributeError, TypeError)):
            change()
    with pytest.raises(AttributeError):
        del one.name
    assert one == cls("a")
    assert not hasattr(one, "__dict__")


@both
def test_what_is_missing_or_unknown_is_an_error(cls: Any) -> None:
    for arguments, named in (((), {}), (("a", 1, (), (0, 0), 5), {}), (("a",), {"m": 1})):
        with pytest.raises(TypeError):
            cls(*arguments, **named)


@both
def test_it_reads_matches_and_copies(cls: Any) -> None:
    one = cls("a", 3, span=(1, 2))
    assert repr(one) == f"{cls.__name__}(name='a', n=3, then=(), span=(1, 2))"
    assert one.twice == 6
    match one:
        case cls("a", n=number):
            assert number == 3
    for twin in (copy.copy(one), copy.deepcopy(one), pickle.loads(pickle.dumps(one))):
        assert type(twin) is cls
        assert twin == one
        assert twin.span == (1, 2)


@both
def test_the_standard_library_takes_it_as_its_own(cls: Any) -> None:
    one = cls("a", 3, span=(1, 2))
    assert dataclasses.is_dataclass(one)
    told = [(each.name, each.default, each.compare) for each in dataclasses.fields(one)]
    assert told == [
        ("name", dataclasses.MISSING, True),
        ("n", 1, True),
        ("then", (), True),
        ("span", (0, 0), False),
    ]
    other = dataclasses.replace(one, n=4)
    assert (other, other.span) == (cls("a", 4), (1, 2))


def test_replace_keeps_what_is_not_changed() -> None:
    other = replace(Ours("a", 3, span=(1, 2)), n=4)
    assert (other, other.span) == (Ours("a", 4), (1, 2))
    with pytest.raises(TypeError):
        replace(other, m=5)


def test_a_field_that_is_not_compared_can_be_required() -> None:
    assert Note("a") == Note("b")
    assert hash(Note("a")) == hash(Note("b"))
    with pytest.raises(TypeError):
        Note()  # type: ignore[call-arg]


class OursOpen(Slotted):
    """A spot while it is being placed."""

    kind: str
    s: float = 0.0
    feet: list[int] = field(default_factory=list)


@dataclasses.dataclass(slots=True)
class StandardOpen:
    """A spot while it is being placed."""

    kind: str
    s: float = 0.0
    feet: list[int] = dataclasses.field(default_factory=list)


either = pytest.mark.parametrize("cls", [OursOpen, StandardOpen])


@either
def test_what_may_be_changed_can_be(cls: Any) -> None:
    one = cls("stem")
    one.s = 2.5
    one.feet.append(3)
    assert one == cls("stem", 2.5, [3])
    assert one != cls("stem", 2.5)
    assert repr(one).endswith("Open(kind='stem', s=2.5, feet=[3])")
    with pytest.raises(AttributeError):
        one.more = 1
    with pytest.raises(TypeError):
        hash(one)


@either
def test_each_value_has_a_default_of_its_own(cls: Any) -> None:
    one, two, three = cls("a"), cls("a"), cls("a", feet=[1])
    one.feet.append(7)
    assert (one.feet, two.feet, three.feet) == ([7], [], [1])
    assert dataclasses.replace(one, kind="b") == cls("b", 0.0, [7])
    assert [each.name for each in dataclasses.fields(one)] == ["kind", "s", "feet"]


@pytest.mark.parametrize("base", [Frozen, Slotted])
def test_what_is_needed_comes_before_what_is_not(base: Any) -> None:
    with pytest.raises(TypeError, match="without a default"):

        class Turned(base):  # type: ignore[misc]
            """Its fields are in the wrong order."""

            name: str = ""
            n: int


@pytest.mark.parametrize("many", range(20))
@pytest.mark.parametrize("kind", ["Frozen", "Slotted", "NamedTuple"])
def test_any_number_of_fields(kind: str, many: int) -> None:
    names = [f"field{at}" for at in range(many)]
    lines = "".join(f"    {name}: int = {at}\n" for at, name in enumerate(names))
    made: dict[str, Any] = {"__name__": __name__}
    exec(f"from loopwright.frozen import {kind}\nclass Many({kind}):\n    name_ = 0\n{lines}", made)
    values = range(100, 100 + many)
    assert [getattr(made["Many"](*values), name) for name in names] == list(values)
    turned = dict(zip(reversed(names), reversed(values), strict=True))
    assert made["Many"](**turned) == made["Many"](*values)
    for at, name in enumerate(names):
        one = made["Many"](*values[:at])
        assert [getattr(one, each) for each in names[:at]] == list(values[:at])
        assert getattr(one, name) == at
        assert getattr(made["Many"](**{name: 7}), name) == 7
    with pytest.raises(TypeError):
        made["Many"](*values, 1)


@both
def test_arguments_are_taken_by_place_and_by_name(cls: Any) -> None:
    assert cls("a", 2, (3,)) == cls(then=(3,), n=2, name="a")
    for wrong in (lambda: cls(), lambda: cls("a", size=2), lambda: cls("a", name="b")):
        with pytest.raises(TypeError):
            wrong()


def test_the_names_of_fields() -> None:
    assert names_of(OursOpen("a")) == names_of(OursOpen) == ("kind", "s", "feet")
    assert names_of(Ours("a")) == ("name", "n", "then", "span")
    assert names_of(("a", 1)) == names_of(3) == ()


def test_neither_a_sheet_nor_a_chart_takes_the_standard_library_s() -> None:
    rooms = "render.chart, loopwright.render.sheet, loopwright.render.schematic"
    told = f"import sys, loopwright.{rooms}; print(sorted({{'dataclasses'}} & {{*sys.modules}}))"
    done = subprocess.run([sys.executable, "-c", told], capture_output=True, check=True, text=True)
    assert done.stdout.strip() == "[]"


# ------------------------------------------------------------------ named tuples
class Named(NamedTuple):
    """A mark in a row."""

    name: str
    n: int = 1
    then: tuple[int, ...] = ()

    @property
    def twice(self) -> int:
        """Twice the number."""
        return 2 * self.n


class StandardNamed(typing.NamedTuple):
    """A mark in a row."""

    name: str
    n: int = 1
    then: tuple[int, ...] = ()

    @property
    def twice(self) -> int:
        """Twice the number."""
        return 2 * self.n


BOTH: tuple[Any, Any] = (Named, StandardNamed)

ASKED: dict[str, Callable[[Any], object]] = {
    "by place": lambda one: tuple(one("a", 2, (3,))),
    "by name": lambda one: tuple(one(then=(1,), name="a")),
    "defaults": lambda one: tuple(one("a")),
    "fields": lambda one: (one("a", 2).name, one("a", 2).n, one("a", 2).twice),
    "equal to a tuple": lambda one: one("a") == ("a", 1, ()),
    "hash": lambda one: hash(one("a")) == hash(("a", 1, ())),
    "words": lambda one: repr(one("a")).removeprefix("Standard"),
    "changed": lambda one: tuple(one("a")._replace(n=4)),
    "made of values": lambda one: tuple(one._make(["a", 2, ()])),
    "as a dictionary": lambda one: one("a")._asdict(),
    "its fields": lambda one: (one._fields, one._field_defaults, one.__match_args__),
    "sliced": lambda one: one("a", 2, ())[:2],
    "copied": lambda one: (copy.copy(one("a")) == one("a"), copy.deepcopy(one("a")) == one("a")),
    "pickled": lambda one: (pickle.loads(pickle.dumps(one("a", 5))), type(one("a")) is one),
    "its words": lambda one: (one.__doc__, one.__module__),
    "how it is called": lambda one: [
        (each.name, each.default) for each in inspect.signature(one).parameters.values()
    ],
    "a kind of tuple": lambda one: (issubclass(one, tuple), type(one)),
    "sorted": lambda one: [tuple(each) for each in sorted([one("b"), one("a", 2), one("a", 1)])],
}

REFUSED: dict[str, Callable[[Any], object]] = {
    "too few": lambda one: one(),
    "too many": lambda one: one(1, 2, 3, 4),
    "a strange name": lambda one: one("a", size=3),
    "twice": lambda one: one("a", name="b"),
    "change": lambda one: setattr(one("a"), "n", 3),
    "a new field": lambda one: setattr(one("a"), "other", 3),
    "changed by a strange name": lambda one: one("a")._replace(size=3),
    "made of too few": lambda one: one._make([]),
}


@pytest.mark.parametrize("asked", ASKED)
def test_a_named_tuple_does_what_the_standard_one_does(asked: str) -> None:
    ours, standard = (ASKED[asked](one) for one in BOTH)
    assert ours == standard


@pytest.mark.parametrize("asked", REFUSED)
def test_a_named_tuple_refuses_what_the_standard_one_refuses(asked: str) -> None:
    ours, standard = BOTH
    with pytest.raises(Exception) as theirs:  # noqa: PT011  whatever the standard one raises
        REFUSED[asked](standard)
    with pytest.raises(theirs.type):
        REFUSED[asked](ours)


def test_a_named_tuple_without_a_default_after_one_with_is_refused() -> None:
    with pytest.raises(TypeError, match="without a default"):

        class Wrong(NamedTuple):
            name: str = ""
            n: int  # type: ignore[misc]
