"""Slips of the pen: each one in a clean pattern that changes the fabric and what its row states is
told, on its row, and with one message.

Every pattern in the house that is clean is damaged in every way of `slips.py`, one slip at a time.
So many of each pattern are tried as ``LOOPWRIGHT_SLIPS`` says, spread evenly over it; 0 tries all
of them (a minute or two). With ``pytest -s`` the shares are printed, by kind.

What cannot be told, by the rules of the notation:

* what a row makes up for itself: one less here is one more in `dc in each st to next ch-2 sp`;
* which stitch it is, where a row states how many there are and not which, and nothing is worked on
  it by its name;
* how many there are of what the row does not state: stitches, where it states spaces or stitches
  of its own only; the length of a space, where it states none of a length; and how high a chain
  stands that counts as a stitch, which is for advice;
* a place where another makes the same numbers and leaves the same behind: the ring or a chain of
  it, a stitch for a space between two.
"""

from __future__ import annotations

import os
import re
from collections import Counter
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, Phase, given, settings

from loopwright import fitting
from loopwright.pipeline import check_text
from loopwright.trade.terms import TERMS, stitch_of
from properties.judging import House, Verdict
from properties.slips import KINDS
from properties.strategies import patterns
from support import EXAMPLES, WORKED, text_of

MOST = int(os.environ.get("LOOPWRIGHT_SLIPS", "45"))
LEAST_ALONE = 0.95
"""The share of slips that are told with one message and no more. A row whose stitches are named
one by one, or that leaves no whole repeat, may make the next one wrong in a way of its own."""

UNTIL_LENGTH = re.compile(r"until [^\n]*\b(?:cm|mm|in)\b")

LEAST_PLACES = 0.93
"""The share of slips in places that are told, of those that change the fabric."""


@pytest.fixture(autouse=True)
def no_long_advice(monkeypatch: pytest.MonkeyPatch) -> None:
    """Which counts would come out is tested in test_fits.py; here it only takes time."""
    monkeypatch.setattr(fitting, "MOST_ON_THE_WAY", 500)


# ------------------------------------------------------------------- the rules


def broken_rule(house: House, verdict: Verdict) -> str:
    """The rule that a verdict breaks, in words; empty where it keeps them all."""
    slip = verdict.slip
    stated = house.stated(slip)
    told = verdict.told
    if slip.kind == "count" and (told, verdict.errors) != ("here", 1):
        return "a stated number that is wrong is told on its row, and nothing else is"
    if told == "no" and verdict.change == "nothing":
        return ""
    if slip.kind == "terms":
        known = stitch_of(slip.new, TERMS[house.terms]) is not None
        if not known and told != "here":
            return "a word that these terms do not have is told on its row"
        # A row of taller stitches comes up to a length sooner, which is no slip in a count.
        by_height = verdict.change == "numbers" and UNTIL_LENGTH.search(house.text)
        if told == "no" and verdict.change != "stitches" and not by_height:
            return "another stitch is told unless it changes no number and no place"
        return ""
    if slip.kind == "chain":
        return _chain_rule(house, verdict, stated)
    if told != "here" and verdict.change == "numbers" and states_stitches(house, stated):
        return "where stitches are stated, one more or less is told on its row"
    return ""


def _chain_rule(house: House, verdict: Verdict, stated: str) -> str:
    slip = verdict.slip
    if not stated or re.match(r"\s*as\b", house.text[slip.end :]):
        return ""  # a start, or how high a counted chain stands
    changed = {house.text[slip.start : slip.end], slip.new}
    if changed & set(re.findall(r"\bch-(\d+)\s+sps?\b", stated)) and verdict.told != "here":
        return "where spaces of a length are stated, another length is told on its row"
    if re.search(r"\bsps?\b", stated) and verdict.told == "no" and verdict.change == "numbers":
        return "where spaces are stated, another length is told where they are worked into"
    return ""


def states_stitches(house: House, stated: str) -> bool:
    """Whether a row states how many stitches it makes, all together or by a kind of them."""
    words = re.findall(r"[a-z][\w-]*", stated)
    return any(word in ("st", "sts") or stitch_of(word, TERMS[house.terms]) for word in words)


def slips_of(house: House, most: int) -> Iterator[Verdict]:
    """The verdicts on so many of a pattern's slips, spread evenly over it; nought for all."""
    step = max(len(house.slips) / most, 1) if most else 1
    for nth in range(int(len(house.slips) / step)):
        yield house.judge(house.slips[int(nth * step)])


# ------------------------------------------------------------------- the tests


def test_slips_in_every_clean_pattern_are_told() -> None:
    wrong, all_of_them = [], []
    for path in [*EXAMPLES, *WORKED]:
        text = text_of(path)
        if not check_text(path.name, text).clean:
            continue
        house = House(text)
        for verdict in slips_of(house, MOST):
            all_of_them.append(verdict)
            if rule := broken_rule(house, verdict):
                wrong.append(f"{path.stem}, {verdict.slip.told(text)}: {rule}; {verdict[1:]}")
    print(summary(all_of_them))
    assert wrong == []
    assert len(all_of_them) > 1000
    told = [one for one in all_of_them if one.errors]
    assert sum(one.errors == 1 for one in told) >= LEAST_ALONE * len(told)
    placing = [one for one in all_of_them if one.slip.kind == "placing" and one.change != "nothing"]
    assert sum(one.errors > 0 for one in placing) >= LEAST_PLACES * len(placing)


@settings(
    max_examples=12,
    derandomize=True,
    deadline=None,
    database=None,
    phases=(Phase.generate,),
    suppress_health_check=list(HealthCheck),
)
@given(patterns(faulty=False))
def test_slips_in_made_up_patterns_are_told(text: str) -> None:
    if check_text("made up", text).clean:
        house = House(text)
        for verdict in slips_of(house, MOST):
            rule = broken_rule(house, verdict)
            assert not rule, f"{verdict.slip.told(text)}: {rule}; {verdict[1:]}\n{text}"


def test_every_kind_of_slip_is_made() -> None:
    kinds = {slip.kind for path in EXAMPLES for slip in House(text_of(path)).slips}
    assert kinds == set(KINDS)


def summary(verdicts: list[Verdict]) -> str:
    """The shares told, by kind of slip, and how many messages there were."""
    lines = [f"{'slips':>9}{'tried':>8}{'told':>8}{'here':>8}{'share':>8}   not told change only"]
    for kind in KINDS:
        ours = [one for one in verdicts if one.slip.kind == kind and one.change != "nothing"]
        told = sum(one.told != "no" for one in ours)
        here = sum(one.told == "here" for one in ours)
        rest = Counter(one.change for one in ours if one.told == "no")
        listed = ", ".join(f"{change} {n}" for change, n in sorted(rest.items()))
        share = told / max(len(ours), 1)
        lines.append(f"{kind:>9}{len(ours):>8}{told:>8}{here:>8}{share:>8.1%}   {listed}")
    messages = Counter(one.errors for one in verdicts if one.errors)
    lines.append(
        "messages to a slip: " + ", ".join(f"{n}: {messages[n]}" for n in sorted(messages))
    )
    return "\n".join(["", *lines])
