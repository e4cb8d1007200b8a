"""House style: how a publisher likes a sheet to be written, as data.

    style_of('counts = "[{count}]"\\nrounds = "short"')    Style(counts="[{count}]", rounds="short")

A style is a small TOML file; ``styles/plain.toml`` shows everything that it may say. Whoever may
read files hands its text in.
"""

from __future__ import annotations

from pkgutil import get_data

from loopwright.frozen import Frozen, names_of

SHIPPED = ("plain", "compact")
LENGTHS = ("long", "short")


class BadStyle(Exception):
    """A style that cannot be followed: what is wrong with it, for whoever wrote it."""


class Style(Frozen):
    """``counts`` is how a row's count stands after it, with ``{count}`` for the count itself;
    ``rounds`` whether a round is called so (``long``) or ``rnd`` (``short``); ``bold_counts``
    whether counts stand out; ``spell_first`` whether an abbreviation is spelled out where the
    instructions first use it; ``reminders`` whether a part begins with what makers forget."""

    counts: str = "{count}."
    rounds: str = "long"
    bold_counts: bool = False
    spell_first: bool = False
    reminders: bool = True

    def count(self, text: str) -> str:
        """A row's count as this style sets it; nothing where there is none."""
        return self.counts.replace("{count}", text) if text else ""


def style_of(text: str) -> Style:
    """The style that a TOML text describes.

    Raises:
        BadStyle: it is not TOML, or says something that a style does not have.
    """
    import tomllib

    try:
        said = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise BadStyle(f"it is not TOML: {error}.") from None
    plain = Style()
    known = names_of(plain)
    for name, value in said.items():
        if name not in known:
            raise BadStyle(f"a style has no `{name}`; it has {', '.join(known)}.")
        wanted = type(getattr(plain, name))
        if type(value) is not wanted:
            kind = "true or false" if wanted is bool else "text in quotation marks"
            raise BadStyle(f"`{name}` is {kind}.")
    made = Style(**said)
    if made.counts.count("{count}") != 1 or not made.counts.isprintable():
        raise BadStyle("`counts` is one line with `{count}` in it once, as in `[{count}]`.")
    if made.rounds not in LENGTHS:
        raise BadStyle(f"`rounds` is {' or '.join(LENGTHS)}.")
    return made


def shipped(name: str) -> Style:
    """One of the styles that come with the program.

    Raises:
        BadStyle: there is none of that name.
    """
    if name not in SHIPPED:
        raise BadStyle(f"there is no style `{name}`; there is {', '.join(SHIPPED)}.")
    found = get_data("loopwright.render.prose", f"styles/{name}.toml")
    assert found is not None
    return style_of(found.decode("utf-8"))
