"""The commands and their arguments, as they are declared.

    declare(commands, "sheet")

``commands`` is argparse's, which ``usage`` asks, or the ``Plain`` one of ``plain``, which takes
what is asked in the plainest way without argparse.
"""

from __future__ import annotations

from typing import Any, Protocol

SMALLEST, LARGEST = 0.1, 20
"""What a chart may be scaled by."""


class Takes(Protocol):
    """What takes arguments."""

    def add_argument(self, *names: str, **how: Any) -> Any:
        """Declare one, as argparse has it."""

    def add_mutually_exclusive_group(self) -> Any:
        """What takes arguments of which one alone may be given."""


class Commands(Protocol):
    """What takes commands."""

    def add_parser(self, name: str, **how: Any) -> Any:
        """Declare one; what takes its arguments."""


def declare(commands: Commands, asked: str = "") -> None:
    """Declare one command where one is asked for that there is, because to prepare for all of them
    takes as long as to read a pattern; else all."""
    for add in (ADD[asked],) if asked in ADD else ADD.values():
        add(commands)


def _wrong(said: str) -> Exception:
    """What to raise of an argument that cannot be."""
    from argparse import ArgumentTypeError

    return ArgumentTypeError(said)


def _check(commands: Commands) -> None:
    from loopwright import REPORTS

    one = commands.add_parser("check", help="check patterns; says what does not come out")
    one.add_argument(
        "paths",
        nargs="*",
        metavar="PATH",
        help="a pattern, a folder, or - for input; default: `paths` of the settings",
    )
    one.add_argument("--format", choices=REPORTS, default="text", help="of the report")
    one.add_argument("-o", dest="out", metavar="OUT", help="write the report to this file")
    one.add_argument(
        "--mend", action="store_true", help="make the changes that cannot alter what is meant"
    )
    of_git = one.add_mutually_exclusive_group()
    of_git.add_argument(
        "--changed",
        nargs="?",
        const="HEAD",
        metavar="REV",
        help="only what git says changed since then (default: the last commit), and what uses it",
    )
    of_git.add_argument(
        "--staged",
        action="store_true",
        help="only what the next commit changes, and what uses it; all that git knows if it"
        " changes nothing",
    )
    one.add_argument(
        "--shard", type=_share_of, metavar="K/N", help="only share K of N of the files"
    )
    _skip_excluded(one)
    _known_already(one)


def _skip_excluded(one: Takes) -> None:
    one.add_argument(
        "--skip-excluded",
        action="store_true",
        help="leave out what the settings exclude, even a file that is named",
    )


def _known_already(one: Takes) -> None:
    """What is worked anew, what is taken from before, and what is told of it."""
    one.add_argument(
        "--workers",
        type=_workers,
        default=0,
        metavar="N",
        help="check with so many processes (default: one for each processor, where it pays)",
    )
    one.add_argument("--no-cache", action="store_true", help="check what is known already too")
    one.add_argument(
        "--write-baseline",
        nargs="?",
        const="",
        metavar="FILE",
        help="write today's messages down as known, so that only new ones are told from now on"
        " (default: loopwright-baseline.json at the root of the repository)",
    )
    one.add_argument("--baseline", metavar="FILE", help="leave out what is known from this file")
    one.add_argument("--no-baseline", action="store_true", help="tell what is known too")


def _workers(text: str) -> int:
    if not (text.isdecimal() and text.isascii()) or not 0 < int(text[:6]) <= 1000:
        raise _wrong(f"{text} is not a number of processes, as in --workers 2")
    return int(text)


def _share_of(text: str) -> tuple[int, int]:
    share, _, of = text.partition("/")
    if not all(one.isdecimal() and one.isascii() and len(one) < 6 for one in (share, of)):
        raise _wrong(f"{text} is not a share, as in --shard 3/8")
    if not 1 <= int(share) <= int(of):
        raise _wrong(f"there is no share {share} of {of}")
    return int(share), int(of)


def _overview(commands: Commands) -> None:
    one = commands.add_parser("overview", help="a page of all patterns, with sheets and charts")
    one.add_argument("paths", nargs="*", metavar="PATH", help="default: `paths` of the settings")
    one.add_argument("-o", dest="out", metavar="DIR", required=True)
    one.add_argument("--title", default="All patterns", help="of the page")
    one.add_argument("--no-cache", action="store_true", help="make what is known already too")


def _sheet(commands: Commands) -> None:
    one = commands.add_parser("sheet", help="print the written pattern")
    one.add_argument("file", metavar="FILE")
    one.add_argument("--terms", type=str.lower, choices=("uk", "us"), help="default: as written")
    one.add_argument("--form", choices=("html", "pdf", "markdown", "text"), default="text")
    _wording(one)
    _paper(one)
    one.add_argument("-o", dest="out", metavar="OUT", help="write to this file")


def _wording(one: Takes) -> None:
    """What a sheet is to say, and how."""
    one.add_argument("--size", metavar="NAME", help="that size's numbers alone")
    one.add_argument("--style", metavar="STYLE", default="plain", help="plain, compact or a .toml")
    _language(one)


def _language(one: Takes) -> None:
    one.add_argument("--language", metavar="CODE", default="en", help="en, or fr for French")


def _paper(one: Takes) -> None:
    """What a PDF is made for."""
    one.add_argument("--paper", choices=("a4", "letter"), help="of a PDF; default: a4")
    one.add_argument("--large-print", dest="large", action="store_true", help="of a PDF")


def _chart(commands: Commands) -> None:
    one = commands.add_parser("chart", help="draw the chart of a part, or tell it in words")
    one.add_argument("file", metavar="FILE")
    one.add_argument("--part", help="default: the first part")
    one.add_argument("--size", help="default: the first size")
    one.add_argument("--terms", type=str.lower, choices=("uk", "us"), help="of the key")
    _language(one)
    one.add_argument(
        "--kind",
        choices=("symbols", "grid"),
        help="of symbols, or a grid of squares (default for filet and colourwork)",
    )
    one.add_argument("--rows", type=_rows, metavar="3-12", help="only these rows")
    one.add_argument("--whole", action="store_true", help="draw every repeat")
    one.add_argument(
        "--form",
        choices=("svg", "png", "text"),
        help="text: row by row, for screen readers (default: as OUT ends, else svg)",
    )
    one.add_argument(
        "--scale", type=_scale, metavar="N", help="how large: 1 is 96 dots to the inch (png: 2)"
    )
    one.add_argument("-o", dest="out", metavar="OUT", help="write to this file")


def _rows(text: str) -> tuple[int, int]:
    first, dash, last = text.replace("–", "-").partition("-")
    numbers = [one.strip() for one in ((first, last) if dash else (first,))]
    if not all(one.isdecimal() and one.isascii() and len(one) < 13 for one in numbers):
        raise _wrong(f"{text} are no rows; write --rows 3-12, or --rows 7")
    low, high = int(numbers[0]), int(numbers[-1])
    if low < 1:
        raise _wrong(f"{text} are no rows: they are counted from 1")
    if high < low:
        raise _wrong(f"{text} runs backwards; write --rows {high}-{low}")
    return low, high


def _scale(text: str) -> float:
    whole, _, rest = text.partition(".")
    digits = whole + rest
    if not (digits.isdecimal() and digits.isascii() and len(digits) < 9):
        raise _wrong(f"{text} is not a number, as in --scale 2 or --scale 1.5")
    if not SMALLEST <= float(text) <= LARGEST:
        raise _wrong(f"{text} is not between {SMALLEST} and {LARGEST}")
    return float(text)


def _build(commands: Commands) -> None:
    one = commands.add_parser("build", help="check, then write sheets in both terms and charts")
    one.add_argument("file", metavar="FILE")
    _wording(one)
    one.add_argument("--pdf", action="store_true", help="and the sheets as PDF")
    _paper(one)
    one.add_argument("-o", dest="out", metavar="DIR", required=True)


def _compare(commands: Commands) -> None:
    one = commands.add_parser(
        "compare",
        help="what changed for a maker from OLD to NEW",
        usage="loopwright compare [options] OLD NEW\n"
        "       loopwright compare [options] --since REV FILE",
    )
    one.add_argument(
        "files",
        nargs="+",
        metavar="FILE",
        help="the pattern as it was, and as it is now; with --since only as it is now",
    )
    one.add_argument(
        "--since",
        metavar="REV",
        help="take the old edition, what it uses and its settings as git has them there",
    )
    one.add_argument("--terms", type=str.lower, choices=("uk", "us"), help="default: as NEW has it")
    _language(one)
    one.add_argument(
        "--format",
        choices=("text", "markdown", "json"),
        default="text",
        help="markdown is a notice ready to be posted",
    )
    one.add_argument("-o", dest="out", metavar="OUT", help="write to this file")


def _fits(commands: Commands) -> None:
    one = commands.add_parser("fits", help="which values of each count come out")
    one.add_argument("file", metavar="FILE")


def _sizes(commands: Commands) -> None:
    one = commands.add_parser("sizes", help="how large each part comes out, in every size")
    one.add_argument("file", metavar="FILE")
    one.add_argument("--terms", type=str.lower, choices=("uk", "us"), help="default: as written")
    one.add_argument("--rows", action="store_true", help="every row as well")
    one.add_argument("--format", choices=("text", "json"), default="text")
    one.add_argument("-o", dest="out", metavar="DIR", help="and draw every part, into this folder")


def _kit(commands: Commands) -> None:
    one = commands.add_parser("kit", help="what yarn each size takes, and what goes in the bag")
    one.add_argument("file", metavar="FILE")
    one.add_argument("--bags", type=_some, metavar="N", help="and what to dye or order for N bags")
    one.add_argument("--margin", type=_share, metavar="P", help="with P%% more yarn for them")
    one.add_argument("--format", choices=("text", "csv", "json"), default="text")
    one.add_argument("-o", dest="out", metavar="OUT", help="write to this file")


def _some(text: str) -> int:
    if not (text.isdecimal() and text.isascii()) or not 0 < int(text[:12]) <= 1_000_000:
        raise _wrong(f"{text} is not a number of bags (1 to 1000000)")
    return int(text)


def _share(text: str) -> str:
    number = text.removesuffix("%").strip()
    whole, _, rest = number.partition(".")
    if not (number.isascii() and len(number) < 9 and whole.isdecimal()) or not (
        rest.isdecimal() or number == whole
    ):
        raise _wrong(f"{text} is not so many percent, as in --margin 10")
    return number


def _measures(commands: Commands) -> None:
    one = commands.add_parser("measures", help="the standard measures of heads, hands and feet")
    one.add_argument("group", nargs="?", choices=("head", "hand", "foot"), help="default: all")
    one.add_argument("--format", choices=("text", "json"), default="text")


def _tidy(commands: Commands) -> None:
    one = commands.add_parser("tidy", help="bring patterns into the canonical layout")
    one.add_argument("paths", nargs="+", metavar="PATH", help="a pattern, a folder, or - for input")
    one.add_argument("--check", action="store_true", help="only say what would change")
    _skip_excluded(one)


def _explain(commands: Commands) -> None:
    one = commands.add_parser("explain", help="what a message means, and how to mend it")
    one.add_argument("code", metavar="CODE", nargs="?", help="without one: every code")


def _completion(commands: Commands) -> None:
    one = commands.add_parser("completion", help="print what lets a shell complete commands")
    one.add_argument("shell", choices=SHELLS)


SHELLS = ("bash", "zsh", "fish")
ADD = {
    "check": _check,
    "overview": _overview,
    "sheet": _sheet,
    "chart": _chart,
    "build": _build,
    "compare": _compare,
    "fits": _fits,
    "sizes": _sizes,
    "kit": _kit,
    "measures": _measures,
    "tidy": _tidy,
    "explain": _explain,
    "completion": _completion,
}
"""What adds the arguments of each command."""
