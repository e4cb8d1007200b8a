"""Logical lines: the text cut up so that one line that is not understood never hides another.

A logical line begins at the margin and goes on over lines that begin with white space. Its first
word says how it is parsed: free text is kept as it stands, everything else has a start rule in
grammar/pattern.lark.
"""

from __future__ import annotations

import re

from loopwright.frozen import NamedTuple
from loopwright.source import Span
from loopwright.syntax.parser import parse
from loopwright.syntax.tree import Misread, Node

# fmt: off
FREE_TEXT = [
    "pattern", "shared", "terms", "notation", "skill", "designer", "version", "licence", "about",
    "notions", "caution", "changes", "note", "finish",
]
# fmt: on
"""Labels whose content is free text."""

_ROWS = dict.fromkeys(("row", "rows", "round", "rounds", "next", "setup"), "row_line")
START_RULES = {
    "sizes": "sizes_line",
    "picture": "picture_line",
    "use": "use_line",
    "measure": "measure_line",
    "yarn": "yarn_line",
    "hook": "hook_line",
    "gauge": "gauge_line",
    "tension": "gauge_line",
    "count": "count_line",
    "stitch": "stitch_line",
    "allowance": "allowance_line",
    "kit": "kit_line",
    "pace": "pace_line",
    "part": "part_line",
    "start": "start_line",
    "stripes": "stripes_line",
    "comes": "comes_line",
    "seam": "seam_line",
    "gather": "gather_line",
    "repeat": "repeat_line",
    **_ROWS,
}
LABELS = frozenset((*FREE_TEXT, *START_RULES))

_FIRST_WORD = re.compile(r"[A-Za-z]+")
# Compiled by the first line that has a comment.
_COMMENT = r"(?m:^|(?<=\s))#(?!\d)[^\n]*"
_ALLOW = r"#\s*allow\s+([a-z-]+)\s*(?::\s*(\S[^\n]*))?"


class Allowed(NamedTuple):
    """A line's ``# allow CODE: reason``."""

    code: str
    reason: str
    span: Span


class Line(NamedTuple):
    """A logical line: its first word, where it begins, its text, and what it parsed to.

    ``tree`` is None for free text, whose content is ``content`` (comments taken out) beginning
    at offset ``content_at`` of the file.
    """

    label: str
    start: int
    text: str
    tree: Node | None
    misread: Misread | None
    content: str = ""
    content_at: int = 0
    allowed: tuple[Allowed, ...] = ()

    @property
    def readable(self) -> bool:
        """Whether the line can be lowered: it was read, or only its label has capitals."""
        return self.misread is None or self.misread.reason == "capital"

    @property
    def span(self) -> Span:
        """Where the line stands in the file, without the white space after it."""
        return Span(self.start, self.start + len(self.text.rstrip()))


MOST_LINES = 10_000
"""Lines of one pattern that are read; a garment in ten sizes has a few hundred."""

LONGEST_LINE = 20_000
"""Characters of one line that are read; a long row of a large doily has a thousand."""


def read_lines(text: str, only: frozenset[str] = LABELS) -> list[Line]:
    """Cut a pattern's text into logical lines and parse each; of some labels ``only``, where not
    all are wanted."""
    pieces = cut(text)
    if only is not LABELS:
        pieces = [one for one in pieces if label_of(one[1]) in only]
    lines = [_read(start, raw) for start, raw in pieces[:MOST_LINES]]
    if len(pieces) > MOST_LINES:
        start, raw = pieces[MOST_LINES]
        wrong = Misread(0, min(len(raw.rstrip()), 40), "", frozenset(), "many")
        lines.append(Line("", start, raw, None, wrong))
    return lines


def cut(text: str) -> list[tuple[int, str]]:
    """The logical lines as (offset, text); comment lines at the margin and blank lines are not
    lines of their own, and stay inside the line around which they stand."""
    pieces: list[list[int]] = []
    at = 0
    for raw in text.split("\n"):
        end = at + len(raw)
        bare = raw.strip()
        if bare and not raw.startswith("#"):
            if raw[0].isspace() and pieces:
                pieces[-1][1] = end
            else:
                pieces.append([at, end])
        at = end + 1
    return [(start, text[start:end]) for start, end in pieces]


def moved(line: Line, by: int) -> Line:
    """The same line, ``by`` characters further on."""
    allowed = tuple(one._replace(span=one.span.moved(by)) for one in line.allowed)
    return line._replace(start=line.start + by, content_at=line.content_at + by, allowed=allowed)


def label_of(raw: str) -> str:
    """The first word of a line."""
    match = _FIRST_WORD.match(raw)
    return match.group() if match else ""


def _read(start: int, raw: str) -> Line:
    label = label_of(raw)
    if label not in LABELS and label.lower() in LABELS:
        # The label is written with capitals: said, and read all the same.
        line = _read(start, label.lower() + raw[len(label) :])
        capital = Misread(0, len(label), label, frozenset(), "capital")
        return line._replace(text=raw, misread=line.misread or capital)
    allowed = (
        tuple(
            Allowed(one[1], (one[2] or "").strip(), Span(start + one.start(), start + one.end()))
            for one in re.finditer(_ALLOW, raw)
        )
        if "#" in raw
        else ()
    )
    if label in FREE_TEXT:
        colon = raw.find(":")
        if colon >= 0 and raw[len(label) : colon].strip() == "":
            content = _without_comments(raw[colon + 1 :])
            return Line(label, start, raw, None, None, content, start + colon + 1, allowed)
        end = len(raw.rstrip())
        wrong = Misread(len(label), end, raw[len(label) : end].strip()[:20], frozenset(["COLON"]))
        return Line(label, start, raw, None, wrong, allowed=allowed)
    rule = START_RULES.get(label)
    if len(raw) > LONGEST_LINE:
        return Line(label, start, raw, None, Misread(0, 40, "", frozenset(), "long"))
    if rule is None:
        end = len(label) or len(raw.split(maxsplit=1)[0])
        return Line(label, start, raw, None, Misread(0, end, raw[:end], frozenset(), "label"))
    tree = parse(rule, raw)
    if isinstance(tree, Misread):
        return Line(label, start, raw, None, tree, allowed=allowed)
    return Line(label, start, raw, tree, None, allowed=allowed)


def _without_comments(text: str) -> str:
    """The text with its comments turned into spaces, so that offsets stay true."""
    if "#" not in text:
        return text
    return re.sub(_COMMENT, lambda match: " " * len(match.group()), text)
