"""`explain`: every code says its rule, why it matters, and shows a pattern that earns it and one
that does not. The examples are worked here, so that none of them can go stale."""

from __future__ import annotations

import pytest

from loopwright.asked import CannotAnswer
from loopwright.diagnostics import RULES, Diagnostic
from loopwright.diagnostics.catalogue import by_group
from loopwright.explaining import around, every_code, explained, explanation
from loopwright.pipeline import check_text
from loopwright.source import Source

by_code = pytest.mark.parametrize("code", RULES)


def earned(code: str) -> Diagnostic:
    """The message that the first example is there for."""
    messages = check_text("example", explained(code).breaks, around(explained(code))).diagnostics
    (message,) = (one for one in messages if one.code == code)
    return message


@by_code
def test_the_first_example_earns_this_message_and_no_other(code: str) -> None:
    messages = check_text("example", explained(code).breaks, around(explained(code))).diagnostics
    assert [one.code for one in messages] == [code], [one.text for one in messages]
    assert earned(code).severity == explained(code).severity


@by_code
def test_the_second_example_is_clean(code: str) -> None:
    messages = check_text("example", explained(code).keeps, around(explained(code))).diagnostics
    assert messages == ()


@by_code
def test_the_two_examples_differ_by_little(code: str) -> None:
    breaks, keeps = (explained(code).breaks.split("\n"), explained(code).keeps.split("\n"))
    changed = [line for line in breaks if line not in keeps]
    added = [line for line in keeps if line not in breaks]
    assert len(changed) <= 2
    assert len(added) <= 2


@by_code
def test_the_message_says_how_to_put_it_right(code: str) -> None:
    message = earned(code)
    assert message.hints
    for sentence in (message.text, *message.hints):
        assert sentence.rstrip()[-1] in ".?", sentence
        assert "  " not in sentence
        assert sentence[0].isupper() or sentence[0] in "`0123456789", sentence


@by_code
def test_what_is_underlined_is_not_empty(code: str) -> None:
    source = Source("example", explained(code).breaks)
    line, _ = source.position(earned(code).span.start)
    assert source.line(line).strip()


@by_code
def test_an_explanation_holds_rule_reason_and_both_patterns(code: str) -> None:
    text, parts = explanation(code), explained(code)
    assert text.startswith(code)
    assert parts.rule.endswith(".")
    assert parts.why.endswith(".")
    assert f"  {code}" in text.split("\n", 1)[1]
    for line in parts.breaks.splitlines() + parts.keeps.splitlines():
        assert f"    {line}\n" in text


def test_the_list_has_every_code_once() -> None:
    listed = [line.split()[0] for line in every_code().splitlines() if line.startswith("  ")]
    assert sorted(word for word in listed if word in RULES) == sorted(RULES)


def test_an_unknown_code_is_answered_with_the_nearest() -> None:
    with pytest.raises(CannotAnswer, match="Did you mean `count-differs`"):
        explanation("count-difers")


def test_every_code_is_listed_once_whatever_its_group() -> None:
    listed = [code for codes in by_group().values() for code in codes]
    assert sorted(listed) == sorted(RULES)
