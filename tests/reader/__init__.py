"""A reader of the printed sheet that has never seen a pattern file.

It knows the sheet's own phrases and how crochet is counted, works every row from the words alone,
in one size at a time, and says what each row comes to. It shares no code with the program: where
the two disagree, the sheet does not say what was checked.

    read(text) -> Sheet        the sections, steps and sizes of a sheet in plain text
    worked(sheet, size)        what every row of every part comes to
"""

from __future__ import annotations

from reader.pages import Part, Sheet, Step, read
from reader.rows import Worked, worked

__all__ = ["Part", "Sheet", "Step", "Worked", "read", "worked"]
