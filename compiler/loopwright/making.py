"""The commands that make something of patterns, or tell something of them. What takes long to
import is imported by the command that needs it."""

from __future__ import annotations

import gc
import sys
from typing import TYPE_CHECKING

import loopwright
from loopwright.repository.files import CannotLook
from loopwright.saying import CANNOT, CLEAN, FAULTS, put, say

if TYPE_CHECKING:
    from argparse import Namespace

    from loopwright import Pattern, Verdict


def _clean(path: str) -> Pattern | None:
    """A pattern that comes out, or None after its messages were printed. What a house asks
    besides, ``check`` says."""
    from loopwright.repository.jobs import Desk

    pattern = Desk().job(path).for_making().read()
    if not pattern.comes_out:
        _refuse(pattern.verdict)
        return None
    return pattern


def _refuse(verdict: Verdict) -> None:
    """Say why nothing can be made of a pattern."""
    for one in verdict.messages:
        say(loopwright.written(verdict.name, one) + "\n")
    if verdict.clean:
        say(f"{verdict.name}: this file is there for patterns to use, and holds none.")
    else:
        say(loopwright.summary([verdict]))


def _terms(told: Namespace) -> str:
    """The terms asked for, as the functions of the package call them."""
    return (told.terms or "").upper()


def _give(text: str | bytes, told: Namespace, *asked: str) -> None:
    """Print what was asked for of some files, or write it to the file that is named."""
    if told.out is None:
        put(text)
    else:
        from loopwright.repository.files import answer_to

        answer_to(told.out, (text,), asked)


def _look_for_rubbish_seldom() -> None:
    """What is made of one pattern is mostly kept until it is written: to look through it again and
    again for what nobody needs any more takes as long as three starts of Python."""
    gc.set_threshold(500_000, 20, 100)


def sheet(told: Namespace) -> int:
    """``loopwright sheet``."""
    from loopwright.repository.paper import paper, written

    _look_for_rubbish_seldom()
    on = paper(told, told.form == "pdf", "--form pdf")
    pattern = _clean(told.file)
    if pattern is None:
        return FAULTS
    from loopwright.repository.wording import in_size, worded

    alone, words = in_size(pattern, told.size), worded(told)
    made, troubles = written(alone, _terms(told), told, on, words)
    _give(made, told, told.file)
    return _all_but(troubles)


def _all_but(troubles: list[str]) -> int:
    """Say what is lacking in what was made; the exit code."""
    for one in troubles:
        say(f"loopwright: {one}")
    return FAULTS if troubles else CLEAN


def chart(told: Namespace) -> int:
    """``loopwright chart``."""
    from loopwright.repository.charts import answer

    _look_for_rubbish_seldom()
    form = _form_of(told)
    if told.scale is not None and form == "text":
        raise CannotLook("--scale is for a picture; --form text has no size.")
    if form == "png" and told.out is None and sys.stdout is not None and sys.stdout.isatty():
        raise CannotLook("a PNG cannot be shown in a terminal; write it to a file: -o chart.png")
    pattern = _clean(told.file)
    if pattern is None:
        return FAULTS
    made, hints = answer(pattern, told, form)
    _give(made, told, told.file)
    for hint in hints:
        say(hint)
    return CLEAN


def _form_of(told: Namespace) -> str:
    """The form that is asked for, or that the name of the file to write asks for."""
    if told.form:
        return str(told.form)
    ending = (told.out or "").rpartition(".")[2].lower()
    return {"png": "png", "txt": "text"}.get(ending, "svg")


def build(told: Namespace) -> int:
    """``loopwright build``."""
    from loopwright.repository.beside import beside
    from loopwright.repository.build import made, named
    from loopwright.repository.ledger import left_of
    from loopwright.repository.ledger import put as put_files
    from loopwright.repository.paper import paper

    _look_for_rubbish_seldom()
    on = paper(told, told.pdf, "--pdf")
    pattern = _clean(told.file)
    if pattern is None:
        _all_but(left_of(told.out, told.file))
        return FAULTS
    verdict = pattern.verdict
    for one in verdict.messages:
        say(loopwright.written(verdict.name, one) + "\n")
    from loopwright.repository.wording import in_size, worded

    alone, words = in_size(pattern, told.size), worded(told)
    name, by = named(told.file, told.size, words.language)
    files, troubles = made(alone, name, words, on, beside(told.file, pattern))
    listed, left = put_files(told.out, told.file, by, files)
    put(f"{loopwright.summary([verdict])}\n{listed}")
    return _all_but(troubles + left)


def compare(told: Namespace) -> int:
    """``loopwright compare``."""
    from loopwright.repository.compare import compared, editions

    old, path = editions(told)
    new = _clean(path)
    if new is None:
        return FAULTS
    made, hints = compared(old, new, told)
    _give(made, told, *told.files)
    for hint in hints:
        say(hint)
    return CLEAN


def fits(told: Namespace) -> int:
    """``loopwright fits``."""
    pattern = _clean(told.file)
    if pattern is None:
        return FAULTS
    found = "\n".join(one.text for one in pattern.fits())
    put(found or "This pattern has no counts.\n")
    return CLEAN


def sizes(told: Namespace) -> int:
    """``loopwright sizes``."""
    pattern = _clean(told.file)
    if pattern is None:
        return FAULTS
    put(pattern.finished_sizes(terms=_terms(told), form=told.format, rows=told.rows))
    if told.out is not None:
        from loopwright.repository.build import drawn, name_of
        from loopwright.repository.ledger import put as put_files

        files = drawn(pattern, name_of(told.file), _terms(told))
        listed, left = put_files(told.out, told.file, "sizes", files)
        say(listed.rstrip("\n"))
        return _all_but(left)
    return CLEAN


def kit(told: Namespace) -> int:
    """``loopwright kit``."""
    from fractions import Fraction

    pattern = _clean(told.file)
    if pattern is None:
        return FAULTS
    margin = Fraction(told.margin) / 100 if told.margin is not None else None
    made = pattern.kit(form=told.format, bags=told.bags or 0, margin=margin)
    if told.out is None and told.format == "text":
        made = "\n".join(loopwright.visible(line) for line in made.split("\n"))
    _give(made, told, told.file)
    return CLEAN


def measures(told: Namespace) -> int:
    """``loopwright measures``."""
    put(loopwright.standard_measures(told.group or "", form=told.format))
    return CLEAN


def tidy(told: Namespace) -> int:
    """``loopwright tidy``."""
    from loopwright.repository.choosing import Choice, chosen
    from loopwright.repository.files import handed, read, write
    from loopwright.repository.jobs import Desk, stays_inside

    paths = chosen(told.paths, Choice(strict=told.skip_excluded))
    given = {path: read(path) for path in paths if handed(path)}
    desk = Desk()
    for path in paths:
        # Before any is changed, all must be such as can be read.
        if path not in given:
            stays_inside(path, desk.repository(path))
            read(path)
    changed = False
    for path in paths:
        old = given[path] if path in given else read(path)
        new = loopwright.tidy(old)
        changed |= new != old
        if path in given and told.paths == [path] and not told.check:
            put(new)
        elif new != old and told.check:
            put(f"{path}: the layout would change\n")
        elif new != old and path not in given:
            write(path, new)
            put(f"{path}: brought into the canonical layout\n")
    return FAULTS if told.check and changed else CLEAN


def explain(told: Namespace) -> int:
    """``loopwright explain``."""
    put(loopwright.explain(told.code))
    return CLEAN


def overview(told: Namespace) -> int:
    """``loopwright overview``."""
    from loopwright.repository.choosing import chosen
    from loopwright.repository.overview import Shelf

    paths = chosen(told.paths)
    shelf = Shelf(told.out, cached=not told.no_cache)
    verdicts, cards = shelf.filled(paths)
    summary = loopwright.summary(verdicts)
    listed = shelf.closed(loopwright.overview(cards, title=told.title, summary=summary))
    put(f"{summary}\n{listed}")
    faulty = any(not one.clean for one in verdicts)
    code = max(_all_but(shelf.troubles), FAULTS if faulty else CLEAN)
    for one in shelf.unread:
        say(f"loopwright: {one}")
    return CANNOT if shelf.unread else code


def completion(told: Namespace) -> int:
    """``loopwright completion``."""
    from loopwright.usage import completion as complete

    put(complete(told.shell))
    return CLEAN
