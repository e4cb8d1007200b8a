"""What changed between two editions, as a maker would have it: expected values by hand."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from conftest import Loopwright
from loopwright import pipeline, rendering
from support import EXAMPLES, HOUSE, WORKED, text_of
from test_both_terms import translated

SCHEMA = Draft202012Validator(json.loads((HOUSE / "docs" / "changes.schema.json").read_text()))
HAT = """pattern: Harbour Hat
terms: UK
version: 1
sizes: small (large)
yarn slate: "DK wool", 50 g = 110 m, weight 3
hook main: 4 mm
tension hat: 20 sts and 10 rounds to 10 cm in tr, hook main, yarn slate
count body: 40 (48)
part hat: in rounds, yarn slate, hook main, tension hat
start: ch body, join into ring
round 1: ch 1, [dc] around, join = body sts
round 2: ch 2, [3 tr, fptr] around, join = body sts
round 3: ch 2, [tr in each of next 3 tr, fptr around next fptr] around, join = body sts
repeat round 3: 2 (3) more times
next round: ch 2, [tr2tog, 2 tr] around, join = {body * 3 / 4} sts
note: Try it on.
gather: last round
"""


def compared(old: str, new: str) -> dict[str, Any]:
    """What is found, as data that keeps to the schema."""
    before, after = pipeline.check_text("old", old), pipeline.check_text("new", new)
    assert after.checked is not None, after.diagnostics
    told: dict[str, Any] = json.loads(rendering.compare(before, after.checked, "UK", "json"))
    SCHEMA.validate(told)
    for form in ("text", "markdown"):
        assert rendering.compare(before, after.checked, "UK", form).strip()
    return told


def rows(told: dict[str, Any], what: str = "rows") -> list[tuple[str, str, list[str]]]:
    return [(one["line"], one["kind"], one["sizes"]) for one in told[what]]


def changed(old: str, new: str, text: str = HAT) -> dict[str, Any]:
    assert old in text
    return compared(text, text.replace(old, new))


BOTH = ["small", "large"]


def test_nothing() -> None:
    told = compared(HAT, HAT)
    assert told["same"]
    assert not any(told[one] for one in ("rows", "facts", "wording", "texts"))


def test_other_stitches_in_a_row() -> None:
    """Of every 4 stitches 2 are left in place of 3: 20 (24) in place of 30 (36)."""
    told = changed(
        "[tr2tog, 2 tr] around, join = {body * 3 / 4} sts",
        "[2 tr2tog] around, join = {body / 2} sts",
    )
    assert rows(told) == [("next round", "work", BOTH)]
    assert told["rows"][0]["counts"] == {
        "small": {"sts": {"was": 30, "now": 20}, "rows": {"was": 1, "now": 1}},
        "large": {"sts": {"was": 36, "now": 24}, "rows": {"was": 1, "now": 1}},
    }
    assert told["rows"][0]["now"].startswith("Next round: Ch 2, [[tr2tog over next 2 sts] 2 times]")


def test_one_size_only() -> None:
    told = changed("count body: 40 (48)", "count body: 40 (52)")
    assert {one for _, _, sizes in rows(told) for one in sizes} == {"large"}
    assert [line for line, _, _ in rows(told)] == [
        "start", "round 1", "round 2", "round 3", "repeat round 3", "next round",
    ]  # fmt: skip


def test_more_or_fewer_times() -> None:
    told = changed("2 (3) more times", "2 (4) more times")
    assert rows(told) == [("repeat round 3", "times", ["large"])]
    assert told["rows"][0]["counts"]["large"]["rows"] == {"was": 3, "now": 4}


def test_the_same_work_in_other_words_is_wording() -> None:
    told = changed("round 1: ch 1, [dc] around, join", "round 1: ch 1, dc in each ch around, join")
    assert rows(told) == []
    assert rows(told, "wording") == [("round 1", "wording", BOTH)]
    told = changed("note: Try it on.", "note: Try it on now.")
    assert rows(told, "wording") == [("note", "wording", BOTH)]
    told = changed("count body: 40 (48)", "count body: 40 (48)\ncount half: {body / 2}\n")
    assert told["same"]


def test_a_number_at_the_end_that_was_wrong() -> None:
    """An old edition that did not come out: 40 / 4 * 3 = 30, 48 / 4 * 3 = 36."""
    told = compared(HAT.replace("{body * 3 / 4} sts", "31 (36) sts"), HAT)
    assert told["old_faults"] == 1
    assert rows(told) == [("next round", "count", ["small"])]
    assert told["rows"][0]["counts"]["small"]["sts"] == {"was": 31, "now": 30}
    assert told["rows"][0]["was"].endswith("= 31 (36) sts")


def test_a_row_put_in_moves_the_others_and_changes_none() -> None:
    old = HAT.replace("[tr in each of next 3 tr, fptr around next fptr]", "[tr]")
    new = old.replace("round 3:", "round 3: ch 1, [dc] around, join = body sts\nround 4:", 1)
    told = compared(old, new.replace("repeat round 3", "repeat round 4"))
    assert rows(told) == [
        ("round 3", "added", BOTH),
        ("round 4", "renumbered", BOTH),
        ("repeat round 4", "renumbered", BOTH),
    ]
    assert told["rows"][0]["was"] is None


def test_a_row_taken_out() -> None:
    told = changed("gather: last round\n", "")
    assert rows(told) == [("gather", "removed", BOTH)]
    assert told["rows"][0]["now"] is None


def test_sizes_and_materials() -> None:
    told = changed("sizes: small (large)", "sizes: small (grown)")
    assert told["sizes"] == ["small"]
    assert [(one["name"], one["was"], one["now"]) for one in told["facts"]][:2] == [
        ("large", "large", None),
        ("grown", None, "grown"),
    ]
    told = changed("hook main: 4 mm", "hook main: 4 (4.5) mm")
    assert [(one["what"], one["sizes"], one["was"], one["now"]) for one in told["facts"]] == [
        ("hook", [], "4 mm", None),
        ("hook", ["small"], None, "4 mm"),
        ("hook", ["large"], None, "4.5 mm"),
    ]
    told = changed("50 g = 110 m", "50 g = 100 m")
    assert told["facts"][0]["what"] == "yarn"
    assert rows(told) == []


def test_a_yarn_under_another_name_changes_no_row() -> None:
    told = compared(HAT, HAT.replace("slate", "rock"))
    assert rows(told) == []
    assert {one["what"] for one in told["facts"]} <= {"yarn", "amount"}


def test_how_large_it_comes_out_and_what_it_takes() -> None:
    """20 sts to 10 cm: 40 sts are 20 cm around; 25 to 10 cm: 16 cm."""
    told = changed("20 sts and 10 rounds", "25 sts and 10 rounds")
    around = next(one for one in told["facts"] if one["name"].startswith("hat, around"))
    assert (around["was"][:5], around["now"][:5]) == ("20 cm", "16 cm")
    assert rows(told) == []
    told = changed("2 (3) more times", "9 (3) more times")
    amounts = [one["sizes"] for one in told["facts"] if one["what"] == "amount"]
    assert amounts == [["small"]]


@pytest.mark.parametrize("path", [*EXAMPLES, *WORKED], ids=lambda path: path.stem)
def test_a_pattern_in_the_other_terms_is_the_same_work(path: Path) -> None:
    text = text_of(path)
    new = pipeline.check_text("new", translated(text))
    if new.checked is None:
        assert not pipeline.check_text("old", text).clean
        return
    old = pipeline.check_text("old", text)
    told = json.loads(rendering.compare(old, new.checked, "UK", "json"))
    SCHEMA.validate(told)
    assert told["rows"] == []
    assert told["wording"] == []


def test_the_notice_is_ready_to_post(loopwright: Loopwright, tmp_path: Path) -> None:
    old, new = tmp_path / "old.crochet", tmp_path / "new.crochet"
    old.write_text(HAT, encoding="utf-8")
    new.write_text(
        HAT.replace("version: 1", "version: 2").replace("2 (3) more", "2 (4) more"), "utf-8"
    )
    answer = loopwright("compare", str(old), str(new), "--format", "markdown", "--terms", "us")
    assert answer.code == 0
    # Three rounds are written, two and four repeated: 5 and 7 in all, before 5 and 6.
    assert (
        answer.out
        == """# Erratum: Harbour Hat

Version 2 (before: 1). In US terms.

Numbers are given for the sizes small (large).

## Corrections

**Hat, repeat round 3 (size large)** now reads:

> Repeat round 3 another 2 (4) times: 5 (7) rounds in all. 40 (48) sts.

Before: Repeat round 3 another 2 (3) times: 5 (6) rounds in all. 40 (48) sts.

## Sizes and materials

"""
        + answer.out.split("## Sizes and materials\n\n")[1]
    )
    assert "- **Yarn needed, slate, size large**:" in answer.out
    assert "- **Finished size, hat, high" in answer.out
    out = tmp_path / "notice.md"
    again = loopwright(
        "compare", str(old), str(new), "--format", "markdown", "--terms", "us", "-o", str(out)
    )
    assert (again.code, again.out) == (0, "")
    assert out.read_text(encoding="utf-8") == answer.out


def test_hostile_words_stay_words(loopwright: Loopwright, tmp_path: Path) -> None:
    bad = "</script><script>x</script> **b** [a](javascript:x) `c` {{ 7 * 7 }} \\ # | &lt;"
    old, new = tmp_path / "old.crochet", tmp_path / "new.crochet"
    old.write_text(HAT, encoding="utf-8")
    new.write_text(
        HAT.replace("Try it on.", bad.replace("{", "").replace("}", "")), encoding="utf-8"
    )
    answer = loopwright("compare", str(old), str(new), "--format", "markdown")
    assert answer.code == 0
    told = answer.out.split("## Wording")[1]
    for sign in "<>*[]`|":
        assert told.count(sign) - told.count("\\" + sign) == (4 if sign == "*" else 0)


def test_what_cannot_be_compared(loopwright: Loopwright, tmp_path: Path) -> None:
    good, bad = tmp_path / "good.crochet", tmp_path / "bad.crochet"
    good.write_text(HAT, encoding="utf-8")
    bad.write_text(HAT.replace("[dc] around", "[dc, 2 tr] around"), encoding="utf-8")
    answer = loopwright("compare", str(good), str(bad))
    assert (answer.code, answer.out) == (1, "")
    assert "repeat-does-not-fit" in answer.err
    answer = loopwright("compare", str(bad), str(good))
    assert answer.code == 0
    assert "The old edition did not come out" in answer.out
    bad.write_text("no pattern at all\n", encoding="utf-8")
    answer = loopwright("compare", str(bad), str(good))
    assert answer.code == 2
    assert "this pattern cannot be understood" in answer.err
    answer = loopwright("compare", str(good), str(tmp_path / "none.crochet"))
    assert answer.code == 2
