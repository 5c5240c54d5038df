"""The axonometric: the whole shell from above one corner, hidden parts left out."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

import shapely

from seamwright.draw.bodies import shell_faces
from seamwright.draw.ink import EDGE, GREY, KINDS, TEXT, THIN
from seamwright.draw.labels import Label
from seamwright.draw.legend import draw_key, draw_legend
from seamwright.draw.marks import draw_mark
from seamwright.draw.scale import Scale
from seamwright.draw.sheet import Head, Sheet, draw_north
from seamwright.draw.types import Corner, Drawing
from seamwright.draw.view import UP, Axes, View, centered_view, extent
from seamwright.draw.visible import Face, Seen, front_faces, visible_areas, visible_stretches
from seamwright.geometry.types import Segment, Vec2, Vec3, cross, dot
from seamwright.joints.types import Joint, Register
from seamwright.shell.types import Shell

BEARING: dict[Corner, float] = {
    "south-east": 148.0,
    "south-west": 212.0,
    "north-east": 32.0,
    "north-west": 328.0,
}
"""Where the eye stands, clockwise from north: off the diagonal, so that hips do not stand upright.
[deg]
"""
TILT = math.radians(32.0)
LIGHT: Vec3 = (-0.35, -0.55, 0.76)
MAJOR = frozenset({"ridge", "hip", "valley", "wall_corner", "roof_step"})
NAMED = 1.0
"""Least visible length of a joint that is named. [m]"""
ROOM = 26.0
NO_SCALE = "not to scale"


def draw_axonometric(
    shell: Shell, register: Register, head: Head, corner: Corner = "south-east"
) -> Drawing:
    """Return the shell seen from above `corner`, with the visible joints by kind.

    The projection is orthogonal on a plane square to the eye; lengths cannot be taken off it.
    """
    axes = corner_axes(corner)
    sheet = Sheet(head)
    seen = front_faces(axes, tuple(shell_faces(shell)))
    points = [p for face in seen.faces for p in face.outline]
    points = points or [(0.0, 0.0, 0.0)]
    box = extent(axes, points)
    size = (box[1][0] - box[0][0], box[1][1] - box[0][1])
    room = min((sheet.window.width - ROOM) / size[0], (sheet.window.height - ROOM) / size[1])
    scale = Scale(ratio=Fraction(1000) / Fraction(room), text=NO_SCALE)
    view = centered_view(axes, box, scale, sheet.window)
    _draw_faces(sheet, view, seen)
    lines = [(joint, _line(joint)) for joint in register.joints]
    stretches = visible_stretches(axes, seen, [line for _, line in lines])
    shown_kinds, named = _draw_joints(sheet, view, lines, stretches)
    shown = _name(sheet, named)
    draw_north(sheet, _north_turn(axes))
    draw_legend(sheet, shown_kinds)
    sheet.notes(
        f"Seen from above the {corner} corner. Not to scale: lengths cannot be taken off. Ridges, "
        "hips, valleys, corners and steps are named; all joints are on the plans and elevations.",
        color=GREY,
    )
    sheet.gap()
    left = draw_key(sheet, sheet.placer.key)
    return sheet.finish(NO_SCALE, [name for name in shown if name not in left])


def corner_axes(corner: Corner) -> Axes:
    """Return the axes of the view from above a corner."""
    bearing = math.radians(BEARING[corner])
    toward = (
        math.sin(bearing) * math.cos(TILT),
        math.cos(bearing) * math.cos(TILT),
        math.sin(TILT),
    )
    right = cross(UP, toward)
    length = math.hypot(*right)
    right = (right[0] / length, right[1] / length, right[2] / length)
    return Axes(right=right, up=cross(toward, right))


def _north_turn(axes: Axes) -> float:
    x, y = axes.flat((0.0, 1.0, 0.0))
    return math.atan2(x, y)


def _line(joint: Joint) -> Segment:
    return joint.line if joint.outer.line is None else joint.outer.line


def _shade(face: Face) -> str:
    """Return a light grey by how the face lies to the light; timber and bearings a tone darker."""
    bright = max(dot(face.normal, LIGHT), 0.0)
    tone = 0.80 + 0.20 * bright
    if face.material in {"timber", "edge", "inside"}:
        tone -= 0.10
    elif face.material in {"slab", "stem_wall", "deck"}:
        tone -= 0.05
    level = round(255 * min(tone, 1.0))
    return f"#{level:02x}{level:02x}{level:02x}"


def _draw_faces(sheet: Sheet, view: View, seen: Seen) -> None:
    parts = visible_areas(seen)
    for face, area in zip(seen.faces, parts, strict=True):
        for part in shapely.get_parts(area):
            if part.geom_type == "Polygon" and part.area > 1e-4:
                rings = [view.ring(list(r.coords)[:-1]) for r in (part.exterior, *part.interiors)]
                sheet.page.rings(rings, THIN, _shade(face))
                for a, b in zip(rings[0], rings[0][1:], strict=False):
                    sheet.placer.draw_ink(a, b, 0.6)
    whole = shapely.unary_union([area.buffer(1e-4) for area in seen.areas])
    for part in shapely.get_parts(whole):
        if part.geom_type == "Polygon":
            rings = [view.ring(list(r.coords)[:-1]) for r in (part.exterior, *part.interiors)]
            sheet.page.rings(rings, EDGE, None)


def _draw_joints(
    sheet: Sheet,
    view: View,
    lines: Sequence[tuple[Joint, Segment]],
    stretches: Sequence[list[tuple[float, float]]],
) -> tuple[set[str], list[tuple[Joint, Vec2, Vec2]]]:
    """Draw what is seen of every joint; return the kinds seen and the stretches to name."""
    kinds: set[str] = set()
    named: list[tuple[Joint, Vec2, Vec2]] = []
    for (joint, line), free in zip(lines, stretches, strict=True):
        ends = [(view.at(_at(line, a)), view.at(_at(line, b))) for a, b in free]
        for a, b in ends:
            if math.dist(a, b) > 0.4:
                style = KINDS[joint.kind]
                sheet.page.line(a, b, style.pen)
                sheet.placer.draw_ink(a, b, 2.0)
                kinds.add(joint.kind)
        if ends:
            a, b = max(ends, key=lambda pair: math.dist(pair[0], pair[1]))
            if math.dist(a, b) > 3.0:
                draw_mark(sheet.page, ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), KINDS[joint.kind])
        if joint.kind in MAJOR and free:
            low, high = max(free, key=lambda span: span[1] - span[0])
            if (high - low) * line.length >= NAMED:
                named.append((joint, view.at(_at(line, low)), view.at(_at(line, high))))
    return kinds, named


def _at(line: Segment, t: float) -> Vec3:
    a, b = line.start, line.end
    return (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2]))


def _name(sheet: Sheet, named: Sequence[tuple[Joint, Vec2, Vec2]]) -> tuple[str, ...]:
    for joint, a, b in sorted(named, key=lambda item: (math.dist(item[1], item[2]), item[0].id)):
        sheet.label(Label(text=joint.id, start=a, end=b, size=TEXT, kind="joint"))
    return tuple(joint.id for joint, _, _ in named)
