"""Terms of other languages than English, to be printed: tables as data, one file a language.

    terms_of("fr").short["plain"]    ms

A file in ``words/`` gives the words with their sources, and under ``no_source`` what no source
was found for; those stitches are printed in UK terms with a mark (``trade.terms.UNSOURCED``).
Nothing is read in these terms: a pattern is written in UK or US terms.
"""

from __future__ import annotations

from functools import lru_cache
from pkgutil import get_data

from loopwright.trade.terms import Terms


@lru_cache(maxsize=8)
def terms_of(language: str) -> Terms:
    """The terms of a language that has a file."""
    import tomllib

    found = get_data("loopwright.trade", f"words/{language}.toml")
    assert found is not None
    said = tomllib.loads(found.decode("utf-8"))
    return Terms(
        said["name"],
        {},
        {stitch: one["short"] for stitch, one in said["stitches"].items()},
        {stitch: one["full"] for stitch, one in said["stitches"].items()},
        said["skip"],
        said["gauge"],
        {},
        {shape: one["short"] for shape, one in said["shapes"].items()},
        {shape: one["full"] for shape, one in said["shapes"].items()},
    )
