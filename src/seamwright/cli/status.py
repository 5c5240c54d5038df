"""What the exit status of a command says."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from seamwright.joints.types import Register
from seamwright.seals.types import Finding

DONE: Final = 0
ATTENTION: Final = 1
UNUSABLE: Final = 2
FAULT: Final = 70
"""A fault of the program, not of its input (EX_SOFTWARE of sysexits.h)."""
READER_GONE: Final = 141
"""128 + SIGPIPE, as a shell reports it."""


def status_of(register: Register, findings: Iterable[Finding] = ()) -> int:
    """Return 1 when a line does not close, a correction lost its joint or a finding needs a look.

    Findings of severity ``note`` alone leave 0.
    """
    open_line = bool(register.breaks) or bool(register.lost_overrides)
    urgent = any(finding.severity != "note" for finding in findings)
    return ATTENTION if open_line or urgent else DONE
