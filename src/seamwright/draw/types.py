"""What a drawing is once drawn: a named sheet of SVG text with its true size and scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

from seamwright.geometry.types import Vec2

Paper: TypeAlias = Literal["letter", "a4"]
Corner: TypeAlias = Literal["south-west", "south-east", "north-east", "north-west"]
Anchor: TypeAlias = Literal["start", "middle", "end"]
Points: TypeAlias = Sequence[Vec2]


@dataclass(frozen=True, kw_only=True, slots=True)
class Drawing:
    """One sheet: `svg` is the whole text of an SVG 1.1 file, `width_mm` × `height_mm` on paper.

    `scale` reads as on the sheet (``1:50``, ``1/4" = 1'-0"``, ``not to scale``); `shown` lists the
    joints the sheet names, on the drawing or in its key.
    """

    name: str
    title: str
    svg: str
    width_mm: float
    height_mm: float
    scale: str
    caption: str
    shown: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Rect:
    """An upright rectangle on paper, y downward. [mm]"""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def width(self) -> float:
        """Extent across. [mm]"""
        return self.x1 - self.x0

    @property
    def height(self) -> float:
        """Extent down. [mm]"""
        return self.y1 - self.y0

    @property
    def center(self) -> Vec2:
        """Middle point. [mm]"""
        return ((self.x0 + self.x1) / 2, (self.y0 + self.y1) / 2)

    def holds(self, p: Vec2) -> bool:
        """Return whether a point lies in the rectangle."""
        return self.x0 <= p[0] <= self.x1 and self.y0 <= p[1] <= self.y1

    def shrunk(self, by: float) -> Rect:
        """Return the rectangle moved in by `by` on every side. [mm]"""
        return Rect(x0=self.x0 + by, y0=self.y0 + by, x1=self.x1 - by, y1=self.y1 - by)
