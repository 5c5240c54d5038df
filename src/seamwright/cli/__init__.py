"""Command line: one command per workflow.

Exit status: 0 done, 1 something found that needs attention, 2 unusable input, 70 a fault of the
program itself, 141 the reader of the output went away before its end.
"""

from __future__ import annotations

from seamwright.cli.main import main

__all__ = ["main"]
