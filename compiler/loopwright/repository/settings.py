"""A repository's settings: what its ``loopwright.toml`` asks for, as frozen values.

    Settings(severities=(("yarn-unused", "error"),), house=House(terms="UK"), use=())

What a verdict depends on is in ``Settings``; where files are is in ``Repository``.
"""

from __future__ import annotations

from loopwright.frozen import frozen
from loopwright.pipeline import NO_RULES, House

OFF = "off"


@frozen
class Settings:
    """What the verdict on a file depends on, besides its text and the texts that it uses.

    ``severities`` are (code, ``error``, ``advice`` or ``off``), by code; ``use`` the files that
    every pattern uses without a line of its own, from the folder of the file that is checked.
    """

    severities: tuple[tuple[str, str], ...] = ()
    house: House = NO_RULES
    use: tuple[str, ...] = ()

    def fingerprint(self) -> str:
        """The same for settings that give the same verdicts, in any process and on any machine;
        otherwise another. Text of no certain length: hash it where it must be short."""
        return repr(self)


PLAIN = Settings()
"""The settings of a file for which none are found."""
