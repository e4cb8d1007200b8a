"""Text as it stands in a drawing's markup.

    escape("2 < 3")     2 &lt; 3

It is what ``html.escape`` gives; that module comes with a table of two thousand names, which takes
longer to load than to write a chart.
"""

from __future__ import annotations

_SIGNS = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#x27;"})


def escape(text: str) -> str:
    """The text with every sign that means something in markup spelled out."""
    return text.translate(_SIGNS)
