"""The notation's grammar, shipped as data beside its reference."""

from pathlib import Path

GRAMMAR = Path(__file__).with_name("pattern.lark")
