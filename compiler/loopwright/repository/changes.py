"""What git says changed, and what that touches: a pattern is checked again when it changed, when
something that it uses changed, or when its settings did.

Changed is what differs between the files as they stand now and the last commit that both this
branch and the revision have; files that git does not know yet are new, and so changed.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from functools import partial

from loopwright.repository.files import CannotLook, CannotRead, handed
from loopwright.repository.finding import OWN, SHARED
from loopwright.repository.git import ask
from loopwright.repository.jobs import Desk

HEAD = "HEAD"
CHANGED, STAGED = "--changed", "--staged"


def only_changed(paths: list[str], revision: str) -> list[str]:
    """Of some files those that changed since a revision, and those that a change touches. Raises
    ``CannotLook``."""
    if not revision:
        raise CannotLook("--changed= names no revision: is what should stand there empty?")
    return _only(paths, partial(changed, revision=revision))


def only_staged(paths: list[str]) -> list[str]:
    """Of some files those that git knows and the next commit changes, and those that it touches;
    where it changes nothing at all, as in a fresh clone, all that git knows. Raises
    ``CannotLook``."""
    known: dict[str, frozenset[str]] = {}
    desk = Desk()
    kept = []
    for path in paths:
        root = desk.repository(path).root
        if root not in known:
            every = ("ls-files", "-z", "--full-name", "--", ":/")
            known[root] = _named(root, *every, option=STAGED)
        if os.path.realpath(path) in known[root]:
            kept.append(path)
    return _only(kept, staged)


def _only(paths: list[str], changes: Callable[[str], frozenset[str] | None]) -> list[str]:
    """Of some files those that the changes under their root touch; all where those are None."""
    desk = Desk()
    found: dict[str, frozenset[str] | None] = {}
    kept = []
    for path in paths:
        root = desk.repository(path).root
        if root not in found:
            found[root] = changes(root)
        touched = found[root]
        if handed(path) or touched is None or _touched(desk, path, touched):
            kept.append(path)
    return kept


def _touched(desk: Desk, path: str, changes: frozenset[str]) -> bool:
    if not changes:
        return False
    folder = os.path.dirname(os.path.abspath(path))
    if os.path.realpath(path) in changes or _settings_of(desk, folder) & changes:
        return True
    try:
        job = desk.job(path)
    except CannotRead:
        return True  # the check says why
    used = (os.path.realpath(os.path.join(folder, key)) for key in job.used)
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


def changed(root: str, revision: str) -> frozenset[str] | None:
    """The full paths of the files under a folder that changed since a revision, those that are
    gone among them; None where there is no commit yet, and so everything is new. Raises
    ``CannotLook`` where git cannot say."""
    top = _top(root)
    commit = _commit(root, revision)
    if not commit:
        if revision == HEAD and not _git(root, "rev-list", "-n", "1", "--all", may_fail=True):
            return None
        raise CannotLook(_no_revision(revision))
    # A shallow clone may hold no commit that both have; then the revision itself is held against.
    base = _git(root, "merge-base", commit, "HEAD", may_fail=True) or commit
    differ = _named(top, "diff", "--name-only", "--no-renames", "-z", base.split()[0], "--")
    return differ | _named(top, "ls-files", "--others", "--exclude-standard", "-z", "--full-name")


def staged(root: str) -> frozenset[str] | None:
    """The full paths of the files under a folder that the next commit changes; None where it
    changes none. Raises ``CannotLook``."""
    asked = ("diff", "--cached", "--name-only", "--no-renames", "-z", "--")
    return _named(_top(root, STAGED), *asked, option=STAGED) or None


def _no_revision(revision: str) -> str:
    told = f"--changed: git knows no revision `{revision}` here."
    if os.path.exists(revision):
        return f"{told} For what changed under that path, write `--changed={HEAD} {revision}`."
    return told


def _commit(root: str, revision: str) -> str:
    """The commit that a revision means; nothing where git knows none."""
    asked = ("rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}")
    return _git(root, *asked, may_fail=True).strip()


def _top(root: str, option: str = CHANGED) -> str:
    return _git(root, "rev-parse", "--show-toplevel", option=option).rstrip("\n")


def _named(folder: str, *asked: str, option: str = CHANGED) -> frozenset[str]:
    """The full paths of the files that git names from the top, one after another."""
    top = _top(folder, option)
    names = (one for one in _git(folder, *asked, option=option).split("\0") if one)
    return frozenset(os.path.realpath(os.path.join(top, one)) for one in names)


def _git(folder: str, *arguments: str, option: str = CHANGED, may_fail: bool = False) -> str:
    """What git answers to a question."""
    return ask(folder, *arguments, option=option, may_fail=may_fail)
