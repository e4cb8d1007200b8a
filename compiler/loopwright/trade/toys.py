"""What toys are told by in a pattern's words: what they are called, and what goes into them.

The words are common practice without a source.
"""

from __future__ import annotations

EYES = (r"(?:safety|plastic|glass|wiggly|googly|button)[ -]eyes?", r"safety[ -]noses?")
"""Parts of a face that are put in and can come off."""

TOYS = (
    r"(?<!not a )(?<!not as a )toys?",
    r"amigurumi(?:s)?",
    r"dolls?",
    r"tedd(?:y|ies)",
    r"plush(?:y|ies|ie)?",
    r"softies?",
    r"stuffed animals?",
    r"rattles?",
    r"lov(?:ey|ie|eys|ies)",
    *EYES,
)
"""What a toy is called, or has."""

STUFFED = (
    *TOYS,
    r"stuff(?:ed|ing)?",
    r"(?:toy|poly|fib(?:re|er)|polyester)[ -]?fill(?:ing)?",
)
"""What is filled, and worked tight for it, so that the filling does not show."""
