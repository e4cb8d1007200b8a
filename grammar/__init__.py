"""The notation's grammar, shipped as data beside its reference."""

import os.path

GRAMMAR = os.path.join(os.path.dirname(__file__), "pattern.lark")
