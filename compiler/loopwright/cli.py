"""The command line. It calls ``pipeline`` and prints; what takes long to import is imported by
the command that needs it."""

from __future__ import annotations

import gc
import sys
from types import SimpleNamespace
from typing import TYPE_CHECKING, cast

from loopwright.repository.files import CannotLook, why

if TYPE_CHECKING:
    from argparse import Namespace
    from collections.abc import Iterable, Iterator

    from loopwright.diagnostics.verdict import Verdict
    from loopwright.pipeline import Result
    from loopwright.repository.baseline import Baseline
    from loopwright.repository.jobs import Job
    from loopwright.repository.progress import Progress

CLEAN, FAULTS, CANNOT = 0, 1, 2
PLAIN_CHECK: dict[str, object] = {
    "format": "text",
    "mend": False,
    "changed": "",
    "shard": None,
    "skip_excluded": False,
    "out": None,
    "workers": 0,
    "no_cache": False,
    "baseline": None,
    "no_baseline": False,
    "write_baseline": None,
}
"""What ``check`` does where no option says otherwise."""


def main(arguments: list[str] | None = None) -> int:
    """Run the command line; the exit code."""
    if arguments is not None:
        return _answer(arguments)
    code = _answer(sys.argv[1:])
    # The process ends here. Python would first look through all that was made for rubbish, which
    # takes an eighth of a check.
    gc.freeze()
    return code


def _answer(given: list[str]) -> int:
    try:
        told = plain_check(given) or _understood(given)
    except SystemExit as stop:
        return int(stop.code or 0)
    try:
        return _run(told)
    except CannotLook as error:
        _say(f"loopwright: {error}")
        return CANNOT
    except BrokenPipeError:
        # Whoever read our output has gone; there is nobody left to tell.
        _drop_output()
        return CANNOT
    except OSError as error:
        _drop_output()
        _say(f"loopwright: the output cannot be written ({why(error)}).")
        return CANNOT
    except KeyboardInterrupt:
        return 130


def plain_check(given: list[str]) -> Namespace | None:
    """What is told by ``check PATH...`` without any option: that is asked most often, and to
    import argparse takes almost as long as to start Python."""
    command, *paths = given or [""]
    if command != "check" or not paths or any(one[:1] == "-" and one != "-" for one in paths):
        return None
    told = SimpleNamespace(command=command, version=False, paths=paths, **PLAIN_CHECK)
    return cast("Namespace", told)


def _understood(given: list[str]) -> Namespace:
    from loopwright.arguments import parser

    return parser().parse_args(given)


def _run(told: Namespace) -> int:
    if told.version:
        from loopwright import __version__

        _print(f"loopwright {__version__}\n")
        return CLEAN
    if told.command is None:
        from loopwright.arguments import parser

        parser().print_help(sys.stderr)
        return CANNOT
    return COMMANDS[told.command](told)


def _drop_output() -> None:
    """Let what could not be written be forgotten, so that it is not tried again at the end."""
    import os

    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _print(text: str | bytes) -> None:
    """To standard output, as UTF-8 whatever the terminal says, in one piece."""
    out = sys.stdout
    if out is None:
        raise CannotLook("the output cannot be written (it is closed).")
    if hasattr(out, "buffer"):
        out.flush()
        # A file's name need not be text.
        data = text if isinstance(text, bytes) else text.encode("utf-8", "backslashreplace")
        out.buffer.write(data)
        out.buffer.flush()
    elif isinstance(text, str):
        out.write(text)


def _say(text: str) -> None:
    from loopwright.diagnostics.text import visible

    lines = "\n".join(visible(line) for line in text.split("\n"))
    print(lines.encode("ascii", "backslashreplace").decode(), file=sys.stderr)


def _coloured() -> bool:
    import os

    out = sys.stdout
    return (
        out is not None
        and out.isatty()
        and "NO_COLOR" not in os.environ
        and os.environ.get("TERM") != "dumb"
    )


def _job(path: str) -> Job:
    from loopwright.repository.jobs import Desk

    return Desk().job(path)


def _check_file(path: str) -> Result:
    from loopwright.pipeline import check_text

    job = _job(path)
    return check_text(job.name, job.text, job.around)


def check(told: Namespace) -> int:
    """``loopwright check``."""
    from loopwright.diagnostics.reports import NEEDING_DETAIL
    from loopwright.repository.choosing import Choice, chosen
    from loopwright.repository.progress import Progress, on_terminal
    from loopwright.repository.runner import How, verdicts

    paths = chosen(told.paths, Choice(told.changed, told.shard, told.skip_excluded))
    _collect_seldom(len(paths))
    if told.mend:
        _mend(paths)
    how = How(told.format in NEEDING_DETAIL, told.workers, not told.no_cache)
    progress = Progress(len(paths) > 1 and on_terminal())
    found = progress.of(verdicts(paths, how), len(paths))
    if told.write_baseline is not None:
        return _write_baseline(found, told)
    known = _baseline(told)
    if known is None:
        return _report(found, told.format, told.out, progress)
    code = _report(known.without(found), told.format, told.out, progress)
    if known.told():
        _say(known.told())
    return code


def _collect_seldom(files: int) -> None:
    """A check is over in less time than a collection would take, and leaves next to nothing to
    collect."""
    if files < 50:
        gc.disable()
    else:
        gc.freeze()
        gc.set_threshold(100_000, 20, 100)


def _baseline(told: Namespace) -> Baseline | None:
    """The baseline that is named, or that lies where it belongs."""
    import os

    from loopwright.repository.finding import usual_baseline

    path = told.baseline or ("" if told.no_baseline else usual_baseline())
    if not path or (told.baseline is None and not os.path.isfile(path)):
        return None
    from loopwright.repository.baseline import read_baseline

    return read_baseline(path)


def _write_baseline(found: Iterable[Verdict], told: Namespace) -> int:
    from loopwright.repository.baseline import write_baseline
    from loopwright.repository.finding import usual_baseline

    path = told.write_baseline or told.baseline or usual_baseline()
    many = write_baseline(path, found)
    _print(f"{path}: {many:,} {'message' if many == 1 else 'messages'} written down as known.\n")
    return CLEAN


def _report(found: Iterable[Verdict], form: str, out: str | None, progress: Progress) -> int:
    """Print verdicts in a format, or write them; the exit code."""
    from loopwright.diagnostics.reports import report

    errors = 0

    def counted() -> Iterator[Verdict]:
        nonlocal errors
        for one in found:
            errors += one.errors
            yield one

    pieces = report(form)(counted(), out is None and _coloured())
    if out is not None:
        from loopwright.repository.files import write_pieces

        write_pieces(out, pieces)
    elif form == "text":
        for piece in pieces:
            with progress.aside():
                _print(piece)
    else:
        from loopwright.repository.files import in_one_piece

        # Half a document is worse than none: nothing is printed until the last file is checked.
        for piece in in_one_piece(pieces):
            _print(piece)
    return FAULTS if errors else CLEAN


def _mend(paths: list[str]) -> None:
    """Make the safe edits in every file, and show them."""
    from difflib import unified_diff

    from loopwright import pipeline
    from loopwright.diagnostics.text import visible
    from loopwright.repository.files import write
    from loopwright.repository.jobs import Desk

    if "-" in paths:
        raise CannotLook("--mend changes files, and - is not one.")
    desk = Desk()
    jobs = [(path, desk.job(path)) for path in paths]
    mended = [(path, job.text, pipeline.mend(job.text, job.name, job.around)) for path, job in jobs]
    for path, old, new in mended:
        if new != old:
            write(path, new)
            diff = unified_diff(old.split("\n"), new.split("\n"), path, path, "", "", 1, "")
            _print("\n".join(visible(line) for line in diff) + "\n\n")


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
        _say(written(verdict.name, one) + "\n")
    if verdict.clean:
        _say(f"{verdict.name}: this file is there for patterns to use, and holds none.")
    else:
        _say(Totals(verdict).summary())
    return FAULTS


def _give(text: str | bytes, out: str | None) -> None:
    if out is None:
        _print(text)
    else:
        from loopwright.repository.files import write

        write(out, text)


def sheet(told: Namespace) -> int:
    """``loopwright sheet``."""
    from loopwright import api

    job = _job(told.file)
    try:
        made = api.sheet(
            job.text,
            terms=(told.terms or "").upper(),
            form=told.form,
            name=job.name,
            used=job.used,
            settings=job.settings,
        )
    except api.PatternError as error:
        return _refuse(error.verdict)
    _give(made, told.out)
    return CLEAN


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
        _say(f"This is the part {part}; there is also {', '.join(others)} (--part NAME).")
    for hint in hints:
        _say(hint)
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
    from loopwright.repository.build import made

    result = _clean(told.file)
    if result is None or result.checked is None:
        return FAULTS
    from loopwright.diagnostics.text import message

    for one in result.diagnostics:
        _say(message(result.source, one) + "\n")
    listed = _write(told.out, made(result.checked, _name_of(told.file), result.source))
    _print(f"{_summary(result)}\n{listed}")
    return CLEAN


def _name_of(file: str) -> str:
    """What the files that are made of a pattern are called after."""
    import os

    return os.path.splitext(os.path.basename(file))[0] if file != "-" else "pattern"


def _write(folder: str, files: list[tuple[str, str]]) -> str:
    """Write files, as (path, text), into a folder; the list of them for the reader."""
    import os

    from loopwright.repository.files import make_folder, write

    make_folder(folder)
    for path, text in files:
        target = os.path.join(folder, path)
        make_folder(os.path.dirname(target))
        write(target, text)
    listed = "\n".join(f"  {os.path.join(folder, path)}" for path, _ in files)
    return f"Written:\n{listed}\n"


def fits(told: Namespace) -> int:
    """``loopwright fits``."""
    from loopwright import pipeline

    result = _clean(told.file)
    if result is None:
        return FAULTS
    job = _job(told.file)
    _print(pipeline.fits(job.name, job.text, job.around))
    return CLEAN


def sizes(told: Namespace) -> int:
    """``loopwright sizes``."""
    from loopwright import pipeline

    result = _clean(told.file)
    if result is None or result.checked is None:
        return FAULTS
    terms = (told.terms or result.checked.pattern.terms).upper()
    _print(pipeline.sizes(result.checked, terms, told.format, rows=told.rows))
    if told.out is not None:
        from loopwright.repository.build import drawn

        listed = _write(told.out, drawn(result.checked, _name_of(told.file), terms))
        _say(listed.rstrip("\n"))
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

    _print(pipeline.measures(told.group or "", told.format))
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
            _print(new)
        elif new != old and told.check:
            _print(f"{path}: the layout would change\n")
        elif new != old and path != "-":
            write(path, new)
            _print(f"{path}: brought into the canonical layout\n")
    return FAULTS if told.check and changed else CLEAN


def explain(told: Namespace) -> int:
    """``loopwright explain``."""
    from loopwright.repository.explain import every_code, explanation

    if told.code is None:
        _print(every_code())
        return CLEAN
    _print(explanation(told.code))
    return CLEAN


def overview(told: Namespace) -> int:
    """``loopwright overview``."""
    from loopwright.diagnostics.reports.plain import Totals
    from loopwright.repository.choosing import chosen
    from loopwright.repository.overview import made_of, page

    totals = Totals()
    cards = []
    for pattern in made_of(chosen(told.paths)):
        totals.add(pattern.verdict)
        _write(told.out, pattern.files)
        cards.append(pattern.card)
    listed = _write(told.out, [("index.html", page(told.title, totals.summary(), cards))])
    _print(f"{totals.summary()}\n{listed}")
    return FAULTS if totals.errors else CLEAN


def completion(told: Namespace) -> int:
    """``loopwright completion``."""
    from loopwright.arguments import completion as complete

    _print(complete(told.shell))
    return CLEAN


COMMANDS = {
    "check": check,
    "overview": overview,
    "sheet": sheet,
    "chart": chart,
    "build": build,
    "fits": fits,
    "sizes": sizes,
    "kit": kit,
    "measures": measures,
    "tidy": tidy,
    "explain": explain,
    "completion": completion,
}
