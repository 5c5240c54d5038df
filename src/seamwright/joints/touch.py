"""Touches: stretches of panel edges that lie against another edge or a face, as arrays."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray

from seamwright.geometry.search import Floats, Ints


@dataclass(frozen=True, kw_only=True, slots=True)
class Touches:
    """k stretches of contact; one row each.

    `edge` touches `other` (an edge, -1 for none) or `surface` (a face, -1 for none). `start` and
    `end` run along `edge` from the start of its inner arris; `on_inner` says whether that stretch
    lies on the inner arris (else only the outer ones meet). `outer_start` and `outer_end` bound the
    stretch on the outer arris, empty when the end is not beyond the start. `gap` is the clear
    opening. `inner_*` and `outer_*` describe the two skin lines: `*_step` is the step between the
    skins, `*_open` the opening at that skin, negative where an arris stands inside the other
    panel. `rank` is 0 for a touch at mid-thickness, 1 for one nearer a skin, 2 for one that stands
    inside. `facing` is 1 where the two look straight at each other, less in a wedge. `middle`
    (k, 3) is a point halfway across the gap. `member` fills the gap, -1 when nothing does. [m]
    """

    edge: Ints
    other: Ints
    surface: Ints
    start: Floats
    end: Floats
    on_inner: NDArray[np.bool_]
    outer_start: Floats
    outer_end: Floats
    gap: Floats
    inner_step: Floats
    outer_step: Floats
    inner_open: Floats
    outer_open: Floats
    rank: Ints
    facing: Floats
    middle: Floats
    member: Ints

    def __len__(self) -> int:
        return len(self.edge)

    def take(self, rows: Ints | NDArray[np.bool_]) -> Touches:
        """Return the chosen rows."""
        return Touches(**{f.name: getattr(self, f.name)[rows] for f in fields(self)})


BLOCK = 1 << 16
"""Candidate pairs looked at together, few enough to stay in the processor's cache. [-]"""


def joined(parts: Sequence[Touches]) -> Touches:
    """Return the rows of all `parts` one after another."""
    names = [f.name for f in fields(Touches)]
    return Touches(**{name: np.concatenate([getattr(p, name) for p in parts]) for name in names})
