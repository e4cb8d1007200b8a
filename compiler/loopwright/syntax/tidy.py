"""The formatter: the one canonical layout of a pattern file.

    round 1 :6 sc in ring=6 sts      ->  round 1: 6 sc in ring = 6 sts
    rounds 2-9 as r:[{r-2} sc,sc inc] 6 times
                                     ->  rounds 2-9 as r: [{r - 2} sc, sc inc] 6 times

It works on the words that the parser found, so it can neither split a word nor join two, and it
leaves a line that is not understood exactly as it stands. What comes out reads the same and is
its own canonical layout. Comments stay behind or between the words where they were written.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from loopwright.frozen import NamedTuple
from loopwright.source import with_line_ends
from loopwright.syntax.lines import Line, read_lines
from loopwright.syntax.tree import Node, Word

WIDTH = 100
"""Columns; a longer line is broken. A comment is not counted, as no break makes it shorter."""

INDENT = "    "

NEVER = -1
IF_MUST = 1
"""For a stretch that is too long without a comma outside its brackets: before ``=``, ``then`` or a
remark. A comma with n brackets open around it comes at 2 n: the outer ones first."""

_OPENING = frozenset(("LPAR", "LSQB", "LBRACE"))
_CLOSING = frozenset(("RPAR", "RSQB", "RBRACE"))
_NO_SPACE_BEFORE = _CLOSING | {"COMMA", "COLON", "PERCENT"}
_RANGES = frozenset(("numbered", "as_row", "repeat_rows"))
_MAY_BEGIN_A_LINE = frozenset((("stated", "EQUAL"), ("remark", "STRING"), ("start_line", "THEN")))
_LINE_END = re.compile(r"\r+(?=\n|\Z)")
_WHITE = " \t\n\r\f\v"
_BLANKS = re.compile(r"[ \t\n\r\f\v]+")
_FREE_WORD = re.compile(r"(?:\{[^{}]*\}|[^ \t\n\r\f\v])+")
_NOTE = re.compile(r"#[^\n]*")


class Piece(NamedTuple):
    """A word as it is laid out: whether a space stands before it, and how readily the line may
    be broken after it (0 most readily, ``NEVER`` not at all)."""

    text: str
    space: bool
    breaks: int = NEVER


class Comment(NamedTuple):
    """A comment within a logical line. ``own`` when it has a line to itself, then perhaps at the
    ``margin``, perhaps after a ``blank`` line."""

    text: str
    own: bool
    margin: bool
    blank: bool


def tidy(text: str) -> str:
    """The pattern's text in its canonical layout."""
    text = _LINE_END.sub("", with_line_ends(text)) + "\n"
    rows: list[str] = []
    at = 0
    for line in read_lines(text):
        _put_between(rows, text[at : line.start])
        if line.label == "part":
            _part_gap(rows)
        rows.append(_tidy_line(line))
        at = line.start + len(line.text)
    _put_between(rows, text[at:])
    while rows and not rows[-1]:
        rows.pop()
    return "".join(row + "\n" for row in rows)


def _put_between(rows: list[str], between: str) -> None:
    """What stands between two logical lines: comments at the margin, and blank lines, of which
    one is kept. ``between`` begins with the line end of the line above, where there is one."""
    raws = between.split("\n")[1 if rows else 0 : -1]
    for raw in raws:
        bare = raw.rstrip()
        if bare or (rows and rows[-1]):
            rows.append(bare)


def _part_gap(rows: list[str]) -> None:
    """Leave one blank line before a part, and before the comments right above it."""
    at = len(rows)
    while at and rows[at - 1].startswith("#"):
        at -= 1
    if at and rows[at - 1]:
        rows.insert(at, "")


# ------------------------------------------------------------------ one logical line
def _tidy_line(line: Line) -> str:
    if line.misread is not None:
        return line.text
    if line.tree is None:
        stream = list(_free_text(line))
    else:
        stream = list(_parsed(line.text, line.tree))
    return _lay_out(stream)


def _parsed(text: str, tree: Node) -> Iterator[Piece | Comment]:
    """The words of a parsed line with the comments between them."""
    at = depth = 0
    words = list(_words(tree))
    colon = next((n for n, (word, _) in enumerate(words) if word.type == "COLON"), 0)
    for n, (word, rule) in enumerate(words):
        yield from _comments(text, at, word.start_pos)
        depth -= word.type in _CLOSING
        following = words[n + 1] if n + 1 < len(words) else None
        shown = _BLANKS.sub(" ", str(word)) if word.type == "STRING" else str(word)
        space = n > 0 and _apart(words[n - 1], (word, rule))
        yield Piece(shown, space, _breaks(word, following, depth) if n > colon else NEVER)
        depth += word.type in _OPENING
        at = word.end_pos
    yield from _comments(text, at, len(text))


def _breaks(word: Word, following: tuple[Word, str] | None, depth: int) -> int:
    if word.type == "COMMA":
        return 2 * depth
    if following and (following[1], following[0].type) in _MAY_BEGIN_A_LINE:
        return IF_MUST
    return NEVER


def _words(tree: Node) -> Iterator[tuple[Word, str]]:
    """Every word of a tree in order, with the rule that it stands in."""
    left: list[tuple[Node | Word, str]] = [(tree, "")]
    while left:
        one, rule = left.pop()
        if isinstance(one, Node):
            left.extend((child, one.rule) for child in reversed(one.children))
        else:
            yield one, rule


def _apart(one: tuple[Word, str], two: tuple[Word, str]) -> bool:
    """Whether a space stands between two neighbours, each with the rule that it stands in."""
    (left, left_rule), (right, right_rule) = one, two
    if left.type in _OPENING or right.type in _NO_SPACE_BEFORE:
        return False
    if left.type == "MINUS" and (left_rule in _RANGES or left_rule == "negative"):
        return False
    if right.type == "MINUS" and right_rule in _RANGES:
        return False
    return not (left_rule == "tog" and right.type == "LPAR")


def _free_text(line: Line) -> Iterator[Piece | Comment]:
    """The words of a line of free text; what stands in braces is one word. A comment is where
    ``content`` no longer has the ``#`` that the text has."""
    text, begin = line.text, line.content_at - line.start
    yield Piece(line.label + ":", False)
    at = begin
    while at < len(text):
        end = at
        while end < len(text) and (text[end] != "#" or line.content[end - begin] == "#"):
            end += 1
        yield from _free_words(text[at:end])
        at = text.find("\n", end)
        at = len(text) if at < 0 else at
        if end < at:
            yield from _comments(text, len(text[:end].rstrip(_WHITE)), at)


def _free_words(text: str) -> Iterator[Piece]:
    """Words with a break allowed after each, but not before one of hard spaces only: it would
    stand on a line that looks blank."""
    words = [_BLANKS.sub(" ", word) for word in _FREE_WORD.findall(text)]
    for word, following in zip(words, [*words[1:], "."], strict=False):
        yield Piece(word, True, 0 if following.strip() else NEVER)


def _comments(text: str, start: int, end: int) -> Iterator[Comment]:
    """The comments between two words."""
    at = start
    for match in _NOTE.finditer(text, start, end):
        lines = text.count("\n", at, match.start())
        margin = lines > 0 and text[match.start() - 1] == "\n"
        yield Comment(match.group().rstrip(), lines > 0, margin, lines > 1)
        at = match.end()


# ------------------------------------------------------------------ laying out
def _lay_out(stream: Sequence[Piece | Comment]) -> str:
    """Words and comments as lines. A comment always ends its line."""
    lines: list[str] = []
    pieces: list[Piece] = []
    last = max(at for at, one in enumerate(stream) if isinstance(one, Piece))
    for at, one in enumerate(stream):
        if isinstance(one, Piece):
            pieces.append(one)
            continue
        _flush(pieces, lines)
        if not one.own:
            lines[-1] += "  " + one.text
            continue
        if one.blank and at > last:
            lines.append("")
        lines.append(one.text if one.margin else INDENT + one.text)
    _flush(pieces, lines)
    return "\n".join(lines)


def _flush(pieces: list[Piece], lines: list[str]) -> None:
    """Lay out the words gathered so far on lines of their own."""
    if pieces:
        lines.append(INDENT if lines else "")
        _fill(pieces, 0, lines)
        pieces.clear()


def _fill(pieces: Sequence[Piece], level: int, lines: list[str]) -> None:
    """Fill lines, breaking at this level; further in only for a stretch that is too long for a
    line of its own."""
    for stretch in _stretches(pieces, level):
        words = "".join(" " * piece.space + piece.text for piece in stretch)
        bare = words.lstrip(" ")
        fresh = not lines[-1].strip()
        inside = min((one.breaks for one in stretch[:-1] if one.breaks > level), default=NEVER)
        if len(lines[-1]) + len(bare if fresh else words) <= WIDTH:
            lines[-1] += bare if fresh else words
        elif len(INDENT) + len(bare) > WIDTH and inside != NEVER:
            _fill(stretch, inside, lines)
        elif fresh:
            lines[-1] += bare
        else:
            lines.append(INDENT + bare)


def _stretches(pieces: Sequence[Piece], level: int) -> Iterator[Sequence[Piece]]:
    """The words up to each place where the line may be broken at this level."""
    start = 0
    for at, piece in enumerate(pieces):
        if piece.breaks == level:
            yield pieces[start : at + 1]
            start = at + 1
    if start < len(pieces):
        yield pieces[start:]
