"""Ways to damage a pattern, as slips of a keyboard, a merge or a stranger would."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from random import Random

TOKEN = re.compile(r"\d+|[A-Za-z_-]+|[^\sA-Za-z0-9_]|\s+")
NUMBERS = [0, 1, 2, 3, 7, 13, 64, 999, 10_000, 1_000_000_007, 10**30, 10**70 - 1]
WORDS = (Path(__file__).parent / "words.txt").read_text("utf-8").split()
JUNK = [
    *["\x00", "\x1b[31m", "\u202e", "\u200b", "\u0301", "\t", "\r", "\ufeff", "\u2028"],
    *["é", "с", "１", "🧶"],
]
# A line may begin with white space, and so go on with the one above it.
LINES = [
    "repeat last row: 3 more times",
    "repeat last 2 rows: until 60 sts",
    "repeat round 3: until 1000000 rows",
    "round 9999999999: dc in each st around, join",
    "rows 1-1000000000000 as r: {r} tr, dc in each st across",
    "next row: as row 3",
    "row 5: as row 5",
    "part hand: in a spiral",
    "part brim: in turned rounds",
    "start: all round cuff",
    "start: along row ends of hand then ch 5",
    "start: through last row of cuff and start of cuff",
    "start: unworked of cuff",
    "start: ch 1000000000000",
    "seam: last row to row ends, sl st",
    "gather: last round",
    "terms: US",
    "sizes: a (b, c, d, e)",
    "count body: 10 (20)",
    "stitch mussel: 5 mussel",
    "stitch ray: [ray] around",
    "next row: [[tr] around] around",
    "next row: [[ch 1, skip 1 st] 99999 times, tr] 99999 times",
    "next round: [tr inc] around",
    "next round: 999999999999 tr evenly",
    "    , tr in next tr",
    "    = 12 sts",
]

ENDINGS = ["around", "across", "3 times", "to last 2 sts", "to next ch-2 sp", "1000000 times"]

Mutator = Callable[[Random, str], str]


def _tokens(rng: Random, text: str) -> tuple[list[str], int]:
    tokens = TOKEN.findall(text) or [" "]
    return tokens, rng.randrange(len(tokens))


def delete(rng: Random, text: str) -> str:
    """Leave out a word or sign."""
    tokens, at = _tokens(rng, text)
    return "".join(tokens[:at] + tokens[at + 1 :])


def double(rng: Random, text: str) -> str:
    """Write a stretch of words twice."""
    tokens, at = _tokens(rng, text)
    end = at + rng.randint(1, 12)
    return "".join([*tokens[:end], " ", *tokens[at:]])


def swap(rng: Random, text: str) -> str:
    """Change two words that stand near each other."""
    tokens, at = _tokens(rng, text)
    other = min(at + rng.randint(1, 6), len(tokens) - 1)
    tokens[at], tokens[other] = tokens[other], tokens[at]
    return "".join(tokens)


def word(rng: Random, text: str) -> str:
    """Write another word of the trade, or one more."""
    tokens, at = _tokens(rng, text)
    tokens[at] = rng.choice(WORDS) if rng.random() < 0.6 else f"{tokens[at]} {rng.choice(WORDS)} "
    return "".join(tokens)


def number(rng: Random, text: str) -> str:
    """Change a number, a little or beyond reason."""
    found = list(re.finditer(r"\d+", text))
    if not found:
        return text
    one = rng.choice(found)
    near = str(max(int(one[0][:40]) + rng.choice([-1, 1, 2]), 0))
    new = near if rng.random() < 0.5 else str(rng.choice(NUMBERS))
    return text[: one.start()] + new + text[one.end() :]


def junk(rng: Random, text: str) -> str:
    """Put a character that does not belong."""
    at = rng.randrange(len(text) + 1)
    return text[:at] + rng.choice(JUNK) + text[at:]


def letter(rng: Random, text: str) -> str:
    """Miss a key."""
    at = rng.randrange(len(text) + 1)
    return text[:at] + rng.choice(["", "x", "-", "(", "]"]) + text[at + 1 :]


def cut(rng: Random, text: str) -> str:
    """Stop in the middle of the file."""
    return text[: rng.randrange(len(text) + 1)]


def line(rng: Random, text: str) -> str:
    """Leave out, double, move, join or add a line."""
    lines = text.split("\n")
    at = rng.randrange(len(lines))
    what = rng.randrange(5)
    if what == 0:
        del lines[at]
    elif what == 1:
        lines.insert(at, lines[at])
    elif what == 2:
        lines.insert(rng.randrange(len(lines)), lines.pop(at))
    elif what == 3:
        lines[at : at + 2] = [" ".join(lines[at : at + 2])]
    else:
        lines.insert(at, rng.choice(LINES))
    return "\n".join(lines)


def nest(rng: Random, text: str) -> str:
    """Put a stretch into brackets."""
    tokens, at = _tokens(rng, text)
    end = at + rng.randint(1, 9)
    ending = rng.choice(ENDINGS)
    return "".join([*tokens[:at], "[", *tokens[at:end], f"] {ending}", *tokens[end:]])


MUTATORS: tuple[Mutator, ...] = (
    delete, double, swap, word, word, number, number, junk, letter, cut, line, line, nest
)  # fmt: skip


def mutated(rng: Random, text: str) -> str:
    """The text after one to four slips."""
    for _ in range(rng.choice([1, 1, 1, 2, 2, 3, 4])):
        text = rng.choice(MUTATORS)(rng, text)
    return text
