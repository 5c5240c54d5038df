"""Which air each stretch of a section's edge meets."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import Polygon

from seamwright.geometry.types import Frame
from seamwright.joints.enclose import INSIDE
from seamwright.moisture.layers import RSE, RSI, heat_way
from seamwright.moisture.types import Counts, Exposure, Flags, Floats

_EDGE = 1e-4
_OFF = 0.004
_MIXED = 0.08


@dataclass(frozen=True, kw_only=True, slots=True)
class Rim:
    """The stretches (n, 2, 2) [m] of a section's edge that meet air, and whether it is room air.

    `normal` (n, 2) points into the air. `mixed` says that one body of air touches both.
    """

    stretches: Floats
    normal: Floats
    inside: Flags
    mixed: bool


def rim_of(
    whole: Polygon, *, air: Sequence[Polygon], ground: shapely.Geometry, cuts: shapely.Geometry,
    frame: Frame, indoors: Callable[[Frame, Floats], Floats],
) -> Rim:  # fmt: skip
    """Return the edge of a section that meets air. [m]

    Left out: where the section was cut, and the underside of what lies on the ground. Stretches
    that meet the same body of air are all inside or all outside, as most of their length is.
    """
    ring = shapely.orient_polygons(whole).exterior.coords
    points = np.array(ring, dtype=np.float64)
    stretches = np.stack([points[:-1], points[1:]], axis=1)
    d = stretches[:, 1] - stretches[:, 0]
    length = np.linalg.norm(d, axis=1)
    stretches, d, length = stretches[length > 1e-6], d[length > 1e-6], length[length > 1e-6]
    normal = np.column_stack([d[:, 1], -d[:, 0]]) / length[:, None]
    middle = stretches.mean(axis=1)
    cut = shapely.distance(shapely.points(middle), cuts) < _EDGE
    cut &= shapely.distance(shapely.points(stretches[:, 0]), cuts) < _EDGE
    cut &= shapely.distance(shapely.points(stretches[:, 1]), cuts) < _EDGE
    below = shapely.distance(shapely.points(middle), ground) < _EDGE if not ground.is_empty else cut
    down = normal @ np.array([frame.u[2], frame.v[2]]) < -0.5
    kept = ~cut & ~(below & down)
    stretches, normal, length = stretches[kept], normal[kept], length[kept]
    body_of = _bodies(air, stretches.mean(axis=1) + _OFF / 8 * normal)
    sure = indoors(frame, stretches.mean(axis=1) + _OFF * normal) > INSIDE
    inside, mixed = np.zeros(len(body_of), dtype=bool), False
    for body in np.unique(body_of):
        mine = body_of == body
        share = length[mine & sure].sum() / length[mine].sum()
        inside[mine] = share > 0.5
        mixed |= _MIXED < share < 1 - _MIXED
    return Rim(stretches=stretches, normal=normal, inside=inside, mixed=mixed)


def exposures_of(rim: Rim, frame: Frame) -> tuple[Exposure, ...]:
    """Return the stretches with their airs and surface resistances. [m²·K/W] Source: ISO 6946."""
    found = []
    up = -rim.normal @ np.array([frame.u[2], frame.v[2]])
    for (start, end), inside, rise in zip(rim.stretches, rim.inside, up, strict=True):
        found.append(
            Exposure(
                start=(float(start[0]), float(start[1])),
                end=(float(end[0]), float(end[1])),
                side="inside" if inside else "outside",
                resistance=RSI[heat_way(float(rise))] if inside else RSE,
            )
        )
    return tuple(found)


def _bodies(air: Sequence[Polygon], points: Floats) -> Counts:
    """Return for each point (n, 2) the body of air it lies in, by number."""
    if not air:
        return np.zeros(len(points), dtype=np.int64)
    return np.asarray(shapely.STRtree(air).nearest(shapely.points(points)), dtype=np.int64)
