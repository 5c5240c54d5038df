"""The strip in a section: a heavy line off the skin along its whole way, both laps dimensioned."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TypeAlias

import shapely
from shapely.geometry import LineString

from seamwright.draw.dimension import Chain, draw_chain
from seamwright.draw.ink import STRIP, STRIP_SECOND, WHITE, Pen
from seamwright.draw.labels import Label
from seamwright.draw.sheet import Sheet
from seamwright.draw.view import View
from seamwright.geometry.types import Vec2
from seamwright.joints.types import SkinPath
from seamwright.seals.types import SealSchedule, Stage, Strip
from seamwright.units import System, format_width

Stages: TypeAlias = tuple[Stage, ...]
OFF = 0.95
"""Distance of the strip's line from the skin on paper. [mm]"""
OBTUSE = math.radians(100.0)
"""Laps that open wider than this toward the room are dimensioned on the far side. [rad]"""
ROW = 6.0
"""Distance between the dimension lines of strips that lie over one another. [mm]"""
DIM = 8.0
"""Distance of a lap's dimension line from the skin on paper. [mm]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class StripWay:
    """A strip on paper: where it runs on the skins, and the side it lies on (+1 left, -1 right).

    `first` and `last` are the laps, from the sound edge outward; `track` the whole way. [mm]
    """

    strip: Strip | None
    track: tuple[Vec2, ...]
    first: tuple[Vec2, Vec2]
    last: tuple[Vec2, Vec2]
    side: float
    layer: int = 0

    @property
    def off(self) -> float:
        """Distance of the strip's line from the skin on paper. [mm]"""
        return OFF + 1.3 * self.layer


def distinct_strips(schedule: SealSchedule, joint_id: str) -> tuple[tuple[Strip, Stages], ...]:
    """Return the strips of a joint that differ in width, each with the stages it goes on at.

    A strip may go on in stretches (before the next panel where a wall will stand, the rest when
    weathered in); it is drawn once and its stages are told.
    """
    found: dict[tuple[object, ...], tuple[Strip, list[Stage]]] = {}
    for strip in schedule.strips:
        if strip.joint_id == joint_id:
            key = (strip.face, strip.width, strip.required, strip.wings_open)
            stages = found.setdefault(key, (strip, []))[1]
            if strip.stage not in stages:
                stages.append(strip.stage)
    return tuple((strip, tuple(stages)) for strip, stages in found.values())


def strip_track(path: SkinPath, lap: float) -> tuple[Vec2, ...]:
    """Return the way of a strip in section coordinates: lap, path, lap. [m]"""
    (ax, ay), (bx, by) = path.path[0], path.path[-1]
    (ux, uy), (vx, vy) = path.lands
    return (
        (ax + ux * lap, ay + uy * lap),
        *path.path,
        (bx + vx * lap, by + vy * lap),
    )


def lay_track(
    view: View,
    path: SkinPath,
    lap: float,
    solid: shapely.Geometry,
    *,
    strip: Strip | None = None,
    layer: int = 0,
) -> StripWay:
    """Return a way along a face with laps of `lap` [m], with or without a strip on it.

    It lies on the side where nothing solid stands; strips over others lie a `layer` farther out.
    Over a closed seam the laps are measured from its middle, as the schedule does.
    """
    width = None if strip is None else strip.width
    closed = width is not None and 2 * lap + path.span > width + 1e-9
    if closed and width is not None:
        lap = max((width - path.span) / 2, 0.0)
    track = view.ring(strip_track(path, lap))
    middle = ((track[1][0] + track[-2][0]) / 2, (track[1][1] + track[-2][1]) / 2)
    left = _inside(track, OFF, solid)
    right = _inside(track, -OFF, solid)
    return StripWay(
        strip=strip,
        track=track,
        first=(middle if closed else track[1], track[0]),
        last=(middle if closed else track[-2], track[-1]),
        side=1.0 if left <= right else -1.0,
        layer=layer,
    )


def draw_strip(sheet: Sheet, way: StripWay, system: System) -> None:
    """Draw the strip's line and the dimension of each lap."""
    if way.strip is None:
        return
    line = shifted(way.track, way.off * way.side)
    pen = STRIP if way.strip.primary else STRIP_SECOND
    if pen.dash:
        sheet.page.path(line, Pen(width=pen.width, color=WHITE))
    sheet.page.path(line, pen)
    for a, b in itertools.pairwise(line):
        sheet.placer.draw_ink(a, b, 3.0)
    if way.strip.width is None:
        return
    for foot, end in (way.first, way.last):
        _draw_lap(sheet, way, (foot, end), format_width(way.strip.lap, system))


def _draw_lap(sheet: Sheet, way: StripWay, lap: tuple[Vec2, Vec2], text: str) -> None:
    foot, end = lap
    length = math.dist(foot, end)
    if length < 0.5:
        return
    d = ((end[0] - foot[0]) / length, (end[1] - foot[1]) / length)
    toward = 1.0 if lap == way.last else -1.0
    out = (-d[1] * way.side * toward, d[0] * way.side * toward)
    other = way.last if lap == way.first else way.first
    beyond = max((p[0] - foot[0]) * out[0] + (p[1] - foot[1]) * out[1] for p in other)
    off = DIM + ROW * way.layer
    if beyond > 1.0 and _opening_angle(way) > OBTUSE:
        out = (-out[0], -out[1])
        off = DIM + 3.0 + ROW * way.layer
    elif beyond > 1.0:
        off = max(DIM, beyond + 5.0) + ROW * way.layer
    points = tuple((p[0] + out[0] * off, p[1] + out[1] * off) for p in (foot, end))
    stub = DIM - 2.2 if off == DIM else 3.5
    draw_chain(sheet, Chain(points=points, texts=(text,), out=out, stub=stub))


def _opening_angle(way: StripWay) -> float:
    """Return the angle between the two laps, π when they lie in line. [rad]"""
    (ax, ay), (bx, by) = way.first
    (cx, cy), (dx, dy) = way.last
    ux, uy, vx, vy = bx - ax, by - ay, dx - cx, dy - cy
    size = math.hypot(ux, uy) * math.hypot(vx, vy)
    return math.acos(max(-1.0, min(1.0, (ux * vx + uy * vy) / size))) if size else math.pi


def label_strip(sheet: Sheet, way: StripWay, system: System, *, signed: bool) -> None:
    """Write width, face and standing of a strip beside its middle."""
    if way.strip is None:
        return
    line = shifted(way.track, way.off * way.side)
    at = _middle(line)
    width = "no stock" if way.strip.width is None else format_width(way.strip.width, system)
    word = "inside" if way.strip.face == "inner" else "outside"
    text = f"{width} strip, {word}" + ("" if signed else " UNSIGNED")
    away = _normal_at(line, way.side)
    sheet.label(Label(text=sheet.say(text), start=at, end=at, away=away, bold=True, kind="strip",
                             led=True, keyed=False))  # fmt: skip


def shifted(track: tuple[Vec2, ...], by: float) -> list[Vec2]:
    """Return a polyline moved sideways by `by` (left of its run on a y-down page is negative)."""
    points = [track[0]]
    for point in track[1:]:
        if math.dist(point, points[-1]) > 1e-6:
            points.append(point)
    if len(points) < 2:
        return points
    normals = []
    for a, b in itertools.pairwise(points):
        length = math.dist(a, b)
        normals.append((-(b[1] - a[1]) / length, (b[0] - a[0]) / length))
    moved = [_moved(points[0], normals[0], by)]
    for point, n, m in zip(points[1:-1], normals, normals[1:], strict=False):
        moved.append(_moved(point, _miter(n, m), by))
    moved.append(_moved(points[-1], normals[-1], by))
    return moved


def _miter(n: Vec2, m: Vec2) -> Vec2:
    x, y = n[0] + m[0], n[1] + m[1]
    square = x * x + y * y
    if square < 0.3:
        return n
    return (2 * x / square, 2 * y / square)


def _moved(p: Vec2, n: Vec2, by: float) -> Vec2:
    return (p[0] + n[0] * by, p[1] + n[1] * by)


def _inside(track: tuple[Vec2, ...], by: float, solid: shapely.Geometry) -> float:
    line = shifted(track, by)
    return float(LineString(line).intersection(solid).length) if len(line) > 1 else 0.0


def faces_off(way: StripWay) -> list[tuple[Vec2, Vec2]]:
    """Return points on the track with the unit direction off the skin: middle, then both laps."""
    line = [p for i, p in enumerate(way.track) if i == 0 or math.dist(p, way.track[i - 1]) > 1e-6]
    found = []
    middle = _normal_at(line, way.side)
    if middle is not None:
        found.append((_middle(line), middle))
    for a, b in (line[:2], line[-2:]):
        length = math.dist(a, b)
        normal = (-(b[1] - a[1]) / length * way.side, (b[0] - a[0]) / length * way.side)
        found.append((((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), normal))
    return found


def _middle(line: list[Vec2]) -> Vec2:
    if len(line) < 2:
        return line[0]
    spot = LineString(line).interpolate(0.5, normalized=True)
    return (float(spot.x), float(spot.y))


def _normal_at(line: list[Vec2], side: float) -> Vec2 | None:
    if len(line) < 2:
        return None
    whole = LineString(line)
    a, b = (whole.interpolate(t, normalized=True) for t in (0.45, 0.55))
    length = math.hypot(b.x - a.x, b.y - a.y)
    if length < 1e-9:
        return None
    return (-(b.y - a.y) / length * side, (b.x - a.x) / length * side)
