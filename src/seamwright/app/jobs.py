"""Long work in processes of its own: asked for, run one at a time, told on, cancelled, kept."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class JobKind:
    """A kind of long work. `work` names the function that does it, as ``module:function``."""

    name: str
    title: str
    work: str


class Runner:
    """Runs what is queued."""
