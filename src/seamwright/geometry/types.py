"""Points, frames and segments. Right-handed, z up, metres, radians; no building words here."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TypeAlias

Vec2: TypeAlias = tuple[float, float]
Vec3: TypeAlias = tuple[float, float, float]
Ring: TypeAlias = tuple[Vec2, ...]
"""A closed outline in a plane, counter-clockwise, first point not repeated. [m]"""


def _minus(a: Vec3, b: Vec3) -> Vec3:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def dot(a: Vec3, b: Vec3) -> float:
    """Return the scalar product of two vectors."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vec3, b: Vec3) -> Vec3:
    """Return the vector product of two vectors, right-handed."""
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class Frame:
    """An orthonormal frame: `origin` [m] and the unit vectors `u`, `v`; the normal is u × v."""

    origin: Vec3
    u: Vec3
    v: Vec3

    @property
    def n(self) -> Vec3:
        """Unit normal u × v."""
        return cross(self.u, self.v)

    def point(self, uv: Vec2, w: float = 0.0) -> Vec3:
        """Return the point at in-plane coordinates `uv` and height `w` along the normal. [m]"""
        o, u, v, n = self.origin, self.u, self.v, self.n
        return (
            o[0] + uv[0] * u[0] + uv[1] * v[0] + w * n[0],
            o[1] + uv[0] * u[1] + uv[1] * v[1] + w * n[1],
            o[2] + uv[0] * u[2] + uv[1] * v[2] + w * n[2],
        )

    def local(self, p: Vec3) -> Vec3:
        """Return the coordinates (u, v, w) of point `p` in this frame. [m]"""
        d = _minus(p, self.origin)
        return (dot(d, self.u), dot(d, self.v), dot(d, self.n))


@dataclass(frozen=True, kw_only=True, slots=True)
class Segment:
    """A straight piece of a line from `start` to `end`. [m]"""

    start: Vec3
    end: Vec3

    @property
    def length(self) -> float:
        """Distance from start to end. [m]"""
        return math.dist(self.start, self.end)

    @property
    def middle(self) -> Vec3:
        """Point halfway along. [m]"""
        a, b = self.start, self.end
        return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2)
