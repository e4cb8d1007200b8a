"""What git says changed, and what that touches: a pattern is checked again when it changed, when
something that it uses changed, or when its settings did.

Changed is what differs between the files as they stand now and the last commit that both this
branch and the revision have; files that git does not know yet are new, and so changed.
"""

from __future__ import annotations

import os

from loopwright.repository.files import handed
from loopwright.repository.finding import OWN, SHARED
from loopwright.repository.git import ask
from loopwright.repository.jobs import Desk


def only_changed(paths: list[str], revision: str) -> list[str]:
    """Of some files those that changed since a revision, and those that a change touches. Raises
    ``CannotLook``."""
    desk = Desk()
    tops: dict[str, frozenset[str]] = {}
    kept = []
    for path in paths:
        root = desk.repository(path).root
        if root not in tops:
            tops[root] = changed(root, revision)
        if handed(path) or _touched(desk, path, tops[root]):
            kept.append(path)
    return kept


def _touched(desk: Desk, path: str, changes: frozenset[str]) -> bool:
    if not changes:
        return False
    folder = os.path.dirname(os.path.abspath(path))
    if os.path.realpath(path) in changes or _settings_of(desk, folder) & changes:
        return True
    used = (os.path.realpath(os.path.join(folder, key)) for key in desk.job(path).used)
    return any(one in changes for one in used)


def _settings_of(desk: Desk, folder: str) -> set[str]:
    """The files in which the settings of a folder's files stand or might stand."""
    repository = desk.finder.of(folder)
    found = {os.path.realpath(os.path.join(repository.folder, SHARED))}
    if not repository.said.name.endswith(SHARED):
        found = set()
    while True:
        found.add(os.path.realpath(os.path.join(folder, OWN)))
        if folder in (repository.root, os.path.dirname(folder)):
            return found
        folder = os.path.dirname(folder)


def changed(root: str, revision: str) -> frozenset[str]:
    """The full paths of the files under a folder that changed since a revision, those that are
    gone among them. Raises ``CannotLook`` where git cannot say."""
    top = _git(root, "rev-parse", "--show-toplevel").rstrip("\n")
    commit = _git(root, "rev-parse", "--verify", "--end-of-options", f"{revision}^{{commit}}")
    # A shallow clone may hold no commit that both have; then the revision itself is held against.
    base = _git(root, "merge-base", commit.strip(), "HEAD", may_fail=True) or commit
    differ = _git(top, "diff", "--name-only", "--no-renames", "-z", base.split()[0], "--")
    new = _git(top, "ls-files", "--others", "--exclude-standard", "-z", "--full-name")
    names = (one for one in (*differ.split("\0"), *new.split("\0")) if one)
    return frozenset(os.path.realpath(os.path.join(top, one)) for one in names)


def _git(folder: str, *arguments: str, may_fail: bool = False) -> str:
    """What git answers to a question."""
    return ask(folder, *arguments, option="--changed", may_fail=may_fail)
