"""Syntax: from text to a tree, line by line. The only room that knows the parser."""

from loopwright.syntax.lines import Line, cut, label_of, moved, read_lines
from loopwright.syntax.tree import Node, Word

__all__ = ["Line", "Node", "Word", "cut", "label_of", "moved", "read_lines"]
