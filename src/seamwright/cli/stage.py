"""Which stage of the work is under way: told on a terminal in place, elsewhere not at all."""

from __future__ import annotations

import sys

WIDE = 44
"""Letters that a stage takes at most; what stood before is written over. Our own choice."""


def stage(words: str = "") -> None:
    """Tell on a terminal that a stage begins, as ``2 of 4: finding the joints``.

    Without words it takes the last one off the terminal again.
    """
    if sys.stderr.isatty():
        sys.stderr.write(f"\r{words:<{WIDE}}\r")
        sys.stderr.flush()
