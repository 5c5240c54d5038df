"""Which walls stand on which storey, from low to high."""

from __future__ import annotations

from dataclasses import dataclass

from seamwright.draw.solids import corners, is_upright
from seamwright.shell.types import Panel, Shell

CUT_HEIGHT = 1.2
"""Height of the plan cut above the storey's lowest wall edge; common practice, no source. [m]"""
WALLS = ("wall", "partition", "rim")


@dataclass(frozen=True, kw_only=True, slots=True)
class StoreyWalls:
    """One storey: its panels, its lowest and highest points, and where the plan cuts. [m]"""

    number: int
    id: str | None
    panels: tuple[Panel, ...]
    bottom: float
    top: float

    @property
    def cut(self) -> float:
        """Elevation of the plan cut. [m]"""
        return self.bottom + min(CUT_HEIGHT, 0.6 * (self.top - self.bottom))


def find_storeys(shell: Shell) -> tuple[StoreyWalls, ...]:
    """Return the storeys with upright walls, lowest first.

    Walls without a storey (dormers) get a plan only when no wall has one.
    """
    walls = [p for p in shell.panels if p.role in WALLS and is_upright(p)]
    ids = {p.storey for p in walls}
    if len(ids) > 1:
        ids.discard(None)
    found = []
    for storey in ids:
        panels = tuple(p for p in walls if p.storey == storey)
        standing = [p for p in panels if p.role == "wall"]
        heights = [z for p in (standing or panels) for _, _, z in corners(p)]
        found.append((min(heights), max(heights), storey, panels))
    found.sort(key=lambda item: (item[0], str(item[2])))
    return tuple(
        StoreyWalls(number=index, id=storey, panels=panels, bottom=low, top=high)
        for index, (low, high, storey, panels) in enumerate(found, start=1)
    )
