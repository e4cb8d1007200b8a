"""UK and US terms: two sets of words over one neutral model.

Source: table D of the trade's tables (funcrochet, woolandcrafts, cherryheart, spotlight, hooks68).
``fp``/``bp`` before a stitch for front and back post: US crochetmethat and thelavenderchair; with
UK stitch names as the Australian list (spotlight) writes them. The words of ``SPELLING`` are
common practice with no source.
"""

from __future__ import annotations

import re

from loopwright.frozen import NamedTuple
from loopwright.trade.stitches import BACK, FRONT, MANY, Stitch

# What is made of a stitch's word where the stitch is more than itself: ``n`` is how many.
SHORT_SHAPES = {
    "front": "fp{stitch}",
    "back": "bp{stitch}",
    "together": "{stitch}{n}tog",
    "crab": "crab {stitch}",
    **{many: f"{{n}}-{{stitch}} {many}" for many in MANY},
}
FULL_SHAPES = {
    "front": "front post {stitch}",
    "back": "back post {stitch}",
    "together": "{stitch} {n} together",
    "crab": "reverse {stitch} (crab stitch)",
    **{many: f"{many} of {{n}} {{stitch}} stitches" for many in MANY},
}
UNSOURCED = "[UK]"
"""Stands after a UK word that is printed for want of one in the reader's language."""


class Terms(NamedTuple):
    """One country's or language's words. ``words`` maps each accepted abbreviation to a neutral
    name; ``short`` and ``full`` give the abbreviation and the name that are printed, and the
    shapes what becomes of them in post stitches, decreases and forms of several."""

    name: str
    words: dict[str, str]
    short: dict[str, str]
    full: dict[str, str]
    skip: str
    gauge: str
    spelling: dict[str, str]
    short_shapes: dict[str, str] = SHORT_SHAPES
    full_shapes: dict[str, str] = FULL_SHAPES


UK = Terms(
    "UK",
    {
        "ss": "slip",
        "dc": "plain",
        "htr": "half",
        "tr": "long",
        "dtr": "double long",
        "trtr": "triple long",
        "ttr": "triple long",
        "quadtr": "quadruple long",
    },
    {
        "slip": "sl st",
        "plain": "dc",
        "half": "htr",
        "long": "tr",
        "double long": "dtr",
        "triple long": "trtr",
        "quadruple long": "quadtr",
    },
    {
        "slip": "slip stitch",
        "plain": "double crochet",
        "half": "half treble",
        "long": "treble",
        "double long": "double treble",
        "triple long": "triple treble",
        "quadruple long": "quadruple treble",
    },
    "miss",
    "tension",
    {"color": "colour", "center": "centre", "gray": "grey", "counterclockwise": "anticlockwise"},
)
US = Terms(
    "US",
    {
        "ss": "slip",
        "sc": "plain",
        "hdc": "half",
        "dc": "long",
        "tr": "double long",
        "trc": "double long",
        "dtr": "triple long",
        "trtr": "quadruple long",
    },
    {
        "slip": "sl st",
        "plain": "sc",
        "half": "hdc",
        "long": "dc",
        "double long": "tr",
        "triple long": "dtr",
        "quadruple long": "trtr",
    },
    {
        "slip": "slip stitch",
        "plain": "single crochet",
        "half": "half double crochet",
        "long": "double crochet",
        "double long": "treble crochet",
        "triple long": "double treble crochet",
        "quadruple long": "triple treble crochet",
    },
    "skip",
    "gauge",
    {"colour": "color", "centre": "center", "grey": "gray", "anticlockwise": "counterclockwise"},
)
TERMS = {"UK": UK, "US": US}

# The words of only one country that are not stitches: `miss` and `tension` are the UK's.
ONLY = {"miss": "UK", "tension": "UK", "gauge": "", "skip": ""}

_POSTS = {"fp": FRONT, "bp": BACK}
_TOGETHER = re.compile(r"([a-z]+?)(\d+)tog\Z")


def other(terms: Terms) -> Terms:
    """The other country's terms."""
    return US if terms is UK else UK


def stitch_of(word: str, terms: Terms) -> Stitch | None:
    """The stitch that an abbreviation means, or None where these terms do not have the word.

    Understands a bare stitch (``tr``), post stitches (``fptr``) and decreases (``tr2tog``).
    """
    plain = terms.words.get(word)
    if plain:
        return Stitch(plain)
    match = _TOGETHER.match(word)
    if match:
        inner = stitch_of(match.group(1), terms)
        if inner is None or inner.together > 1 or len(match.group(2)) > 3:
            return None
        times = int(match.group(2))
        return inner._replace(together=times) if times > 1 else None
    post = _POSTS.get(word[:2])
    if post:
        plain = terms.words.get(word[2:])
        if plain and plain != "slip":
            return Stitch(plain, post)
    return None


def abbreviation(stitch: Stitch, terms: Terms) -> str:
    """A stitch's abbreviation in these terms: ``tr``, ``fptr``, ``tr2tog``, ``5-tr cluster``.
    Where the terms lack a word for it, the UK one with a mark."""
    if stitch.unlike:
        first = stitch._replace(unlike=(), together=1)
        inside = ", ".join(abbreviation(one, terms) for one in (first, *stitch.unlike))
        return f"tog({inside})"
    made = _shaped(stitch, terms.short, terms.short_shapes)
    return made or f"{abbreviation(stitch, UK)} {UNSOURCED}"


def full_name(stitch: Stitch, terms: Terms) -> str:
    """The stitch's name in full: ``front post treble crochet``."""
    if stitch.unlike:
        first = stitch._replace(unlike=(), together=1)
        names = [full_name(one, terms) for one in (first, *stitch.unlike)]
        return f"{' and '.join(names)} worked together"
    made = _shaped(stitch, terms.full, terms.full_shapes)
    return made or f"{full_name(stitch, UK)} {UNSOURCED}"


def _shaped(stitch: Stitch, words: dict[str, str], shapes: dict[str, str]) -> str:
    """The word of a stitch and what its shapes make of it; nothing where one is lacking."""
    word = words.get(stitch.basic, "")
    for shape, n in _shapes(stitch):
        found = shapes.get(shape, "")
        word = found.format(stitch=word, n=n) if word and found else ""
    return word


def _shapes(stitch: Stitch) -> list[tuple[str, int]]:
    """What a stitch is besides its basic one, in the order in which its word is built."""
    found = [(stitch.post, 1)] if stitch.post else []
    if stitch.many:
        return [*found, (stitch.many, stitch.legs)]
    if stitch.together > 1:
        found.append(("together", stitch.together))
    return [*found, ("crab", 1)] if stitch.crab else found
