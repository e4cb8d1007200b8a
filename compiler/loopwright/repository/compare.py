"""What changed from one edition of a pattern to the next: from another file, or as git has it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import loopwright
from loopwright.repository.files import CannotLook
from loopwright.repository.jobs import Desk, Job
from loopwright.repository.wording import language

if TYPE_CHECKING:
    from argparse import Namespace

    from loopwright import Pattern


def editions(told: Namespace) -> tuple[str, str]:
    """The files of the old edition and of the new one; the old one is empty where git has it.
    Raises ``CannotLook``."""
    many = len(told.files)
    if told.since is not None and many == 1:
        return "", told.files[0]
    if told.since is not None:
        raise CannotLook(
            f"--since compares one file with what git had of it, and here are {many}: give one."
        )
    if many != 2:
        raise CannotLook(
            "give two files, OLD and NEW; or one, and --since REV for its old edition."
        )
    return told.files[0], told.files[1]


def compared(old: str, new: Pattern, told: Namespace) -> tuple[str, list[str]]:
    """The changes from the file ``old``, or from what git has, in the terms or the language asked
    for; and what there is to say beside them. Raises ``CannotLook``, and ``CannotAnswer`` where the
    old one is no pattern at all; that it has faults does not matter."""
    code = language(told.language, told.terms)
    job, hints = (Desk().job(old).for_making(), []) if old else _past(told)
    lacks = [key for key, one in job.used.items() if not isinstance(one, str)]
    if lacks:
        hints.append(
            f"{old or told.files[0]}: the old edition uses {', '.join(lacks)}, which was not found;"
            " what is told of it as new need not be. `--since REV` takes all of it from git."
        )
    terms = (told.terms or "").upper()
    return loopwright.compare(job.read(), new, terms=terms, form=told.format, language=code), hints


def _past(told: Namespace) -> tuple[Job, list[str]]:
    """The pattern as git has it, and what it was called there."""
    from loopwright.repository.past import edition

    found = edition(told.files[0], told.since)
    called = f"{told.files[0]}: at {told.since} this file was called {found.called}."
    return found.job, [called] if found.called else []
