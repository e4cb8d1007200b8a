"""The commands that make something of patterns, or tell something of them. What takes long to
import is imported by the command that needs it."""

from __future__ import annotations

import gc
import sys
from typing import TYPE_CHECKING

from loopwright.repository.files import CannotLook
from loopwright.saying import CLEAN, FAULTS, put, say

if TYPE_CHECKING:
    from argparse import Namespace

    from loopwright.diagnostics.verdict import Verdict
    from loopwright.pipeline import Result
    from loopwright.repository.jobs import Job


def _job(path: str) -> Job:
    from loopwright.repository.jobs import Desk

    return Desk().job(path)


def _check_file(path: str) -> Result:
    """A pattern checked for what is made of it; what a house asks besides, ``check`` says."""
    from loopwright.frozen import replace
    from loopwright.pipeline import NO_RULES, check_text

    job = _job(path)
    return check_text(job.name, job.text, replace(job.around, house=NO_RULES))


def _summary(result: Result) -> str:
    from loopwright.diagnostics.reports.plain import Totals
    from loopwright.report import verdict

    return Totals(verdict(result)).summary()


def _clean(path: str) -> Result | None:
    """A pattern that has no errors, or None after its messages were printed."""
    result = _check_file(path)
    if result.checked is None:
        from loopwright.report import verdict

        _refuse(verdict(result))
        return None
    return result


def _refuse(verdict: Verdict) -> int:
    """Say why nothing can be made of a pattern; the exit code."""
    from loopwright.diagnostics.reports.plain import Totals
    from loopwright.diagnostics.text import written

    for one in verdict.messages:
        say(written(verdict.name, one) + "\n")
    if verdict.clean:
        say(f"{verdict.name}: this file is there for patterns to use, and holds none.")
    else:
        say(Totals(verdict).summary())
    return FAULTS


def _give(text: str | bytes, out: str | None) -> None:
    if out is None:
        put(text)
    else:
        from loopwright.repository.files import write

        write(out, text)


def sheet(told: Namespace) -> int:
    """``loopwright sheet``."""
    from loopwright.repository.paper import paper, written

    # A sheet is made in less time than Python would look through its values for rubbish.
    gc.set_threshold(100_000, 20, 100)
    on = paper(told, told.form == "pdf", "--form pdf")
    result = _clean(told.file)
    if result is None or result.checked is None:
        return FAULTS
    from loopwright.repository.wording import in_size, worded

    checked, words = in_size(result.checked, told.size), worded(told)
    terms = (told.terms or checked.pattern.terms).upper()
    made, troubles = written(checked, terms, told, on, words)
    _give(made, told.out)
    return _all_but(troubles)


def _all_but(troubles: list[str]) -> int:
    """Say what is lacking in what was made; the exit code."""
    for one in troubles:
        say(f"loopwright: {one}")
    return FAULTS if troubles else CLEAN


def chart(told: Namespace) -> int:
    """``loopwright chart``."""
    from loopwright.repository.charts import Asked, answer

    form = _form_of(told)
    if told.scale is not None and form == "text":
        raise CannotLook("--scale is for a picture; --form text has no size.")
    if form == "png" and told.out is None and sys.stdout is not None and sys.stdout.isatty():
        raise CannotLook("a PNG cannot be shown in a terminal; write it to a file: -o chart.png")
    result = _clean(told.file)
    if result is None or result.checked is None:
        return FAULTS
    pattern = result.checked.pattern
    parts = [part.name for part in pattern.parts]
    part = _one_of(told.part, parts, "part")
    size = pattern.sizes.index(_one_of(told.size, list(pattern.sizes), "size"))
    terms = (told.terms or pattern.terms).upper()
    asked = Asked(part, size, terms, form, told.kind, told.rows, told.whole, told.scale)
    made, hints = answer(result.checked, asked, result.source)
    _give(made, told.out)
    others = [one for one in parts if one != part]
    if others and told.part is None:
        say(f"This is the part {part}; there is also {', '.join(others)} (--part NAME).")
    for hint in hints:
        say(hint)
    return CLEAN


def _form_of(told: Namespace) -> str:
    """The form that is asked for, or that the name of the file to write asks for."""
    if told.form:
        return str(told.form)
    ending = (told.out or "").rpartition(".")[2].lower()
    return {"png": "png", "txt": "text"}.get(ending, "svg")


def _one_of(named: str | None, known: list[str], what: str) -> str:
    if named is None:
        return known[0]
    if named not in known:
        raise CannotLook(f"there is no {what} `{named}`; there is {', '.join(known)}.")
    return named


def build(told: Namespace) -> int:
    """``loopwright build``."""
    from loopwright.repository.build import made, name_of, slug
    from loopwright.repository.files import write_all
    from loopwright.repository.paper import paper

    on = paper(told, told.pdf, "--pdf")
    result = _clean(told.file)
    if result is None or result.checked is None:
        return FAULTS
    from loopwright.diagnostics.text import message

    for one in result.diagnostics:
        say(message(result.source, one) + "\n")
    from loopwright.repository.wording import in_size, worded

    checked, name = in_size(result.checked, told.size), name_of(told.file)
    name = f"{name}-{slug(told.size)}" if told.size is not None else name
    from loopwright.repository.beside import beside

    picture = beside(told.file, checked)
    files, troubles = made(checked, name, result.source, worded(told), on, picture)
    listed = write_all(told.out, files)
    put(f"{_summary(result)}\n{listed}")
    return _all_but(troubles)


def compare(told: Namespace) -> int:
    """``loopwright compare``."""
    from loopwright.repository.compare import compared

    new = _clean(told.new)
    if new is None or new.checked is None:
        return FAULTS
    _give(compared(told.old, new.checked, told.terms, told.format), told.out)
    return CLEAN


def fits(told: Namespace) -> int:
    """``loopwright fits``."""
    from loopwright import pipeline

    result = _clean(told.file)
    if result is None:
        return FAULTS
    job = _job(told.file)
    put(pipeline.fits(job.name, job.text, job.around))
    return CLEAN


def sizes(told: Namespace) -> int:
    """``loopwright sizes``."""
    from loopwright import pipeline

    result = _clean(told.file)
    if result is None or result.checked is None:
        return FAULTS
    terms = (told.terms or result.checked.pattern.terms).upper()
    put(pipeline.sizes(result.checked, terms, told.format, rows=told.rows))
    if told.out is not None:
        from loopwright.repository.build import drawn, name_of
        from loopwright.repository.files import write_all

        listed = write_all(told.out, drawn(result.checked, name_of(told.file), terms))
        say(listed.rstrip("\n"))
    return CLEAN


def kit(told: Namespace) -> int:
    """``loopwright kit``."""
    from fractions import Fraction

    from loopwright import pipeline

    result = _clean(told.file)
    if result is None or result.checked is None:
        return FAULTS
    margin = Fraction(told.margin) / 100 if told.margin is not None else None
    made = pipeline.kit(result.checked, told.format, told.bags or 0, margin)
    if told.out is None and told.format == "text":
        from loopwright.diagnostics.text import visible

        made = "\n".join(visible(line) for line in made.split("\n"))
    _give(made, told.out)
    return CLEAN


def measures(told: Namespace) -> int:
    """``loopwright measures``."""
    from loopwright import pipeline

    put(pipeline.measures(told.group or "", told.format))
    return CLEAN


def tidy(told: Namespace) -> int:
    """``loopwright tidy``."""
    from loopwright import pipeline
    from loopwright.repository.files import find, read, write

    paths = find(told.paths)
    given = {path: read(path) for path in paths if path == "-"}
    for path in paths:
        # Before any is changed, all must be such as can be read.
        if path not in given:
            read(path)
    changed = False
    for path in paths:
        old = given[path] if path == "-" else read(path)
        new = pipeline.tidy(old)
        changed |= new != old
        if path == "-" and told.paths == ["-"] and not told.check:
            put(new)
        elif new != old and told.check:
            put(f"{path}: the layout would change\n")
        elif new != old and path != "-":
            write(path, new)
            put(f"{path}: brought into the canonical layout\n")
    return FAULTS if told.check and changed else CLEAN


def explain(told: Namespace) -> int:
    """``loopwright explain``."""
    from loopwright.repository.explain import every_code, explanation

    if told.code is None:
        put(every_code())
        return CLEAN
    put(explanation(told.code))
    return CLEAN


def overview(told: Namespace) -> int:
    """``loopwright overview``."""
    from loopwright.diagnostics.reports.plain import Totals
    from loopwright.repository.choosing import chosen
    from loopwright.repository.files import write_all
    from loopwright.repository.overview import made_of, page

    totals = Totals()
    cards, troubles = [], []
    for pattern in made_of(chosen(told.paths)):
        totals.add(pattern.verdict)
        write_all(told.out, pattern.files)
        cards.append(pattern.card)
        troubles += pattern.troubles
    listed = write_all(told.out, [("index.html", page(told.title, totals.summary(), cards))])
    put(f"{totals.summary()}\n{listed}")
    return max(_all_but(troubles), FAULTS if totals.errors else CLEAN)


def completion(told: Namespace) -> int:
    """``loopwright completion``."""
    from loopwright.arguments import completion as complete

    put(complete(told.shell))
    return CLEAN
