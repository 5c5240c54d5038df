"""Which walls stand on which storey, from low to high."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from seamwright.draw.solids import corners, is_upright
from seamwright.shell.types import Panel, Shell

CUT_HEIGHT = 1.2
"""Height of the plan cut above the storey's lowest wall edge; common practice, no source. [m]"""
WALLS = ("wall", "partition", "rim")


@dataclass(frozen=True, kw_only=True, slots=True)
class StoreyWalls:
    """One storey: the walls its plan shows, its lowest and highest points, and the cut. [m]"""

    number: int
    id: str | None
    panels: tuple[Panel, ...]
    bottom: float
    top: float
    cut: float


def find_storeys(shell: Shell) -> tuple[StoreyWalls, ...]:
    """Return the storeys with upright walls, lowest first.

    A plan shows the storey's own walls and all others that run past its cut (walls two storeys
    tall, dormers). Walls without a storey get a plan of their own only when no wall has one.
    """
    walls = [p for p in shell.panels if p.role in WALLS and is_upright(p)]
    ids = {p.storey for p in walls}
    if len(ids) > 1:
        ids.discard(None)
    found = []
    for storey in ids:
        own = [p for p in walls if p.storey == storey]
        standing = [p for p in own if p.role == "wall"]
        low, high = _reach(standing or own)
        cut = low + min(CUT_HEIGHT, 0.6 * (high - low))
        shown = tuple(p for p in walls if p.storey == storey or _runs_past(p, cut))
        found.append((low, str(storey), storey, shown, high, cut))
    found.sort(key=lambda item: item[:2])
    return tuple(
        StoreyWalls(number=index, id=storey, panels=panels, bottom=low, top=high, cut=cut)
        for index, (low, _, storey, panels, high, cut) in enumerate(found, start=1)
    )


def _reach(panels: Sequence[Panel]) -> tuple[float, float]:
    heights = [z for p in panels for _, _, z in corners(p)]
    return min(heights), max(heights)


def _runs_past(panel: Panel, cut: float) -> bool:
    low, high = _reach((panel,))
    return low < cut < high
