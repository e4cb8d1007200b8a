"""Plain text: lines of at most 78 characters, hanging under their labels."""

from __future__ import annotations

import textwrap

from loopwright.render.prose import Block, Document, Entries, Paragraph, Step, Table
from loopwright.render.sheet.drawings import Drawing
from loopwright.render.sheet.keeping import bound

WIDTH = 78
_HELD = "\x1f"
"""A space at which no line is broken, while there are no lines yet; the designer's own firm spaces
stay firm."""


def wrap(text: str, indent: int = 0, first: int | None = None) -> str:
    """Text in lines; ``indent`` spaces before each, ``first`` before the first one. A number is
    not parted from its other sizes, nor from its unit."""
    filled = textwrap.fill(
        bound(text, _HELD),
        WIDTH,
        initial_indent=" " * (indent if first is None else first),
        subsequent_indent=" " * indent,
        break_long_words=False,
        break_on_hyphens=False,
    )
    return filled.replace(_HELD, " ")


def underline(text: str, mark: str) -> str:
    """A heading with a line under it."""
    lines = wrap(text).split("\n")
    return "\n".join([*lines, mark * max(len(line) for line in lines)])


def entry(pair: tuple[str, str], colon: str, indent: int = 4) -> str:
    """A name and what there is to say of it."""
    return wrap(f"{pair[0]}{colon} {pair[1]}", indent, 0)


def step(one: Step, colon: str) -> str:
    """A line of instruction, with its details and remark under it."""
    label = f"{one.label}{colon} " if one.label else ""
    lines = [wrap(f"{label}{' '.join(part for part in (one.text, one.count) if part)}", 4, 0)]
    lines += [wrap(detail, 8, 4) for detail in one.details]
    if one.remark:
        lines.append(wrap(one.remark, 4))
    return "\n".join(lines)


def table(one: Table, colon: str = ":") -> str:
    """A table in columns where it fits, else a line for each row, with all sizes in the trade's
    form where that can be, or else with a line for each size under it."""
    widths = [max(len(row[at]) for row in (one.head, *one.rows)) for at in range(len(one.head))]
    if sum(widths) + 3 * (len(widths) - 1) <= WIDTH:
        rule = tuple("-" * width for width in widths)
        rows = (one.head, rule, *one.rows)
        lines = ["   ".join(_padded(row, widths)).rstrip() for row in rows]
        return "\n".join([wrap(one.caption), "", *lines])
    lines = [wrap(one.caption), ""]
    for at, row in enumerate(one.rows):
        at_once = row[1] if len(set(row[1:])) == 1 else "".join(one.at_once[at : at + 1])
        lines.append(wrap(f"{row[0]}{colon} {at_once}".rstrip(), 4, 0))
        if not at_once:
            pairs = zip(one.head[1:], row[1:], strict=True)
            lines += [wrap(f"{head}{colon} {cell}", 8, 4) for head, cell in pairs]
    return "\n".join(lines)


def _padded(row: tuple[str, ...], widths: list[int]) -> list[str]:
    return [cell.ljust(width) for cell, width in zip(row, widths, strict=True)]


def page(document: Document, drawings: tuple[Drawing, ...], pictured: str) -> str:
    """The sheet. No library lays it out: what does so for the other forms takes longer to import
    than a short pattern takes to check."""
    parts = [underline(document.title, "=")]
    if pictured:
        parts.append(wrap(document.words.picture_of(pictured)))
    parts += [block(one, document) for one in document.lead]
    last = max((at for at, one in enumerate(document.sections) if one.kind == "part"), default=-1)
    for at, section in enumerate(document.sections):
        parts.append(underline(section.heading, "-"))
        parts += [block(one, document) for one in section.blocks]
        for one in drawings if at == last else ():
            parts.append(underline(document.words.chart_of(one.title), "-"))
            parts.append(wrap(one.description or document.words.not_shown))
    return "\n\n".join(parts)


def block(one: Block, document: Document) -> str:
    """A block of the document in lines."""
    colon = document.words.colon
    if isinstance(one, Paragraph):
        return wrap(f"{document.words.note} {one.text}" if one.manner == "note" else one.text)
    if isinstance(one, Entries):
        return "\n".join(entry(pair, colon) for pair in one.pairs)
    if isinstance(one, Table):
        return table(one, colon)
    return "\n".join(step(each, colon) for each in one.steps)
