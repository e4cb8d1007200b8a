"""UK and US terms: two sets of words over one neutral model.

Source: table D of the trade's tables (funcrochet, woolandcrafts, cherryheart, spotlight, hooks68).
``fp``/``bp`` before a stitch for front and back post: US crochetmethat and thelavenderchair; with
UK stitch names as the Australian list (spotlight) writes them. The words of ``SPELLING`` are
common practice with no source.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from loopwright.trade.stitches import BACK, FRONT, Stitch


class Terms(NamedTuple):
    """One country's words. ``words`` maps each accepted abbreviation to a neutral name;
    ``short`` and ``full`` give the abbreviation and the name that are printed."""

    name: str
    words: dict[str, str]
    short: dict[str, str]
    full: dict[str, str]
    skip: str
    gauge: str
    spelling: dict[str, str]


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
        "half": "half treble crochet",
        "long": "treble crochet",
        "double long": "double treble crochet",
        "triple long": "triple treble crochet",
        "quadruple long": "quadruple treble crochet",
    },
    "miss",
    "tension",
    {"color": "colour", "center": "centre", "gray": "grey"},
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
    {"colour": "color", "centre": "center", "grey": "gray"},
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
    """A stitch's abbreviation in these terms: ``tr``, ``fptr``, ``tr2tog``, ``5-tr cluster``."""
    short = terms.short[stitch.basic]
    if stitch.post:
        short = ("fp" if stitch.post == FRONT else "bp") + short
    if stitch.many:
        return f"{stitch.legs}-{short} {stitch.many}"
    if stitch.unlike:
        return f"tog({', '.join([short, *(abbreviation(one, terms) for one in stitch.unlike)])})"
    if stitch.together > 1:
        short = f"{short}{stitch.together}tog"
    return f"crab {short}" if stitch.crab else short


def full_name(stitch: Stitch, terms: Terms) -> str:
    """The stitch's name in full: ``front post treble crochet``."""
    name = terms.full[stitch.basic]
    if stitch.post:
        name = f"{stitch.post} post {name}"
    if stitch.many:
        return f"{stitch.many} of {stitch.legs} {name} stitches"
    if stitch.unlike:
        names = [name, *(full_name(one, terms) for one in stitch.unlike)]
        return f"{' and '.join(names)} worked together"
    if stitch.together > 1:
        name = f"{name} {stitch.together} together"
    return f"reverse {name} (crab stitch)" if stitch.crab else name
