"""The working mode of the page: what its script needs to know, and the proof that it is ours.

The words come from ``render.prose.at_hook``; the script beside this file only shows them. The page
allows that one script and those styles by their hashes, so that nothing else can ever run in it.
"""

from __future__ import annotations

import json
from base64 import b64encode
from collections.abc import Iterable, Mapping
from hashlib import sha256

from loopwright.frozen import NamedTuple
from loopwright.ir.pattern import Pattern
from loopwright.ir.runs import Runs
from loopwright.render.prose.at_hook import AtHook, PartAtHook, Stretch, Task

MOST_STEPS = 10**15
"""Past this a script's numbers are no longer exact."""

Charts = Mapping[tuple[str, int], str]
"""Bare drawings by the name of their part and the index of their size."""


class Working(NamedTuple):
    """The working mode as the page needs it: the names of the sizes, and in whose words it can
    speak, the drawings, each once, and the data for the script."""

    sizes: tuple[str, ...]
    terms: tuple[str, ...]
    charts: tuple[str, ...]
    data: str


def working(
    pattern: Pattern, whole: AtHook, lang: Mapping[str, str], charts: Charts
) -> Working | None:
    """The working mode; None where there are more steps than can be counted. ``lang`` holds the
    language tag of each of those in whose words ``whole`` is told, by their name."""
    if any(_steps(part) > MOST_STEPS for size in whole.sizes for part in size.parts):
        return None
    drawn: dict[str, int] = {}
    sizes = []
    for index, size in enumerate(whole.sizes):
        parts = []
        for part in size.parts:
            name = pattern.parts[part.index].name if part.index >= 0 else ""
            svg = charts.get((name, index), "")
            chart = drawn.setdefault(svg, len(drawn)) if svg else -1
            parts.append({**_part(part, lang), "chart": chart})
        sizes.append({"name": size.name, "parts": parts})
    told = {"sizes": sizes, "steps": [_step(one, lang) for one in whole.steps], "lang": dict(lang)}
    kept = json.dumps(told, sort_keys=True, ensure_ascii=False).encode()
    told |= {"title": pattern.title, "print": sha256(kept).hexdigest()[:16]}
    sizes_named = tuple(size.name for size in whole.sizes)
    return Working(sizes_named, tuple(lang), tuple(drawn), _safe(told))


def _steps(part: PartAtHook) -> int:
    return part.copies * sum(stretch.steps.length for stretch in part.stretches)


def _part(part: PartAtHook, names: Iterable[str]) -> dict[str, object]:
    stretches = [_stretch(one, names) for one in part.stretches]
    return {"name": part.name, "copies": part.copies, "stretches": stretches}


def _stretch(one: Stretch, names: Iterable[str]) -> dict[str, object]:
    why = dict(zip(names, one.why, strict=True)) if one.why else None
    return {"first": one.first, "steps": _runs(one.steps), "why": why, "measured": one.measured}


def _runs(runs: Runs[int]) -> list[object]:
    return [[_runs(node) if isinstance(node, Runs) else node, n] for node, n in runs.pairs]


def _step(task: Task, names: Iterable[str]) -> dict[str, object]:
    told = {
        terms: {"label": one.label, "text": one.text, "count": one.count, "about": one.about}
        for terms, one in zip(names, task.told, strict=True)
    }
    return {"like": task.like, "stitches": task.stitches, "told": told}


def _safe(told: object) -> str:
    """JSON that cannot end the element that it stands in."""
    text = json.dumps(told, ensure_ascii=False, separators=(",", ":"))
    for sign in "<>&\u2028\u2029":
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return text


def allowed(text: str) -> str:
    """The content of one ``script`` or ``style`` as a page's policy names it."""
    return f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'"
