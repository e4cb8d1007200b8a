"""A second worker, kept simple: it really makes every stitch, one at a time, in plain lists.

It was written from the notation's own page and shares nothing with the worker of the compiler
but the pattern that both are given. Where the two disagree, one of them is wrong.

    result = work_pattern(pattern, size)
    result.parts["cuff"].lines[0].counts["sts"]
"""

from naive.pattern import work_pattern
from naive.results import NaiveFault, NaiveLine, NaivePart, NaiveResult, NaiveRow

__all__ = [
    "NaiveFault",
    "NaiveLine",
    "NaivePart",
    "NaiveResult",
    "NaiveRow",
    "work_pattern",
]
