"""What can be worked into the stitches ahead."""

from __future__ import annotations

from hypothesis import strategies as st

from properties.tokens import Token, several, space
from properties.walk import Step, Walk


def many(n: int, word: str) -> str:
    """``tr``, ``2 tr``."""
    return word if n == 1 else f"{n} {word}"


def plain(walk: Walk) -> Step:
    """One in each of the next few."""
    n = walk.number(1, min(walk.run(), 6))
    word = walk.word()
    walk.used = "st"
    return Step(many(n, word), walk.at + n, several(word, n))


def each_next(walk: Walk) -> Step:
    """So many in each of the next few."""
    n, k = walk.number(1, min(walk.run(), 4)), walk.number(1, 3)
    word = walk.word()
    walk.used = "st"
    text = f"{many(k, word)} in each of next {n} {walk.kind(n)}"
    return Step(text, walk.at + n, several(word, n * k))


def increase(walk: Walk) -> Step:
    """An increase, or several."""
    n = walk.number(1, min(walk.run(), 2))
    word = walk.word()
    walk.used = "st"
    return Step(f"{many(n, word)} inc", walk.at + n, several(word, 2 * n))


def in_next(walk: Walk) -> Step:
    """Several in the next one."""
    n, word = walk.number(1, 4), walk.word()
    walk.used = "st"
    return Step(f"{many(n, word)} in next {walk.kind()}", walk.at + 1, several(word, n))


def in_named(walk: Walk) -> Step:
    """In the next one, named as what it is."""
    word = walk.word()
    walk.used = "st"
    return Step(f"{word} in next {walk.here.word}", walk.at + 1, several(word, 1))


def in_each_named(walk: Walk) -> Step:
    """In each of a kind, as far as it goes: only where another stitch or nothing comes after."""
    kind, n = walk.here, 0
    while walk.at + n < len(walk.edge) and walk.edge[walk.at + n] == kind:
        n += 1
    after = walk.edge[walk.at + n :]
    unclear = bool(after) and (after[0].what == "sp" or after[0].word == kind.word)
    if unclear or not walk.last:
        return in_named(walk)
    word = walk.word()
    walk.used = "st"
    return Step(f"{word} in each {kind.word}", walk.at + n, several(word, n))


def looped(walk: Walk) -> Step:
    """In one loop only."""
    word = walk.word()
    loop = walk.draw(st.sampled_from(("blo", "flo", "third loop")))
    walk.used = "st"
    return Step(f"{word} {loop}", walk.at + 1, several(word, 1))


def post(walk: Walk) -> Step:
    """Around the post of the next."""
    word = walk.draw(st.sampled_from(("fp", "bp"))) + walk.word()
    walk.used = "st"
    places = ["", " around next st"]
    if walk.here.word:
        places.append(f" around next {walk.here.word}")
    return Step(word + walk.draw(st.sampled_from(places)), walk.at + 1, several(word, 1))


def decrease(walk: Walk) -> Step:
    """The next few worked together."""
    n = walk.number(2, min(walk.run(), 4))
    word = walk.word()
    walk.used = "st"
    text = f"{word} dec" if n == 2 and walk.coin() else f"{word}{n}tog"
    return Step(text, walk.at + n, several(f"{word}{n}tog", 1))


def unlike(walk: Walk) -> Step:
    """Two unlike stitches worked together; what they make has no name to call it by."""
    one, two = walk.words.stitches[1:3]
    walk.used = "st"
    return Step(f"tog({one}, {two})", walk.at + 2, [Token("st")])


def cluster(walk: Walk) -> Step:
    """Several made as one; not called by name further on."""
    word = walk.words.stitches[2]
    form = walk.draw(st.sampled_from(("cluster", "puff", "bobble", "popcorn")))
    walk.used = "st"
    return Step(f"3-{word} {form}", walk.at + 1, [Token("st")])


def same(walk: Walk) -> Step:
    """Once more where the last one went."""
    word = walk.word()
    return Step(f"{word} in same st", walk.at, several(word, 1))


def inside(walk: Walk) -> tuple[str, list[Token]]:
    """What can stand in a group."""
    word = walk.word()
    one, gap, two = (walk.number(1, 3) for _ in range(3))
    made = several(word, one) + space(gap) + several(word, two)
    return f"{many(one, word)}, ch {gap}, {many(two, word)}", made


def group(walk: Walk) -> Step:
    """A group in the next one."""
    text, made = inside(walk)
    walk.used = "st"
    return Step(f"({text}) in next {walk.kind()}", walk.at + 1, made)


def skip(walk: Walk) -> Step:
    """Some skipped, perhaps with chains over them."""
    n = walk.number(1, min(walk.run(), 3))
    made: list[Token] = []
    text = f"{walk.words.skip} {n} {walk.kind(n)}"
    if walk.used and walk.coin():
        text, made = f"ch {n}, {text}", space(n)
    walk.used = walk.used and "skip"
    return Step(text, walk.at + n, made)


def crossed(walk: Walk) -> Step:
    """Stitches crossed over one another."""
    word, skipping = walk.word(), walk.words.skip
    both = walk.run() >= 3 and walk.coin()
    walk.used = "back"
    if not both:
        text = f"{skipping} 1 st, {word}, {word} in skipped st"
        return Step(text, walk.at + 2, several(word, 2))
    text = f"{skipping} 2 sts, {word}, {word} in 2nd skipped st, {word} in 1st skipped st"
    return Step(text, walk.at + 3, several(word, 3))


def to_space(walk: Walk) -> Step:
    """One in each as far as the next space."""
    run, word = walk.run(), walk.word()
    name = walk.called(walk.edge[walk.at + run])
    walk.used = "st"
    text = f"{word} in each st to next {name}"
    if walk.coin():
        text = f"[{word}] to next {name}"
    return Step(text, walk.at + run, several(word, run))
