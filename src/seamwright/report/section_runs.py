"""The planes of panels in a section, each as the run of its inner face."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np

from seamwright.geometry.types import Frame, Ring, Vec2
from seamwright.joints.enclose import INSIDE
from seamwright.joints.section_parts import cut_body, cut_panel, panel_plate, support_plate
from seamwright.joints.types import Joint
from seamwright.moisture.layers import RSI, heat_way, layer_of, u_value
from seamwright.moisture.materials import CORES, MATERIALS
from seamwright.moisture.types import Floats, Layer, Material
from seamwright.shell.types import Build, Panel, Shell

GROUNDS = frozenset({"slab", "stem_wall"})
"""Bearings whose top closes the room, like a face."""

STRETCH = 1.5
"""Gaps in a run up to this many thicknesses count as closed (plates, the edge of a floor). [-]"""

_LONG = 10.0


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
class PlaneRun:
    """The inner face of a plane in the section: `start` + s·`along`, `out` to the outside."""

    name: str
    start: Vec2
    along: Vec2
    out: Vec2
    thickness: float
    u: float
    panel_ids: set[str] = field(default_factory=set)
    spans: list[tuple[float, float]] = field(default_factory=list)

    def at(self, s: float, out: float = 0.0) -> Vec2:
        """Return the point at a place along the run, `out` beyond the inner face. [m]"""
        return (
            self.start[0] + s * self.along[0] + out * self.out[0],
            self.start[1] + s * self.along[1] + out * self.out[1],
        )

    def place(self, p: Vec2) -> float:
        """Return where along the run a point lies. [m]"""
        d, a = self.start, self.along
        return (p[0] - d[0]) * a[0] + (p[1] - d[1]) * a[1]

    def height(self, p: Vec2) -> float:
        """Return how far beyond the inner face a point lies. [m]"""
        d, o = self.start, self.out
        return (p[0] - d[0]) * o[0] + (p[1] - d[1]) * o[1]

    def ends(self, reach: float) -> tuple[float, float] | None:
        """Return how far the plane goes through its whole thickness within the square. [m]"""
        inner = _crossings(self.at(0.0), self.along, reach)
        outer = _crossings(self.at(0.0, self.thickness), self.along, reach)
        if inner is None or outer is None:
            return inner
        low, high = max(inner[0], outer[0]), min(inner[1], outer[1])
        return (low, high) if high > low else None

    def strip(self, reach: float) -> Ring | None:
        """Return the area square to the plane between its `ends`; None where it has none. [m]"""
        ends = self.ends(reach)
        if ends is None:
            return None
        (a, b), out = ends, _LONG
        return (self.at(a, -out), self.at(b, -out), self.at(b, out), self.at(a, out))


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


def plane_runs(shell: Shell, panels: Sequence[Panel], view: Window) -> list[PlaneRun]:
    """Return the runs of the inner faces of panels, those in one plane and of one kind together."""
    builds = {b.id: b for b in shell.builds}
    lines: dict[str, PlaneRun] = {}
    for panel in panels:
        cut = cut_panel(panel, panel_plate(panel), view.frame)
        if cut is None or panel.role == "partition":
            continue
        key = f"{panel.plane_id} {panel.build_id}"
        if key not in lines:
            build = builds[panel.build_id]
            lines[key] = PlaneRun(
                name=panel.plane_id, start=cut.inner[0], along=(cut.out[1], -cut.out[0]),
                out=cut.out, thickness=panel.thickness,
                u=u_value(panel_layers(build), RSI[heat_way(panel.frame.n[2])]),
            )  # fmt: skip
        lines[key].panel_ids.add(panel.id)
        low, high = sorted(lines[key].place(p) for p in cut.inner)
        lines[key].spans.append((low, high))
    return _joined(list(lines.values()))


def _joined(lines: list[PlaneRun]) -> list[PlaneRun]:
    """Return the lines with those in one run made one (the walls of two storeys)."""
    found: list[PlaneRun] = []
    for line in lines:
        for other in found:
            flush = abs(other.height(line.start)) < 1e-3
            if flush and math.dist(other.out, line.out) < 1e-3 and abs(other.u - line.u) < 1e-9:
                other.panel_ids |= line.panel_ids
                other.spans += [
                    (other.place(line.at(a)), other.place(line.at(b))) for a, b in line.spans
                ]
                break
        else:
            found.append(line)
    for line in found:
        line.spans = _merged(line.spans, STRETCH * line.thickness)
    return found


def _merged(spans: list[tuple[float, float]], gap: float) -> list[tuple[float, float]]:
    found: list[tuple[float, float]] = []
    for low, high in sorted((min(s), max(s)) for s in spans):
        if found and low - found[-1][1] <= gap:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return found


def ground_runs(shell: Shell, joint: Joint, view: Window) -> list[PlaneRun]:
    """Return the tops of slabs and stem walls that the joint stands on."""
    lines = []
    for support in shell.supports:
        if support.id not in joint.others or support.kind not in GROUNDS:
            continue
        body = cut_body(support.id, support_plate(support), view.frame)
        if body is not None:
            along = (body.up[1], -body.up[0])
            lines.append(PlaneRun(name=support.id, start=body.top[0], along=along, out=body.up,
                                  thickness=support.thickness, u=0.0))  # fmt: skip
    return lines


def _crossings(start: Vec2, along: Vec2, reach: float) -> tuple[float, float] | None:
    """Return between which places a line runs within the square of half-width `reach`."""
    low, high = -math.inf, math.inf
    for axis in (0, 1):
        d, at = along[axis], start[axis]
        if abs(d) < 1e-9:
            if abs(at) > reach:
                return None
            continue
        a, b = sorted(((-reach - at) / d, (reach - at) / d))
        low, high = max(low, a), min(high, b)
    return (low, high) if high > low else None
