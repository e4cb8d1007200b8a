"""A drawing as PNG. What draws it comes with the extra `png`, so that the rest installs without."""

from __future__ import annotations

from loopwright.repository.files import CannotLook

FONTS = "Arial, Helvetica, 'Liberation Sans', 'DejaVu Sans', 'Noto Sans', sans-serif"
"""Plain typefaces, one of which is on most computers: PNG has no reader who could choose one."""

PLAIN = 'font-family="sans-serif"'
_PROBE = '<svg xmlns="http://www.w3.org/2000/svg" width="20" height="20" {}>{}</svg>'


def png(svg: str, scale: float) -> bytes:
    """A drawing as PNG, ``scale`` dots for each unit of the page. Raises ``CannotLook``."""
    try:
        from resvg_py import svg_to_bytes
    except ImportError:
        from loopwright.repository.extras import command

        raise CannotLook(
            "a PNG is drawn by a library that is not installed here. Install it with\n"
            f"  {command('png')}\n"
            "and ask again; --form svg needs nothing."
        ) from None
    font = f'font-family="{FONTS}"'
    written, empty = (
        svg_to_bytes(svg_string=_PROBE.format(font, inside), background="#ffffff")
        for inside in ('<text x="2" y="15">M</text>', "")
    )
    if written == empty:
        raise CannotLook(
            "no typeface is installed here to write the words of a chart with; install Liberation "
            "Sans or DejaVu Sans, or take --form svg."
        )
    try:
        return svg_to_bytes(
            svg_string=svg.replace(PLAIN, font, 1), zoom=scale, background="#ffffff"
        )
    except ValueError as error:
        raise CannotLook(f"the picture could not be drawn ({error}).") from None
