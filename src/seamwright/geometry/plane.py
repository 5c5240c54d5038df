"""Planes in space: as a height over the plan, and as a point with a normal."""

from __future__ import annotations

import math
from dataclasses import dataclass

from seamwright.errors import GeometryError
from seamwright.geometry.types import Frame, Vec2, Vec3, cross, dot


@dataclass(frozen=True, kw_only=True, slots=True)
class Slope:
    """A plane that is not upright, as its height over the plan: z = a·x + b·y + c. [m]"""

    a: float
    b: float
    c: float

    def at(self, p: Vec2) -> float:
        """Return the height over plan point `p`. [m]"""
        return self.a * p[0] + self.b * p[1] + self.c

    @property
    def plumb_per_thickness(self) -> float:
        """Return plumb depth per unit of thickness measured square to the plane. [-]

        1 / cos of the slope angle: the classic "plumb cut is longer than the stock" factor.
        """
        return math.sqrt(1.0 + self.a * self.a + self.b * self.b)

    def raised(self, thickness: float) -> Slope:
        """Return the parallel plane `thickness` away, measured square to it, upward. [m]"""
        return Slope(a=self.a, b=self.b, c=self.c + thickness * self.plumb_per_thickness)

    def lifted(self, p: Vec2) -> Vec3:
        """Return the point of the plane over plan point `p`. [m]"""
        return (p[0], p[1], self.at(p))


@dataclass(frozen=True, kw_only=True, slots=True)
class Flat:
    """A plane through `point` with `normal` (any length)."""

    point: Vec3
    normal: Vec3


def unit(v: Vec3) -> Vec3:
    """Return the vector with length one.

    Raises
    ------
    GeometryError
        If the vector has no length.
    """
    length = math.sqrt(dot(v, v))
    if length < 1e-12:
        raise GeometryError("a direction of length zero points nowhere; give a direction")
    return (v[0] / length, v[1] / length, v[2] / length)


def slope_over_line(foot: Vec2, along: Vec2, height: float, pitch: float) -> Slope:
    """Return the plane at `height` over the plan line through `foot` along the unit vector `along`,
    rising to its left by `pitch` (rise over run). [m, -]
    """
    a, b = -along[1] * pitch, along[0] * pitch
    return Slope(a=a, b=b, c=height - a * foot[0] - b * foot[1])


def slope_frame(foot: Vec2, along: Vec2, slope: Slope) -> Frame:
    """Return the frame on a slope: origin over `foot`, u along `along`, v up the slope.

    `along` is a unit plan vector on which the slope is level.
    """
    rise = -along[1] * slope.a + along[0] * slope.b
    length = math.hypot(1.0, rise)
    v = (-along[1] / length, along[0] / length, rise / length)
    return Frame(origin=slope.lifted(foot), u=(along[0], along[1], 0.0), v=v)


def upright(p: Vec2, q: Vec2) -> Flat:
    """Return the upright plane over the plan line p-q."""
    return Flat(point=(p[0], p[1], 0.0), normal=(q[1] - p[1], p[0] - q[0], 0.0))


def miter(p: Vec2, q: Vec2, first: Slope, second: Slope, thick: tuple[float, float]) -> Flat:
    """Return the plane through the line where two slopes meet and the line where their offsets
    meet.

    Parameters
    ----------
    p, q : Vec2
        Two plan points of the line where `first` and `second` meet. [m]
    thick : (float, float)
        Thickness of what lies on each slope, square to it. [m]

    Raises
    ------
    GeometryError
        If the slopes are parallel.
    """
    ga, gb = first.a - second.a, first.b - second.b
    g2 = ga * ga + gb * gb
    if g2 < 1e-18:
        raise GeometryError("two parallel planes meet nowhere; give them different pitches")
    lift_1 = thick[0] * first.plumb_per_thickness
    shift = (lift_1 - thick[1] * second.plumb_per_thickness) / g2
    moved = (p[0] - ga * shift, p[1] - gb * shift)
    low, far = first.lifted(p), first.lifted(q)
    top = (moved[0], moved[1], first.at(moved) + lift_1)
    run = (far[0] - low[0], far[1] - low[1], far[2] - low[2])
    up = (top[0] - low[0], top[1] - low[1], top[2] - low[2])
    return Flat(point=low, normal=cross(run, up))


def trace(frame: Frame, w: float, flat: Flat) -> tuple[float, float, float]:
    """Return (a, b, c) of the line a·u + b·v + c = 0 in which a plane cuts the face at `w`."""
    m = unit(flat.normal)
    o = frame.point((0.0, 0.0), w)
    d = (o[0] - flat.point[0], o[1] - flat.point[1], o[2] - flat.point[2])
    return (dot(m, frame.u), dot(m, frame.v), dot(m, d))
