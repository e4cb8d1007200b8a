"""The page: sections under their lines, steps under their labels, the sizes and own stitches."""

from __future__ import annotations

import re
from dataclasses import dataclass

STEP = re.compile(
    r"(?P<label>(?:Sizes? [^:]*? only, )?"
    r"(?:start|seam|gather|(?:setup|next) (?:row|round)|(?:rows?|rounds?) [\d, and-]+)"
    r"(?: \([RW]S\))?): (?P<text>.*)",
    re.IGNORECASE | re.DOTALL,
)


@dataclass(frozen=True)
class Step:
    """A line of instruction: what it is called (nothing where it repeats), what is done, what it
    says to come to, and the lines set out beneath it, by what they begin with."""

    label: str
    text: str
    count: str
    beneath: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Part:
    """A part: its name and its steps."""

    name: str
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class Sheet:
    """What the sheet holds for somebody who works from it."""

    sizes: tuple[str, ...]
    parts: tuple[Part, ...]
    own: dict[str, str]


def read(text: str) -> Sheet:
    """A sheet in plain text."""
    sections = _sections(text)
    sizes = ("",)
    own: dict[str, str] = {}
    parts = []
    for heading, blocks in sections:
        whole = " ".join(" ".join(block) for block in blocks)
        found = re.search(r"Sizes: (.*?) \((.*?)\)\. Numbers are given", whole)
        if found:
            sizes = (found[1], *found[2].split(", "))
        if heading == "Special stitches":
            for line in (line for block in blocks for line in _unwrapped(block)):
                name, _, does = line.partition(": ")
                own[name.lower()] = does
        if any(line.startswith("Start: ") for block in blocks for line in block):
            parts.append((heading, blocks))
    return Sheet(sizes, tuple(_part(name, blocks, sizes) for name, blocks in parts), own)


def _sections(text: str) -> list[tuple[str, list[list[str]]]]:
    """Headings with the blocks of lines under them."""
    out: list[tuple[str, list[list[str]]]] = []
    lines = text.split("\n")
    for at, line in enumerate(lines):
        if line and set(line) == {"-"} and at and len(line) == len(lines[at - 1]):
            if out and out[-1][1]:
                out[-1][1][-1].pop()  # the heading was taken for a block
            out.append((lines[at - 1], [[]]))
        elif out:
            blocks = out[-1][1]
            if line:
                blocks[-1].append(line)
            elif blocks[-1]:
                blocks.append([])
    return out


def _unwrapped(block: list[str]) -> list[str]:
    """Lines that hang under another put together with it."""
    out: list[str] = []
    for line in block:
        if line.startswith(" ") and out:
            out[-1] += " " + line.strip()
        else:
            out.append(line)
    return out


def _part(name: str, blocks: list[list[str]], sizes: tuple[str, ...]) -> Part:
    steps: list[Step] = []
    for block in blocks:
        for line in _unwrapped(block):
            found = STEP.fullmatch(line)
            if found:
                steps.append(_step(found["label"], found["text"], sizes))
            elif line.startswith("Repeat "):
                steps.append(_step("", line, sizes))
    return Part(name.lower(), tuple(steps))


def _step(label: str, text: str, sizes: tuple[str, ...]) -> Step:
    names = "|".join(re.escape(one) for one in sizes if one)
    size = rf"(?:Sizes? )?(?:{names})(?:(?:, | and )(?:{names}))*" if names else "(?!)"
    number = r"(?:rows?|rounds?) [\d, and-]+"
    begins = re.compile(rf"(?:^| )({size}(?:, {number})?|{number}): ", re.IGNORECASE)
    pieces = begins.split(text)
    main = pieces[0]
    done, _, count = main.partition(". ")
    counted = re.match(r"[^.]*", count)
    beneath = tuple(
        (pieces[at].lower(), pieces[at + 1].strip().rstrip(".")) for at in range(1, len(pieces), 2)
    )
    return Step(label, done.rstrip("."), counted[0].strip() if counted else "", beneath)


def in_size(text: str, at: int, several: int) -> str:
    """The text with its numbers for one of so many sizes: ``28 (32, 36)`` is 32 in the second."""
    if several < 2:
        return text

    def one(found: re.Match[str]) -> str:
        values = [found[1], *found[2].split(", ")]
        return values[at] if len(values) == several else found[0]

    return re.sub(r"(\d+) \((\d+(?:, \d+)*)\)", one, text)
