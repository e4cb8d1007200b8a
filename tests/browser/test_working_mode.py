"""The working mode in a real browser: what a maker sees, taps and types, and keeps.

Expected rows and counts are worked out by hand from the patterns: the mittens' cuff has 28, 34 and
40 rows, their hand 28, 32 and 36 stitches.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Playwright, expect

from browser.conftest import FLAGS, Open, page_of
from loopwright import rendering
from loopwright.ir.items import Kind
from loopwright.pipeline import check_text
from support import EXAMPLES

Example = Callable[[str], Path]
ANY = Kind("st")


def begin(page: Page, size: str = "", terms: str = "UK") -> None:
    """Into the working mode, with a size and terms."""
    page.get_by_role("button", name="Work from it, row by row").click()
    if size:
        page.get_by_label(size, exact=True).check()
    page.get_by_label(f"{terms} terms").check()
    page.get_by_role("button", name="Begin").click()


def done(page: Page, times: int = 1) -> None:
    for _ in range(times):
        page.get_by_role("button", name="Done").click()


def stands(page: Page, label: str, text: str) -> None:
    expect(page.locator("#hook-label")).to_have_text(label)
    expect(page.locator("#hook-text")).to_have_text(text)


def test_one_row_at_a_time_in_the_size_and_terms_chosen(examples: Example, visit: Open) -> None:
    page = visit(examples("breakwater-mittens"))
    begin(page, "woman", "US")
    stands(page, "Start", "Ch 13.")
    done(page, 3)
    stands(page, "Row 3", "Ch 1, 1 sc blo in each st across.")
    expect(page.locator("#hook-count")).to_have_text("12 sts.")
    expect(page.locator("#hook-why")).to_have_text(
        "Repeat row 2 until there are 34 rows in all (another 32 times)."
    )
    done(page, 31)
    stands(page, "Row 34", "Ch 1, 1 sc blo in each st across.")
    done(page, 2)
    stands(page, "Note", "The row ends of the cuff are now a ring of 34 rows.")
    # The second cuff: its start, 34 rows, the seam and the note.
    done(page)
    stands(page, "Start", "Ch 13.")
    done(page, 36)
    stands(page, "Note", "The row ends of the cuff are now a ring of 34 rows.")
    done(page, 3)
    stands(
        page, "Round 2", "Ch 2, [1 dc in each of next 3 sts, 1 fpdc around next st] 8 times, join."
    )
    expect(page.locator("#hook-count")).to_have_text("32 sts.")
    page.get_by_role("button", name="Back").click()
    expect(page.locator("#hook-label")).to_have_text("Round 1")


def test_terms_and_size_can_be_changed_and_the_place_stays(examples: Example, visit: Open) -> None:
    page = visit(examples("breakwater-mittens"))
    begin(page, "man", "UK")
    done(page, 2)
    stands(page, "Row 2", "Ch 1, 1 dc blo in each st across.")
    page.get_by_role("button", name="Size and terms").click()
    page.get_by_label("US terms").check()
    page.get_by_role("button", name="Begin").click()
    stands(page, "Row 2", "Ch 1, 1 sc blo in each st across.")
    page.get_by_role("button", name="Size and terms").click()
    page.get_by_label("child", exact=True).check()
    page.get_by_role("button", name="Begin").click()
    stands(page, "Start", "Ch 13.")
    page.get_by_role("button", name="Size and terms").click()
    page.get_by_label("man", exact=True).check()
    page.get_by_role("button", name="Begin").click()
    expect(page.locator("#hook-label")).to_have_text("Row 2")


def test_the_place_is_kept_when_the_browser_is_closed(
    examples: Example, playwright: Playwright, chromium_path: str, tmp_path: Path
) -> None:
    address = examples("breakwater-mittens").as_uri()
    for visit in (1, 2):
        context = playwright.chromium.launch_persistent_context(
            str(tmp_path), executable_path=chromium_path, args=FLAGS
        )
        page = context.new_page()
        page.goto(address)
        if visit == 1:
            begin(page, "man", "US")
            done(page, 5)
            page.locator("#hook-stitch").click(click_count=3)
        else:
            page.get_by_role("button", name="Work from it, row by row").click()
        expect(page.locator("#hook-label")).to_have_text("Row 5")
        expect(page.locator("#hook-stitches")).to_have_text("3")
        expect(page.locator("#hook-mine")).to_have_text("man, US terms")
        context.close()


def test_by_keyboard_alone_from_the_top_to_the_end(examples: Example, visit: Open) -> None:
    page = visit(examples("limpet-coaster"))
    press = page.keyboard.press
    focused = "document.activeElement.id"
    for _ in range(5):
        press("Tab")
        if page.evaluate(focused) == "hook-open":
            break
    press("Enter")
    expect(page.locator("#hook-setup-title")).to_be_focused()
    press("Tab")
    assert page.evaluate(focused) == "hook-choose-US"
    press("ArrowUp")
    assert page.evaluate(focused) == "hook-choose-UK"
    press("Enter")
    stands(page, "Start", "Make a magic ring.")
    press("ArrowRight")
    stands(page, "Round 1", "6 dc in ring.")
    for _ in range(9):
        press("Tab")
        if page.evaluate(focused) == "hook-stitch":
            break
    for key, count in (("Space", "1"), ("Enter", "2"), ("ArrowUp", "3"), ("ArrowDown", "2")):
        press(key)
        expect(page.locator("#hook-stitches")).to_have_text(count)
    for _ in range(4):
        press("Space")
    expect(page.locator("#hook-counter")).to_have_class("full")
    press("Tab")
    press("Enter")
    expect(page.locator("#hook-stitches")).to_have_text("5")
    press("Tab")
    press("Enter")
    expect(page.locator("#hook-stitches")).to_have_text("0")
    # Start, nine rounds and the finishing are eleven steps, of which one is done.
    for _ in range(9):
        press("ArrowRight")
    stands(page, "Finishing", "Fasten off.")
    press("ArrowRight")
    stands(page, "Finished", "Every row is ticked off.")
    expect(page.locator("#hook-done")).to_be_disabled()
    press("ArrowLeft")
    stands(page, "Finishing", "Fasten off.")
    press("ArrowLeft")
    expect(page.locator("#hook-label")).to_have_text("Round 9")


def test_the_focus_can_be_seen_and_nothing_takes_it_away(examples: Example, visit: Open) -> None:
    page = visit(examples("breakwater-mittens"), width=320, height=640)
    begin(page, "child")
    done(page, 2)
    seen = set()
    for _ in range(14):
        page.keyboard.press("Tab")
        told = page.evaluate(
            """() => {
                const one = document.activeElement, box = one.getBoundingClientRect();
                const bar = document.querySelector(".hook-bar").getBoundingClientRect();
                return {id: one.id || one.tagName, width: getComputedStyle(one).outlineWidth,
                        hidden: !one.closest(".hook-bar") && box.top >= bar.top};
            }"""
        )
        if told["id"] == "BODY":
            continue
        seen.add(told["id"])
        assert told["width"] == "3px", told
        assert not told["hidden"], told
    assert {"hook-choose", "hook-close", "hook-stitch", "hook-done", "hook-back"} <= seen


def test_counting_by_tap(examples: Example, visit: Open) -> None:
    page = visit(examples("limpet-coaster"), has_touch=True, is_mobile=True)
    page.locator("#hook-open").tap()
    page.get_by_role("button", name="Begin").tap()
    page.get_by_role("button", name="Done").tap()
    for _ in range(6):
        page.locator("#hook-stitch").tap()
    expect(page.locator("#hook-stitches")).to_have_text("6")
    expect(page.locator("#hook-goal")).to_have_text("/ 6")
    page.get_by_role("button", name="One stitch less").tap()
    expect(page.locator("#hook-stitches")).to_have_text("5")
    page.get_by_role("button", name="Done").tap()
    expect(page.locator("#hook-stitches")).to_have_text("0")
    expect(page.locator("#hook-goal")).to_have_text("/ 12")


def test_long_enough_goes_on_to_what_comes_next(examples: Example, visit: Open) -> None:
    page = visit(examples("tideline-cowl"))
    begin(page, "short")
    done(page, 4)
    expect(page.locator("#hook-label")).to_have_text("Round 4")
    page.get_by_role("button", name="Long enough").click()
    # At 8.5 rounds to 10 cm the tension would have it go on to round 18.
    expect(page.locator("#hook-label")).to_have_text("Round 19")
    expect(page.locator("#hook-enough")).to_be_hidden()


def test_going_to_a_row_by_its_number(examples: Example, visit: Open) -> None:
    page = visit(examples("breakwater-mittens"))
    begin(page, "man")
    page.get_by_text("Go to another row").click()
    page.locator("#hook-to-part").select_option("Thumb")
    page.get_by_label("Row or round").fill("4")
    page.get_by_role("button", name="Go there").click()
    stands(page, "Round 4", "Ch 2, 1 tr in each of next 8 sts, join.")
    expect(page.locator("#hook-part")).to_have_text("Thumb 1 / 2")


def test_the_row_s_own_symbols_are_lit_and_no_others(examples: Example, visit: Open) -> None:
    page = visit(examples("breakwater-mittens"))
    begin(page, "child")
    page.get_by_text("Go to another row").click()
    page.locator("#hook-to-part").select_option("Hand")
    for number in ("2", "6"):
        page.get_by_label("Row or round").fill(number)
        page.get_by_role("button", name="Go there").click()
        lit = page.locator(".hook-chart:not([hidden]) .lit")
        assert lit.evaluate_all("all => all.map(one => one.dataset.row)") == [number]
        expect(lit).to_be_in_viewport(ratio=0.01)
    # Not by colour alone: the lines are heavier, and the number larger and bold.
    widths = page.evaluate(
        """() => [".lit", '[data-row="3"]'].map((row) => parseFloat(getComputedStyle(
            document.querySelector(`.hook-chart:not([hidden]) ${row} .line`)).strokeWidth))"""
    )
    assert widths[0] >= 2 * widths[1]


def test_a_row_that_is_not_drawn_is_shown_by_one_that_is_worked_the_same(
    examples: Example, visit: Open
) -> None:
    page = visit(examples("breakwater-mittens"))
    begin(page, "child")
    done(page, 20)
    expect(page.locator("#hook-label")).to_have_text("Row 20")
    lit = page.locator(".hook-chart:not([hidden]) .lit")
    expect(lit).to_have_attribute("data-row", "2")
    expect(page.locator("#hook-like")).to_have_text(
        "The chart shows this row as row 2, which is worked the same."
    )


def test_nothing_is_fetched_and_it_works_without_a_network(
    examples: Example, browser: Browser
) -> None:
    context = browser.new_context(offline=True)
    page = context.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    address = examples("float-ball").as_uri()
    page.goto(address)
    begin(page)
    done(page, 3)
    expect(page.locator("#hook-label")).to_have_text("Round 3")
    assert {one.split("#")[0] for one in asked} == {address}
    context.close()


def test_without_storage_it_works_and_says_so(examples: Example, browser: Browser) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.add_init_script(
        "Object.defineProperty(window, 'localStorage', {get() { throw new Error('no') }})"
    )
    page.goto(examples("limpet-coaster").as_uri())
    begin(page)
    done(page, 2)
    expect(page.locator("#hook-label")).to_have_text("Round 2")
    expect(page.locator("#hook-unkept")).to_be_visible()
    context.close()


def test_a_pattern_that_has_changed_says_so_once(tmp_path: Path, browser: Browser) -> None:
    text = next(path for path in EXAMPLES if path.stem == "limpet-coaster").read_text("utf-8")
    path = page_of(text, tmp_path)
    context = browser.new_context()
    page = context.new_page()
    page.goto(path.as_uri())
    begin(page)
    done(page, 2)
    expect(page.locator("#hook-changed")).to_be_hidden()
    page_of(text.replace("rounds 2-9", "rounds 2-8"), tmp_path)
    page.reload()
    expect(page.locator("#hook-label")).to_have_text("Round 2")
    expect(page.locator("#hook-changed")).to_be_visible()
    done(page)
    expect(page.locator("#hook-changed")).to_be_hidden()
    context.close()


def test_what_is_kept_may_be_rubbish(examples: Example, browser: Browser) -> None:
    for rubbish in (
        "no json",
        "7",
        '{"places": 3}',
        '{"places": {"one size": 1e99}, "terms": "x"}',
    ):
        context = browser.new_context()
        page = context.new_page()
        errors: list[str] = []
        page.on("pageerror", lambda error, errors=errors: errors.append(str(error)))
        page.goto(examples("limpet-coaster").as_uri())
        page.evaluate("told => localStorage.setItem('loopwright: Limpet Coaster', told)", rubbish)
        page.reload()
        begin(page)
        expect(page.locator("#hook-label")).to_be_visible()
        assert errors == []
        context.close()


def test_the_browser_s_own_way_back_leads_to_the_pattern(examples: Example, visit: Open) -> None:
    page = visit(examples("limpet-coaster"))
    begin(page)
    expect(page.locator("#sheet")).to_be_hidden()
    page.go_back()
    expect(page.locator("#sheet")).to_be_visible()
    expect(page.locator("#hook")).to_be_hidden()
    assert page.evaluate("document.activeElement.id") == "hook-open"
    page.go_forward()
    stands(page, "Start", "Make a magic ring.")
    page.get_by_role("button", name="Pattern").click()
    expect(page.locator("#sheet")).to_be_visible()


def test_without_a_script_the_sheet_is_whole_and_offers_nothing(
    examples: Example, visit: Open
) -> None:
    page = visit(examples("limpet-scarf"), java_script_enabled=False)
    expect(page.get_by_role("heading", level=1)).to_have_text("Limpet Scarf")
    expect(page.get_by_text("Ch 26 (44).")).to_be_visible()
    expect(page.locator("#hook-open")).to_be_hidden()
    expect(page.locator("#hook")).to_be_hidden()


def test_paper_shows_the_sheet_whatever_the_screen_shows(examples: Example, visit: Open) -> None:
    page = visit(examples("limpet-scarf"))
    begin(page, "wide")
    page.emulate_media(media="print")
    expect(page.locator("#sheet")).to_be_visible()
    expect(page.locator("#hook")).to_be_hidden()
    expect(page.locator("#hook-open")).to_be_hidden()


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_row_of_every_size_comes_once_with_its_own_count(
    path: Path, examples: Example, visit: Open
) -> None:
    checked = check_text(path.stem, path.read_text(encoding="utf-8")).checked
    assert checked is not None
    page = visit(examples(path.stem))
    sizes = checked.pattern.sizes
    for index, size in enumerate(sizes):
        if index == 0:
            begin(page, size if len(sizes) > 1 else "")
        else:
            page.get_by_role("button", name="Size and terms").click()
            page.get_by_label(size, exact=True).check()
            page.get_by_role("button", name="Begin").click()
        told = page.evaluate(
            """() => {
                const out = [], done = document.getElementById("hook-done");
                const read = (id) => document.getElementById(id).textContent;
                while (!done.disabled && out.length < 5000) {
                    out.push([read("hook-label").split(" ")[0], read("hook-goal")]);
                    done.click();
                }
                return out;
            }"""
        )
        shown = [goal for label, goal in told if label in ("Row", "Round")]
        made = [
            f"/ {n}" if (n := dict(row.counts).get(ANY, 0)) else ""
            for part, written in zip(
                checked.fabrics[index].parts, checked.pattern.parts, strict=True
            )
            for _ in range(written.make[index] if written.make else 1)
            for stretch, times in part.rows
            for _ in range(times)
            for row in stretch
        ]
        assert shown == made


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_at_320_pixels_nothing_runs_out_sideways_and_every_target_is_large(
    path: Path, examples: Example, visit: Open
) -> None:
    page = visit(examples(path.stem), width=320, height=640)
    wide = "document.documentElement.scrollWidth"
    page.get_by_role("button", name="Work from it, row by row").click()
    assert page.evaluate(wide) == 320
    page.get_by_role("button", name="Begin").click()
    for _ in range(25):
        assert page.evaluate(wide) == 320
        small = page.evaluate(
            """() => [...document.querySelectorAll("#hook button, #hook summary")]
                .map((one) => [one.id, one.getBoundingClientRect()])
                .filter(([, box]) => box.width && (box.width < 44 || box.height < 44))
                .map(([id]) => id)"""
        )
        assert small == []
        if page.locator("#hook-done").is_disabled():
            break
        done(page)


def test_nothing_moves(examples: Example, visit: Open) -> None:
    page = visit(examples("limpet-coaster"))
    begin(page)
    moving = page.evaluate(
        """() => [...document.querySelectorAll("*")].filter((one) => {
            const style = getComputedStyle(one);
            return style.animationName !== "none" || style.scrollBehavior !== "auto"
                || style.transitionDuration.split(", ").some((each) => parseFloat(each) > 0);
        }).length"""
    )
    assert moving == 0


def test_hostile_words_are_only_words(tmp_path: Path, visit: Open) -> None:
    bad = "</script><script>window.bad = 1</script><img src=x onerror='window.bad = 1'>"
    text = f"""pattern: Coaster {bad}
terms: UK
sizes: small (large)
part disc: in a spiral
start: magic ring
note: Mind {bad}
round 1: 6 dc in ring = 6 sts "{bad}"
finish: {bad}
"""
    page = visit(page_of(text, tmp_path))
    begin(page, "large")
    expect(page.locator("#hook-title")).to_have_text(f"Coaster {bad}")
    done(page)
    stands(page, "Note", f"Mind {bad}")
    done(page)
    expect(page.locator("#hook-about")).to_have_text(bad)
    done(page)
    stands(page, "Finishing", bad)
    assert page.evaluate("window.bad") is None


def test_a_page_in_another_language_speaks_it_at_the_hook_too(tmp_path: Path, visit: Open) -> None:
    text = next(path for path in EXAMPLES if path.stem == "limpet-coaster").read_text("utf-8")
    checked = check_text("coaster", text).checked
    assert checked is not None
    path = tmp_path / "coaster-fr.html"
    path.write_text(rendering.sheet(checked, "UK", "html", language="fr"), encoding="utf-8")
    page = visit(path)
    page.get_by_role("button", name="Travailler rang par rang").click()
    # It has one size, and the terms of one language: there is nothing to choose.
    expect(page.locator("#hook-setup fieldset:visible")).to_have_count(0)
    page.get_by_role("button", name="Commencer").click()
    page.get_by_role("button", name="Fait").click()
    expect(page.locator("#hook-label")).to_have_text("Tour 1")
    expect(page.locator("#hook-now")).to_have_attribute("lang", "fr")


def test_a_page_for_one_size_asks_for_none(tmp_path: Path, visit: Open) -> None:
    text = next(path for path in EXAMPLES if path.stem == "limpet-scarf").read_text("utf-8")
    checked = check_text("scarf", text).checked
    assert checked is not None
    path = tmp_path / "scarf.html"
    path.write_text(rendering.sheet(rendering.one_size(checked, 1), "UK", "html"), encoding="utf-8")
    page = visit(path)
    begin(page)
    stands(page, "Start", "Ch 44.")
