"""Texts of the server's own: in the language of whoever asks, where those of the user stay."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, TypeAlias


@dataclass(frozen=True, slots=True)
class Said:
    """Marks a text as made by the program, in English, from templates that the catalogs hold."""


Told: TypeAlias = Annotated[str, Said()]
"""A sentence or term for reading; ids, words of the interface and the user's texts are plain."""
