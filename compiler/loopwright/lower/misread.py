"""Words for a line that the grammar could not read: what stands there, what could."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from loopwright.diagnostics import Diagnostic, Edit
from loopwright.lower import faults
from loopwright.lower.context import Context, nearest
from loopwright.lower.stitches import TUNISIAN
from loopwright.source import Span
from loopwright.syntax import lines as syntax
from loopwright.syntax.parser import literal, own_words, parse
from loopwright.syntax.tree import Misread
from loopwright.trade.terms import Terms

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
MOST_TYPED = 200
"""Characters of an item in which a slip of the finger is looked for."""

LONGEST_NOTE = 60
"""Characters of a line without a label that are repeated in the hint."""

AT_LAST = ("fasten", "weave", "cut ", "finish", "block", "sew ", "wash ")
"""What a line begins with that belongs to the finishing."""

BRACKETS = {")": ("RSQB", "]"), "]": ("RPAR", ")")}
"""A closing bracket, and the other one that may be wanted in its place."""

CLOSED_BY = {"(": ")", "[": "]", "{": "}"}

OTHERWISE = {"every": "each"}
"""Words that are not ours and may be misspelt as well."""

LABEL = re.compile(r"\s*[A-Za-z]+(?:[ -][\w, -]{0,40})?:")
"""A line that begins with a label, though it may not be one of ours."""

_WORD = re.compile(r"[A-Za-z]+")
_ITEM = re.compile(r"[^,\[\]():]*\Z")


def misread(ctx: Context, line: syntax.Line) -> Diagnostic:
    """The message for a line that could not be read."""
    from loopwright.lower import mending

    assert line.misread is not None
    wrong = _whole_word(line, line.misread)
    span = Span(line.start + wrong.start, line.start + max(wrong.end, wrong.start))
    beyond = _beyond(line, wrong)
    if beyond is not None:
        return faults.not_in_this_edition(span, *beyond)
    found = mending.mended(ctx, line)
    if found is not None:
        return mending.told(line, found)
    if wrong.reason == "label":
        return _label(line, span, wrong.found)
    return _run_on(line, wrong) or _typed(ctx, line, wrong) or _unknown(ctx, line, wrong, span)


def capitals(lines: Sequence[syntax.Line]) -> Diagnostic:
    """The one message for all labels that are written with capitals."""
    labels = [one.misread for one in lines if one.misread is not None]
    spans = [
        Span(line.start, line.start + one.end) for line, one in zip(lines, labels, strict=True)
    ]
    edits = tuple(
        Edit(span, one.found.lower(), True) for span, one in zip(spans, labels, strict=True)
    )
    hint = f"Write the label in small letters: `{edits[0].text}`."
    text = "Labels are written in small letters."
    if len(edits) > 1:
        hint = "Write the labels in small letters; `loopwright check --mend` does it."
        more = len(edits) - 1
        text += f" {more} further label{'s have' if more > 1 else ' has'} a capital too."
    return faults.not_understood(spans[0], labels[0].found, text, (hint,), edits)


def _whole_word(line: syntax.Line, wrong: Misread) -> Misread:
    """What cannot stand in a line, to the end of the word: `accross`, of which `a` was read."""
    end = wrong.end
    if not (wrong.found.isalpha() and wrong.found.isascii()) or wrong.reason:
        return wrong
    while end < len(line.text) and line.text[end].isalnum():
        end += 1
    return wrong._replace(end=end, found=line.text[wrong.start : end])


def _unknown(ctx: Context, line: syntax.Line, wrong: Misread, span: Span) -> Diagnostic:
    """The message for what no slip explains: what stands there, and what could."""
    known = set(wrong.expected)
    near = _meant(wrong.found, known)
    edits = (_edit(line, span, near),) if near else _with_comma(ctx, line, wrong)
    hints = _hints(ctx.terms, line, wrong.found, near) or (
        ("Items of a row are separated by commas.",) if edits else ()
    )
    closing = "" if wrong.found else _closing(line.text)
    if closing and not hints:
        hints = (f"Close the bracket: write `{closing}` at the end.",)
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


def _closing(text: str) -> str:
    """What would close the brackets that stay open in a text."""
    wanted: list[str] = []
    for char in text:
        if char in CLOSED_BY:
            wanted.append(CLOSED_BY[char])
        elif wanted and char == wanted[-1]:
            wanted.pop()
    return "".join(reversed(wanted))


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


def _typed(ctx: Context, line: syntax.Line, wrong: Misread) -> Diagnostic | None:
    """The message for a word of the notation with a slip of the finger in it, which was read as a
    name or a stitch, so that only what follows it cannot stand there: `openning thumb over`."""
    if wrong.found and wrong.found.isalpha() and _meant(wrong.found, set(wrong.expected)):
        return None
    item = _ITEM.search(line.text, 0, wrong.end)
    if item is None or wrong.reason or wrong.end - item.start() > MOST_TYPED:
        return None
    for match in _WORD.finditer(line.text, item.start(), wrong.end):
        near = _nearly(match.group().lower()) if ctx.tries > 0 else None
        if near is None:
            continue
        ctx.tries -= 1
        span = Span(line.start + match.start(), line.start + match.end())
        better = line.text[: match.start()] + near + line.text[match.end() :]
        if _further(line, better, wrong.end + len(better) - len(line.text)):
            hints = (f"Did you mean `{near}`?",)
            edits = (_edit(line, span, near),)
            return faults.not_understood(span, match.group(), "", hints, edits)
    return None


@lru_cache(maxsize=1000)
def _nearly(word: str) -> str | None:
    """The notation's own word that was probably meant by a word that is none."""
    own = own_words()
    if word in own or len(word) < 3:
        return None
    near = nearest(word, sorted({*own, *OTHERWISE}), 0.75)
    return OTHERWISE.get(near, near) if near else None


def _further(line: syntax.Line, text: str, at: int) -> bool:
    """Whether a line can be read past a place when it has another text."""
    rule = syntax.START_RULES.get(line.label)
    tree = parse(rule, _small(text)) if rule else None
    return tree is not None and (not isinstance(tree, Misread) or tree.start >= at)


def _with_comma(ctx: Context, line: syntax.Line, wrong: Misread) -> tuple[Edit, ...]:
    """The comma that a line lacks between two of its items, where it can be read further for it."""
    if "COMMA" not in wrong.expected or wrong.end <= wrong.start or ctx.tries <= 0:
        return ()
    ctx.tries -= 1
    before = line.text[: wrong.start].rstrip()
    better = f"{before},{line.text[len(before) :]}"
    if not _further(line, better, wrong.end + 1):
        return ()
    return (Edit(Span(line.start + len(before), line.start + len(before)), ","),)


def _small(text: str) -> str:
    """A line with its label in small letters."""
    label = (text.split(maxsplit=1) or [""])[0].rstrip(":")
    return label.lower() + text[len(label) :]


def _edit(line: syntax.Line, span: Span, new: str) -> Edit:
    """The change of a word; safe where the line can be read after it."""
    start, end = span.start - line.start, span.end - line.start
    text = _small(line.text[:start] + new + line.text[end:])
    label = (text.split(maxsplit=1) or [""])[0].rstrip(":")
    rule = syntax.START_RULES.get(label)
    readable = label in syntax.FREE_TEXT or (
        rule is not None and not isinstance(parse(rule, text), Misread)
    )
    return Edit(span, new, readable)


def _shown(found: str) -> str:
    shown = "".join(char if char.isprintable() else f"\\u{ord(char):04x}" for char in found)
    return shown if len(shown) <= 40 else shown[:39] + "…"


def _label(line: syntax.Line, span: Span, found: str) -> Diagnostic:
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
    near = _near_label(line)
    if near:
        edits = (_edit(line, span, near),)
        return faults.not_understood(span, _shown(found), text, (f"Did you mean `{near}`?",), edits)
    return faults.not_understood(span, _shown(found), text, _unlabelled(line), ())


def _unlabelled(line: syntax.Line) -> tuple[str, ...]:
    """What to do with a line that has no label: items of a row go on with the line above."""
    content = line.text.strip()
    if not isinstance(parse("row_line", f"row 1: {content}"), Misread):
        return ("To go on with the line above, begin this one with a space.",)
    small = content.rstrip(".").lower()
    if not isinstance(parse("start_line", f"start: {small}"), Misread):
        return (f"Write `start: {small}`.",)
    shown = content if len(content) <= LONGEST_NOTE and "\n" not in content else "..."
    if content.lower().startswith(AT_LAST):
        return (f"Write `finish: {shown}`.",)
    return (
        f"Write `note: {shown}` to have it printed here and not checked,"
        f" or `finish: {shown}` to have it printed with the finishing.",
    )


def _near_label(line: syntax.Line) -> str | None:
    """The label that was probably meant by a line's first word, where a colon follows."""
    word = (line.text.split(":")[0].split() or [""])[0]
    if not (LABEL.match(line.text) and word.isascii() and len(word) < 40):
        return None
    return nearest(word.lower(), sorted(syntax.LABELS), 0.7)


def as_meant(ctx: Context, line: syntax.Line) -> syntax.Line:
    """A line that was written otherwise, as it is meant, where that is certain; any other line as
    it is."""
    ctx.moved = ()
    if line.misread is None:
        return line
    from loopwright.lower.mending import read_as_meant

    return read_as_meant(ctx, line)


def reconsider(ctx: Context, line: syntax.Line, before: int) -> syntax.Line:
    """Look again at what was said since ``before`` on a line that was read and makes no sense; the
    line as it is meant, where that is certain."""
    if not any(one.code.startswith("unknown-") for one in ctx.out[before:]):
        return line
    from loopwright.lower.sense import reconsidered

    return reconsidered(ctx, line, before)


def meant(line: syntax.Line) -> syntax.Line:
    """A line as it would be with the label that was probably meant, so far as that is known."""
    if line.label in syntax.LABELS:
        return line
    near = _near_label(line)
    if near is None:
        return line
    word = line.text.split(":")[0].split()[0]
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
    if BRACKETS.get(found, ("", ""))[0] in expected:
        return BRACKETS[found][1]
    if not (found.isascii() and found.isalpha()):
        return None
    words = []
    for terminal in expected:
        word = _word(terminal).strip("`")
        if word.isalpha():
            words.append(word)
    near = nearest(found.lower(), sorted(words))
    return near if near != found else None


def _hints(terms: Terms, line: syntax.Line, found: str, near: str | None) -> tuple[str, ...]:
    rows = syntax.START_RULES.get(line.label) in ("row_line", "repeat_line")
    if rows and ("*" in line.text or found.lower() in ("repeat", "rep")):
        return (faults.square_brackets(terms),)
    if near:
        return (f"Did you mean `{near}`?",)
    if any(char.isalpha() and not _latin(char) for char in found):
        return ("It holds a letter of another alphabet that may look like ours; type it again.",)
    return ()


def _latin(char: str) -> bool:
    """Whether a letter is one of ours, with or without an accent."""
    from unicodedata import name

    return char.isascii() or name(char, "").startswith("LATIN")
