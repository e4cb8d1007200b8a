"""The fenced examples of the documentation: found, made whole, and brought up to date.

The first words after a fence say what stands in it:

    pattern                        a whole pattern, clean and without advice
    pattern FILE                   the same, and it is the text of that file
    pattern house ...              the same, held to every rule of a house
    pattern error CODE ...         a pattern that earns these messages and no other
    pattern advice CODE ...        a clean pattern that earns this advice and no other
    rows (error or advice as above)    rows of a part; a first line `# on 10 tr, flat` says on what
    message NAME                   what `check` prints of the pattern above, under that name
    message NAME ~ OLD ~ NEW       the same, after one change of the pattern's text
    sheet uk HEADING               that section of the text sheet of the pattern above
    sh run                         commands; each succeeds, or ends as its `# exit 1` says
    output                         what the commands above print
    python run                     a program
    python-output                  what the program above prints

Run as a program (`python tests/docs_blocks.py`), it writes anew what the program makes: messages,
pieces of sheets, output, pictures and docs/codes.md. Read the difference before keeping it.
"""

from __future__ import annotations

import contextlib
import io
import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from loopwright import pipeline, rendering
from loopwright.checks.house import EVERY_RULE, NO_RULES
from loopwright.cli import main
from loopwright.diagnostics.text import message
from loopwright.explaining import codes_page
from loopwright.syntax.lines import cut

HOUSE = Path(__file__).parent.parent
PAGES = sorted(
    [
        HOUSE / "README.md",
        HOUSE / "DEVELOPERS.md",
        *(HOUSE / "docs").glob("*.md"),
        *(HOUSE / "grammar").glob("*.md"),
    ]
)
REFERENCE = HOUSE / "grammar" / "reference.md"
CODES = HOUSE / "docs" / "codes.md"


class Picture(NamedTuple):
    """A picture of the documentation: the chart of a part of a pattern in its first size."""

    pattern: str
    part: str
    terms: str = "UK"
    kind: str = "symbols"


SCARF = Picture("examples/limpet-scarf", "scarf")
DOILY = "tests/worked/47-pineapple-doily-64"
GALLERY = {
    "hat": Picture("examples/lantern-hat", "hat"),
    "mittens": Picture("examples/breakwater-mittens", "hand"),
    "coaster": Picture("examples/limpet-coaster", "disc", "US"),
    "granny-square": Picture("examples/harbour-square", "square"),
    "hexagon": Picture("examples/urchin-hexagon", "hexagon", "US"),
    "tam": Picture("examples/bollard-tam", "tam"),
    "doily": Picture(DOILY, "doily", "US"),
    "shell-scarf": SCARF,
    "ripple-blanket": Picture("examples/ebb-ripple", "blanket", "US"),
    "filet-square": Picture("examples/sail-filet", "mat"),
    "filet-squares": Picture("examples/sail-filet", "mat", kind="grid"),
    "colourwork": Picture("examples/signal-band", "band", kind="grid"),
    "bobble-cloth": Picture("examples/pebble-cloth", "cloth", "US"),
    "cable-hat": Picture("examples/hawser-hat", "hat"),
    "oval-sole": Picture("examples/driftwood-sole", "sole"),
    "rug": Picture("examples/quay-rug", "rug"),
    "border": Picture("examples/pebble-cloth", "edge", "US"),
    "flower": Picture("tests/worked/96-beeton-dahlia", "flower"),
}
PICTURES = {
    HOUSE / "docs" / "pictures" / "limpet-scarf.svg": SCARF,
    **{HOUSE / "docs" / "gallery" / f"{name}.svg": one for name, one in GALLERY.items()},
}

_FENCE = re.compile(r"^```([^\n`]*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_ON = re.compile(r"# (?:(US), )?on (?:(a magic ring)|(ch \d+)|(\d+) (\w+)), (.+)")
_HEADER = ("measure", "yarn", "hook", "gauge", "tension", "count", "stitch", "sizes", "picture")


@dataclass(frozen=True, slots=True)
class Block:
    """One fenced example: its page, the line it begins on, its words, and the pattern above it."""

    page: Path
    line: int
    info: str
    text: str
    pattern: str = ""

    @property
    def words(self) -> list[str]:
        """The words after the fence."""
        return self.info.split()

    @property
    def kind(self) -> str:
        """What stands in it."""
        return self.words[0] if self.words else ""

    @property
    def name(self) -> str:
        """Where it stands."""
        return f"{self.page.relative_to(HOUSE)}:{self.line}"

    @property
    def codes(self) -> list[str]:
        """The codes that it is said to earn."""
        for word in ("error", "advice"):
            if word in self.words:
                return sorted(self.words[self.words.index(word) + 1 :])
        return []

    @property
    def file(self) -> str:
        """The file that a pattern is the text of, or ``""``."""
        found = [word for word in self.words if word.endswith(".crochet")]
        return found[0] if found else ""


def blocks(page: Path) -> Iterator[Block]:
    """Every fenced example of a page."""
    text = page.read_text("utf-8")
    above = ""
    for match in _FENCE.finditer(text):
        line = text.count("\n", 0, match.start()) + 1
        block = Block(page, line, match[1].strip(), match[2], above)
        yield block
        if block.kind == "pattern":
            above = _of_file(block) or block.text


def _of_file(block: Block) -> str:
    """The text of the file that a pattern is to be the same as, where there is one."""
    path = HOUSE / block.file
    return path.read_text("utf-8") if path.is_file() else ""


def around(block: Block) -> pipeline.Around:
    """What a block is checked with: the files that stand above it on its page, and where it says
    so the rules of a house."""
    above = [one for one in blocks(block.page) if one.line < block.line and one.kind == "pattern"]
    used = {one.file: one.text for one in above if one.file and not _of_file(one)}
    told = above[-1] if block.kind == "message" else block
    house = EVERY_RULE if "house" in told.words else NO_RULES
    return pipeline.Around(used, house=house)


def whole(block: Block) -> str:
    """A pattern block, or rows made into a pattern."""
    return block.text if block.kind == "pattern" else completed(block.text)


def completed(rows: str) -> str:
    """Rows under the lines that they need above them."""
    on = _ON.match(rows)
    terms = "US" if on and on[1] else "UK"
    lines = [line for _, line in cut(rows)]
    header = [line for line in lines if line.split(maxsplit=1)[0].rstrip(":") in _HEADER]
    rest = [line for line in lines if line not in header]
    begin = ["pattern: Example", f"terms: {terms}", *header]
    if on:
        start = on[3] or (f"{on[4]} foundation {on[5]}" if on[4] else "magic ring")
        begin += [f"part piece: {on[6].strip()}", f"start: {start}"]
    return "\n".join([*begin, *rest]) + "\n"


def codes_of(text: str) -> list[str]:
    """The codes of all messages on a pattern."""
    return sorted(one.code for one in pipeline.check_text("example", text).diagnostics)


def messages(block: Block) -> str:
    """What a message block should say."""
    head, *change = block.info.split(" ~ ")
    text = block.pattern
    if change:
        old, new = change
        assert text.count(old) == 1, f"{block.name}: `{old}` does not stand there once"
        text = text.replace(old, new)
    result = pipeline.check_text(head.split()[1], text, around(block))
    return "\n\n".join(message(result.source, one) for one in result.diagnostics) + "\n"


def sheet_piece(block: Block) -> str:
    """What a sheet block should say."""
    checked = pipeline.check_text("example", block.pattern).checked
    assert checked is not None, block.name
    page = rendering.sheet(checked, block.words[1].upper(), "text").split("\n")
    heading = " ".join(block.words[2:])
    at = next(n for n, line in enumerate(page) if line == heading and page[n + 1][:2] == "--")
    ends = (n for n in range(at + 2, len(page)) if page[n][:2] == "--" and page[n - 1])
    return "\n".join(page[at : next(ends, len(page) + 1) - 1]).strip() + "\n"


def picture(path: Path) -> str:
    """What a picture should be."""
    pattern, part, terms, kind = PICTURES[path]
    text = (HOUSE / f"{pattern}.crochet").read_text("utf-8")
    checked = pipeline.check_text(pattern, text).checked
    assert checked is not None
    return rendering.chart(checked, part, 0, terms, kind=kind)


@dataclass(frozen=True, slots=True)
class Ran:
    """A command of a shell block: what was asked, how it should end, how it ended."""

    command: str
    wanted: int
    code: int
    out: str


def run_shell(block: Block, folder: Path) -> list[Ran]:
    """Run the commands of a block in a folder that holds the examples and the page's patterns."""
    shutil.copytree(HOUSE / "examples", folder / "examples", dirs_exist_ok=True)
    for one in blocks(block.page):
        if one.kind == "pattern" and one.file and not _of_file(one):
            (folder / one.file).write_text(one.text, "utf-8")
    return [_run(line, folder) for line in block.text.splitlines()]


def _run(line: str, folder: Path) -> Ran:
    command, _, told = line.partition("#")
    program, *arguments = command.split()
    assert program == "loopwright", line
    wanted = int(told.split()[1]) if told.strip().startswith("exit") else 0
    here = os.getcwd()
    out = io.StringIO()
    os.chdir(folder)
    try:
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(io.StringIO()):
            code = main(arguments)
    finally:
        os.chdir(here)
    return Ran(command.strip(), wanted, code, out.getvalue())


def printed(block: Block) -> str:
    """What an output block should say: what the commands of the block before it print."""
    before = [one for one in blocks(block.page) if one.line < block.line][-1]
    with tempfile.TemporaryDirectory() as folder:
        return "".join(one.out for one in run_shell(before, Path(folder)))


def python_printed(block: Block) -> str:
    """What a python-output block should say: what the program before it prints."""
    program = [one for one in blocks(block.page) if one.line < block.line][-1]
    assert program.info == "python run", block.name
    done = subprocess.run(
        [sys.executable, "-c", program.text], capture_output=True, text=True, check=True
    )
    return done.stdout


MADE: dict[str, Callable[[Block], str]] = {
    "message": messages,
    "sheet": sheet_piece,
    "output": printed,
    "python-output": python_printed,
}


def made(block: Block) -> str | None:
    """What the program makes of a block, or None where the block is written by hand."""
    if block.kind == "pattern":
        return _of_file(block) or None
    return MADE[block.kind](block) if block.kind in MADE else None


def refresh() -> list[Path]:
    """Write anew everything that the program makes; the files that changed."""
    changed = _write(CODES, codes_page())
    for path in PICTURES:
        changed += _write(path, picture(path))
    for page in PAGES:
        new = iter([(made(block) or block.text) for block in blocks(page)])
        text = page.read_text("utf-8")
        text = _FENCE.sub(lambda match, new=new: f"```{match[1]}\n{next(new)}```", text)  # type: ignore[misc]
        changed += _write(page, text)
    return changed


def _write(path: Path, new: str) -> list[Path]:
    if path.exists() and path.read_text("utf-8") == new:
        return []
    path.write_bytes(new.encode("utf-8"))
    return [path]


if __name__ == "__main__":
    for one in refresh():
        sys.stdout.write(f"{one.relative_to(HOUSE)}\n")
