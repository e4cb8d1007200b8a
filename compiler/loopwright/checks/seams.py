"""Edges that are joined to one another, stitch for stitch."""

from __future__ import annotations

from loopwright.checks.counting import COUNTING
from loopwright.checks.told import Told, stitches
from loopwright.diagnostics import Diagnostic, rule
from loopwright.ir.pattern import Edge, Part, Seam


@rule("seam-edges-differ", COUNTING)
def seam_edges_differ(told: Told) -> Diagnostic:
    """Two edges that are to be joined stitch for stitch have different numbers of stitches.

    One edge would have to be eased in, and each maker would do that in another place.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
        row 2: ch 1, dc inc, 9 dc = 11 sts
        seam: last row to start, sl st
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
        row 2: ch 1, dc in each st across = 10 sts
        seam: last row to start, sl st
    """
    one, two = told.each("one"), told.each("two")
    if one != two:
        first, second = _edges(told)
        if first == second:
            text = (
                f"Folded in half, {first} has {stitches(one)} on one side and {two} on the other."
            )
            return told.say(text, "Let it come to an even number.")
        text = f"{first} comes to {stitches(one)}, and {second} to {two}."
        text = text[0].upper() + text[1:]
        return told.say(text, "Let both come to the same number.")
    text = (
        f"The stretches of the seam come to {told.each('runs')}, and both edges to {stitches(one)}."
    )
    return told.say(text, "Let the stretches and openings add up to the edge.")


def _edges(told: Told) -> tuple[str, str]:
    """The two edges that meet, in words."""
    part = told.part
    if part is not None:
        seams = [line for line in part.lines if isinstance(line, Seam) and line.span == told.span]
        pair = (seams[0].one, seams[0].two) if seams else part.start.edges
        if len(pair) == 2:
            return _edge(pair[0], part), _edge(pair[1], part)
    return "the first of the two", "the second"


def _edge(edge: Edge, part: Part) -> str:
    where = f" of `{edge.part}`" if edge.part not in ("", part.name) else ""
    last = "last row" if part.manner == "flat" and not where else "last row or round"
    words = {
        "last": last,
        "row ends": "edge along the row ends",
        "other row ends": "other edge along the row ends",
    }
    return f"the {words.get(edge.what, edge.what)}{where}"
