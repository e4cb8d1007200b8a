"""A pattern as it is worked: every row once, in order, each with its own numbers.

Expected numbers are worked out by hand from the patterns beside them.
"""

from __future__ import annotations

import re
from base64 import b64encode
from hashlib import sha256
from pathlib import Path

import pytest

from loopwright import pipeline, rendering
from loopwright.ir.checked import Checked
from loopwright.render.prose.at_hook import AtHook, Told, at_hook, voices
from loopwright.render.sheet.working import MOST_STEPS, working
from support import EXAMPLES, WORKED

HEAD = "pattern: A Trial\nterms: UK\n"
PLAIN = "row 1: dc in 2nd ch from hook, [dc] across = 10 sts\nrow 2: ch 1, [dc] across = 10 sts\n"


def checked(text: str) -> Checked:
    result = pipeline.check_text("trial", text)
    assert result.checked is not None, result.diagnostics
    return result.checked


def told(whole: AtHook, size: int = 0, part: int = 0, terms: int = 0) -> list[tuple[str, Told]]:
    """Every step of a part as the maker meets it, with its label filled in."""
    out = []
    for stretch in whole.sizes[size].parts[part].stretches:
        for nth, step in enumerate(stretch.steps.expand()):
            one = whole.steps[step].told[terms]
            number = stretch.first + nth if stretch.first else 0
            out.append((one.label.replace("{}", str(number)), one))
    return out


def worked(text: str, terms: int = 0) -> list[tuple[str, str, str]]:
    whole = at_hook(checked(text), voices().values())
    return [(label, one.text, one.count) for label, one in told(whole, terms=terms)]


def test_rows_of_a_repeat_are_rows_like_others() -> None:
    text = f"{HEAD}part cloth: flat\nstart: ch 11\n{PLAIN}repeat row 2: 2 more times\n"
    again = ("Ch 1, 1 dc in each of next 10 sts.", "10 sts.")
    assert worked(text) == [
        ("Start", "Ch 11.", ""),
        ("Row 1", "1 dc in 2nd ch from hook, 1 dc in each of next 9 ch.", "10 sts."),
        ("Row 2", *again),
        ("Row 3", *again),
        ("Row 4", *again),
    ]


def test_a_row_has_the_numbers_of_its_own_working() -> None:
    """Six increases a round: 6, 12, 18; and then each round once more, by its number."""
    text = f"""{HEAD}part disc: in a spiral
start: magic ring
round 1: 6 dc in ring = 6 sts
rounds 2-3 as r: [{{r - 2}} dc, dc inc] 6 times = {{6 * r}} sts
rounds 4-5: [dc] around = 18 sts
"""
    assert worked(text, 1)[2:] == [
        ("Round 2", "2 sc in each of next 6 sts.", "12 sts."),
        ("Round 3", "[1 sc in next st, 2 sc in next st] 6 times.", "18 sts."),
        ("Round 4", "1 sc in each of next 18 sts.", "18 sts."),
        ("Round 5", "1 sc in each of next 18 sts.", "18 sts."),
    ]


def test_rows_of_a_list_come_at_their_numbers() -> None:
    text = f"""{HEAD}part cloth: flat
start: ch 11
row 1: dc in 2nd ch from hook, [dc] across = 10 sts
rows 2 and 4: ch 2, [tr] across = 10 sts
row 3: ch 1, [dc] across = 10 sts
row 5: as row 3
row 6 (RS): as row 2
"""
    assert [(label, text.split()[3]) for label, text, _ in worked(text)[2:]] == [
        ("Row 2", "tr"), ("Row 3", "dc"), ("Row 4", "tr"), ("Row 5", "dc"), ("Row 6 (RS)", "tr"),
    ]  # fmt: skip


def test_only_what_is_worked_in_a_size_is_met_in_it() -> None:
    text = f"""{HEAD}sizes: small (large)
count wide: 10 (12)
part cloth: flat
start: ch {{wide + 1}}
row 1: dc in 2nd ch from hook, [dc] across = wide sts
row 2 (large only): ch 1, [dc] across = wide sts
row 3: ch 1, [dc] across = wide sts
repeat row 3: 0 (1) more times
note: It is {{wide}} wide.
"""
    whole = at_hook(checked(text), voices().values())
    small = [label for label, _ in told(whole, 0)]
    large = [label for label, _ in told(whole, 1)]
    assert small[:3] == ["Start", "Row 1", "Row 3"]
    assert large == ["Start", "Row 1", "Row 2", "Row 3", "Row 4", "Note"]
    assert told(whole, 0)[-1][1].text == "It is 10 wide."
    assert told(whole, 1)[0][1].text == "Ch 13."


def test_stripes_name_the_yarn_of_each_row() -> None:
    text = f"""{HEAD}yarn red: "wool"
yarn blue: "wool"
part cloth: flat
stripes: 1 row red, 1 row blue
start: ch 11
{PLAIN}repeat row 2: 1 more times
"""
    whole = at_hook(checked(text), voices().values())
    assert [one.about for label, one in told(whole) if label.startswith("Row")] == [
        ("Yarn: red.",), ("Yarn: blue.",), ("Yarn: red.",),
    ]  # fmt: skip


def test_parts_made_several_times_and_the_finishing_last() -> None:
    text = f"""{HEAD}part cloth: flat, make 3
start: ch 11
{PLAIN}finish: Sew them together.
"""
    size = at_hook(checked(text), voices().values()).sizes[0]
    assert [(part.name, part.copies) for part in size.parts] == [("Cloth", 3), ("Finishing", 1)]


def test_as_many_steps_as_are_written_however_many_are_worked() -> None:
    text = f"{HEAD}part cloth: flat\nstart: ch 11\n{PLAIN}repeat row 2: 999999 more times\n"
    whole = at_hook(checked(text), voices().values())
    assert len(whole.steps) == 3
    assert sum(one.steps.length for one in whole.sizes[0].parts[0].stretches) == 1_000_002


def test_more_rows_than_a_script_can_count_are_not_offered() -> None:
    text = f"{HEAD}part cloth: flat\nstart: ch 11\n{PLAIN}repeat row 2: {MOST_STEPS} more times\n"
    pattern = checked(text)
    speakers = voices()
    assert working(pattern.pattern, at_hook(pattern, speakers.values()), {}, {}) is None
    page = rendering.sheet(pattern, "UK", "html")
    assert "more rows than this page could tick off" in page
    assert "<script" not in page


@pytest.mark.parametrize("path", [*EXAMPLES, *WORKED], ids=lambda path: path.stem)
def test_every_row_that_was_worked_is_met_in_order(path: Path) -> None:
    result = pipeline.check_text(path.stem, path.read_bytes().decode("utf-8"))
    if result.checked is None:
        assert not result.clean
        return
    whole = at_hook(result.checked, voices().values())
    parts = result.checked.pattern.parts
    for size, fabric in zip(whole.sizes, result.checked.fabrics, strict=True):
        for part in size.parts[: len(parts)]:
            if part.index < 0:
                continue
            rows = sum(len(rows) * times for rows, times in fabric.parts[part.index].rows)
            met = sum(one.steps.length for one in part.stretches if one.first)
            setup = sum(
                line.setup for line in parts[part.index].lines if getattr(line, "setup", False)
            )
            assert met + setup == rows


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_page_allows_its_own_script_and_styles_and_nothing_else(path: Path) -> None:
    page = rendering.sheet(checked(path.read_text(encoding="utf-8")), "US", "html")
    policy = re.search(r'http-equiv="Content-Security-Policy" content="([^"]*)"', page)
    assert policy
    allowed = policy[1].replace("&#39;", "'")
    for tag in ("script", "style"):
        found = re.findall(rf"<{tag}>(.*?)</{tag}>", page, re.DOTALL)
        assert len(found) == 1
        hashed = b64encode(sha256(found[0].encode()).digest()).decode()
        assert f"{tag}-src 'sha256-{hashed}'" in allowed
    assert "unsafe" not in allowed
    assert "default-src 'none'" in allowed
    assert "style=" not in page
    assert not re.search(r"\son\w+=", page)


def test_every_phrase_of_the_page_is_a_phrase() -> None:
    """Nothing stands in the page that is a thing of the program's own."""
    page = rendering.sheet(checked(EXAMPLES[0].read_text(encoding="utf-8")), "UK", "html")
    assert " object at 0x" not in page
    assert "{{" not in page
