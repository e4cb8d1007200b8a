"""The stitches of the trade, without regard to what either country calls them.

A stitch is told by how it is made: the number of times the yarn goes round the hook before it is
inserted fixes the height. The neutral names are the book-names that neither modern convention
uses: plain stitch (Dillmont 1886), long stitch (Beeton 1870) and their doubles.

Heights are in chains, from the turning chain that equals each stitch: table E of the trade's
tables, sources knotions, dummies and hooks68 (slip stitch 0, US single 1, half double 2,
double 3, treble 4, double treble 5, triple treble 6: the last from the series).
"""

from __future__ import annotations

from loopwright.frozen import NamedTuple


class Basic(NamedTuple):
    """A basic stitch: its neutral name, wraps before inserting, height in chains, its steps.

    ``steps`` is how many times the yarn is drawn through the loops on the hook after the first
    loop is pulled up.
    """

    name: str
    wraps: int
    height: int
    steps: int


# Steps and wraps: table D of the trade's tables, sources funcrochet and woolandcrafts.
BASICS: dict[str, Basic] = {
    basic.name: basic
    for basic in (
        Basic("slip", 0, 0, 1),
        Basic("plain", 0, 1, 1),
        Basic("half", 1, 2, 1),
        Basic("long", 1, 3, 2),
        Basic("double long", 2, 4, 3),
        Basic("triple long", 3, 5, 4),
        Basic("quadruple long", 4, 6, 5),
    )
}

FRONT = "front"
BACK = "back"
MANY = ("cluster", "bobble", "puff", "popcorn", "shell")


class Stitch(NamedTuple):
    """A stitch as it stands on the edge.

    ``basic`` is a neutral name of ``BASICS``. ``post`` is ``front`` or ``back`` for a stitch made
    around a post. ``together`` is how many places it closes over (1 for a plain stitch).
    ``many`` is the form of several made in one place and closed as one (cluster, bobble, puff,
    popcorn), with ``legs`` of them. ``crab`` is worked backwards. ``unlike`` holds the second and
    later stitches of a decrease over unlike stitches.
    """

    basic: str
    post: str = ""
    together: int = 1
    many: str = ""
    legs: int = 1
    crab: bool = False
    unlike: tuple[Stitch, ...] = ()

    @property
    def height(self) -> int:
        """Its height in chains."""
        return BASICS[self.basic].height

    @property
    def has_post(self) -> bool:
        """Whether a post stitch can be made around it: a slip stitch has no post."""
        return self.basic != "slip"


SLIP = Stitch("slip")
PLAIN = Stitch("plain")
