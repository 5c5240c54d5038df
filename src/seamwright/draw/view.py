"""A parallel view square to a direction: from the house to the paper at a scale."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from seamwright.draw.scale import Scale
from seamwright.draw.types import Points, Rect
from seamwright.geometry.types import Vec2, Vec3, cross, dot

UP: Vec3 = (0.0, 0.0, 1.0)
EAST: Vec3 = (1.0, 0.0, 0.0)
NORTH: Vec3 = (0.0, 1.0, 0.0)


@dataclass(frozen=True, kw_only=True, slots=True)
class View:
    """`right` and `up` are the unit directions of the paper's axes in the house; `middle` [m] of
    the view lies at `paper` [mm].
    """

    right: Vec3
    up: Vec3
    scale: Scale
    middle: Vec2
    paper: Vec2

    @property
    def toward(self) -> Vec3:
        """Unit direction from the house to the eye."""
        return cross(self.right, self.up)

    def flat(self, p: Vec3) -> Vec2:
        """Return the point in the view's own plane. [m]"""
        return (dot(p, self.right), dot(p, self.up))

    def at(self, p: Vec3) -> Vec2:
        """Return the point on paper. [mm]"""
        return self.on_paper(self.flat(p))

    def on_paper(self, p: Vec2) -> Vec2:
        """Return a point of the view's plane on paper. [mm]"""
        k = self.scale.mm_per_m
        return (
            self.paper[0] + (p[0] - self.middle[0]) * k,
            self.paper[1] - (p[1] - self.middle[1]) * k,
        )

    def ring(self, points: Points) -> tuple[Vec2, ...]:
        """Return points of the view's plane on paper. [mm]"""
        return tuple(self.on_paper(p) for p in points)

    def direction(self, d: Vec3) -> Vec2 | None:
        """Return a direction on paper as a unit vector, None when it points at the eye."""
        x, y = dot(d, self.right), -dot(d, self.up)
        length = math.hypot(x, y)
        return None if length < 1e-6 else (x / length, y / length)


@dataclass(frozen=True, kw_only=True, slots=True)
class Axes:
    """The directions of a view before it has a scale."""

    right: Vec3
    up: Vec3

    def flat(self, p: Vec3) -> Vec2:
        """Return the point in the view's plane. [m]"""
        return (dot(p, self.right), dot(p, self.up))


PLAN = Axes(right=EAST, up=NORTH)


def extent(axes: Axes, points: Iterable[Vec3]) -> tuple[Vec2, Vec2]:
    """Return the lowest and highest coordinates of points in the view's plane. [m]"""
    flat = [axes.flat(p) for p in points]
    xs, ys = [p[0] for p in flat], [p[1] for p in flat]
    return (min(xs), min(ys)), (max(xs), max(ys))


def centered_view(
    axes: Axes, box: tuple[Vec2, Vec2], scale: Scale, room: Rect, shift: Vec2 = (0.0, 0.0)
) -> View:
    """Return the view with the middle of `box` in the middle of `room`, moved by `shift` [mm]."""
    low, high = box
    return View(
        right=axes.right,
        up=axes.up,
        scale=scale,
        middle=((low[0] + high[0]) / 2, (low[1] + high[1]) / 2),
        paper=(room.center[0] + shift[0], room.center[1] + shift[1]),
    )
