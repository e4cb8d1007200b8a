"""The naive worker against the published patterns and the counts worked out for them by hand.

Each pattern in worked/ has a key beside it that says what its rows come to and what is wrong.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from loopwright.ir.pattern import Pattern
from loopwright.lower import lower
from loopwright.syntax import read_lines
from loopwright.trade.terms import TERMS, abbreviation
from naive import work_pattern
from naive.results import Counts

WORKED = sorted((Path(__file__).parent.parent / "worked").glob("*.crochet"))


@pytest.mark.parametrize("path", WORKED, ids=lambda path: path.stem)
def test_published_counts(path: Path) -> None:
    """Every row before the first fault comes to what its key says, and so does the fault."""
    text = path.read_text(encoding="utf-8")
    key = json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))
    pattern = lower(read_lines(text), len(text)).pattern
    assert pattern is not None
    for size, name in enumerate(pattern.sizes):
        result = work_pattern(pattern, size)
        wanted = {
            (row["part"], row["line"]): row["makes"]
            for row in key["rows"]
            if row["size"] in (None, name)
        }
        faults = [{one["code"], *one["also_acceptable"]} for one in key["faults"]]
        for part in result.parts.values():
            lines = next(one for one in pattern.parts if one.name == part.name).lines
            for line in part.lines:
                at = text.count("\n", 0, lines[line.line].span.start) + 1
                made = _named(line.counts, pattern)
                makes = wanted.get((part.name, at), {})
                assert {kind: made.get(kind, 0) for kind in makes} == makes
            assert part.fault is None or any(part.fault.kind in codes for codes in faults)


def _named(counts: Counts, pattern: Pattern) -> dict[str, Any]:
    """Counts by the names that the keys use."""
    out: dict[str, int] = {}
    for kind, n in counts.items():
        names = [kind if kind in ("sts", "ch") else f"{kind}s"] if isinstance(kind, str) else []
        if not isinstance(kind, str):
            if len(kind) == 2:
                names.append(f"ch-{kind[1]} sps")
            else:
                names.append(abbreviation(kind, TERMS[pattern.terms]))
                names += [f"{kind.many}s"] if kind.many else []
        for name in names:
            out[name] = out.get(name, 0) + n
    return out
