"""Words for a line that the grammar could not read: what stands there, what could."""

from __future__ import annotations

import re

from loopwright.diagnostics import Diagnostic, Edit
from loopwright.lower import faults
from loopwright.lower.context import nearest
from loopwright.lower.stitches import SHORT, TUNISIAN
from loopwright.source import Span
from loopwright.syntax import lines as syntax
from loopwright.syntax.parser import Misread, literal, parse

NAMES = {
    "NAME": "a name or a stitch",
    "INT": "a number",
    "DECIMAL": "",
    "STRING": 'words in quotation marks ("...")',
    "ORD": "a place such as `2nd`",
    "CH_N": "a chain such as `ch-2`",
    "N_STITCH": "",
    "ALNUM": "",
    "FILENAME": "the name of a file",
    "$END": "the end of the line",
}
FIRST = ("COMMA", "$END", "COLON", "NAME", "INT")
MOST = 7
_WORD = re.compile(r"[A-Za-z]+")


def misread(line: syntax.Line) -> Diagnostic:
    """The message for a line that could not be read."""
    wrong = line.misread
    assert wrong is not None
    span = Span(line.start + wrong.start, line.start + max(wrong.end, wrong.start))
    if wrong.reason == "label":
        return _label(line, span, wrong.found)
    if wrong.reason == "capital":
        small = wrong.found.lower()
        hint = f"Write the label in small letters: `{small}`."
        text = "Labels are written in small letters."
        return faults.not_understood(span, wrong.found, text, (hint,), (Edit(span, small, True),))
    beyond = _beyond(line, wrong)
    if beyond is not None:
        return faults.not_in_this_edition(span, *beyond)
    spelt = _spelt_out(line, wrong) or _run_on(line, wrong)
    if spelt is not None:
        return spelt
    known = set(wrong.expected)
    near = _meant(wrong.found, known)
    edits = (_edit(line, span, near),) if near else ()
    hints = _hints(line, wrong.found, known, near)
    return faults.not_understood(span, _shown(wrong.found), _could_be(known), hints, edits)


def _beyond(line: syntax.Line, wrong: Misread) -> tuple[str, str] | None:
    """The text and hint for a line that is more than this edition reads."""
    if wrong.reason == "many":
        return (
            f"The pattern has more than {syntax.MOST_LINES:,} lines; the rest of it is not read.",
            "Split it into several patterns.",
        )
    if wrong.reason == "long":
        return (
            f"This line has {len(line.text):,} characters; at most {syntax.LONGEST_LINE:,} are read.",
            "Split it into several rows, or give what comes again a name with a `stitch` line.",
        )
    if wrong.reason == "deep":
        return (
            "Brackets stand more than 40 deep inside each other here.",
            "Give the inner part a name of its own with a `stitch` line.",
        )
    if wrong.found.lower() in TUNISIAN:
        return (
            f"`{wrong.found}` is Tunisian crochet, which this edition of the notation does not have.",
            "Keep such a part in a `note`, where it is printed and not checked.",
        )
    return None


def _spelt_out(line: syntax.Line, wrong: Misread) -> Diagnostic | None:
    """The message for a word, or the one before it, that the notation writes shorter."""
    for match in _WORD.finditer(line.text, 0, wrong.end):
        at, word = match.span(), match.group()
        here = at[0] == wrong.start or not line.text[at[1] : wrong.start].strip()
        if here and word.lower() in SHORT:
            short = SHORT[word.lower()]
            span = Span(line.start + at[0], line.start + at[1])
            return faults.spelt_out(span, word, short)
    return None


def _run_on(line: syntax.Line, wrong: Misread) -> Diagnostic | None:
    """The message for a word that begins like one of the notation's and goes on: `flatt`."""
    start = wrong.start
    if wrong.found[:1].isascii() and wrong.found[:1].isalpha():
        while start and line.text[start - 1].isalpha():
            start -= 1
    if start == wrong.start:
        return None
    span = Span(line.start + start, line.start + wrong.end)
    word = line.text[start : wrong.start]
    edits = (_edit(line, span, word),)
    hints = (f"Did you mean `{word}`?",)
    return faults.not_understood(span, line.text[start : wrong.end], "", hints, edits)


def _edit(line: syntax.Line, span: Span, new: str) -> Edit:
    """The change of a word; safe where the line can be read after it."""
    start, end = span.start - line.start, span.end - line.start
    text = line.text[:start] + new + line.text[end:]
    label = (text.split(maxsplit=1) or [""])[0].rstrip(":").lower()
    text = label + text[len(label) :]
    rule = syntax.START_RULES.get(label)
    readable = label in syntax.FREE_TEXT or (
        rule is not None and not isinstance(parse(rule, text), Misread)
    )
    return Edit(span, new, readable)


def _shown(found: str) -> str:
    shown = "".join(char if char.isprintable() else f"\\u{ord(char):04x}" for char in found)
    return shown if len(shown) <= 40 else shown[:39] + "…"


def _label(line: syntax.Line, span: Span, found: str) -> Diagnostic:
    lowered = found.lower()
    if line.text[:1].isspace():
        word = line.text.split()[0].rstrip(":")
        at = line.start + line.text.index(word)
        return faults.not_understood(
            Span(at, at + len(word)),
            _shown(word),
            "The line begins with white space, and there is none above that it could go on with.",
            ("Take the white space away.",),
        )
    text = "A line begins with a label such as `row 1:`, `part NAME:` or `note:`."
    known = sorted(syntax.LABELS)
    near = nearest(lowered, known) if found.isascii() and len(found) < 40 else None
    if near:
        edits = (_edit(line, span, near),)
        return faults.not_understood(span, _shown(found), text, (f"Did you mean `{near}`?",), edits)
    hint = "To go on with the line above, begin this one with a space."
    return faults.not_understood(span, _shown(found), text, (hint,))


def meant(line: syntax.Line) -> syntax.Line:
    """A line as it would be with the label that was probably meant, so far as that is known."""
    if line.label in syntax.LABELS:
        return line
    word = (line.text.split(":")[0].split() or [""])[0]
    near = nearest(word.lower(), sorted(syntax.LABELS)) if word.isascii() else None
    if near is None:
        return line
    rest = line.text.lstrip()[len(word) :]
    return line._replace(label=near, text=near + rest)


def _word(terminal: str) -> str:
    if terminal in NAMES:
        return NAMES[terminal]
    written = literal(terminal)
    return f"`{written}`" if written else ""


def _could_be(expected: set[str]) -> str:
    ordered = sorted(expected, key=lambda one: (FIRST.index(one) if one in FIRST else 9, one))
    words = list(dict.fromkeys(word for word in map(_word, ordered) if word))
    if not words:
        return ""
    shown = words[:MOST]
    more = ", and so on" if len(words) > MOST else ""
    if len(shown) == 1:
        return f"Here could stand {shown[0]}."
    joined = ", ".join(shown[:-1]) + (" or " if not more else ", ") + shown[-1]
    return f"Here could stand {joined}{more}."


def _meant(found: str, expected: set[str]) -> str | None:
    """The word of the notation that was probably meant, or None."""
    if not (found.isascii() and found.isalpha()):
        return None
    words = []
    for terminal in expected:
        word = _word(terminal).strip("`")
        if word.isalpha():
            words.append(word)
    near = nearest(found.lower(), sorted(words))
    return near if near != found else None


def _hints(
    line: syntax.Line, found: str, expected: set[str], near: str | None
) -> tuple[str, ...]:
    if "*" in line.text and line.label.startswith(("row", "round", "next", "setup")):
        return ("Write a repeat in square brackets: `[3 tr, fptr] 7 times` or `[...] around`.",)
    if ";" in line.text and found == ";":
        return ("Put a comma between the items of a row.",)
    if found.lower() in ("repeat", "rep") and line.label in ("row", "round", "rows", "rounds"):
        return ("Write a repeat in square brackets: `[3 tr, fptr] 7 times` or `[...] around`.",)
    if near:
        return (f"Did you mean `{near}`?",)
    if any(char.isalpha() and not char.isascii() for char in found):
        return ("It holds a letter of another alphabet that may look like ours; type it again.",)
    if found.isascii() and found.isalpha() and len(found) > 1 and "COMMA" in expected:
        return ("Items of a row are separated by commas.",)
    return ()
