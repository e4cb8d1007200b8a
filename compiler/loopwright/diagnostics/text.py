"""Messages as a person reads them: the place, the source line with the spot underlined, what was
expected and found, and how to put it right. Colour only where asked; nothing hangs on it."""

from __future__ import annotations

import re
import textwrap
import unicodedata
from collections.abc import Callable

from loopwright.diagnostics.model import ADVICE, Diagnostic
from loopwright.diagnostics.verdict import Message, located
from loopwright.source import Source

WIDTH = 100
_QUOTED = re.compile(r"`[^`]*`")
_KEPT = "\x01"
BOLD, RED, YELLOW, BLUE, PLAIN = "\x1b[1m", "\x1b[31m", "\x1b[33m", "\x1b[34m", "\x1b[0m"


def message(source: Source, one: Diagnostic, *, colour: bool = False) -> str:
    """One diagnostic, several lines, without a final newline."""
    return written(source.name, located(source, one), colour=colour)


def written(name: str, message: Message, *, colour: bool = False) -> str:
    """A message on the file ``name``, several lines, without a final newline."""
    paint = _painter(colour)
    tone = YELLOW if message.severity == ADVICE else RED
    kind = " (advice)" if message.severity == ADVICE else ""
    head = f"{visible(message.place.file or name)}:{message.place.line}:{message.place.column}"
    out = [f"{paint(head, BOLD)}  {paint(message.code + kind, BOLD + tone)}"]
    out.extend(_excerpt(message, lambda marks: paint(marks, tone)))
    if message.place.file:
        out.extend(_wrap(f"Found in {name}, which uses this.", "  "))
    where = _where(message)
    out.extend(_wrap(f"{where}: {message.text}" if where else message.text, "  "))
    for related in message.related:
        place = related.place
        there = f"{place.file}:{place.line}" if place.file else f"Line {place.line}"
        out.extend(_wrap(f"{there}: {related.text}.", "  "))
    out.extend(line for lead in leads(message.hints) for line in _wrap(lead, "  "))
    return "\n".join(out)


def leads(hints: tuple[str, ...]) -> list[str]:
    """Hints as sentences of their own, each with what leads to it."""
    out = []
    for index, hint in enumerate(hints):
        lead = "To put it right: " if index == 0 else "Or: "
        if index and hint.startswith(("Or ", "If ")):
            lead = ""
        out.append(lead + hint)
    return out


def _painter(colour: bool) -> Callable[[str, str], str]:
    return (lambda text, tone: f"{tone}{text}{PLAIN}") if colour else (lambda text, tone: text)


def _excerpt(one: Message, marked: Callable[[str], str]) -> list[str]:
    raw, place = one.excerpt, one.place
    if not raw.strip():
        return []
    start = place.column - 1
    end = place.end_column - 1 if place.end_line == place.line else len(raw)
    length = max(min(end - start, len(raw) - start), 1)
    low = 0
    if len(raw) > WIDTH:
        low = max(0, min(start - WIDTH // 3, len(raw) - WIDTH))
    shown = raw[low : low + WIDTH]
    before = width(visible(shown[: start - low]))
    under = max(width(visible(shown[start - low : start - low + length])), 1)
    number = f"{place.line:>6} | "
    text = visible(shown)
    if low:
        number = number[:-1] + "…"
    return [f"{number}{text}".rstrip(), f"{' ' * 6} | {' ' * before}{marked('^' * under)}"]


def in_its_sizes(one: Message) -> str:
    """What a message says, and in which sizes, for a report whose places have none."""
    if not one.sizes:
        return one.text
    return f"In {_size_or_sizes(one)} {', '.join(one.sizes)}: {one.text}"


def _size_or_sizes(one: Message) -> str:
    return "size" if len(one.sizes) == 1 else "sizes"


def _where(one: Message) -> str:
    parts = [one.part, one.row]
    if one.sizes:
        many = _size_or_sizes(one)
        shown = one.sizes if len(one.sizes) <= 6 else (*one.sizes[:6], "…")
        parts.append(f"{many} {', '.join(shown)}")
    return visible(", ".join(part for part in parts if part))


def _wrap(text: str, indent: str) -> list[str]:
    # What is quoted from a pattern stays together.
    whole = _QUOTED.sub(lambda found: found.group().replace(" ", _KEPT), visible(text))
    lines = textwrap.wrap(
        whole,
        WIDTH,
        initial_indent=indent,
        subsequent_indent=indent,
        break_long_words=False,
        break_on_hyphens=False,
    )
    return [line.replace(_KEPT, " ") for line in lines]


def visible(text: str) -> str:
    """The text with everything that a terminal would act on, or hide, spelled out."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(_visible(char) for char in text)


def _visible(char: str) -> str:
    if char == "\t":
        return " "
    if char.isprintable() and unicodedata.category(char) not in ("Cf", "Mn", "Me"):
        return char
    return f"<U+{ord(char):04X}>"


def width(text: str) -> int:
    """How many columns a text takes in a terminal."""
    if text.isascii():
        return len(text)
    return sum(2 if unicodedata.east_asian_width(char) in "WF" else 1 for char in text)
