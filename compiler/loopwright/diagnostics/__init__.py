"""Diagnostics: what there is to say about a pattern, as frozen data, and the ways to print it."""

from loopwright.diagnostics.catalogue import RULES, Rule, rule
from loopwright.diagnostics.model import ADVICE, ERROR, Diagnostic, Edit, Related

__all__ = ["ADVICE", "ERROR", "RULES", "Diagnostic", "Edit", "Related", "Rule", "rule"]
