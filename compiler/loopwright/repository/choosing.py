"""Which files are checked: those under the paths that are given, or that the settings give, without
what the settings leave out; of these only what changed, or one share of many.

    chosen(["patterns"], Choice(changed="origin/main", shard=(3, 8))) -> ["patterns/...", ...]
"""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from loopwright.frozen import Frozen
from loopwright.repository.files import CannotLook, find, handed
from loopwright.repository.finding import Finder, Repository

if TYPE_CHECKING:
    from pathspec import GitIgnoreSpec


class Choice(Frozen):
    """What is chosen of the files: those ``changed`` since a revision, and what uses them; of the
    files that git knows those that the next commit changes (``staged``); the first of so many
    shares (``shard``). ``strict`` leaves out what the settings leave out even where a file is
    named."""

    changed: str | None = None
    staged: bool = False
    shard: tuple[int, int] | None = None
    strict: bool = False


ALL = Choice()


def chosen(paths: list[str], choice: Choice = ALL) -> list[str]:
    """The files to check, in order, each once. Raises ``CannotLook``."""
    finder = Finder()
    found = find(paths or _paths_of(finder.of("."), choice))
    named = set() if choice.strict else {path for path in paths if not os.path.isdir(path)}
    excluded = _Excluded(finder)
    kept = [path for path in found if path in named or not excluded.has(path)]
    if not kept and not choice.strict:
        raise CannotLook(
            "there is no pattern to check: the settings leave out everything there is"
            " (`exclude`, and `paths`)."
        )
    if choice.changed is not None or choice.staged:
        from loopwright.repository.changes import only_changed, only_staged

        kept = only_staged(kept) if choice.staged else only_changed(kept, choice.changed or "")
    if choice.shard is not None:
        kept = [path for path in kept if _in_share(finder, path, *choice.shard)]
    return kept


def _paths_of(repository: Repository, choice: Choice) -> list[str]:
    """What the settings of a repository say is to be checked; all of it, of what changed."""
    said = repository.said
    here = os.path.relpath(repository.folder)
    if not said.paths and (choice.changed is not None or choice.staged):
        return [os.path.relpath(repository.root)]
    if not said.paths:
        raise CannotLook("name a pattern or a folder, or give `paths` in a loopwright.toml.")
    return [os.path.normpath(os.path.join(here, path)) for path in said.paths]


class _Excluded:
    """Knows what settings leave out; the lists are read as git reads a ``.gitignore``."""

    def __init__(self, finder: Finder) -> None:
        self.finder = finder
        self._specs: dict[str, GitIgnoreSpec] = {}

    def has(self, path: str) -> bool:
        """Whether a file is left out."""
        if handed(path):
            return False
        repository = self.finder.of(os.path.dirname(path) or ".")
        if not repository.said.exclude:
            return False
        spec = self._specs.get(repository.folder)
        if spec is None:
            spec = self._specs[repository.folder] = self._spec(repository)
        near = os.path.relpath(os.path.abspath(path), repository.folder)
        return bool(spec.match_file(near.replace(os.sep, "/")))

    def _spec(self, repository: Repository) -> GitIgnoreSpec:
        from pathspec import GitIgnoreSpec

        try:
            return GitIgnoreSpec.from_lines(repository.said.exclude)
        except ValueError as error:
            raise CannotLook(f"{repository.said.name}: `exclude` cannot be read: {error}") from None


def _in_share(finder: Finder, path: str, share: int, of: int) -> bool:
    """Whether a file is in a share. It goes by the file's own path from the root and nothing else,
    so that a file that is put in or taken out moves no other."""
    from hashlib import sha256

    root = finder.of(os.getcwd() if handed(path) else os.path.dirname(path) or ".").root
    near = os.path.relpath(os.path.abspath(path), root).replace(os.sep, "/")
    number = int.from_bytes(sha256(near.encode("utf-8", "surrogateescape")).digest()[:8], "big")
    return number % of == share - 1
