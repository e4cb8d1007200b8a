"""Loopwright: a compiler for crochet patterns."""

__version__ = "0.1.0"
