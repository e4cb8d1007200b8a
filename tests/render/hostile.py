"""Patterns whose every free text is hostile, and what a reader of each form makes of the sheet.

Each reader is one that others wrote (html.parser, markdown-it, ElementTree, pypdf) or none at all:
what it reads back must be the designer's words, as they were written, and nothing that acts.
"""

from __future__ import annotations

import html
import re
from html.parser import HTMLParser
from io import BytesIO
from xml.etree import ElementTree

from markdown_it import MarkdownIt
from pypdf import PdfReader

FIELDS = ("title", "about", "designer", "version", "licence", "yarn", "colour", "alt", "pompom",
          "opening", "note", "remark", "finish", "notions", "caution", "changes")  # fmt: skip
"""Every place where a pattern takes free text; ``skill`` takes one of four words."""

TEXT = """pattern: {title}
terms: UK
skill: easy
about: {about}
designer: {designer}
version: {version}
licence: {licence}
picture: front.png "{alt}"
yarn rock: "{yarn}", 50 g = 85 m, weight 4, colour "{colour}"
yarn foam: "DK wool", 50 g = 110 m
hook main: 5 mm
tension disc: 16 sts and 18 rounds to 10 cm in dc, hook main, yarn rock
kit: 1 ball rock, 1 ball foam, 1 "{pompom}", hook main
notions: {notions}
caution: {caution}
changes: {changes}
note: {opening}
part disc: in a spiral, hook main, gauge disc, yarn rock
start: magic ring
round 1: 6 dc in ring = 6 sts "{remark}"
round 2: with foam, [dc inc] around = 12 sts
note: {note}
finish: {finish}
"""

WORDS = {
    "html": '<b onclick="x()">bold</b> &amp; &lt;i&gt;',
    "script": "</style></title><script>alert(1)</script><!-- ]]> -->",
    "svg": '</text></svg><svg onload="x()"/> <![CDATA[x]]> &#x41;',
    "template": "{{ 7 * 7 }} {% for x in y %} {# gone #} ${x} %s {0}",
    "typst": '#panic("x") = Head #let x = 1; $x^2$ @ref <label> `raw` #image("/etc/passwd")',
    "typst marks": "*bold* _it_ ~ -- --- ... 'a' \"b\" // gone /* gone */ \\u{41} [x] #{x}",
    "markdown": "# head * a _b_ **c** ~~d~~ `e` [f](http://example.org) ![g](h) <http://i.org> | j",
    "markdown lines": "1. one - two + three > four === --- [x]: y [^1] \\* &copy; $x$",
    "backslashes": "\\ \\\\ \\n \\x41 \\u0041 C:\\shore\\",
    "from the right": "\u05e6\u05de\u05e8 \u202e dlrow \u202c \u2066 \u200f ( \u0635\u0648\u0641",
    "unclosed": "\u202e\u2067\u202b end",
    "closed twice": "wool \u2069\u2069\u202c end",
}


def hostile(**words: str) -> str:
    """The pattern with these words in these fields, and plain ones in the others. A quotation mark
    ends a quoted text, and a hash after white space begins a comment: neither is in the fields
    that cannot have it."""
    said = dict.fromkeys(FIELDS, "plain words") | words
    for field in ("yarn", "colour", "alt", "pompom", "remark"):
        said[field] = said[field].replace('"', "'")
    return TEXT.format_map({field: hashed(text) for field, text in said.items()})


def hashed(text: str) -> str:
    """The text without what would begin a comment."""
    return re.sub(r"(^|\s)#", r"\1.#", text)


class Page(HTMLParser):
    """A page's words, element by element, and the elements and attributes that it has."""

    VOID = ("meta", "img", "br", "path", "rect", "ellipse", "circle", "line")

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.texts = [""]
        self.marks: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.marks |= {tag, *(f"{tag} {name}" for name, _ in attrs)}
        self.texts += [value or "" for _, value in attrs]
        self.texts.append("")

    def handle_endtag(self, tag: str) -> None:
        self.texts.append("")

    def handle_data(self, data: str) -> None:
        self.texts[-1] += data

    def handle_comment(self, data: str) -> None:
        self.marks.add("<!--")

    def unknown_decl(self, data: str) -> None:
        self.marks.add("<![")


def read_html(page: str) -> tuple[str, set[str]]:
    """All that an HTML page says, and what it is made of."""
    reader = Page()
    reader.feed(page)
    reader.close()
    return " ".join("\n".join(reader.texts).split()), reader.marks


def read_markdown(page: str) -> tuple[str, set[str]]:
    """All that a Markdown page says to a reader of CommonMark with tables, and its elements."""
    return read_html(MarkdownIt("commonmark").enable(["table", "strikethrough"]).render(page))


def read_text(page: str) -> str:
    """All that a plain page says."""
    return " ".join(page.split())


def read_svg(drawing: str) -> tuple[str, set[str]]:
    """All that a drawing says, and what it is made of."""
    root = ElementTree.fromstring(drawing)
    said = []
    marks = set()
    for one in root.iter():
        name = re.sub(r"\{.*\}", "", one.tag)
        marks |= {name, *(f"{name} {key}" for key in one.attrib)}
        said += [*one.attrib.values(), "".join(one.itertext())]
    return " ".join(" ".join(said).split()), marks


def read_pdf(data: bytes) -> str:
    """All that a PDF says, without white space: where a line is broken is no matter here."""
    pages = PdfReader(BytesIO(data)).pages
    return close("".join(page.extract_text() for page in pages))


def close(text: str) -> str:
    """Words without white space and without the marks that only turn the direction."""
    turning = "\u200e\u200f\u061c\u202a-\u202e\u2066-\u2069\xad"
    return re.sub(rf"[\s{turning}]", "", html.unescape(text) if "&nbsp;" in text else text)
