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


def notice(old: str, new: str, form: str, language: str = "en") -> str:
    """What is said of it in a form."""
    before, after = pipeline.check_text("old", old), pipeline.check_text("new", new)
    assert after.checked is not None, after.diagnostics
    return rendering.compare(before, after.checked, "UK", form, language)


def compared(old: str, new: str) -> dict[str, Any]:
    """What is found, as data that keeps to the schema."""
    told: dict[str, Any] = json.loads(notice(old, new, "json"))
    SCHEMA.validate(told)
    for form in ("text", "markdown"):
        assert notice(old, new, form).strip()
    french = json.loads(notice(old, new, "json", "fr"))
    SCHEMA.validate(french)
    assert (french["language"], french["terms"]) == ("fr", None)
    same = ("line", "kind", "sizes", "counts")
    assert [[one[key] for key in same] for one in french["rows"]] == [
        [one[key] for key in same] for one in told["rows"]
    ]
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
        ("hook", ["large"], "4 mm", "4.5 mm"),
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
    assert "- **Finished size, hat, height" in answer.out
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


def test_every_line_that_changed_has_what_it_was() -> None:
    """Where the words are the same in both editions, that is said, with what is not the same."""
    # Every other row of the stripes is of the other yarn; the words of round 3 are as before.
    striped = HAT.replace("hook main: 4 mm\n", 'hook main: 4 mm\nyarn foam: "DK wool"\n', 1)
    old = striped.replace("start:", "stripes: 2 rows slate, 2 rows foam\nstart:")
    new = striped.replace("start:", "stripes: 1 row slate, 3 rows foam\nstart:")
    told = compared(old, new)
    assert ("round 2", "work", BOTH) in rows(told)
    second = next(one for one in told["rows"] if one["line"] == "round 2")
    assert second["was"] == second["now"]
    as_before = "It reads as before, and is worked differently because of what changed elsewhere."
    for form in ("text", "markdown"):
        said = " ".join(notice(old, new, form).split())
        after = said.split("Hat, round 2")[1]
        text = second["now"].replace("[", "\\[").replace("]", "\\]")
        text = second["now"] if form == "text" else text
        assert after.lower().index("before: ") < after.index(as_before)
        assert after.count(text) >= 2
    for form in ("text", "markdown"):
        said = notice(old, new, form)
        changed_lines = [one for one in told["rows"] if one["was"] is not None]
        assert said.lower().count("before: ") >= len(changed_lines)


def test_rounds_are_called_rounds_and_rows_rows() -> None:
    """2 (4) times round 3 in place of 2 (3): 4 rounds in place of 3."""
    told = changed("2 (3) more times", "2 (4) more times")
    assert [one["in_rounds"] for one in told["rows"]] == [True]
    said = notice(HAT, HAT.replace("2 (3) more times", "2 (4) more times"), "text")
    assert said.splitlines()[1:3] == ["", "Rounds"]
    assert "    3 rounds before, now 4\n" in said
    assert " row" not in said.split("Sizes and materials")[0]
    flat = """pattern: Slack Water Strip
terms: UK
part strip: flat
start: ch 11
row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
row 2: ch 1, dc in each st across = 10 sts
repeat row 2: 3 more times
"""
    said = notice(flat, flat.replace("3 more", "1 more"), "text")
    assert said.splitlines()[1:3] == ["", "Rows"]
    assert "    3 rows before, now 1\n" in said
    assert " round" not in said


SIZED = """pattern: Spring Tide Band
terms: UK
sizes: small (large)
hook main: 4 mm
measure head: 50 (56) cm
count body: 40 (48)
yarn slate: "DK wool", 50 g = 110 m, weight 3
tension plain: 20 sts and 10 rounds to 10 cm in dc, hook main, yarn slate
about: A band of {body} sts.
part band: in rounds, yarn slate, hook main, tension plain
start: ch body, join into ring
round 1: ch 1, [dc] around, join = body sts
repeat round 1: until 5 (6) cm
next round: ch 1, [dc] around, join = 40 sts (small), 48 sts (large)
next round (large only): ch 1, [dc] around, join
note: Fold {body} sts in half.
comes out at: 20 (24) cm around
"""


@pytest.mark.parametrize(
    ("old", "new", "lines"),
    [
        # 5 cm are 5 rounds of 1 cm either way; only the large band grows, by one round.
        ("until 5 (6) cm", "until 5 (7) cm", [("repeat round 1", "times", ["large"])]),
        ("until 5 (6) cm", "until 50 (60) mm", [("repeat round 1", "wording", BOTH)]),
        ("[dc] around, join\nnote", "dc in each st around, join\nnote",
         [("next round", "wording", ["large"])]),
        ("20 (24) cm around", "20 (25) cm around", [("comes out at", "work", ["large"])]),
        ("next round (large only)", "next round", [("next round", "added", ["small"])]),
        ("next round (large only)", "next round (small only)",
         [("next round", "added", ["small"]), ("next round", "removed", ["large"])]),
    ],
)  # fmt: skip
def test_only_the_sizes_that_changed_are_named(old: str, new: str, lines: list[object]) -> None:
    assert old in SIZED
    told = compared(SIZED, SIZED.replace(old, new))
    assert rows(told) + rows(told, "wording") == lines


def test_a_text_that_prints_a_count_changes_in_its_sizes_only() -> None:
    """44 sts in place of 48 in the large size; the small one reads as before."""
    bare = [line for line in SIZED.splitlines() if "48" not in line or "count" in line]
    old = "\n".join(bare) + "\n"
    told = compared(old, old.replace("count body: 40 (48)", "count body: 40 (44)"))
    assert rows(told, "wording") == [("note", "wording", ["large"])]
    assert told["texts"] == [
        {
            "what": "text",
            "name": "about",
            "sizes": ["large"],
            "was": "A band of 48 sts.",
            "now": "A band of 44 sts.",
        }
    ]
    told = compared(old, old.replace("50 (56) cm", "50 (57) cm"))
    assert [(one["what"], one["sizes"]) for one in told["facts"]] == [("measure", ["large"])]


def test_what_the_sheet_tells_as_before_is_no_change() -> None:
    """`2 dc` and `[dc] 2 times` are one sentence of the sheet."""
    told = compared(HAT.replace("[3 tr, fptr]", "[[tr] 3 times, fptr]"), HAT)
    assert told["same"]


def test_a_stitch_in_a_note_is_told_in_the_readers_terms() -> None:
    old = HAT.replace("version: 1", "version: 1\nabout: All in {tr}.")
    told = compared(old, old.replace("All in {tr}.", "Mostly {tr}."))
    assert [(one["was"], one["now"]) for one in told["texts"]] == [("All in tr.", "Mostly tr.")]


def test_in_french() -> None:
    """Translated by hand; 2 (4) times round 3 in place of 2 (3)."""
    new = HAT.replace("2 (3) more times", "2 (4) more times").replace("note: Try", "note: Now try")
    said = notice(HAT, new, "markdown", "fr").replace("\u00a0", " ")
    head, rest = said.split("## Tailles et fournitures")
    assert (
        head
        == """# Erratum : Harbour Hat

En termes français.

Les nombres sont donnés pour les tailles small (large).

## Corrections

**Hat, répéter le tour 3 (taille large)** se lit maintenant :

> Répéter le tour 3 encore 2 (4) fois : 5 (7) tours en tout. 40 (48) m.

Avant : Répéter le tour 3 encore 2 (3) fois : 5 (6) tours en tout. 40 (48) m.

"""
    )
    assert "- **Fil nécessaire, slate, taille large** : " in rest
    assert "- **Taille finie, hat, hauteur, sur l’ouvrage, taille large** : " in rest
    assert rest.endswith(
        "## Formulation\n\nRien ne se travaille autrement pour autant.\n\n"
        "- **Hat, remarque** : Now try it on. (avant : Try it on.)\n"
    )
    said = notice(HAT, new, "text", "fr").replace("\u00a0", " ")
    assert "  Hat, répéter le tour 3, taille large : répété plus ou moins de fois\n" in said
    assert "    3 tours avant, maintenant 4\n" in said


def test_a_language_that_there_is_not(loopwright: Loopwright, tmp_path: Path) -> None:
    file = tmp_path / "hat.crochet"
    file.write_text(HAT, encoding="utf-8")
    answer = loopwright("compare", str(file), str(file), "--language", "xx")
    assert (answer.code, answer.out) == (2, "")
    assert "there is no language `xx`; there is en, fr." in answer.err
    answer = loopwright("compare", str(file), str(file), "--language", "fr", "--terms", "us")
    assert answer.code == 2
    assert "another language has terms of its own" in answer.err
    answer = loopwright("compare", str(file), str(file), "--language", "FR")
    assert (answer.code, answer.out) == (
        0, "Harbour Hat, 1\nRien n’a changé pour qui réalise l’ouvrage.\n"
    )  # fmt: skip


MITTENS = (EXAMPLES[0].parent / "breakwater-mittens.crochet").read_text("utf-8")
EDITED = (
    ("4 mm\n", "4 (4, 4.5) mm\n"),
    ("repeat round 3: until 5 (6, 7) cm", "repeat round 3: until 5 (6, 8) cm"),
    ("rounds 2-5: ch 2, [tr] around, join", "rounds 2-6: ch 2, [tr] around, join"),
    ("round 6: ch 2, [tr2tog] around", "round 7: ch 2, [tr2tog] around"),
)
"""The mittens' next edition: another hook and a longer hand for the largest, a longer thumb."""
KEPT = HOUSE / "tests" / "golden" / "compare"


def goldens() -> dict[str, str]:
    """What is said of the mittens' next edition, in every form, by the name of its file."""
    new = MITTENS
    for was, now in EDITED:
        new = new.replace(was, now)
    return {
        f"mittens-{language}.{ending}": notice(MITTENS, new, form, language)
        for form, ending in (("text", "txt"), ("markdown", "md"), ("json", "json"))
        for language in ("en", "fr")
    }


def test_the_words_are_those_that_were_read() -> None:
    assert {path.name: path.read_text("utf-8") for path in KEPT.iterdir()} == goldens()


if __name__ == "__main__":
    KEPT.mkdir(exist_ok=True)
    for name, told in goldens().items():
        (KEPT / name).write_text(told, "utf-8")
