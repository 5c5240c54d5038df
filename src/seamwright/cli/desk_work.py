"""The long work the desk can be asked for: the same compositions the commands run."""

from __future__ import annotations

from seamwright.app.jobs import JobKind

KINDS: tuple[JobKind, ...] = ()
"""Every kind of long work, in the order of the job."""
