"""The edge that a row is worked into, place by place, and what the row leaves."""

from __future__ import annotations

import re
from typing import NamedTuple

from reader.items import Unread


class Place(NamedTuple):
    """``st`` with its name, ``sp`` of so many chains, ``ch`` of the starting chain, ``end``."""

    what: str
    name: str = ""
    n: int = 0


class Edge:
    """The places below, and how far the row has come along them."""

    def __init__(self, places: list[Place]) -> None:
        self.places = list(places)
        self.at = 0
        self.chain_used = 0

    def left(self) -> int:
        """How many stitches are left, spaces not counted."""
        return sum(place.what != "sp" for place in self.places[self.at :])

    def take(self, noun: str) -> None:
        """Go into the next place of that noun, past what words would pass."""
        if noun in ("ch",) and self._chain():
            return
        while self.at < len(self.places):
            place = self.places[self.at]
            if self._is(place, noun):
                self.at += 1
                self.chain_used = 0
                return
            if not self._passed(place, noun):
                raise Unread(f"{noun} wanted, {place} is next")
            self.at += 1
        raise Unread(f"there is no {noun} left")

    def _chain(self) -> bool:
        """One of the chains of the space that comes next."""
        if self.at >= len(self.places) or self.places[self.at].what != "sp":
            return False
        self.chain_used += 1
        if self.chain_used == self.places[self.at].n:
            self.at += 1
            self.chain_used = 0
        return True

    @staticmethod
    def _is(place: Place, noun: str) -> bool:
        if noun in ("st", "place"):
            return place.what in ("st", "ch", "end")
        if noun == "st or ch":
            return place.what in ("st", "ch")
        if noun == "row end":
            return place.what == "end"
        if noun == "ch":
            return place.what == "ch"
        if noun == "sp":
            return place.what == "sp"
        space = re.fullmatch(r"ch-(\d+) sp", noun)
        if space:
            return place.what == "sp" and place.n == int(space[1])
        return place.what == "st" and place.name == noun

    @staticmethod
    def _passed(place: Place, noun: str) -> bool:
        """A stitch passes spaces, a space passes stitches."""
        wants_space = noun.endswith("sp")
        return (place.what != "sp") == wants_space

    def turn_to(self, noun: str) -> None:
        """Begin the row at the next place of that noun: what is passed is met at its end."""
        at = next(i for i, place in enumerate(self.places) if self._is(place, noun))
        self.places = self.places[at:] + self.places[:at]

    def ahead(self, noun: str) -> int:
        """How many stitches and chains there are before the next place of that noun."""
        n = 0
        for place in self.places[self.at :]:
            if self._is(place, noun):
                return n
            n += place.n if place.what == "sp" else 1
        raise Unread(f"there is no {noun} ahead")

    def all_ahead(self) -> int:
        """How many stitches and chains there are to the end."""
        return sum(place.n if place.what == "sp" else 1 for place in self.places[self.at :])

    def any_next(self) -> None:
        """Go into the next stitch or chain, whichever comes."""
        if not self._chain():
            self.take("st")
