"""Texts of the server's own: in the words and units of whoever asks, where the user's own stay."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, TypeAlias


@dataclass(frozen=True, slots=True)
class Said:
    """Marks a text as made by the program, in English, from templates that the catalogs hold.

    With `figures`, quantities stand in it in SI, as results carry them.
    """

    figures: bool = False


Told: TypeAlias = Annotated[str, Said()]
"""A sentence or term for reading; ids, words of the interface and the user's texts are plain."""
Figured: TypeAlias = Annotated[str, Said(figures=True)]
"""A sentence that tells quantities in SI."""
