"""Repeating a body without working every repeat.

A body is worked until the hand meets the edge in the same way as before: the same state, at the
same point of a run of the edge. From there on every cycle is like the one just worked, as long as
it reads nothing outside the run, so that as many cycles as fit are written down as one run. The
cost is that of the longest cycle, not of the number of repeats.
"""

from __future__ import annotations

from collections.abc import Callable

from loopwright.ir.fabric import Made
from loopwright.ir.runs import Builder, Runs
from loopwright.work.effort import TooLong
from loopwright.work.hand import Hand
from loopwright.work.places import Stuck


class Endless(Exception):
    """A repeat that is to go on as far as the edge takes nothing from it."""


class Cut(Exception):
    """A repeat that came to an end partway through its body.

    ``done`` is how many whole repeats were worked; ``stuck`` what stopped the next one; the hand
    is back at the end of the last whole one.
    """

    def __init__(self, done: int, stuck: Stuck) -> None:
        super().__init__(done)
        self.done = done
        self.stuck = stuck

    def let_go(self) -> None:
        """Let go of all that was worked on the way here. A Stuck that was raised again of a Cut
        holds it and is held by it, and all of their places in the program hang on that ring."""
        self.stuck.__traceback__ = self.stuck.__context__ = None


class _Turn:
    """One worked stretch of repeats: what it made, and how far the hand had read."""

    __slots__ = ("high", "low", "made")

    def __init__(self, made: Runs[Made], high: int, low: int) -> None:
        self.made = made
        self.high = high
        self.low = low


class _Seen:
    __slots__ = ("chunk", "done", "places", "pos")

    def __init__(self, done: int, pos: int, chunk: int, places: int) -> None:
        self.done = done
        self.pos = pos
        self.chunk = chunk
        self.places = places


class Repeating:
    """Works a body again and again; see ``repeat``."""

    def __init__(
        self, hand: Hand, body: Callable[[], None], times: int | None, limit: int | None
    ) -> None:
        self.hand = hand
        self.body = body
        self.times = times
        self.limit = limit
        self.done = 0
        self.turns: list[_Turn] = []
        self.seen: dict[tuple[object, ...], _Seen] = {}

    def run(self) -> int:
        """Work the repeats; how many there were. Raises ``Cut`` or ``Endless``."""
        hand = self.hand
        outer, high, low = hand.out, hand.high, hand.low
        try:
            while not self._over():
                if self.times != 1 and self._skip_ahead():
                    continue
                self._once()
        finally:
            hand.out = outer
            for turn in self.turns:
                hand.out.extend(turn.made)
                high = max(high, turn.high)
                low = min(low, turn.low)
            hand.high, hand.low = max(high, hand.high), min(low, hand.low)
        return self.done

    def _over(self) -> bool:
        if self.times is not None:
            return self.done >= self.times
        assert self.limit is not None
        return self.hand.here() >= self.limit and not (self.hand.sub and self.hand.pos < self.limit)

    def _once(self) -> None:
        hand = self.hand
        hand.effort.left -= 1
        if hand.effort.left < 0:
            raise TooLong
        saved = hand.save()
        hand.out = Builder()
        hand.high, hand.low = -1, hand.edge.length
        faults = len(hand.faults)
        before = hand.state() if self.times is None else None
        pos = hand.pos
        try:
            self.body()
        except Stuck as stuck:
            stuck.made = bool(hand.out.pairs)
            stuck.worked = any(one.stitch is not None for one in hand.out.done().tally())
            stuck.skipped_to = hand.here() if hand.skip_end == hand.here() else -1
            read = _Turn(Runs(()), hand.high, hand.low)
            self.turns.append(read)
            hand.restore(saved)
            del hand.faults[faults:]
            raise Cut(self.done, stuck) from None
        self.turns.append(_Turn(hand.out.done(), hand.high, hand.low))
        self.done += 1
        if self.times is None and hand.pos == pos and hand.state() == before:
            raise Endless

    def _skip_ahead(self) -> bool:
        """Carry a cycle on as far as it is sure to go; whether anything was carried."""
        hand = self.hand
        pos = hand.pos
        state = hand.state()
        keys: list[tuple[tuple[object, ...], int, int]] = [(("still", pos, state), 0, -1)]
        if pos < hand.edge.length:
            for level in hand.edge.levels(pos):
                start, unit, times = level
                keys.append(
                    ((start, unit, (pos - start) % unit, state), start, start + unit * times)
                )
        if self.seen:
            for key, start, end in reversed(keys):
                seen = self.seen.get(key)
                if seen is not None and self._carry(seen, start, end):
                    return True
        now = _Seen(self.done, pos, len(self.turns), hand.places)
        for key, _, _ in keys:
            self.seen[key] = now
        return False

    def _carry(self, seen: _Seen, start: int, end: int) -> bool:
        hand = self.hand
        each = self.done - seen.done
        length = hand.pos - seen.pos
        if length == 0 and self.times is None:
            raise Endless
        cycle = self.turns[seen.chunk :]
        many = self._how_many(cycle, each, length, start, end)
        if many < 1:
            return False
        made: Builder[Made] = Builder()
        for turn in cycle:
            made.extend(turn.made)
        whole = Builder[Made]()
        whole.repeat(made.done(), many + 1)
        high = max(turn.high for turn in cycle) + length * many
        low = min(turn.low for turn in cycle)
        del self.turns[seen.chunk :]
        self.turns.append(_Turn(whole.done(), high, low))
        self._move(length * many, (hand.places - seen.places) * many)
        self.done += each * many
        # What was seen inside the cycle points at turns that are now one.
        self.seen = {key: one for key, one in self.seen.items() if one.chunk <= seen.chunk}
        return True

    def _how_many(self, cycle: list[_Turn], each: int, length: int, start: int, end: int) -> int:
        hand = self.hand
        many: int | None = None
        if self.times is not None:
            many = (self.times - self.done) // each
        if length > 0:
            high = max(turn.high for turn in cycle)
            if min(turn.low for turn in cycle) < start:
                return 0
            # Neither past the run nor past where a `to ...` around this one ends.
            fits = (min(end, hand.end) - 1 - high) // length
            many = fits if many is None else min(many, fits)
            if self.limit is not None:
                many = min(many, (self.limit - hand.pos) // length)
        elif length < 0:
            return 0
        return many or 0

    def _move(self, by: int, places: int) -> None:
        hand = self.hand
        hand.pos += by
        hand.last += by
        if hand.same >= 0:
            hand.same += by
        if hand.gap >= 0:
            hand.gap += by
        hand.skipped = tuple(one + by for one in hand.skipped)
        hand.gone_back = tuple(one + by for one in hand.gone_back)
        hand.places += places


def repeat(
    hand: Hand, body: Callable[[], None], *, times: int | None = None, limit: int | None = None
) -> int:
    """Work a body ``times`` times, or until the hand is at position ``limit`` of the edge.

    Returns the number of repeats. Raises ``Cut`` when a repeat cannot be finished, with the hand
    back at the end of the last whole one, and ``Endless`` when a repeat without a number takes
    nothing from the edge.
    """
    return Repeating(hand, body, times, limit).run()
