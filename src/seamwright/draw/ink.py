"""Pens, colors and marks. One style per joint kind, told apart by color, dashes and mark.

Colors are the eight of Okabe and Ito, "Color Universal Design" (2008), chosen there so that people
with any common color blindness tell them apart; yellow is left out because it fades on white. Line
widths follow the steps of ISO 128-2 (each √2 of the last: 0.13, 0.18, 0.25, 0.35, 0.5, 0.7 mm; from
memory). Dash patterns and marks are our own and carry the meaning alone in black and white.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

BLACK = "#000000"
GREY = "#5f5f5f"
PALE = "#9a9a9a"
WHITE = "#ffffff"
ORANGE = "#e69f00"
SKY = "#56b4e9"
GREEN = "#009e73"
BLUE = "#0072b2"
RED = "#d55e00"
PURPLE = "#cc79a7"

Mark: TypeAlias = Literal[
    "square", "box", "disc", "ring", "wedge", "delta", "lozenge", "rhomb",
    "cross", "plus", "bar", "bars", "tee", "vee", "hat", "star",
]  # fmt: skip


@dataclass(frozen=True, kw_only=True, slots=True)
class Pen:
    """How a line is drawn: width [mm], color, dashes [mm] (empty: full line)."""

    width: float
    color: str = BLACK
    dash: tuple[float, ...] = ()

    def with_width(self, width: float) -> Pen:
        """Return the same pen at another width. [mm]"""
        return replace(self, width=width)


@dataclass(frozen=True, kw_only=True, slots=True)
class KindStyle:
    """How one joint kind is drawn, and what the legend calls it."""

    name: str
    pen: Pen
    mark: Mark


CUT = Pen(width=0.5)
EDGE = Pen(width=0.35)
THIN = Pen(width=0.18)
FAINT = Pen(width=0.18, color=PALE)
BEYOND = Pen(width=0.18, color=GREY)
HIDDEN = Pen(width=0.18, color=GREY, dash=(1.6, 0.8))
CENTER = Pen(width=0.18, color=GREY, dash=(5.0, 0.8, 0.8, 0.8))
DIMENSION = Pen(width=0.15, color=BLACK)
LEADER = Pen(width=0.13, color=GREY)
HATCH = Pen(width=0.13, color=PALE)

TEXT = 2.1
"""Height of ids and dimensions: the em in mm, capitals 1.5 mm tall. [mm]"""
SMALL = 1.9
ADVANCE = 0.602
"""Width of every glyph of DejaVu Sans Mono as a part of the em; from the font's own tables."""


def _style(name: str, color: str, width: float, mark: Mark, *dash: float) -> KindStyle:
    return KindStyle(name=name, pen=Pen(width=width, color=color, dash=tuple(dash)), mark=mark)


KINDS: Mapping[str, KindStyle] = {
    "wall_spline": _style("wall spline", BLUE, 0.5, "box"),
    "wall_corner": _style("wall corner", RED, 0.6, "square"),
    "wall_tee": _style("wall tee", PURPLE, 0.5, "tee", 3.0, 1.0),
    "sill": _style("sill", GREEN, 0.5, "wedge", 4.0, 0.8),
    "floor_line": _style("floor line", PURPLE, 0.5, "bars", 4.0, 0.8, 0.7, 0.8),
    "floor_spline": _style("floor spline", SKY, 0.5, "ring", 1.6, 0.8),
    "roof_spline": _style("roof spline", BLUE, 0.5, "bar", 2.4, 0.9),
    "ridge": _style("ridge", RED, 0.7, "disc"),
    "hip": _style("hip", RED, 0.6, "lozenge", 5.0, 1.0),
    "valley": _style("valley", BLUE, 0.7, "vee", 5.0, 0.9, 0.8, 0.9),
    "eave": _style("eave", GREEN, 0.6, "delta", 3.0, 0.8, 0.8, 0.8),
    "rake": _style("rake", ORANGE, 0.6, "rhomb", 1.4, 0.8),
    "roof_step": _style("roof step", PURPLE, 0.6, "hat", 2.4, 0.7, 0.7, 0.7, 0.7, 0.7),
    "opening": _style("opening", ORANGE, 0.4, "plus", 6.0, 0.7),
    "penetration": _style("penetration", BLACK, 0.4, "star", 0.7, 0.7),
    "end_joint": _style("end joint", SKY, 0.5, "cross", 4.0, 0.7, 0.7, 0.7, 0.7, 0.7),
}
"""Style by joint kind: no two share both dashes and width, nor a mark."""

STRIP = Pen(width=0.9, color=RED)
STRIP_SECOND = Pen(width=0.9, color=BLUE, dash=(2.2, 0.9))
