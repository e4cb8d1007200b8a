"""What changed, as data: by docs/changes.schema.json."""

from __future__ import annotations

import json

from loopwright.changes.values import Changes, FactChange, LineChange
from loopwright.render.changes.told import Told, both_words, is_wording, named, now, was

Json = dict[str, object]


def json_text(found: Changes, told: Told) -> str:
    """The changes as JSON."""
    facts = [one for one in found.facts if one.what != "text"]
    english = told.speaker.lang.startswith("en")
    report: Json = {
        "title": {"was": found.old_title, "now": found.title},
        "version": {"was": found.old_version, "now": found.version},
        "language": told.speaker.lang,
        "terms": told.speaker.terms.name if english else None,
        "sizes": list(found.every),
        "old_faults": found.faults,
        "old_missing": list(told.missing),
        "same": found.none,
        "rows": [_line(one, told) for one in found.lines if not is_wording(one)],
        "facts": [_fact(one, told) for one in facts],
        "wording": [_line(one, told) for one in found.lines if is_wording(one)],
        "texts": [_fact(one, told) for one in found.facts if one.what == "text"],
    }
    return json.dumps(report, ensure_ascii=False, indent=1) + "\n"


def _line(one: LineChange, told: Told) -> Json:
    counts = {
        count.size: {
            "sts": {"was": count.stitches[0], "now": count.stitches[1]},
            "rows": {"was": count.rows[0], "now": count.rows[1]},
        }
        for count in one.counts
    }
    return {
        "part": one.part,
        "line": one.label,
        "kind": one.kind,
        "in_rounds": one.in_rounds,
        "sizes": list(one.sizes),
        "was": was(one, told) if one.old is not None else None,
        "now": now(one, told) if one.new is not None else None,
        "counts": counts,
    }


def _fact(one: FactChange, told: Told) -> Json:
    before, after = both_words(one, told)
    return {
        "what": one.what,
        "name": named(one, told.speaker) if one.of else one.name,
        "sizes": list(one.sizes),
        "was": before or None,
        "now": after or None,
    }
