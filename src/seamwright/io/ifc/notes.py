"""Sentences about what was used, guessed and left out, gathered while a model is read."""

from __future__ import annotations

import re

from seamwright.io.ifc.types import Entity

LISTED = 8
"""Names written out in one sentence before the rest is counted."""


class Notes:
    """Collects elements under a reason and turns each reason into one sentence, in order."""

    def __init__(self) -> None:
        self._used: dict[str, dict[str, None]] = {}
        self._guessed: dict[str, dict[str, None]] = {}
        self._left: dict[str, dict[str, None]] = {}

    def use(self, what: str, element: Entity = None) -> None:
        """Note that an element was used, and as what."""
        _add(self._used, what, element)

    def guess(self, what: str, element: Entity = None) -> None:
        """Note that something about an element was guessed."""
        _add(self._guessed, what, element)

    def leave(self, why: str, element: Entity = None) -> None:
        """Note that an element was left out, and why."""
        _add(self._left, why, element)

    @property
    def used(self) -> tuple[str, ...]:
        """One sentence for each way elements were used."""
        return _sentences(self._used)

    @property
    def guessed(self) -> tuple[str, ...]:
        """One sentence for each thing that was guessed."""
        return _sentences(self._guessed)

    @property
    def left_out(self) -> tuple[str, ...]:
        """One sentence for each reason something was left out."""
        return _sentences(self._left)


def label(element: Entity) -> str:
    """Return the class, name and GlobalId of an element as one readable label."""
    name = plain(getattr(element, "Name", None))
    title = f"{element.is_a()} {name}" if name else f"{element.is_a()} without a name"
    return f"{title} (GlobalId {plain(getattr(element, 'GlobalId', None)) or 'missing'})"


def plain(text: object) -> str:
    """Return text on one line without control characters, cut at 80 characters."""
    if not isinstance(text, str):
        return ""
    clean = re.sub(r"\s+", " ", "".join(c if c.isprintable() else " " for c in text)).strip()
    return clean if len(clean) <= 80 else clean[:77] + "..."


def _add(book: dict[str, dict[str, None]], reason: str, element: Entity) -> None:
    names = book.setdefault(reason, {})
    if element is not None:
        names[label(element)] = None


def _sentences(book: dict[str, dict[str, None]]) -> tuple[str, ...]:
    return tuple(_sentence(reason, list(names)) for reason, names in book.items())


def _sentence(reason: str, names: list[str]) -> str:
    if not names:
        return f"{reason}."
    more = len(names) - LISTED
    listed = "; ".join(names[:LISTED]) + (f"; and {more} more" if more > 0 else "")
    count = f"{len(names)} elements, " if len(names) > 1 else ""
    return f"{reason}: {count}{listed}."
