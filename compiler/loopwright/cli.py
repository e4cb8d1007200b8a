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

    from loopwright.pipeline import Result

CLEAN, FAULTS, CANNOT = 0, 1, 2


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
    told = SimpleNamespace(command=command, version=False, paths=paths, format="text", mend=False)
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

    return sys.stdout.isatty() and "NO_COLOR" not in os.environ and os.environ.get("TERM") != "dumb"


def _check_file(path: str) -> Result:
    from loopwright.pipeline import check_text
    from loopwright.repository.files import read

    return check_text("standard input" if path == "-" else path, read(path))


def check(told: Namespace) -> int:
    """``loopwright check``."""
    from loopwright.repository.files import find

    paths = find(told.paths)
    # A check is over in less time than a collection would take.
    if len(paths) < 50:
        gc.disable()
    if told.mend:
        _mend(paths)
    results = [_check_file(path) for path in paths]
    if told.format == "json":
        import json

        from loopwright.report import whole_report

        _print(json.dumps(whole_report(results), ensure_ascii=False, indent=1) + "\n")
    else:
        _print(_messages(results) + _summary(results) + "\n")
    return CLEAN if all(result.clean for result in results) else FAULTS


def _mend(paths: list[str]) -> None:
    """Make the safe edits in every file, and show them."""
    from difflib import unified_diff

    from loopwright import pipeline
    from loopwright.diagnostics.text import visible
    from loopwright.repository.files import read, write

    if "-" in paths:
        raise CannotLook("--mend changes files, and - is not one.")
    texts = [(path, read(path)) for path in paths]
    mended = [(path, old, pipeline.mend(old)) for path, old in texts]
    for path, old, new in mended:
        if new != old:
            write(path, new)
            diff = unified_diff(old.split("\n"), new.split("\n"), path, path, "", "", 1, "")
            _print("\n".join(visible(line) for line in diff) + "\n\n")


def _messages(results: list[Result]) -> str:
    found = [(result.source, one) for result in results for one in result.diagnostics]
    if not found:
        return ""
    from loopwright.diagnostics.text import message

    colour = _coloured()
    return "".join(message(source, one, colour=colour) + "\n\n" for source, one in found)


def _summary(results: list[Result]) -> str:
    """The last line: what was checked, and how it stands."""
    from loopwright.diagnostics import ADVICE, ERROR

    fabrics = [fabric for result in results for fabric in result.fabrics]
    sizes = len(fabrics)
    rows = sum(fabric.rows for fabric in fabrics)
    stitches = sum(fabric.stitches for fabric in fabrics)
    patterns = f"{_n(len(results), 'pattern')}, " if len(results) > 1 else ""
    checked = (
        f"{patterns}{_n(sizes, 'size')}, {_n(rows, 'row')}, {_n(stitches, 'stitch', 'stitches')}"
    )
    severities = [one.severity for result in results for one in result.diagnostics]
    errors, advice = severities.count(ERROR), severities.count(ADVICE)
    also = f" ({advice} of advice)" if advice else ""
    if not errors:
        return f"{checked}: every count comes out.{also}"
    return f"{checked}: {_n(errors, 'error')}.{also}"


def _n(n: int, one: str, many: str = "") -> str:
    return f"{n:,} {one if n == 1 else many or one + 's'}"


def _clean(path: str) -> Result | None:
    """A pattern that has no errors, or None after its messages were printed."""
    result = _check_file(path)
    if result.checked is None:
        from loopwright.diagnostics.text import message

        for one in result.diagnostics:
            _say(message(result.source, one) + "\n")
        _say(_summary([result]))
        return None
    return result


def _give(text: str | bytes, out: str | None) -> None:
    if out is None:
        _print(text)
    else:
        from loopwright.repository.files import write

        write(out, text)


def sheet(told: Namespace) -> int:
    """``loopwright sheet``."""
    from loopwright import pipeline

    result = _clean(told.file)
    if result is None or result.checked is None:
        return FAULTS
    from loopwright.repository.wording import ENGLISH, in_size, language, style

    checked, code = in_size(result.checked, told.size), language(told.language)
    if told.terms and code != ENGLISH:
        raise CannotLook("--terms is UK or US English; another language has terms of its own.")
    terms = (told.terms or checked.pattern.terms).upper()
    text = pipeline.sheet(checked, terms, told.form, language=code, style=style(told.style))
    _give(text, told.out)
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
    from loopwright.repository.build import made, slug

    result = _clean(told.file)
    if result is None or result.checked is None:
        return FAULTS
    from loopwright.diagnostics.text import message

    for one in result.diagnostics:
        _say(message(result.source, one) + "\n")
    from loopwright.repository.wording import in_size, language, style

    checked, name = in_size(result.checked, told.size), _name_of(told.file)
    name = f"{name}-{slug(told.size)}" if told.size is not None else name
    files = made(checked, name, result.source, language(told.language), style(told.style))
    listed = _write(told.out, files)
    _print(f"{_summary([result])}\n{listed}")
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
    _print(pipeline.fits(result.source.name, result.source.text))
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

    texts = [(path, read(path)) for path in find(told.paths)]
    changed = [(path, new) for path, old in texts if (new := pipeline.tidy(old)) != old]
    if told.check:
        _print("".join(f"{path}: the layout would change\n" for path, _ in changed))
        return FAULTS if changed else CLEAN
    for path, text in changed:
        if path != "-":
            write(path, text)
            _print(f"{path}: brought into the canonical layout\n")
    if told.paths == ["-"]:
        _print(changed[0][1] if changed else texts[0][1])
    return CLEAN


def explain(told: Namespace) -> int:
    """``loopwright explain``."""
    from loopwright.repository.explain import every_code, explanation

    _print(every_code() if told.code is None else explanation(told.code))
    return CLEAN


COMMANDS = {
    "check": check,
    "sheet": sheet,
    "chart": chart,
    "build": build,
    "compare": compare,
    "fits": fits,
    "sizes": sizes,
    "kit": kit,
    "measures": measures,
    "tidy": tidy,
    "explain": explain,
}
