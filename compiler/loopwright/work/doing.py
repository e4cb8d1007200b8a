"""Doing: the items of a row, one small function for each, found through ``DO``."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from loopwright.ir import items as ir
from loopwright.ir.fabric import Made, OpeningMade, Place
from loopwright.ir.items import ANY_STITCH, Item, Target
from loopwright.ir.pattern import OwnStitch
from loopwright.ir.runs import Builder, Runs, run
from loopwright.source import Span
from loopwright.trade.stitches import SLIP, Stitch
from loopwright.work import evenly
from loopwright.work.hand import (
    MOST_SKIPPED,
    OFF_EDGE,
    RING,
    Hand,
    Stuck,
    is_space,
    takes_stitch,
)
from loopwright.work.placing import (
    SEVERAL,
    Spot,
    leads,
    limit_of,
    next_stitch,
    one_of,
    post_of,
    single,
)
from loopwright.work.repeating import Cut, Endless, repeat

NEXT = Target("next")


class Doing:
    """Works items with a hand. ``owns`` are the designer's own stitches by name."""

    def __init__(self, hand: Hand, owns: dict[str, OwnStitch]) -> None:
        self.hand = hand
        self.owns = owns
        self.nested = 0

    def items(self, items: Sequence[Item]) -> None:
        """Work items in order."""
        for index, item in enumerate(items):
            self.item(item, items[index + 1] if index + 1 < len(items) else None)

    def item(self, item: Item, following: Item | None) -> None:
        """Work one item; ``following`` decides what a first chain is."""
        hand = self.hand
        span = item.span
        if not hand.spans or hand.spans[hand.item] is not span:
            hand.item = self._item_index(span)
        if isinstance(item, ir.Chain):
            self._chain(item, following)
        else:
            DO[type(item)](self, item)

    def _item_index(self, span: Span) -> int:
        spans = self.hand.spans
        for index in range(len(spans) - 1, -1, -1):
            if spans[index] is span:
                return index
        spans.append(span)
        return len(spans) - 1

    # ------------------------------------------------------------- stitches

    def _work(self, item: ir.Work) -> None:
        n = self.hand.number(item.n)
        if n == 0:
            return
        target = item.target
        if item.own:
            self._own(item, n)
        elif target is None:
            self._several(n, lambda: self._one(item, NEXT, 1))
        elif target.how in SEVERAL:
            if item.stitch.together > 1:
                self._together_over(item, target, n)
            else:
                inner = one_of(target)
                self._each(target, item.span, lambda: self._one(item, inner, n))
        elif item.stitch.together > 1:
            self._several(n, lambda: self._one(item, target, 1))
        else:
            self._one(item, target, n)

    def _one(self, item: ir.Work, target: Target, n: int) -> None:
        """``n`` stitches in the one place that the target means."""
        hand = self.hand
        span = item.span
        if target is NEXT:
            spot = next_stitch(hand, ANY_STITCH, span)
            hand.beside = hand.beside and spot.into in ("sp", "gap")
        else:
            spot = single(hand, target, span)
        self._put(item.stitch, spot, n, span, target, item.loop)

    def _put(
        self, stitch: Stitch, spot: Spot, n: int, span: Span, target: Target | None, loop: str
    ) -> None:
        hand = self.hand
        post = post_of(target, stitch)
        if post or loop:
            self._check_grip(spot, span, post, loop)
        if stitch.together > 1:
            self._together(stitch, spot, span, loop)
            return
        hand.stitches(stitch, spot.into, spot.position, n, chain=spot.chain, post=post, loop=loop)

    def _check_grip(self, spot: Spot, span: Span, post: bool, loop: str) -> None:
        """A post stitch needs a post, a loop stitch needs a loop."""
        hand = self.hand
        place = None
        if spot.into in ("st", "ch", "sp", "end"):
            place = hand.at(spot.position)
        if post:
            stands = (
                spot.into == "st"
                and place is not None
                and (place.stitch is None or place.stitch.has_post)
            )
            if not stands:
                hand.fault("no-post-here", span, into=spot.into, found=place)
        elif not (spot.into in ("st", "ch", "own") or (spot.into == "sp" and spot.chain)):
            hand.fault("no-loop-here", span, into=spot.into, found=place)

    def _together(self, stitch: Stitch, spot: Spot, span: Span, loop: str) -> None:
        hand = self.hand
        also = []
        position = spot.position
        for _ in range(stitch.together - 1):
            if spot.into == "ring" or hand.override is not None:
                break
            position = next_stitch(hand, ANY_STITCH, span).position
            also.append(position - spot.position)
            if stitch.post:
                self._check_grip(Spot("st", position), span, True, "")
        on_edge = spot.into not in OFF_EDGE
        step = spot.position - hand.last if on_edge else 0
        hand.push(
            Made(
                "st",
                stitch,
                into=spot.into,
                step=step,
                also=tuple(also),
                chain=spot.chain,
                post=bool(stitch.post),
                loop=loop,
                yarn=hand.yarn,
                item=hand.item,
            )
        )
        if on_edge:
            hand.last = hand.same = position

    def _together_over(self, item: ir.Work, target: Target, n: int) -> None:
        """``tr2tog over``: one decrease over so many places named one by one."""
        hand = self.hand
        if target.how == "each next":
            places = hand.number(target.n)
            if places % item.stitch.together:
                hand.fault("wrong-place", item.span, wanted=None, found=None)
            times = places // item.stitch.together
            inner = one_of(target)
            self._several(times, lambda: self._one(item, inner, 1))
        else:
            inner = one_of(target)
            self._each(target, item.span, lambda: self._one(item, inner, n))

    def _increase(self, item: ir.Increase) -> None:
        hand = self.hand

        def body() -> None:
            spot = next_stitch(hand, ANY_STITCH, item.span)
            hand.beside = False
            self._put(item.stitch, spot, 2, item.span, None, "")

        self._several(hand.number(item.n), body)

    def _decrease(self, item: ir.Decrease) -> None:
        hand = self.hand

        def body() -> None:
            spot = next_stitch(hand, ANY_STITCH, item.span)
            hand.beside = False
            self._put(item.stitch, spot, 1, item.span, None, "")

        self._several(hand.number(item.n), body)

    def _several(self, times: int, body: Callable[[], None]) -> None:
        """A body so many times; when the edge runs out, what stopped it goes on up."""
        if times == 1:
            body()
        elif times:
            try:
                repeat(self.hand, body, times=times)
            except Cut as cut:
                cut.stuck.values.setdefault("done", cut.done)
                cut.stuck.values.setdefault("times", times)
                raise cut.stuck from None

    def _each(self, target: Target, span: Span, body: Callable[[], None]) -> None:
        """A body in each of the places of a target."""
        hand = self.hand
        if target.how == "each last":
            self._each_last(target, span, body)
        elif target.how in ("each next", "each skipped", "each unworked"):
            self._several(hand.number(target.n), body)
        else:
            self._as_far(target, span, body)

    def _each_last(self, target: Target, span: Span, body: Callable[[], None]) -> None:
        from loopwright.work.placing import jump

        hand = self.hand
        n = hand.number(target.n)
        total = hand.edge.before(hand.optional, takes_stitch)
        hand.saw(hand.edge.length)
        if n > total:
            raise Stuck("edge-ran-out", span)
        if n:
            first = hand.edge.nth(total - n, takes_stitch)
            jump(hand, first, span)
            hand.pos = max(first, hand.pos - 1)
            self._several(n, body)

    def _as_far(self, target: Target, span: Span, body: Callable[[], None]) -> None:
        hand = self.hand
        scope = target.scope or ir.Scope("here")
        if target.kind.what == "gap":
            self._several(_gaps(hand, target.kind), body)
            return
        limit = _last_of(hand, target, scope, span)
        if limit <= hand.here() and not hand.sub:
            if target.kind.what == "sp":
                raise Stuck("no-such-space", span, chains=target.kind.chains, none=True)
            return
        end = hand.end
        hand.end = limit
        try:
            repeat(hand, body, limit=limit)
        except Cut as cut:
            raise cut.stuck from None
        except Endless:
            raise Stuck("repeat-does-not-fit", span, nothing=True) from None
        finally:
            hand.end = end

    def _own(self, item: ir.Work, n: int) -> None:
        own = self.owns[item.own]
        target = item.target
        hand = self.hand
        if self.nested > 20:
            raise Stuck("not-in-this-edition", item.span, what="stitches within stitches")

        def body() -> None:
            outer = (hand.own, hand.lead, hand.item)
            hand.own, hand.lead = item.own, True
            self.nested += 1
            try:
                for index, inner in enumerate(own.items):
                    following = own.items[index + 1] if index + 1 < len(own.items) else None
                    if isinstance(inner, ir.Chain):
                        self._chain(inner, following)
                    else:
                        DO[type(inner)](self, inner)
            finally:
                self.nested -= 1
                hand.own, hand.lead, hand.item = outer

        def placed(inner: Target) -> None:
            spot = single(hand, inner, item.span)
            outer = hand.override
            hand.override = spot
            try:
                for _ in range(n if target is not None else 1):
                    body()
            finally:
                hand.override = outer

        if target is None:
            self._several(n, body)
        elif target.how in SEVERAL:
            inner = one_of(target)
            self._each(target, item.span, lambda: placed(inner))
        else:
            placed(target)

    # ------------------------------------------------------------- groups and brackets

    def _group(self, item: ir.Group) -> None:
        target = item.target
        if target.how in SEVERAL:
            inner = one_of(target)
            self._each(target, item.span, lambda: self._in_place(item, inner))
        else:
            self._in_place(item, target)

    def _in_place(self, item: ir.Group, target: Target) -> None:
        hand = self.hand
        spot = single(hand, target, item.span)
        outer, hand.override = hand.override, spot
        hand.depth += 1
        places, last = hand.places, hand.last
        kept = hand.out
        if item.as_stitch is not None:
            hand.out = Builder()
        try:
            self.items(item.items)
        finally:
            hand.override = outer
            hand.depth -= 1
        if item.as_stitch is not None:
            hand.out = kept
            hand.places, hand.last = places, last
            self._counted(item.as_stitch, 0, spot)

    def _repeat(self, item: ir.Repeat) -> None:
        hand = self.hand
        hand.depth += 1
        try:
            times = hand.number(item.times) if item.times is not None else None
            if item.stop is None:
                done = self._bracket(item, item.items, times)
            elif times == 0:
                done = 0
            else:
                self.items(item.items[: item.stop])
                rest = item.items[item.stop :] + item.items[: item.stop]
                more = None if times is None else times - 1
                done = 1 + self._bracket(item, rest, more)
        finally:
            hand.depth -= 1
        known = hand.repeats.get(item.span, done)
        hand.repeats[item.span] = done if known == done else None

    def _bracket(self, item: ir.Repeat, items: Sequence[Item], times: int | None) -> int:
        hand = self.hand
        limit = None
        end = hand.end
        start = hand.pos
        if times is None:
            assert item.scope is not None
            limit = limit_of(hand, item.scope, item.span)
            hand.end = min(limit, hand.end)
        try:
            return repeat(hand, lambda: self.items(items), times=times, limit=limit)
        except Endless:
            raise Stuck("repeat-does-not-fit", item.span, nothing=True) from None
        except Cut as cut:
            if times is None and self._comes_out(cut.stuck, hand.end):
                return cut.done
            self._does_not_fit(item, cut, times, start)
            return cut.done
        finally:
            hand.end = end

    def _comes_out(self, stuck: Stuck, limit: int) -> bool:
        """Whether a repeat that could not begin once more has come out all the same."""
        hand = self.hand
        if stuck.made or stuck.kind not in ("edge-ran-out", "no-such-space"):
            return False
        if stuck.at >= min(limit, hand.optional) and stuck.kind == "edge-ran-out":
            hand.pos, hand.sub = max(stuck.at, hand.pos), 0
            return True
        return passable(hand, limit)

    def _does_not_fit(
        self, item: ir.Repeat, cut: Cut, times: int | None, start: int
    ) -> None:
        hand = self.hand
        stuck = cut.stuck
        if stuck.kind not in ("edge-ran-out", "no-such-space"):
            raise stuck
        limit = min(hand.end, hand.optional)
        before = hand.edge.before
        have = before(limit, takes_stitch) - before(min(start, limit), takes_stitch)
        used = before(hand.here(), takes_stitch) - before(start, takes_stitch)
        spaces = before(limit, is_space) - before(min(start, limit), is_space)
        kind = "repeat-does-not-fit" if times is None else "edge-ran-out"
        if stuck.kind == "no-such-space" and (times is not None or stuck.values.get("none")):
            raise stuck
        hand.fault(
            kind,
            item.span,
            repeat=True,
            have=have,
            used=used,
            spaces=spaces,
            done=cut.done,
            times=times,
            each=used // cut.done if cut.done and used % cut.done == 0 else None,
            scope=item.scope.how if item.scope is not None else "",
            space=stuck.values.get("chains", 0) if stuck.kind == "no-such-space" else None,
        )

    def _evenly(self, item: ir.Evenly) -> None:
        spread = evenly.spread(self.hand, item)
        hand = self.hand
        hand.spreads[item.span] = spread

        def put(n: int) -> None:
            if item.how == "dec" and n == 2:
                stitch = item.stitch._replace(together=2)
                self._put(stitch, next_stitch(hand, ANY_STITCH, item.span), 1, item.span, None, "")
                return
            spot = next_stitch(hand, ANY_STITCH, item.span)
            self._put(item.stitch, spot, n, item.span, None, item.loop)

        self._spread(spread, put)
        hand.beside = False

    def _spread(self, spread: object, put: Callable[[int], None]) -> None:
        assert isinstance(spread, Runs)
        for node, times in spread.pairs:
            if isinstance(node, Runs):
                self._several(times, lambda inner=node: self._spread(inner, put))  # type: ignore[misc]
            else:
                self._several(times, lambda n=node: put(n))  # type: ignore[misc]

    # ------------------------------------------------------------- chains and skips

    def _chain(self, item: ir.Chain, following: Item | None) -> None:
        hand = self.hand
        n = hand.number(item.n)
        if n == 0:
            return
        if item.counts_as is not None:
            self._counted(item.counts_as, n - item.and_chains, self._first_place(item.span))
            if item.and_chains:
                self._loose(item.and_chains)
        elif not hand.started and not hand.depth and not _long_skip(hand, following):
            hand.push(Made("turn", chains=n, yarn=hand.yarn, item=hand.item))
            hand.started = True
        else:
            if not hand.started and not hand.is_round and not hand.at_moved:
                at = hand.here()
                if at < hand.end and hand.at(at).what == "st":
                    hand.pos = at + 1
                    hand.same = at
            self._loose(n)

    def _loose(self, n: int) -> None:
        hand = self.hand
        made = Made("ch", chains=n, yarn=hand.yarn, item=hand.item)
        pairs = hand.out.pairs
        if pairs and pairs[-1][1] == 1 and not hand.own:
            before = pairs[-1][0]
            if isinstance(before, Made) and before.what == "ch" and before.yarn == hand.yarn:
                # Chains straight after chains are one run, and one space.
                pairs[-1] = (before._replace(chains=before.chains + n), 1)
                return
        hand.push(made)

    def _first_place(self, span: Span) -> Spot:
        """Where a chain that counts stands."""
        hand = self.hand
        if hand.override is not None:
            return Spot(*hand.override)
        if hand.at_moved and hand.pos == 0 and hand.edge.length:
            hand.pos = 1
            hand.beside = is_space(hand.at(0))
            return Spot("sp" if hand.beside else "st", 0)
        if hand.ring and (hand.uses_ring or not hand.edge.length):
            return Spot("ring", 0)
        spot = next_stitch(hand, ANY_STITCH, span)
        hand.beside = False
        return spot

    def _counted(self, stitch: Stitch, chains: int, spot: Spot) -> None:
        hand = self.hand
        on_edge = spot.into not in OFF_EDGE
        step = spot.position - hand.last if on_edge else 0
        hand.push(
            Made(
                "as",
                stitch,
                chains,
                into=spot.into,
                step=step,
                chain=spot.chain,
                yarn=hand.yarn,
                item=hand.item,
            )
        )
        if on_edge:
            hand.last = hand.same = spot.position
        elif spot.into == "ring":
            hand.in_ring = True
            hand.same = RING

    def _skip(self, item: ir.Skip) -> None:
        hand = self.hand
        n = hand.number(item.n)
        if n == 0:
            return
        if item.counts_as is not None:
            self._skip_as(item, n)
            return
        if item.kind.what in ("sp", "gap"):
            for _ in range(min(n, 10_000)):
                hand.next_space(item.kind.chains, item.span)
            hand.beside = False
            return
        fresh: tuple[int, ...] = ()
        if item.kind.what == "ch":
            self._several(n, lambda: self._pass_chain(item.span))
        elif n <= MOST_SKIPPED:
            at = []
            for _ in range(n):
                at.append(hand.next_stitch(item.kind, item.span))
            fresh = tuple(at)
        else:
            hand.beyond(n, item.span)
        hand.skipped = fresh
        hand.beside = False

    def _pass_chain(self, span: Span) -> None:
        self.hand.next_chain(span)

    def _skip_as(self, item: ir.Skip, n: int) -> None:
        hand = self.hand
        if hand.started or hand.pos or not hand.edge.length or hand.at(0).what != "ch":
            raise Stuck("wrong-place", item.span, wanted=ir.Kind("start chain"))
        hand.beyond(n, item.span)
        hand.first_chain = n
        hand.push(
            Made("skip as", item.counts_as, n - item.and_chains, yarn=hand.yarn, item=hand.item)
        )
        if item.and_chains:
            self._loose(item.and_chains)

    # ------------------------------------------------------------- the rest

    def _join(self, item: ir.Join) -> None:
        hand = self.hand
        hand.joined = True
        if item.stitch is None or item.stitch == SLIP:
            hand.push(Made("join", yarn=hand.yarn, item=hand.item))
            return
        # The chains before the join and its stitch close one more space like the others.
        chains = _usual_space(hand) or item.stitch.height
        pairs = hand.out.pairs
        if pairs and isinstance(pairs[-1][0], Made) and pairs[-1][0].what == "ch":
            pairs.pop()
            hand.places -= 1
        hand.push(Made("join sp", item.stitch, chains, yarn=hand.yarn, item=hand.item))

    def _turn(self, item: ir.Turn) -> None:
        self.hand.turned = item.turned
        self.hand.no_turn = not item.turned

    def _move(self, item: ir.Move) -> None:
        raise Stuck("wrong-place", item.span, wanted=ir.Kind("move"))

    def _leave(self, item: ir.Leave) -> None:
        hand = self.hand
        start = hand.here()
        if item.n is None:
            hand.pos, hand.sub = max(hand.end, hand.pos), 0
        else:
            n = hand.number(item.n)
            if n:
                hand.beyond(n, item.span)
        if hand.pos > start:
            hand.left.append((start, hand.pos))

    def _opening(self, item: ir.Opening) -> None:
        hand = self.hand
        n = hand.number(item.n)
        chains = hand.number(item.chains) if item.chains is not None else n
        if n == 0:
            return
        start = hand.here()
        hand.beyond(n, item.span)
        hand.push(Made("open", chains=chains, yarn=hand.yarn, item=hand.item, opening=item.name))
        hand.beside = False
        under = hand.edge.slice(start, hand.pos)
        hand.openings.append(OpeningMade(item.name, under, chains, item.span))

    def _change(self, item: ir.Change) -> None:
        self.hand.yarn = "+".join(item.yarns)

    def _mark(self, item: ir.Mark) -> None:
        self.hand.marks[item.name] = self.hand.places - 1

    def _picot(self, item: ir.Picot) -> None:
        hand = self.hand
        n = hand.number(item.n)
        hand.push(Made("picot", chains=item.chains, yarn=hand.yarn, item=hand.item), n)

    def _run_on(self, item: ir.RunOn) -> None:
        """Past the marker: what follows goes into the round's own first stitches."""
        from loopwright.work.project import edge_of

        hand = self.hand
        if hand.depth or hand.ran_on:
            raise Stuck("wrong-place", item.span, wanted=ir.Kind("run on"))
        left = hand.left_of(takes_stitch)
        if left and not hand.beside:
            raise Stuck(
                "places-left-over",
                item.span,
                left=left,
                spaces=0,
                have=hand.edge.before(hand.optional, takes_stitch),
                hooked=0,
                places="st",
            )
        hand.ran_from = hand.edge.length
        hand.ran_on = 1
        hand.pos, hand.sub = hand.ran_from, 0
        _lengthen(hand, edge_of(hand.out.done()), owed=False)

    def _other_side(self, item: ir.OtherSide) -> None:
        """Back along the starting chain, from the chain next to the last to the first worked."""
        hand = self.hand
        edge = hand.edge
        if (
            hand.depth
            or not edge.length
            or edge.run_at(0)[2] < edge.length
            or hand.at(0).what != "ch"
        ):
            raise Stuck("wrong-place", item.span, wanted=ir.Kind("other side"))
        left = hand.left_of(takes_stitch)
        if left:
            raise Stuck(
                "places-left-over",
                item.span,
                left=left,
                spaces=0,
                have=edge.length,
                hooked=hand.hooked,
                places="ch",
            )
        _lengthen(hand, run(edge.run_at(0)[0], edge.length - 1 - hand.first_chain), owed=True)


def _lengthen(hand: Hand, more: Runs[Place], *, owed: bool) -> None:
    """Put more places behind the edge; places already owed stay owed."""
    out: Builder[Place] = Builder()
    out.extend(hand.edge)
    out.extend(more)
    hand.edge = out.done()
    hand.end = hand.edge.length
    if owed:
        hand.optional = hand.end


def _usual_space(hand: Hand) -> int:
    """The length of space that the round has most of."""
    spaces = {made.chains: n for made, n in hand.out.done().tally().items() if made.what == "ch"}
    pairs = hand.out.pairs
    last = pairs[-1][0] if pairs else None
    if isinstance(last, Made) and last.what == "ch" and spaces.get(last.chains) == 1:
        spaces.pop(last.chains)
    return max(spaces, key=lambda chains: (spaces[chains], chains), default=0)


DO: dict[type, Callable[[Doing, object], None]] = {
    ir.Work: Doing._work,  # type: ignore[dict-item]
    ir.Increase: Doing._increase,  # type: ignore[dict-item]
    ir.Decrease: Doing._decrease,  # type: ignore[dict-item]
    ir.Evenly: Doing._evenly,  # type: ignore[dict-item]
    ir.Group: Doing._group,  # type: ignore[dict-item]
    ir.Repeat: Doing._repeat,  # type: ignore[dict-item]
    ir.Skip: Doing._skip,  # type: ignore[dict-item]
    ir.Join: Doing._join,  # type: ignore[dict-item]
    ir.Turn: Doing._turn,  # type: ignore[dict-item]
    ir.Move: Doing._move,  # type: ignore[dict-item]
    ir.Leave: Doing._leave,  # type: ignore[dict-item]
    ir.Opening: Doing._opening,  # type: ignore[dict-item]
    ir.Change: Doing._change,  # type: ignore[dict-item]
    ir.Mark: Doing._mark,  # type: ignore[dict-item]
    ir.Picot: Doing._picot,  # type: ignore[dict-item]
    ir.RunOn: Doing._run_on,  # type: ignore[dict-item]
    ir.OtherSide: Doing._other_side,  # type: ignore[dict-item]
}


def passable(hand: Hand, limit: int) -> bool:
    """Whether everything from the hand up to a position may be passed without a word: stitches
    beside a worked space; in a round, chains between the last stitch and the join."""
    at = hand.here()
    limit = min(limit, hand.optional)
    if at >= limit:
        return True
    before = hand.edge.before
    spaces = before(limit, is_space) - before(at, is_space)
    stitches = before(limit, takes_stitch) - before(at, takes_stitch)
    if hand.beside:
        return spaces == 0
    return stitches == 0 and hand.is_round


def _long_skip(hand: Hand, following: Item | None) -> bool:
    if not isinstance(following, ir.Skip) or following.counts_as is not None:
        return False
    if following.kind.what in ("sp", "gap"):
        return False
    return hand.number(following.n) >= 2


def _gaps(hand: Hand, kind: ir.Kind) -> int:
    """How many gaps there are from the hand on: one fewer than stitches in a row, as many in a
    round, where one lies across the join."""
    wanted = leads(kind)
    before = hand.edge.before
    hand.saw(hand.edge.length)
    at = hand.here()
    ahead = before(hand.end, wanted) - before(at, wanted)
    if at and before(at, wanted):
        ahead += 1
    return max(ahead - (0 if hand.is_round else 1), 0)


def _last_of(hand: Hand, target: Target, scope: ir.Scope, span: Span) -> int:
    """The position after the last place that an ``each`` works."""
    kind = target.kind
    if scope.how not in ("end", "here"):
        return limit_of(hand, scope, span)
    at = hand.here()
    if kind.what == "sp":
        wanted = hand._space_wanted(kind.chains)
    elif kind.what == "ch":
        return _chains_end(hand)
    elif kind.what in ("st and ch", "gap"):
        return hand.end
    elif kind.what in ("st", "row end") or scope.how == "end":
        wanted = takes_stitch
    else:
        from loopwright.work.hand import kind_matches

        other = hand.find(at, lambda place: takes_stitch(place) and not kind_matches(kind, place))
        return other if other >= 0 else hand.end
    total = hand.edge.before(hand.end, wanted)
    hand.saw(hand.edge.length)
    return hand.edge.nth(total - 1, wanted) + 1 if total else at


def _chains_end(hand: Hand) -> int:
    at = hand.here()
    other = hand.find(at, lambda place: place.what != "ch")
    if hand.sub:
        return hand.pos + 1
    if other == at and at < hand.end and is_space(hand.at(at)):
        return at + 1
    return other if 0 <= other < hand.end else hand.end


__all__ = ["Doing", "passable", "replace"]
