"""Everything a cut meets near a joint: panels layer by layer, timbers, bearings."""

from __future__ import annotations

import math
from dataclasses import dataclass

from seamwright.geometry.slice import Plate, Span, clip, cut_layers, cut_level
from seamwright.geometry.types import Frame, Ring, Vec2, Vec3, dot
from seamwright.joints.types import FaceName, SectionShape
from seamwright.shell.types import Member, Panel, Penetration, Shell, Support

ROUND = 24
"""Corners that stand for a round hole."""


@dataclass(frozen=True, kw_only=True, slots=True)
class PanelCut:
    """One panel in a cut. `out` points from its inner to its outer face in the cut. [m]

    `inner` and `outer` are the stretches of each face nearest to the joint.
    """

    panel: Panel
    inner: Span
    outer: Span
    out: Vec2

    def face(self, name: FaceName) -> Span:
        """Return the stretch of one face."""
        return self.inner if name == "inner" else self.outer


@dataclass(frozen=True, kw_only=True, slots=True)
class BodyCut:
    """A timber or bearing in a cut: its outline, the stretches of its top and bottom, the way up.

    [m]
    """

    id: str
    outline: Ring
    top: Span
    bottom: Span
    up: Vec2


def panel_plate(panel: Panel, services: tuple[Penetration, ...] = ()) -> Plate:
    """Return the body of a panel with its openings and the holes of `services` taken out."""
    holes = tuple(hole.outline for hole in panel.holes)
    holes += tuple(_hole(panel, service) for service in services if service.panel_id == panel.id)
    return Plate(
        frame=panel.frame,
        lower=panel.inner,
        upper=panel.outer,
        thickness=panel.thickness,
        holes=holes,
    )


def member_plate(member: Member) -> Plate:
    """Return the body of a timber, its top face uppermost."""
    axis = tuple(b - a for a, b in zip(member.start, member.end, strict=True))
    size = math.hypot(*axis)
    u: Vec3 = (axis[0] / size, axis[1] / size, axis[2] / size)
    up, half = member.up, member.width / 2
    v = (
        up[1] * u[2] - up[2] * u[1],
        up[2] * u[0] - up[0] * u[2],
        up[0] * u[1] - up[1] * u[0],
    )
    start = member.start
    foot = (
        start[0] - member.depth * up[0],
        start[1] - member.depth * up[1],
        start[2] - member.depth * up[2],
    )
    ring: Ring = ((0.0, -half), (size, -half), (size, half), (0.0, half))
    frame = Frame(origin=foot, u=u, v=v)
    return Plate(frame=frame, lower=ring, upper=ring, thickness=member.depth)


def support_plate(support: Support) -> Plate:
    """Return the body of a bearing, its face uppermost."""
    frame = support.frame
    foot = frame.point((0.0, 0.0), -support.thickness)
    return Plate(
        frame=Frame(origin=foot, u=frame.u, v=frame.v),
        lower=support.outline,
        upper=support.outline,
        thickness=support.thickness,
    )


def is_near(plate: Plate, point: Vec3, reach: float) -> bool:
    """Return whether a body may come within `reach` of a point (its box does). [m]"""
    x, y, w = plate.frame.local(point)
    if not -reach <= w <= plate.thickness + reach:
        return False
    corners = plate.lower + plate.upper
    xs, ys = [c[0] for c in corners], [c[1] for c in corners]
    return min(xs) - reach <= x <= max(xs) + reach and min(ys) - reach <= y <= max(ys) + reach


def cut_panel(panel: Panel, plate: Plate, cut: Frame) -> PanelCut | None:
    """Return a panel's faces in a cut, None where the cut misses it."""
    inner, outer = cut_level(plate, cut, 0.0), cut_level(plate, cut, 1.0)
    if not inner or not outer:
        return None
    n = panel.frame.n
    across = (dot(n, cut.u), dot(n, cut.v))
    size = math.hypot(*across)
    return PanelCut(
        panel=panel,
        inner=min(inner, key=_nearness),
        outer=min(outer, key=_nearness),
        out=(across[0] / size, across[1] / size),
    )


def cut_body(body_id: str, plate: Plate, cut: Frame) -> BodyCut | None:
    """Return a timber or bearing in a cut, None where the cut misses it."""
    rings = cut_layers(plate, cut, (0.0, 1.0))[0]
    tops, bottoms = cut_level(plate, cut, 1.0), cut_level(plate, cut, 0.0)
    if not rings or not tops or not bottoms:
        return None
    n = plate.frame.n
    across = (dot(n, cut.u), dot(n, cut.v))
    size = math.hypot(*across)
    return BodyCut(
        id=body_id,
        outline=rings[0],
        top=min(tops, key=_nearness),
        bottom=min(bottoms, key=_nearness),
        up=(across[0] / size, across[1] / size),
    )


def panel_shapes(panel: Panel, plate: Plate, cut: Frame, reach: float) -> list[SectionShape]:
    """Return the skins and the core of a panel in a cut, clipped to `reach`. [m]"""
    t = panel.thickness
    levels = (0.0, panel.skin_inner / t, 1.0 - panel.skin_outer / t, 1.0)
    shapes = []
    for material, rings in zip(
        ("skin", "core", "skin"), cut_layers(plate, cut, levels), strict=True
    ):
        for ring in rings:
            outline = clip(ring, reach)
            if outline:
                shapes.append(
                    SectionShape(outline=outline, material=material, owner=panel.id)  # type: ignore[arg-type]
                )
    return shapes


def timbers_and_bearings(shell: Shell, cut: Frame, reach: float) -> list[SectionShape]:
    """Return every timber and bearing in a cut within `reach`. [m]"""
    shapes = []
    for support in shell.supports:
        material = "concrete" if support.kind in {"slab", "stem_wall"} else "deck"
        shapes += _solid(support_plate(support), cut, reach, material, support.id)
    for member in shell.members:
        shapes += _solid(member_plate(member), cut, reach, "timber", member.id)
    return shapes


def _solid(plate: Plate, cut: Frame, reach: float, material: str, owner: str) -> list[SectionShape]:
    if not is_near(plate, cut.origin, reach * math.sqrt(2)):
        return []
    rings = [clip(ring, reach) for ring in cut_layers(plate, cut, (0.0, 1.0))[0]]
    return [
        SectionShape(outline=ring, material=material, owner=owner)  # type: ignore[arg-type]
        for ring in rings
        if ring
    ]


def _hole(panel: Panel, service: Penetration) -> Ring:
    x, y, _ = panel.frame.local(service.at)
    if service.diameter is not None:
        r = service.diameter / 2
        turns = [2 * math.pi * k / ROUND for k in range(ROUND)]
        return tuple((x + r * math.cos(a), y + r * math.sin(a)) for a in turns)
    w = 0.0 if service.width is None else service.width / 2
    h = 0.0 if service.height is None else service.height / 2
    return ((x - w, y - h), (x + w, y - h), (x + w, y + h), (x - w, y + h))


def _nearness(span: Span) -> tuple[float, float, float]:
    """Return the sorting key of a stretch: nearest first; of two as near, the upper, the right."""
    (ax, ay), (bx, by) = span
    return (round(_distance(span), 6), -(ay + by), -(ax + bx))


def _distance(span: Span) -> float:
    """Return the distance of a stretch from the origin of the cut. [m]"""
    (ax, ay), (bx, by) = span
    dx, dy = bx - ax, by - ay
    size = dx * dx + dy * dy
    t = 0.0 if size == 0 else min(1.0, max(0.0, -(ax * dx + ay * dy) / size))
    return math.hypot(ax + t * dx, ay + t * dy)
