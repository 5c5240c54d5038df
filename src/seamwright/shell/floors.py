"""What upper floors put between and against the walls: rims, decks and ledgers."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from seamwright.geometry.polygon import without_straights
from seamwright.shell.base import UP, level_frame, named, outer_rings
from seamwright.shell.corners import WallRun
from seamwright.shell.plan import Plan
from seamwright.shell.surface import Region, Surface
from seamwright.shell.types import Member, Support
from seamwright.shell.wall import flat_top, wall_plate
from seamwright.shell.walls import StoreyWalls

LEDGER_WIDTH = 0.0381
"""Thickness of a ledger off the wall, one 2-by, 1-1/2 in; common practice, no source. [m]"""


def rim_surfaces(below: StoreyWalls, storey: StoreyWalls) -> tuple[Surface, ...]:
    """Return the rim of a platform floor, one surface per wall above, up to the deck's underside.

    The deck runs over the rim and carries the wall above.
    """
    low = below.level.top
    high = storey.level.bearing - float(storey.level.storey.deck)
    found: dict[str, list[Region]] = {}
    first: dict[str, WallRun] = {}
    for run in storey.walls:
        plate = wall_plate(run, low, flat_top(run, high))
        found.setdefault(run.wall, []).append(Region(plate=plate, clear=run.clear))
        first.setdefault(run.wall, run)
    return tuple(
        Surface(
            id=f"{wall}.rim",
            role="rim",
            storey=storey.level.storey.id,
            frame=run.frame(low),
            type_id=run.stretch.type_id,
            regions=tuple(found[wall]),
            lengthwise=True,
        )
        for wall, run in first.items()
    )


def deck_supports(plan: Plan, storey: StoreyWalls) -> tuple[Support, ...]:
    """Return the deck of a platform floor, out to the outer face of the walls that stand on it."""
    deck = float(storey.level.storey.deck)
    if deck <= 0.0:
        return ()
    rings = [without_straights(r) for r in outer_rings(plan, storey.level.index)]
    name = f"deck.{storey.level.storey.id}"
    return tuple(
        Support(
            id=name if len(rings) == 1 else f"{name}.{i + 1}",
            kind="deck",
            frame=level_frame(storey.level.bearing),
            outline=ring,
            thickness=deck,
            storey=storey.level.storey.id,
        )
        for i, ring in enumerate(rings)
    )


def ledgers(storey: StoreyWalls) -> tuple[Member, ...]:
    """Return the ledgers of a hanging floor on the inner faces, tops at the deck's underside."""
    record = storey.level.storey
    top = storey.level.floor - float(record.deck)
    found: list[Member] = []
    for name, run in named(storey.walls):
        s = run.stretch
        low = max(run.inner[0], run.clear[0])
        high = min(run.inner[1], run.clear[1])
        depth = s.thickness + LEDGER_WIDTH / 2.0
        a, b = s.at(low, depth), s.at(high, depth)
        found.append(
            Member(
                id=f"{name}.ledger",
                kind="ledger",
                start=(a[0], a[1], top),
                end=(b[0], b[1], top),
                up=UP,
                width=LEDGER_WIDTH,
                depth=float(record.floor_depth - record.deck),
            )
        )
    return tuple(found)


def rims(storeys: Sequence[StoreyWalls]) -> tuple[Surface, ...]:
    """Return the rims of every platform floor, lowest first."""
    return tuple(
        surface
        for below, storey in pairwise(storeys)
        if storey.level.storey.floor == "platform"
        for surface in rim_surfaces(below, storey)
    )
