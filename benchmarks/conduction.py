"""Steady conduction: time for a grid and a solve, and how it grows with the points."""

from __future__ import annotations

import math
import time
from typing import Any

from seamwright.moisture.conduction import conduct
from seamwright.moisture.grid import make_grid
from seamwright.moisture.types import Exposure, PlainSection, Region


def run(*, quick: bool = False) -> dict[str, Any]:
    """Return the figures, flat; `quick` takes coarse grids."""
    figures: dict[str, Any] = {}
    rows = []
    for finest in (0.008, 0.004) if quick else (0.004, 0.002, 0.001, 0.0005):
        start = time.perf_counter()
        grid = make_grid(seam(), finest)
        made = time.perf_counter()
        conduct(grid, {"inside": 1.0, "outside": 0.0})
        done = time.perf_counter()
        n = len(grid.points)
        rows.append((n, done - start))
        figures[f"{n} points grid_s"] = made - start
        figures[f"{n} points solve_s"] = done - made
    (n0, t0), (n1, t1) = rows[0], rows[-1]
    figures["growth exponent"] = math.log(t1 / t0) / math.log(n1 / n0)
    return figures


def seam() -> PlainSection:
    """Return a panel seam with a wooden spline."""

    def part(x0: float, x1: float, y0: float, y1: float, k: float) -> Region:
        ring = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
        return Region(outline=ring, conductivity=k, name="part")

    return PlainSection(
        regions=(
            part(-0.038, 0.038, 0.011, 0.154, 0.12), part(-0.5, 0.5, 0.0, 0.011, 0.13),
            part(-0.5, 0.5, 0.011, 0.154, 0.037), part(-0.5, 0.5, 0.154, 0.165, 0.13),
        ),
        exposures=(
            Exposure(start=(-0.5, 0.0), end=(0.5, 0.0), side="inside", resistance=0.13),
            Exposure(start=(-0.5, 0.165), end=(0.5, 0.165), side="outside", resistance=0.04),
        ),
    )  # fmt: skip
