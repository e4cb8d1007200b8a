"""Measure: what a gauge makes of the fabric: finished sizes of parts, and lengths in words."""

from loopwright.measure.finished import finished
from loopwright.measure.lengths import length_text
from loopwright.measure.values import Extent, PartSize

__all__ = ["Extent", "PartSize", "finished", "length_text"]
