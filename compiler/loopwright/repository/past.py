"""A pattern as git has it at a revision: its text, the files that it uses and its settings are all
read from there, whatever stands in the folder now.

    edition("patterns/mat.crochet", "v1.2") -> Edition(job, called)
"""

from __future__ import annotations

import os
from posixpath import normpath

from loopwright import NotRead
from loopwright.frozen import NamedTuple, replace
from loopwright.repository import git
from loopwright.repository.files import CannotLook, decoded, handed
from loopwright.repository.finding import Finder
from loopwright.repository.jobs import Desk, Job

SINCE = "--since"


class Edition(NamedTuple):
    """What the pattern is read from, and its path at the time where that was another one."""

    job: Job
    called: str = ""


def edition(path: str, revision: str) -> Edition:
    """The pattern in a file as it stood at a revision. Raises ``CannotLook``."""
    if handed(path):
        raise CannotLook(f"{SINCE} needs a file that git keeps, and {path} is not one.")
    folder, name = os.path.split(path)
    folder = os.path.realpath(folder or os.curdir)
    at = _Commit(folder, revision, path)
    whole, called = os.path.join(folder, name), ""
    if at.text(whole) is None:
        whole = at.renamed(whole)
        if not whole:
            raise CannotLook(
                f"{path}: at {revision} git has no such file. If it had another name then, `git"
                " add` what stands here now, so that git sees where it went; or give the old"
                " edition as a file: `loopwright compare OLD NEW`."
            )
        called = os.path.relpath(whole)
    try:
        job = _Past(at).job(whole)
    except CannotLook as error:
        raise CannotLook(f"as git has it at {revision}: {error}") from None
    named = f"{os.path.relpath(whole)} at {revision}"
    return Edition(replace(job, name=named).for_making(), called)


class _Commit:
    """The files of a commit, by their full paths as they would lie in the folder."""

    def __init__(self, folder: str, revision: str, path: str) -> None:
        if not os.path.isdir(folder):
            raise CannotLook(f"{path}: there is no such file or folder.")
        top = git.ask(folder, "rev-parse", "--show-toplevel", option=SINCE, may_fail=True)
        if not top:
            raise CannotLook(f"{path}: {SINCE} asks git, and git keeps no repository here.")
        self.top = os.path.realpath(top.removesuffix("\n"))
        verify = ("rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}")
        self.commit = git.ask(self.top, *verify, option=SINCE, may_fail=True).strip()
        if not self.commit:
            raise CannotLook(f"{path}: git knows no revision `{revision}` here.{self._shallow()}")

    def _shallow(self) -> str:
        asked = ("rev-parse", "--is-shallow-repository")
        if git.ask(self.top, *asked, option=SINCE, may_fail=True).strip() != "true":
            return ""
        return " This copy has only the last commits; `git fetch --unshallow` brings the others."

    def text(self, path: str) -> str | None:
        """A file's text, links within the repository followed; None where there is no such file.
        Raises ``CannotLook``."""
        data = self._data(path)
        return None if data is None else decoded(path, data)

    def _data(self, path: str) -> bytes | None:
        near = self._near(path)
        if not near or "\n" in near:
            return None
        wanted = os.fsencode(f"{self.commit}:{near}\n")
        batch = ("cat-file", "--batch", "--follow-symlinks")
        _, out, _ = git.answered(self.top, *batch, option=SINCE, given=wanted)
        head, _, rest = out.partition(b"\n")
        words = head.split(b" ")
        if len(words) != 3 or words[1] != b"blob" or not words[2].isdigit():
            return None
        return rest[: int(words[2])]

    def _near(self, path: str) -> str:
        """A full path from the top; nothing where it lies outside."""
        near = os.path.relpath(path, self.top).replace(os.sep, "/")
        return "" if near.startswith("../") or near == ".." else near

    def renamed(self, path: str) -> str:
        """The full path that a file had in the commit, where git sees that it was renamed since;
        nothing where it does not."""
        asked = ("diff", "--name-status", "-z", "-M", "--diff-filter=R", self.commit, "--")
        words = git.ask(self.top, *asked, option=SINCE).split("\0")
        pairs = {new: old for old, new in zip(words[1::3], words[2::3], strict=False)}
        old = pairs.get(self._near(path), "")
        return os.path.join(self.top, *old.split("/")) if old else ""


class _Past(Desk):
    """Reads what a check takes from a commit."""

    def __init__(self, at: _Commit) -> None:
        super().__init__()
        self.at = at
        self.finder = Finder(at.text)

    def text(self, path: str) -> str:
        """The text of the pattern itself."""
        return self.at.text(path) or ""

    def whole(self, path: str) -> str:
        """Where a file lies; links are followed when it is read."""
        return normpath(path.replace(os.sep, "/"))

    def used_text(self, whole: str) -> str | NotRead:
        """The text of a file that is used, or why there is none."""
        try:
            text = self.at.text(whole)
        except CannotLook as error:
            return NotRead(str(error).removeprefix(f"{whole}: ").rstrip("."))
        return NotRead("there is no such file") if text is None else text
