"""Turn what was written about parts and choices into records of `seamwright.shell.plan`."""

from __future__ import annotations

from fractions import Fraction

from seamwright.io.plan.model import PlanFields
from seamwright.io.plan.model_parts import PanelFields
from seamwright.io.plan.outline import outline_of, ring_of
from seamwright.io.plan.reading import Reading
from seamwright.shell.plan import (
    Decision,
    GivenPanel,
    GivenSupport,
    InnerWall,
    OpeningSpec,
    Override,
    PenetrationSpec,
    Point2,
    Preferences,
    Timber,
    TimberSize,
)

ZERO = Fraction(0)


def inner_walls_of(fields: PlanFields) -> tuple[InnerWall, ...]:
    """Return the walls inside the shell."""
    return tuple(
        InnerWall(
            id=item.id,
            storey=item.storey,
            start=item.start,
            end=item.end,
            thickness=item.thickness,
            bearing=item.bearing,
        )
        for item in fields.inner_walls
    )


def openings_of(fields: PlanFields) -> tuple[OpeningSpec, ...]:
    """Return windows, doors, skylights and hatches."""
    return tuple(
        OpeningSpec(
            id=item.id,
            kind=item.kind,
            host=item.host,
            along=item.along,
            up=item.up,
            width=item.width,
            height=item.height,
        )
        for item in fields.openings
    )


def penetrations_of(fields: PlanFields) -> tuple[PenetrationSpec, ...]:
    """Return the services through the shell."""
    return tuple(
        PenetrationSpec(
            id=item.id,
            kind=item.kind,
            host=item.host,
            along=item.along,
            up=item.up,
            diameter=item.diameter,
            width=item.width,
            height=item.height,
        )
        for item in fields.penetrations
    )


def timbers_of(fields: PlanFields) -> tuple[Timber, ...]:
    """Return the timbers given one by one."""
    return tuple(
        Timber(
            id=item.id,
            kind=item.kind,
            start=item.start,
            end=item.end,
            size=TimberSize(width=item.size[0], depth=item.size[1]),
        )
        for item in fields.timbers
    )


def panels_of(fields: PlanFields, reading: Reading) -> tuple[GivenPanel, ...]:
    """Return the panels listed in the plan itself."""
    if isinstance(fields.panels, str):
        return ()
    made = [_panel(item, i, reading) for i, item in enumerate(fields.panels)]
    return tuple(panel for panel in made if panel is not None)


def supports_of(fields: PlanFields, reading: Reading) -> tuple[GivenSupport, ...]:
    """Return the level faces that listed panels stand on."""
    made: list[GivenSupport] = []
    for i, item in enumerate(fields.supports):
        outline = outline_of(item, reading.units, reading.teller("supports", i))
        if outline is not None:
            made.append(
                GivenSupport(
                    id=item.id,
                    kind=item.kind,
                    outline=outline.corners,
                    top=item.top,
                    thickness=item.thickness,
                )
            )
    return tuple(made)


def preferences_of(fields: PlanFields) -> Preferences:
    """Return how the lead wants the panels laid out."""
    return Preferences(
        corners=fields.layout.corners,
        layout_from=fields.layout.layout_from,
        break_at_openings=fields.layout.break_at_openings,
        min_width=fields.layout.min_width,
    )


def decisions_of(fields: PlanFields) -> tuple[Decision, ...]:
    """Return the signed decisions."""
    return tuple(
        Decision(
            face=item.face,
            signed_by=item.signed_by,
            role=item.role,
            date=item.date,
            kinds=item.kinds,
            joints=item.joints,
            note=item.note,
        )
        for item in fields.decisions
    )


def overrides_of(fields: PlanFields) -> tuple[Override, ...]:
    """Return the corrections to single joints."""
    return tuple(
        Override(
            joint=item.joint,
            reason=item.reason,
            kind=item.kind,
            face=item.face,
            strip_width=item.strip_width,
            span=item.span,
            ignore=item.ignore,
        )
        for item in fields.overrides
    )


def _panel(item: PanelFields, index: int, reading: Reading) -> GivenPanel | None:
    outline: tuple[Point2, ...]
    sides: tuple[int, ...] = (1, 2, 3, 4)
    if item.length is not None and item.height is not None:
        corner = (item.length, item.height)
        outline = ((ZERO, ZERO), (corner[0], ZERO), corner, (ZERO, corner[1]))
    else:
        tell = reading.teller("panels", index, "outline")
        ring = ring_of(() if item.outline is None else item.outline, tell)
        if ring is None:
            return None
        outline, sides = ring.corners, ring.sides
    bevels = item.bevels
    if bevels is not None and len(bevels) != len(outline):
        told = f"{len(bevels)} bevels are given for {len(outline)} edges"
        reading.tell("panels", index, told, "give one bevel for each edge, 0 for square", "bevels")
        bevels = None
    if _nearly_parallel(item.along, item.up):
        told = "along and up point the same way"
        reading.tell("panels", index, told, "give two directions in the face of the panel")
    return GivenPanel(
        id=item.id,
        panel_type=item.type,
        role=item.role,
        origin=item.origin,
        along=item.along,
        up=item.up,
        outline=outline,
        storey=item.storey,
        plane=item.plane,
        outer_outline=None
        if item.outer_outline is None
        else tuple(item.outer_outline[side - 1] for side in sides),
        bevels_deg=None if bevels is None else tuple(bevels[side - 1] for side in sides),
        lay_out=item.lay_out,
    )


def _nearly_parallel(a: tuple[float, float, float], b: tuple[float, float, float]) -> bool:
    cross = (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )
    lengths = sum(x * x for x in a) * sum(x * x for x in b)
    return sum(x * x for x in cross) < 1e-12 * lengths
