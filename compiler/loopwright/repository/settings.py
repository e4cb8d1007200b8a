"""A repository's settings: what its ``loopwright.toml`` asks for, as frozen values.

    paths = ["patterns"]                 what `check` looks at when no path is given
    exclude = ["drafts"]                 what it leaves out, written as in a .gitignore
    use = ["shared/house.crochet"]       files that every pattern uses
    [severities]
    yarn-unused = "error"                or "advice", or "off"
    [house]
    terms = "UK"                         and stated-counts, gauge, licence = true

What a verdict depends on is in ``loopwright.Settings``; where the files are is in ``Repository``
(``finding.py``).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NoReturn

import loopwright
from loopwright import House, Settings
from loopwright.frozen import Frozen, field
from loopwright.repository.files import CannotLook

SEVERITIES = ("error", "advice", "off")
NO_RULES = House()


PLAIN = Settings()
"""The settings of a file for which none are found."""


class SettingsFile(Frozen):
    """What one file of settings says: ``name`` is the file's, as messages give it; ``paths``,
    ``exclude`` and ``use`` go from the folder that it is in. ``use_at`` is where ``use`` stands, as
    messages give it."""

    name: str = field(default="", compare=False)
    paths: tuple[str, ...] = ()
    exclude: tuple[str, ...] = ()
    use: tuple[str, ...] = ()
    severities: tuple[tuple[str, str], ...] = ()
    house: House = NO_RULES
    use_at: str = field(default="", compare=False)


def read_settings(name: str, text: str, table: Mapping[str, object]) -> SettingsFile:
    """The settings of a parsed file. ``text`` is what it was parsed from, so that a message can
    name the line. Raises ``CannotLook`` for what is not a setting."""
    return _Reading(name, text).whole(table)


class _Reading:
    """Reads one file of settings; every complaint names the file and, where it can, the line."""

    def __init__(self, name: str, text: str) -> None:
        self.name = name
        self.text = text

    def wrong(self, key: str, why: str) -> NoReturn:
        """Say what is wrong with a key."""
        raise CannotLook(f"{self.place(key)}: {why}")

    def place(self, key: str) -> str:
        """Where a key stands, as far as that can be told."""
        lines = enumerate(self.text.split("\n"), 1)
        said = key.rsplit(".", 1)[-1]
        line = next((n for n, one in lines if said in one.partition("#")[0]), 0)
        return f"{self.name}:{line}" if line else self.name

    def whole(self, table: Mapping[str, object]) -> SettingsFile:
        """The whole file."""
        self.known(table, ("paths", "exclude", "use", "severities", "house"), "")
        return SettingsFile(
            self.name,
            self.inside(table, "paths"),
            self.texts(table, "exclude"),
            self.inside(table, "use"),
            self.severities(self.table(table, "severities")),
            self.house(self.table(table, "house")),
            self.place("use"),
        )

    def known(self, table: Mapping[str, object], keys: tuple[str, ...], of: str) -> None:
        """Complain of a key that there is not."""
        for key in table:
            if key not in keys:
                there = f"There is {_listed(keys)}."
                self.wrong(key, f"`{of}{key}` is not a setting.{_meant(key, keys) or ' ' + there}")

    def table(self, table: Mapping[str, object], key: str) -> Mapping[str, object]:
        """A table of settings under a key; empty where it is not there."""
        found = table.get(key, {})
        if not isinstance(found, dict):
            self.wrong(
                key, f"`{key}` is a table: write `[{key}]` on a line, and its keys under it."
            )
        return found

    def texts(self, table: Mapping[str, object], key: str) -> tuple[str, ...]:
        """A list of texts."""
        found = table.get(key, [])
        if not isinstance(found, list) or not all(isinstance(one, str) and one for one in found):
            self.wrong(key, f'`{key}` is a list of texts, as in `{key} = ["..."]`.')
        return tuple(found)

    def inside(self, table: Mapping[str, object], key: str) -> tuple[str, ...]:
        """A list of paths, none of which leads out of the folder of the settings."""
        from posixpath import normpath

        found = self.texts(table, key)
        for one in found:
            whole = normpath(one)
            if whole.startswith(("/", "..")) or "\\" in one or one[1:2] == ":":
                why = "a path goes on from the folder of this file, and stays in it"
                self.wrong(key, f'`{key}` has "{one}"; {why}, as in "patterns/hats".')
        return tuple(normpath(one) for one in found)

    def severities(self, table: Mapping[str, object]) -> tuple[tuple[str, str], ...]:
        """What each code weighs."""
        known = loopwright.codes() if table else ()
        for code, weight in table.items():
            if code not in known:
                more = _meant(code, known) or " `loopwright explain` lists the codes."
                self.wrong(code, f"there is no code `{code}`.{more}")
            if weight not in SEVERITIES:
                self.wrong(code, f'`{code}` is "error", "advice" or "off", not {_shown(weight)}.')
        return tuple(sorted((code, str(weight)) for code, weight in table.items()))

    def house(self, table: Mapping[str, object]) -> House:
        """The rules of the house."""
        self.known(table, ("terms", "stated-counts", "gauge", "licence"), "house.")
        terms = table.get("terms", "")
        if terms not in ("", "UK", "US"):
            self.wrong("house.terms", f'`house.terms` is "UK" or "US", not {_shown(terms)}.')
        asked = {key: table.get(key, False) for key in ("stated-counts", "gauge", "licence")}
        for key, value in asked.items():
            if not isinstance(value, bool):
                self.wrong(key, f"`house.{key}` is true or false, not {_shown(value)}.")
        return House(str(terms), *map(bool, asked.values()))


def _meant(word: str, known: tuple[str, ...]) -> str:
    from difflib import get_close_matches

    near = get_close_matches(word.lower().replace("_", "-"), known, 1)
    return f" Did you mean `{near[0]}`?" if near else ""


def _listed(words: tuple[str, ...]) -> str:
    return ", ".join(f"`{one}`" for one in words)


_SHOWN: dict[type, Callable[[object], str]] = {
    bool: lambda value: str(value).lower(),
    str: lambda value: f'"{value}"',
}


def _shown(value: object) -> str:
    """A value as TOML has it, or what sort of thing it is."""
    show = _SHOWN.get(type(value))
    return show(value) if show else "a value of another sort"
