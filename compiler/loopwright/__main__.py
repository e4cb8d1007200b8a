"""``python -m loopwright`` is the command line."""

from loopwright.cli import main

if __name__ == "__main__":
    raise SystemExit(main())
