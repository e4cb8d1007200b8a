"""The command that installs what an extra of this program needs. It names the libraries themselves:
no registry of packages has this program from us, and under its name another one may lie there."""

from __future__ import annotations

import sys


def command(extra: str) -> str:
    """The command, for the Python that runs this."""
    from importlib.metadata import PackageNotFoundError, requires

    try:
        asked = requires("loopwright") or []
    except PackageNotFoundError:  # run from its folder without being installed
        asked = []
    pairs = (one.partition(";") for one in asked)
    wanted = [what.strip() for what, _, when in pairs if f'"{extra}"' in when]
    if not wanted:
        return f"\"{sys.executable}\" -m pip install '.[{extra}]'  (in the folder of this program)"
    listed = " ".join(f'"{one}"' for one in wanted)
    return f'"{sys.executable}" -m pip install {listed}'
