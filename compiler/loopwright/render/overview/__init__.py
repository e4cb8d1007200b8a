"""The overview of a repository: one page with every pattern, how it stands, where its sheets are.

    overview("The shore house", cards) -> HTML

It is given what is known of each pattern as words (``Card``) and lays them out; nothing is fetched,
and whatever a pattern says stands on the page as text.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from loopwright.diagnostics.card import Card
from loopwright.frozen import NamedTuple

CHART = "Chart, "


class _Link(NamedTuple):
    """What is shown of a link, and what stands before it for whoever hears it alone."""

    before: str
    text: str
    address: str


class _Row(NamedTuple):
    card: Card
    id: str
    name: str
    state: str
    wrong: bool
    mark: str
    links: tuple[tuple[str, list[_Link]], ...]


def overview(title: str, summary: str, cards: tuple[Card, ...]) -> str:
    """The page; ``summary`` is a sentence on all of them."""
    from jinja2 import Environment, PackageLoader, StrictUndefined

    from loopwright.diagnostics.text import leads, visible

    made = Environment(
        loader=PackageLoader("loopwright.render.overview", "."),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        undefined=StrictUndefined,
        finalize=lambda value: visible(value) if type(value) is str else value,
    )
    made.filters["leads"] = leads
    titles = Counter(card.title for card in cards)
    rows = [_row(number, card, titles[card.title]) for number, card in enumerate(cards, 1)]
    return made.get_template("page.html.j2").render(title=title, summary=summary, rows=rows)


def _row(number: int, card: Card, of_that_title: int) -> _Row:
    # Two patterns of one title are told apart by their files, by whoever hears the links read too.
    alone = card.title if of_that_title == 1 else f"{card.title} ({card.file})"
    name = alone if card.title else card.file
    errors = sum(one.severity == "error" for one in card.messages)
    advice = len(card.messages) - errors
    told = [_n(errors, "error")] if errors else [_well(card)]
    if advice:
        told.append(_n(advice, "piece of advice", "pieces of advice"))
    mark = "✗" if errors else "✓"
    return _Row(
        card, f"pattern-{number}", name, ", ".join(told), errors > 0, mark, tuple(_links(card))
    )


def _well(card: Card) -> str:
    """How it stands where nothing is wrong. A file that gives others what they use has no size."""
    return "comes out" if card.sizes or card.worked else "shared; nothing is wrong"


def _links(card: Card) -> Iterator[tuple[str, list[_Link]]]:
    """What was made of a pattern, by kind; what a heading says is not said by every link again."""
    charts = [one for one in card.links if one.text.startswith(CHART)]
    sheets = [_Link("", one.text, one.address) for one in card.links if one not in charts]
    if sheets:
        yield "Sheets", sheets
    if charts:
        yield (
            "Charts",
            [_Link(CHART, one.text.removeprefix(CHART), one.address) for one in charts],
        )


def _n(n: int, one: str, many: str = "") -> str:
    return f"{n} {one if n == 1 else many or one + 's'}"
