"""Patterns measured for the tests: text in, what is known of their sizes out."""

from __future__ import annotations

from loopwright.diagnostics import Diagnostic
from loopwright.ir.checked import Checked
from loopwright.measure.dimensions import PartMeasures, measures
from loopwright.measure.shape import Profile
from loopwright.pipeline import check_text


def checked(text: str) -> Checked:
    """A pattern that must have no errors."""
    result = check_text("test", text)
    assert result.checked is not None, [one.text for one in result.diagnostics]
    return result.checked


def measured(text: str, part: str = "") -> PartMeasures:
    """A part of a pattern, measured; its first part unless named."""
    found = measures(checked(text))
    return next(one for one in found if not part or one.part == part)


def profile(text: str) -> Profile:
    """The surface of the first part's rounds."""
    form = measured(text).form
    assert form is not None
    assert form.profile is not None
    return form.profile


def advice(text: str) -> list[Diagnostic]:
    """What is said of a pattern that must have no errors."""
    checked(text)
    return list(check_text("test", text).diagnostics)


def codes(text: str) -> list[str]:
    """The codes of the same."""
    return [one.code for one in advice(text)]


def pattern(gauge: str, part: str, *lines: str, header: tuple[str, ...] = ()) -> str:
    """A pattern in US terms of one part at one gauge."""
    return "\n".join(
        (
            "pattern: Tideline Piece",
            "terms: US",
            *header,
            f"gauge main: {gauge}",
            f"part piece: {part}, gauge main",
            *lines,
            "",
        )
    )
