"""The overview of a repository: one page with every pattern, how it stands, where its sheets are.

    overview("The shore house", cards) -> HTML

It is given what is known of each pattern as words (``Card``) and lays them out; nothing is fetched,
and whatever a pattern says stands on the page as text.
"""

from __future__ import annotations

from collections import Counter
from typing import NamedTuple

from loopwright.diagnostics.card import Card


class _Row(NamedTuple):
    card: Card
    id: str
    name: str
    state: str
    mark: str


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
    told = [_n(errors, "error")] if errors else ["comes out"]
    if advice:
        told.append(_n(advice, "piece of advice", "pieces of advice"))
    mark = "✗" if errors else "✓"
    return _Row(card, f"pattern-{number}", name, ", ".join(told), mark)


def _n(n: int, one: str, many: str = "") -> str:
    return f"{n} {one if n == 1 else many or one + 's'}"
