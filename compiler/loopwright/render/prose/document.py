"""A pattern sheet as blocks of plain words, before any page is made of it.

What is said is settled here once; the page (HTML, Markdown, text) only lays it out:

    Document(title, lang, sections)
      Section("Cuff", (Paragraph("Worked flat ..."), Steps((Step("Row 1", "1 dc in ..."),))))
"""

from __future__ import annotations

from loopwright.frozen import Frozen


class Paragraph(Frozen):
    """Running text. ``manner`` is ``plain``, ``lead``, ``note`` or ``caution``."""

    text: str
    manner: str = "plain"
    kind: str = "paragraph"


class Entries(Frozen):
    """Names, each with what there is to say of it: yarns, hooks, abbreviations."""

    pairs: tuple[tuple[str, str], ...]
    kind: str = "entries"


class Table(Frozen):
    """A table; the first cell of a row is its heading. ``at_once`` has, for each row, what it says
    of all sizes in the trade's form, ``28 (32, 36) cm``, for where there is no room for columns;
    empty where it says of a size what cannot be said so."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    at_once: tuple[str, ...] = ()
    kind: str = "table"


class Step(Frozen):
    """One line of instruction: what it is called, what to do, what it comes to, the designer's
    remark, and lines that set out one size each where they differ."""

    label: str
    text: str
    count: str = ""
    remark: str = ""
    details: tuple[str, ...] = ()


class Steps(Frozen):
    """Lines of instruction that follow one another."""

    steps: tuple[Step, ...]
    kind: str = "steps"


Block = Paragraph | Entries | Table | Steps


class Section(Frozen):
    """A headed stretch of the sheet. ``kind`` says what it is about, whatever the language of its
    heading: ``sizes`` (the schematics stand at its end), ``materials``, ``kit``, ``time``,
    ``gauge``, ``abbreviations``, ``stitches``, ``terms``, ``notes``, ``part`` (the charts come
    after the last one), ``assembly``, ``finishing``, ``caution`` or ``about``."""

    heading: str
    blocks: tuple[Block, ...]
    kind: str


class Words(Frozen):
    """The words that a page itself has to say, in the sheet's language. ``chart`` has ``{title}``,
    ``picture`` has ``{text}``; ``colon`` is what stands after a label."""

    note: str
    picture: str
    chart: str
    schematics: str
    not_shown: str
    colon: str = ":"

    def chart_of(self, title: str) -> str:
        """The heading of a chart."""
        return self.chart.replace("{title}", title)

    def picture_of(self, text: str) -> str:
        """What stands for a picture that cannot be shown."""
        return self.picture.replace("{text}", text)


class Document(Frozen):
    """A whole sheet; ``lang`` is the language tag of our own words, ``bold_counts`` whether the
    house style wants counts to stand out."""

    title: str
    lang: str
    lead: tuple[Block, ...]
    sections: tuple[Section, ...]
    words: Words
    bold_counts: bool = False
