"""What a designer could write at a place, by what is ahead there."""

from __future__ import annotations

from collections.abc import Callable

from properties import space_steps as sp
from properties import stitch_steps as sts
from properties.walk import Step, Walk

Choice = Callable[[Walk], Step]


def choices(walk: Walk) -> list[Choice]:
    """Everything that fits."""
    here = walk.here.what
    if here == "sp":
        return _at_space(walk)
    if here == "ch":
        return [sts.plain, sts.plain, sts.each_next, sts.in_next, sts.group, sts.skip]
    return _at_stitch(walk)


def _at_stitch(walk: Walk) -> list[Choice]:
    run = walk.run()
    out: list[Choice] = [sts.plain, sts.plain, sts.each_next, sts.increase, sts.in_next]
    out += [sts.skip, sts.group, sts.looped, sts.cluster, sts.post]
    if walk.here.word:
        out += [sts.in_named, sts.in_each_named]
    if run >= 2:
        out += [sts.decrease, sts.decrease, sts.unlike, sts.crossed]
    if walk.used == "st":
        out.append(sts.same)
    if walk.at + run < len(walk.edge):
        out += [sp.into_space, sp.into_space, sts.to_space]
    if walk.deep < 2 and run >= 4:
        out += [small_bracket, small_bracket]
    return out


def _at_space(walk: Walk) -> list[Choice]:
    out: list[Choice] = [sp.into_space, sp.into_space, sp.chain_of, sp.each_chain, sp.skip_space]
    followed = walk.at + 1 < len(walk.edge) and walk.edge[walk.at + 1].what == "st"
    if followed and walk.at:
        out.append(sp.pass_space)
    return out


def small_bracket(walk: Walk) -> Step:
    """A repeat inside a stretch of stitches that are alike."""
    run = walk.run()
    unit = walk.number(1, run // 2)
    times = walk.number(2, run // unit)
    stretch = walk.edge[walk.at : walk.at + unit]
    if any(walk.edge[walk.at + k] != stretch[k % unit] for k in range(unit * times)):
        return sts.plain(walk)
    inner = Walk(walk.draw, walk.words, stretch, walk.used and "skip", deep=walk.deep + 1)
    steps = inner.go()
    walk.used = inner.used if inner.used in ("", "st") else "skip"
    text = ", ".join(step.text for step in steps)
    made = [token for step in steps for token in step.made]
    return Step(f"[{text}] {times} times", walk.at + unit * times, made * times)
