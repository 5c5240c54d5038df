"""The spline of an in-plane seam as drawn shapes, and the void that the seam leaves."""

from __future__ import annotations

import math

from seamwright.geometry.types import Ring, Vec2
from seamwright.joints.section_parts import PanelCut
from seamwright.joints.section_path import near_end
from seamwright.joints.types import SectionShape
from seamwright.shell.types import Build

FLANGE = 0.0381
"""Depth of an I-joist's flange. [m] 1-1/2 in, common practice, no source."""

WEB = 0.0095
"""Thickness of an I-joist's web. [m] 3/8 in, common practice, no source."""

_LEAST = 1e-7


def spline_shapes(build: Build, a: PanelCut, b: PanelCut) -> list[SectionShape]:
    """Return the spline of a seam between two panels in one plane, from the build's own sizes.

    A ``surface`` spline is two skins let in behind the panel's skins, a ``block`` a narrow panel
    between them, a ``lumber`` spline two plies, an ``i_joist`` two flanges and a web. A
    ``cam_lock`` seam has no loose part.
    """
    seam = _Seam(a, b)
    low, high = build.skin_inner, build.skin_inner + build.core
    half = build.spline_width / 2
    t_in, t_out = build.skin_inner, build.skin_outer
    boxes: list[tuple[float, float, float, float, str]] = []
    if build.spline in {"surface", "block"}:
        if build.spline == "block":
            boxes.append((-half, half, low + t_in, high - t_out, "core"))
        boxes += [
            (-half, half, low, low + t_in, "spline"),
            (-half, half, high - t_out, high, "spline"),
        ]
    elif build.spline == "lumber":
        boxes += [(-half, 0.0, low, high, "timber"), (0.0, half, low, high, "timber")]
    elif build.spline == "i_joist":
        boxes += [
            (-half, half, low, low + FLANGE, "timber"),
            (-half, half, high - FLANGE, high, "timber"),
            (-WEB / 2, WEB / 2, low + FLANGE, high - FLANGE, "timber"),
        ]
    return [
        SectionShape(outline=seam.box(x0, x1, y0, y1), material=material, owner="spline")  # type: ignore[arg-type]
        for x0, x1, y0, y1, material in boxes
    ]


def void_shape(a: PanelCut, b: PanelCut) -> SectionShape | None:
    """Return the opening between the near edges of two panels, None when they close on each other.

    For a seam it is the slot between the edges; at a ridge of square-cut panels, the wedge.
    """
    corners = [
        near_end(a.inner)[0],
        near_end(b.inner)[0],
        near_end(b.outer)[0],
        near_end(a.outer)[0],
    ]
    ring = tuple(c for i, c in enumerate(corners) if math.dist(c, corners[i - 1]) > 1e-6)
    twice = _twice(ring)
    if len(ring) < 3 or abs(twice) / 2 < _LEAST:
        return None
    return SectionShape(outline=ring if twice > 0 else ring[::-1], material="gap", owner="void")


def area(ring: Ring) -> float:
    """Return the area of an outline. [m²]"""
    return abs(_twice(ring)) / 2


def _twice(ring: Ring) -> float:
    pairs = zip(ring, ring[1:] + ring[:1], strict=True)
    return math.fsum(p[0] * q[1] - q[0] * p[1] for p, q in pairs)


class _Seam:
    """Axes at a seam: x across it from its middle, y from the inner face outward."""

    def __init__(self, a: PanelCut, b: PanelCut) -> None:
        pa, pb = near_end(a.inner)[0], near_end(b.inner)[0]
        self.middle = ((pa[0] + pb[0]) / 2, (pa[1] + pb[1]) / 2)
        self.out = a.out
        self.across: Vec2 = (a.out[1], -a.out[0])

    def box(self, x0: float, x1: float, y0: float, y1: float) -> Ring:
        corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
        return tuple(self._place(x, y) for x, y in corners)

    def _place(self, x: float, y: float) -> Vec2:
        m, a, o = self.middle, self.across, self.out
        return (m[0] + x * a[0] + y * o[0], m[1] + x * a[1] + y * o[1])
