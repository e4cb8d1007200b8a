"""Which repository a file belongs to, and what its settings are.

Settings are found upwards from the folder of each file: the nearest ``loopwright.toml``, or the
nearest ``pyproject.toml`` with a table ``[tool.loopwright]``. The search ends at the folder that
git keeps (the one with ``.git`` in it), which is then the root; where there is none, the root is
the folder of the settings, and without settings the file's own.
"""

from __future__ import annotations

import os
import re
from collections.abc import Callable

from loopwright import Settings
from loopwright.frozen import Frozen
from loopwright.repository.files import CannotLook, refuse_pipe, why
from loopwright.repository.settings import PLAIN, SettingsFile, read_settings

OWN = "loopwright.toml"
SHARED = "pyproject.toml"
BASELINE = "loopwright-baseline.json"
_OURS = r"""(?mx) tool ["'\s]* \. [\s"']* loopwright  # [tool.loopwright], or a key of that name
    | ^\s* (\[ \s* ["']? tool ["']? \s* \] | ["']? tool ["']? \s* =)  # [tool], or tool = {...}"""
"""What stands in every ``pyproject.toml`` that has a table of ours."""
LARGEST_SETTINGS = 1_000_000
"""Bytes in one file of settings."""


class Repository(Frozen):
    """Where a file belongs: ``root`` is the folder that nothing it uses may lie outside of,
    ``folder`` the one that its settings are in (both absolute), ``said`` what those say.
    ``bounded`` where git or the settings say that the root is one, and not only the file's own
    folder."""

    root: str
    folder: str
    said: SettingsFile
    bounded: bool = True

    def settings(self, folder: str) -> Settings:
        """The settings of the files of a folder (absolute)."""
        said = self.said
        if said.severities == PLAIN.severities and said.house == PLAIN.house and not said.use:
            return PLAIN
        whole = (os.path.join(self.folder, one) for one in said.use)
        use = tuple(os.path.relpath(one, folder).replace(os.sep, "/") for one in whole)
        return Settings(said.severities, said.house, use)


class Finder:
    """Finds the repository of any folder, and looks at no folder twice. ``text`` gives the text of
    a file of settings, or None where there is no such file."""

    def __init__(self, text: Callable[[str], str | None] | None = None) -> None:
        self._text = text or _text
        self._known: dict[str, Repository] = {}
        self._said: dict[str, SettingsFile | None] = {}

    def of(self, folder: str) -> Repository:
        """The repository of the files of a folder. Raises ``CannotLook`` for bad settings."""
        folder = os.path.abspath(folder)
        found = self._known.get(folder)
        if found is None:
            found = self._known[folder] = self._look(folder)
        return found

    def _look(self, folder: str) -> Repository:
        said: SettingsFile | None = None
        at = where = folder
        while True:
            if said is None:
                said, where = self._settings_in(at), at
            above = os.path.dirname(at)
            if os.path.exists(os.path.join(at, ".git")):
                return Repository(at, where, said or SettingsFile())
            if above == at:
                break
            at = above
        root = where if said is not None else folder
        return Repository(root, root, said or SettingsFile(), bounded=said is not None)

    def _settings_in(self, folder: str) -> SettingsFile | None:
        if folder not in self._said:
            self._said[folder] = settings_in(folder, self._text)
        return self._said[folder]


def settings_in(folder: str, read: Callable[[str], str | None]) -> SettingsFile | None:
    """The settings that stand in a folder itself, or None."""
    own, shared = os.path.join(folder, OWN), os.path.join(folder, SHARED)
    text = read(own)
    table = _section(shared, read(shared))
    if text is not None and table is not None:
        raise CannotLook(
            f"{own}: there are settings in {SHARED} beside it as well. Keep one of the two."
        )
    if text is not None:
        return read_settings(_name(own), text, _parsed(own, text))
    return read_settings(_name(shared), *table) if table is not None else None


def _section(path: str, text: str | None) -> tuple[str, dict[str, object]] | None:
    """The text of a ``pyproject.toml`` and our table in it, or None where there is none."""
    # Most have none, and parsing one takes as long as a start of Python.
    if text is None or "loopwright" not in text or not re.search(_OURS, text):
        return None
    tool = _parsed(path, text).get("tool")
    table = tool.get("loopwright") if isinstance(tool, dict) else None
    if table is None:
        return None
    if not isinstance(table, dict):
        raise CannotLook(f"{path}: `tool.loopwright` is a table: write `[tool.loopwright]`.")
    at = text.find("[tool.loopwright")
    before = text.count("\n", 0, max(at, 0))
    # Only the lines of our table can hold one of its keys; those before it keep their number.
    return "\n" * before + text[max(at, 0) :], table


def _text(path: str) -> str | None:
    refuse_pipe(path)
    try:
        with open(path, "rb") as file:
            data = file.read(LARGEST_SETTINGS + 1)
    except FileNotFoundError:
        return None
    except OSError as error:
        raise CannotLook(f"{path}: this file cannot be read ({why(error)}).") from None
    if len(data) > LARGEST_SETTINGS:
        raise CannotLook(f"{path}: this file is larger than 1 MB, the most that is read.")
    try:
        return data.decode("utf-8").removeprefix("\ufeff")
    except UnicodeDecodeError:
        raise CannotLook(f"{path}: this file is not UTF-8 text.") from None


def _parsed(path: str, text: str) -> dict[str, object]:
    import tomllib

    try:
        return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        told = str(error) or "it cannot be read"
        raise CannotLook(
            f"{_name(path)}: this is not TOML: {told[:1].lower()}{told[1:]}."
        ) from None


def _name(path: str) -> str:
    """A path as a message gives it: from where the program runs, if it lies under there."""
    near = os.path.relpath(path)
    return path if near.startswith("..") else near


def usual_baseline() -> str:
    """Where the baseline of the repository that we are in belongs: at its root."""
    return os.path.relpath(os.path.join(Finder().of(".").root, BASELINE))
