"""Small plain sections that several tests share."""

from __future__ import annotations

import math

from seamwright.moisture.types import Exposure, Flank, PlainSection, Point, Region

OSB, FOAM, WOOD = 0.13, 0.037, 0.12


def box(x0: float, y0: float, x1: float, y1: float) -> tuple[Point, ...]:
    """Return an upright rectangle. [m]"""
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def run(a: Point, b: Point, side: str, resistance: float) -> Exposure:
    """Return one stretch of edge. [m²·K/W]"""
    return Exposure(start=a, end=b, side=side, resistance=resistance)


def part(outline: tuple[Point, ...], conductivity: float, name: str = "part") -> Region:
    """Return one region. [W/(m·K)]"""
    return Region(outline=outline, conductivity=conductivity, name=name)


def seam(
    spline: float | None = WOOD, *, width: float = 0.076, core: float = 0.14, half: float = 0.4,
    skin: float = 0.011, foam: float = FOAM,
) -> PlainSection:  # fmt: skip
    """Return a panel seam with a solid spline between the skins, or without one. [m]"""
    top = 2 * skin + core
    regions = [] if spline is None else [
        part(box(-width / 2, skin, width / 2, top - skin), spline, "spline")
    ]  # fmt: skip
    regions += [
        part(box(-half, 0.0, half, skin), OSB, "skin"),
        part(box(-half, skin, half, top - skin), foam, "core"),
        part(box(-half, top - skin, half, top), OSB, "skin"),
    ]
    u = 1 / (0.13 + 2 * skin / OSB + core / foam + 0.04)
    return PlainSection(
        regions=tuple(regions),
        exposures=(
            run((-half, 0.0), (half, 0.0), "inside", 0.13),
            run((-half, top), (half, top), "outside", 0.04),
        ),
        flanks=(Flank(name="wall", u_value=u, length=2 * half),),
        probes=(("inner seam", (0.0, 0.0)), ("outer seam", (0.0, top))),
    )


def ridge(slope: float = 0.5, half: float = 0.5, *, skin: float = 0.012, core: float = 0.2,
          mirrored: bool = False) -> PlainSection:  # fmt: skip
    """Return two sloping panels that meet at a plumb cut, with room air below. [m]"""
    plumb = math.hypot(1.0, slope)
    levels = [0.0, skin * plumb, (skin + core) * plumb, (2 * skin + core) * plumb]
    sides = (1, -1) if mirrored else (-1, 1)
    regions = [
        part(
            ((0.0, low), (s * half, low - slope * half), (s * half, high - slope * half),
             (0.0, high)),
            k,
        )
        for s in sides
        for low, high, k in zip(levels, levels[1:], (OSB, FOAM, OSB), strict=False)
    ]  # fmt: skip
    exposures = [
        run((0.0, level), (s * half, level - slope * half), side, resistance)
        for s in sides
        for level, side, resistance in ((levels[0], "inside", 0.1), (levels[-1], "outside", 0.04))
    ]
    return PlainSection(regions=tuple(regions), exposures=tuple(exposures))


def corner(arm: float = 4.0, thick: float = 1.0) -> PlainSection:
    """Return a square corner of one material between faces held at two temperatures. [m]"""
    far = arm + thick
    ring = ((0.0, 0.0), (far, 0.0), (far, thick), (thick, thick), (thick, far), (0.0, far))
    return PlainSection(
        regions=(part(ring, 1.0),),
        exposures=(
            run((0.0, 0.0), (far, 0.0), "outside", 0.0),
            run((0.0, 0.0), (0.0, far), "outside", 0.0),
            run((thick, thick), (far, thick), "inside", 0.0),
            run((thick, thick), (thick, far), "inside", 0.0),
        ),
    )
