"""The plane elements that run into a joint: their U-values, and the lengths counted for them.

Lengths are overall internal dimensions: along the inner face, to the point where the inner faces
meet, whatever timber or inner wall covers the face. Source: ISO 13789 and ISO 14683, the third of
their systems of dimensions (from memory).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np

from seamwright.geometry.types import Frame, Vec2
from seamwright.joints.enclose import INSIDE
from seamwright.joints.section_parts import cut_body, cut_panel, panel_plate, support_plate
from seamwright.joints.types import Joint
from seamwright.moisture.layers import RSI, heat_way, layer_of, u_value
from seamwright.moisture.materials import CORES, MATERIALS
from seamwright.moisture.types import Flank, Floats, Layer, Material
from seamwright.shell.types import Build, Panel, Shell

GROUNDS = frozenset({"slab", "stem_wall"})
"""Bearings whose top closes the room, like a face."""

_OFF = 0.05
_STRETCH = 1.5


@dataclass(frozen=True, kw_only=True, slots=True)
class Window:
    """The square of a section and which of its points lie indoors."""

    frame: Frame
    reach: float
    indoors: Callable[[Frame, Floats], Floats]

    def is_indoors(self, point: Vec2) -> bool:
        """Return whether a point of the section lies within the inner faces."""
        return bool(self.indoors(self.frame, np.array([point]))[0] > INSIDE)


@dataclass(kw_only=True, slots=True)
class _Line:
    """The inner face of a plane in the section: `start` + s·`along`, `out` to the outside."""

    name: str
    start: Vec2
    along: Vec2
    out: Vec2
    thickness: float
    u: float
    spans: list[tuple[float, float]] = field(default_factory=list)

    def at(self, s: float, out: float = 0.0) -> Vec2:
        return (
            self.start[0] + s * self.along[0] + out * self.out[0],
            self.start[1] + s * self.along[1] + out * self.out[1],
        )

    def place(self, p: Vec2) -> float:
        d, a = self.start, self.along
        return (p[0] - d[0]) * a[0] + (p[1] - d[1]) * a[1]

    def height(self, p: Vec2) -> float:
        d, o = self.start, self.out
        return (p[0] - d[0]) * o[0] + (p[1] - d[1]) * o[1]


def core_material(build: Build) -> Material:
    """Return the material of a panel's core; molded polystyrene for a word that is not known."""
    return MATERIALS[CORES.get(build.core_material.upper(), "eps")]


def panel_layers(build: Build) -> tuple[Layer, ...]:
    """Return the layers of a bare panel from inside out."""
    osb = MATERIALS["osb"]
    return (
        layer_of(osb, build.skin_inner),
        layer_of(core_material(build), build.core),
        layer_of(osb, build.skin_outer),
    )


def find_flanks(shell: Shell, joint: Joint, panels: Sequence[Panel], view: Window
                ) -> tuple[Flank, ...]:  # fmt: skip
    """Return the plane elements of a section that stand between a room and the outdoors."""
    lines = _lines(shell, panels, view)
    grounds = _grounds(shell, joint, view)
    flanks = []
    for line in lines:
        others = [x for x in lines if x is not line] + grounds
        length = _counted(line, others, view)
        if length > 1e-6:
            flanks.append(Flank(name=line.name, u_value=line.u, length=length))
    return tuple(flanks)


def _lines(shell: Shell, panels: Sequence[Panel], view: Window) -> list[_Line]:
    builds = {b.id: b for b in shell.builds}
    lines: dict[str, _Line] = {}
    for panel in panels:
        cut = cut_panel(panel, panel_plate(panel), view.frame)
        if cut is None or panel.role == "partition":
            continue
        key = f"{panel.plane_id} {panel.build_id}"
        if key not in lines:
            build = builds[panel.build_id]
            lines[key] = _Line(
                name=panel.plane_id, start=cut.inner[0], along=(cut.out[1], -cut.out[0]),
                out=cut.out, thickness=panel.thickness,
                u=u_value(panel_layers(build), RSI[heat_way(panel.frame.n[2])]),
            )  # fmt: skip
        low, high = sorted(lines[key].place(p) for p in cut.inner)
        lines[key].spans.append((low, high))
    return _joined(list(lines.values()))


def _joined(lines: list[_Line]) -> list[_Line]:
    """Return the lines with those in one run made one (the walls of two storeys)."""
    found: list[_Line] = []
    for line in lines:
        for other in found:
            flush = abs(other.height(line.start)) < 1e-3
            if flush and math.dist(other.out, line.out) < 1e-3 and abs(other.u - line.u) < 1e-9:
                other.spans += [
                    (other.place(line.at(a)), other.place(line.at(b))) for a, b in line.spans
                ]
                break
        else:
            found.append(line)
    for line in found:
        line.spans = _merged(line.spans, _STRETCH * line.thickness)
    return found


def _merged(spans: list[tuple[float, float]], gap: float) -> list[tuple[float, float]]:
    found: list[tuple[float, float]] = []
    for low, high in sorted((min(s), max(s)) for s in spans):
        if found and low - found[-1][1] <= gap:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return found


def _grounds(shell: Shell, joint: Joint, view: Window) -> list[_Line]:
    lines = []
    for support in shell.supports:
        if support.id not in joint.others or support.kind not in GROUNDS:
            continue
        body = cut_body(support.id, support_plate(support), view.frame)
        if body is not None:
            lines.append(_Line(name=support.id, start=body.top[0], along=(body.up[1], -body.up[0]),
                               out=body.up, thickness=support.thickness, u=0.0))  # fmt: skip
    return lines


def _counted(line: _Line, others: Sequence[_Line], view: Window) -> float:
    """Return how much of a line bounds a room from outdoors. [m]"""
    ends = _crossings_with_square(line, view.reach)
    if ends is None:
        return 0.0
    meets = [s for other in others if (s := _meeting(line, other)) is not None]
    far = _STRETCH * max([line.thickness, *(o.thickness for o in others)])
    total = 0.0
    for first, last in line.spans:
        low = max(_reached(first, meets, -far), ends[0])
        high = min(_reached(last, meets, far), ends[1])
        if high <= low:
            continue
        cuts = sorted({low, high, *(s for s in meets if low < s < high)})
        for a, b in itertools.pairwise(cuts):
            inner = line.at((a + b) / 2, -_OFF)
            outer = line.at((a + b) / 2, line.thickness + _OFF)
            if b > a and view.is_indoors(inner) and not view.is_indoors(outer):
                total += b - a
    return total


def _reached(end: float, meets: Sequence[float], far: float) -> float:
    """Return the nearest meeting point at or beyond the end of a span, or the end itself."""
    beyond = [s for s in meets if 0.0 <= (s - end) * math.copysign(1, far) <= abs(far)]
    return min(beyond, key=lambda s: abs(s - end), default=end)


def _meeting(line: _Line, other: _Line) -> float | None:
    slope = line.along[0] * other.out[0] + line.along[1] * other.out[1]
    if abs(slope) < 1e-6:
        return None
    return -other.height(line.start) / slope


def _crossings_with_square(line: _Line, reach: float) -> tuple[float, float] | None:
    low, high = -math.inf, math.inf
    for axis in (0, 1):
        d, at = line.along[axis], line.start[axis]
        if abs(d) < 1e-9:
            if abs(at) > reach:
                return None
            continue
        a, b = sorted(((-reach - at) / d, (reach - at) / d))
        low, high = max(low, a), min(high, b)
    return (low, high) if high > low else None
