"""Repositories as a house might have them: many patterns, of many kinds, a few of them wrong.

    generate(folder, 10_000, seed=1) -> the paths of those that are wrong

The same seed makes the same files, byte by byte, and a pattern depends on the seed and its own
number alone: a repository of 100 is the beginning of one of 10,000. Patterns have 20 to 300 lines.
Seven in ten have one size, as nine in ten of the published patterns in ``tests/worked`` do; a
house that sizes its garments has more. One in twenty has one slip in it, of the kinds that
designers make. One in five uses the yarns, gauges and stitches of the house, which stand in a
file of their own.

    python -m tests.benchmarks.repositories FOLDER --many 10000 --seed 1
"""

from __future__ import annotations

import argparse
import re
from collections.abc import Callable
from math import exp
from pathlib import Path
from random import Random

from .pieces import FILET, Sized, ball, cloth, hat, limb, net, per_size, piece, square, tube

WRONG = 20
"""One pattern in so many is wrong."""

USING = 5
"""One pattern in so many uses the file of the house."""

SHORTEST, LONGEST = 20, 300

Piece = Callable[[Random, Sized, str], list[str]]

KINDS: tuple[tuple[str, int, tuple[Piece, ...], tuple[str, ...]], ...] = (
    ("toy", 28, (ball, ball, limb), ("head", "body", "arm", "leg", "ear", "tail", "fin", "shell")),
    ("scarf", 14, (cloth,), ("scarf", "border", "pocket", "tie")),
    ("blanket", 10, (cloth, square), ("panel", "strip", "middle", "side")),
    ("hat", 14, (hat,), ("hat", "liner", "second", "brim")),
    ("cowl", 10, (tube, tube, cloth), ("cowl", "lining", "cuff", "flap")),
    ("jumper", 14, (piece, piece, tube), ("back", "front", "sleeve", "collar", "pocket")),
    ("square", 6, (square,), ("first", "second", "third", "fourth")),
    ("curtain", 4, (net,), ("net", "pelmet", "panel", "mat")),
)
"""Kinds of pattern: the name, how often of a hundred, and what its parts are and are called."""

SIZES = (
    ("", 70),
    ("small (large)", 10),
    ("child (woman, man)", 12),
    ("XS (S, M, L, XL)", 5),
    ("six months (one, two, four, six, eight)", 3),
)
SHORE = [
    "Breakwater",
    "Limpet",
    "Tideline",
    "Kelp",
    "Lantern",
    "Harbour",
    "Pebble",
    "Skerry",
    "Ebb",
    "Foghorn",
    "Dune",
    "Cockle",
]
THINGS = [
    "Sand",
    "Rope",
    "Gull",
    "Anchor",
    "Mast",
    "Spray",
    "Drift",
    "Shell",
    "Lamp",
    "Keel",
    "Wave",
    "Cliff",
    "Net",
    "Buoy",
    "Pier",
    "Reef",
]
YARNS = (
    ("DK wool", 50, 115, 3),
    ("aran wool", 100, 170, 4),
    ("cotton", 50, 85, 4),
    ("4-ply wool", 50, 210, 1),
)
COLOURS = ("slate", "foam", "amber", "kelp", "rust", "sand", "shale", "coral")
NOTES = (
    "Count the stitches here before going on.",
    "Move the marker up with every round.",
    "The wrong side is facing for the first stitch.",
    "Weave in the ends as you go; it saves an evening.",
    "Try it on before the next row, and add a row where it is short.",
    "Keep the turning chains loose so that the edge does not pull in.",
    "Change to the second ball at the side, where the join does not show.",
)


HOUSE_FILE = "shared/house.crochet"
SETTINGS = """# Every folder of this repository, its shared file too.
paths = ["."]
"""


def house() -> str:
    """The text of the file that patterns use: a yarn and a gauge in every colour, the hook that
    they are for, and the squares of nets."""
    lines = ["shared: The house on the shore", "terms: UK", "hook main: 4 mm"]
    for at, colour in enumerate(COLOURS):
        lines.append(f'yarn {colour}: "DK wool", 50 g = 115 m, weight 3, colour "{colour}"')
        lines.append(
            f"gauge {colour}: {16 + at % 4} sts and {18 + at % 4} rows to 10 cm in dc, hook main,"
            f" yarn {colour}, weighs 4.{at} g"
        )
    return "\n".join([*lines, *FILET]) + "\n"


def used_by(text: str) -> dict[str, str]:
    """The texts that a pattern of a repository uses, by their paths from its folder."""
    return {f"../{HOUSE_FILE}": house()} if f"use: ../{HOUSE_FILE}" in text else {}


def pattern(seed: int, number: int) -> str:
    """The text of one pattern without a slip."""
    rng = Random(f"{seed}/{number}")
    kind, _, pieces, names = rng.choices(KINDS, [one[1] for one in KINDS])[0]
    sizes = rng.choices(SIZES, [one[1] for one in SIZES])[0][0]
    title = f"{rng.choice(SHORE)} {rng.choice(THINGS)} {kind.capitalize()}, number {number}"
    long = min(max(int(exp(rng.gauss(3.9, 0.6))), SHORTEST), LONGEST - 60)
    head, made_with = _head(rng, title, sizes)
    if uses_house(seed, number):
        head, made_with = _from_house(head, rng.choice(COLOURS))
    elif net in pieces:
        head += FILET
    sized = Sized(sizes.count(",") + 2 if sizes else 1, made_with)
    lines = head
    part = 0
    while part == 0 or (len(lines) < long and part < 40):
        name = names[part % len(names)] + (
            str(part // len(names) + 1) if part >= len(names) else ""
        )
        made = (pieces[0] if part == 0 else rng.choice(pieces))(rng, sized, name)
        lines = [*lines, "", *made]
        if rng.random() < 0.7:
            lines.append(f"note: {rng.choice(NOTES)}")
        part += 1
    lines.append(
        "finish: Fasten off. Weave in the ends. Block to the measurements, and let it dry."
    )
    for note in NOTES[: max(SHORTEST - len(lines), 0)]:
        lines.append(f"finish: {note}")
    text = "\n".join(lines) + "\n"
    return _in_us_terms(text) if rng.random() < 0.4 else text


def _head(rng: Random, title: str, sizes: str) -> tuple[list[str], str]:
    """The lines above the first part, and what every part is made with."""
    lines = [f"pattern: {title}", "terms: UK"]
    lines.append(f"skill: {rng.choice(('basic', 'easy', 'intermediate', 'complex'))}")
    if rng.random() < 0.5:
        lines.append(f"version: {rng.randint(1, 4)}.{rng.randint(0, 9)}")
    if rng.random() < 0.7:
        lines.append("about: From a house on the shore, made to last and to be mended.")
        lines.append(f"    {rng.choice(NOTES)}")
    if sizes:
        lines.append(f"sizes: {sizes}")
    if rng.random() < 0.25:
        return lines, ""
    wool, grams, metres, weight = rng.choice(YARNS)
    colour = rng.choice(COLOURS)
    lines.append(
        f'yarn {colour}: "{wool}", {grams} g = {metres} m, weight {weight}, colour "{colour}"'
    )
    many = sizes.count(",") + 2 if sizes else 1
    hooks = [rng.choice((4, 5))] * many
    lines.append(f"hook main: {per_size(hooks)} mm")
    if rng.random() < 0.3:
        return lines, f", yarn {colour}, hook main"
    wide = rng.randint(13, 22)
    lines.append(
        f"gauge main: {wide} sts and {wide + rng.randint(0, 3)} rows to 10 cm in dc, hook main,"
        f" yarn {colour}, weighs {rng.randint(30, 60) / 10} g"
    )
    return lines, f", yarn {colour}, hook main, gauge main"


def _from_house(head: list[str], colour: str) -> tuple[list[str], str]:
    """The same head, with what it is made with taken from the file of the house."""
    kept = [line for line in head if not line.startswith(("yarn", "hook", "gauge"))]
    return [*kept, f"use: ../{HOUSE_FILE}"], f", yarn {colour}, hook main, gauge {colour}"


_US = {"dc": "sc", "htr": "hdc", "tr": "dc"}
_STITCH = re.compile(r"\b(fp|bp|)(dc|htr|tr)(\d?tog|)\b")


def _in_us_terms(text: str) -> str:
    """The same pattern in US words."""
    lines = text.split("\n")
    for at, line in enumerate(lines):
        if not line.startswith(("pattern", "note", "finish", "about")):
            lines[at] = _STITCH.sub(lambda one: one[1] + _US[one[2]] + one[3], line)
    return "\n".join(lines).replace("terms: UK", "terms: US", 1)


# ------------------------------------------------------------------ slips
def spoil(text: str, rng: Random) -> str:
    """The text with one slip in it: the first that can be made in it, of those in some order."""
    for slip in (*rng.sample(SLIPS, len(SLIPS)), _without_terms):
        spoilt = slip(text, rng)
        if spoilt != text:
            return spoilt
    raise AssertionError("every pattern has terms, so a slip can be made")


def _in_one(find: str, put: Callable[[re.Match[str]], str]) -> Callable[[str, Random], str]:
    """A slip at one of the places where something is written."""
    what = re.compile(find, re.MULTILINE)

    def slip(text: str, rng: Random) -> str:
        places = list(what.finditer(text))
        if not places:
            return text
        place = rng.choice(places)
        return text[: place.start()] + put(place) + text[place.end() :]

    return slip


SLIPS = (
    _in_one(r"(?<== )\d+(?= sts)", lambda one: str(int(one[0]) + 1)),
    _in_one(r"(?<== )\d+(?= sts)", lambda one: str(int(one[0]) * 10)),
    _in_one(r"\] \d+ times(?= =)", lambda one: f"] {int(one[0].split()[1]) + 1} times"),
    _in_one(r"(?<=, )(dc|sc)2tog(?=,)", lambda one: f"{one[1]}3tog"),
    _in_one(r"(?<=\[)(dc|sc) inc(?=\])", lambda one: f"{one[1]} incr"),
    _in_one(r"(?<= )(dc|sc|tr)(?= in each)", lambda one: f"{one[1]}x"),
    _in_one(r"\](?= (around|across|\d+ times))", lambda _: ""),
    _in_one(r"(?<=, hook )main\b(?=, gauge|$)", lambda _: "mian"),
    _in_one(r" inc(?=\])", lambda _: ""),
    _in_one(r"(?<=magic )ring$", lambda _: "rign"),
    _in_one(r"(?<=: )ch 1(?=, )", lambda _: "ch1"),
)
"""A count one off, or with a nought too many; a repeat too many; a decrease of three; a word that
is no stitch; a bracket not opened; a name mistyped; an increase forgotten; letters in the wrong
order; a space forgotten."""

_without_terms = _in_one(r"^terms: .*\n", lambda _: "")


# ------------------------------------------------------------------ files
def uses_house(seed: int, number: int) -> bool:
    """Whether a pattern uses the file of the house: exactly one in each five."""
    return number % USING == Random(f"{seed}/{number // USING}/use").randrange(USING)


def is_wrong(seed: int, number: int) -> bool:
    """Whether a pattern of a repository has a slip: exactly one in each twenty."""
    return number % WRONG == Random(f"{seed}/{number // WRONG}/which").randrange(WRONG)


def text_of(seed: int, number: int) -> str:
    """What stands in the file of a pattern, slip and all."""
    text = pattern(seed, number)
    return spoil(text, Random(f"{seed}/{number}/slip")) if is_wrong(seed, number) else text


def name_of(number: int) -> str:
    """Where a pattern lies: a folder a hundred, so that none is too long to look into."""
    return f"book-{number // 100:04d}/pattern-{number:06d}.crochet"


def generate(folder: Path, many: int, seed: int = 1) -> list[str]:
    """Write a repository of so many patterns, with its settings and the file of the house; the
    names of those that are wrong, in order."""
    shared = folder / HOUSE_FILE
    shared.parent.mkdir(parents=True, exist_ok=True)
    shared.write_text(house(), "utf-8", newline="\n")
    (folder / "loopwright.toml").write_text(SETTINGS, "utf-8", newline="\n")
    wrong = []
    for number in range(many):
        path = folder / name_of(number)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text_of(seed, number), "utf-8", newline="\n")
        if is_wrong(seed, number):
            wrong.append(name_of(number))
    return wrong


def main() -> None:
    """Make a repository where one is told."""
    arguments = argparse.ArgumentParser(prog="python -m tests.benchmarks.repositories")
    arguments.add_argument("folder", type=Path)
    arguments.add_argument("--many", type=int, default=10_000)
    arguments.add_argument("--seed", type=int, default=1)
    told = arguments.parse_args()
    wrong = generate(told.folder, told.many, told.seed)
    print(f"{told.many} patterns, {len(wrong)} of them wrong, in {told.folder}")


if __name__ == "__main__":
    main()
