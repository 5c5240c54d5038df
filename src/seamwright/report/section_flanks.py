"""The plane elements that run into a joint: their U-values, and the lengths counted for them.

Lengths are overall internal dimensions: along the inner face, to the point where the inner faces
meet, whatever timber or inner wall covers the face. Source: ISO 13789 and ISO 14683, the third of
their systems of dimensions (from memory).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from seamwright.moisture.types import Flank
from seamwright.report.section_runs import STRETCH, PlaneRun, Window

_OFF = 0.05


def find_flanks(runs: Sequence[PlaneRun], grounds: Sequence[PlaneRun], view: Window
                ) -> tuple[Flank, ...]:  # fmt: skip
    """Return the plane elements of a section that stand between a room and the outdoors."""
    flanks = []
    for run in runs:
        others = [x for x in runs if x is not run] + list(grounds)
        length = _counted(run, others, view)
        if length > 1e-6:
            flanks.append(Flank(name=run.name, u_value=run.u, length=length))
    return tuple(flanks)


def _counted(line: PlaneRun, others: Sequence[PlaneRun], view: Window) -> float:
    """Return how much of a line bounds a room from outdoors. [m]"""
    ends = line.ends(view.reach)
    if ends is None:
        return 0.0
    meets = [s for other in others if (s := _meeting(line, other)) is not None]
    far = STRETCH * max([line.thickness, *(o.thickness for o in others)])
    total = 0.0
    for first, last in line.spans:
        low = max(_reached(first, meets, -far), ends[0])
        high = min(_reached(last, meets, far), ends[1])
        if high <= low:
            continue
        cuts = sorted({low, high, *(s for s in meets if low < s < high)})
        for a, b in itertools.pairwise(cuts):
            inner = line.at((a + b) / 2, -_OFF)
            outer = line.at((a + b) / 2, line.thickness + _OFF)
            if b > a and view.is_indoors(inner) and not view.is_indoors(outer):
                total += b - a
    return total


def _reached(end: float, meets: Sequence[float], far: float) -> float:
    """Return the nearest meeting point at or beyond the end of a span, or the end itself."""
    beyond = [s for s in meets if 0.0 <= (s - end) * math.copysign(1, far) <= abs(far)]
    return min(beyond, key=lambda s: abs(s - end), default=end)


def _meeting(line: PlaneRun, other: PlaneRun) -> float | None:
    slope = line.along[0] * other.out[0] + line.along[1] * other.out[1]
    if abs(slope) < 1e-6:
        return None
    return -other.height(line.start) / slope
