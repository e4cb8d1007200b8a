"""What can be worked into the spaces ahead, and past them."""

from __future__ import annotations

from hypothesis import strategies as st

from properties.stitch_steps import inside, many
from properties.tokens import several
from properties.walk import Step, Walk


def into_space(walk: Walk) -> Step:
    """Into the next space, past any stitches on the way."""
    at = walk.at + walk.run()
    name = walk.draw(st.sampled_from((walk.called(walk.edge[at]), "sp")))
    walk.used = "sp"
    if walk.coin():
        text, made = inside(walk)
        return Step(f"({text}) in next {name}", at + 1, made)
    n, word = walk.number(1, 4), walk.word()
    return Step(f"{many(n, word)} in next {name}", at + 1, several(word, n))


def chain_of(walk: Walk) -> Step:
    """Into one chain of it."""
    chains = walk.here.chains
    n, word = walk.number(1, chains), walk.word()
    nth = ("1st", "2nd", "3rd")[n - 1] if n < 4 else f"{n}th"
    walk.used = "sp"
    text = f"{word} in {nth} ch of next {walk.called(walk.here)}"
    return Step(text, walk.at + 1, several(word, 1))


def each_chain(walk: Walk) -> Step:
    """Into the first few of its chains."""
    n, word = walk.number(1, walk.here.chains), walk.word()
    walk.used = "sp"
    return Step(f"{word} in each of next {n} ch", walk.at + 1, several(word, n))


def skip_space(walk: Walk) -> Step:
    """Skipped in words."""
    walk.used = walk.used and "skip"
    return Step(f"{walk.words.skip} next {walk.called(walk.here)}", walk.at + 1, [])


def pass_space(walk: Walk) -> Step:
    """Passed by on the way to the next stitch."""
    word = walk.word()
    walk.used = "st"
    return Step(word, walk.at + 2, several(word, 1))
