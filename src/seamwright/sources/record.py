"""The record of one source."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class Source:
    """One standard, paper, handbook or dataset, and what is taken from it."""

    key: str
    citation: str
    used_for: str
