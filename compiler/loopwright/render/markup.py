"""Text as it stands in markup: in HTML or SVG, within a tag's quotes or between tags.

The standard library's ``html.escape`` does the same, and brings the names of all characters along.
"""

from __future__ import annotations


def escape(text: str) -> str:
    """The text with nothing left in it that markup would take for its own."""
    text = text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return text.replace('"', "&quot;").replace("'", "&#x27;")
