"""The model of an edge that the made-up patterns are walked along."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple, Protocol


class Draw(Protocol):
    """Hypothesis' way of choosing."""

    def __call__(self, strategy: Any) -> Any: ...


class Words(NamedTuple):
    """One country's words for what the made-up patterns use."""

    terms: str
    stitches: tuple[str, ...]
    skip: str


class Token(NamedTuple):
    """A place: ``st`` (named ``word``, where it has a name), ``sp`` of ``chains``, or ``ch`` of a
    starting chain. A stitch with ``chains`` is a chain that counts as it."""

    what: str
    word: str = ""
    chains: int = 0


CHAIN = Token("ch")


def several(word: str, n: int) -> list[Token]:
    """So many of one stitch."""
    return [Token("st", word)] * n


def space(chains: int) -> list[Token]:
    """One space."""
    return [Token("sp", chains=chains)]


def stitches(edge: Sequence[Token]) -> list[Token]:
    """Its stitches."""
    return [token for token in edge if token.what != "sp"]


def joined(made: Sequence[Token]) -> list[Token]:
    """The same with chains that follow one another run into one space."""
    out: list[Token] = []
    for token in made:
        if out and token.what == "sp" and out[-1].what == "sp":
            token = token._replace(chains=token.chains + out.pop().chains)
        out.append(token)
    return out


def met(edge: Sequence[Token], manner: str, below: str) -> list[Token]:
    """The edge in the order in which the next row meets it."""
    if manner == "flat" and below == "row":
        return list(edge[::-1])
    if manner == "turned" and below == "round":
        return [*edge[:1], *edge[:0:-1]]
    return list(edge)
