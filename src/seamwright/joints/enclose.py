"""How far a point is enclosed by the shell: the winding number of the inner faces around it.

A point in a closed house has winding number one, far outside zero; a single sheet such as a roof
overhang adds at most one half, and a missing panel takes away the share of the view it leaves open.
Source: Jacobson, Kavan and Sorkine-Hornung 2013, "Robust inside-outside segmentation using
generalized winding numbers", ACM Transactions on Graphics 32(4); solid angle of a triangle: Van
Oosterom and Strackee 1983, IEEE Transactions on Biomedical Engineering BME-30(2).
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from seamwright.geometry.search import Floats
from seamwright.geometry.types import Vec3
from seamwright.shell.types import Panel

INSIDE = 0.55
"""Winding number above which a point beside a wall or floor counts as indoors. A lone sheet such as
a parapet reaches one half; the edge beside a missing panel keeps five eighths where the two faces
meet at 45 degrees, three quarters where they meet square. [-]"""

INSIDE_ROOF = 0.62
"""The same beside a roof panel, whose overhang may stand over a wall that is missing. [-]"""

_CHUNK = 400_000


def hull_triangles(panels: Sequence[Panel], bases: Sequence[Sequence[Vec3]]) -> Floats:
    """Return triangles (k, 3, 3) of the inner faces, seen counter-clockwise from outside.

    Holes count as closed: a window stands in them. `bases` are further outlines in space, also
    counter-clockwise from outside (the slab, seen from below). [m]
    """
    rings = [[panel.frame.point(uv) for uv in panel.inner] for panel in panels]
    rings += [list(base) for base in bases]
    fans = [(ring[0], ring[i], ring[i + 1]) for ring in rings for i in range(1, len(ring) - 1)]
    return np.array(fans, dtype=float).reshape(-1, 3, 3)


def winding_numbers(points: Floats, triangles: Floats) -> Floats:
    """Return the winding number of the triangles around each point (n, 3). [-]"""
    if len(triangles) == 0 or len(points) == 0:
        return np.zeros(len(points))
    step = max(1, _CHUNK // len(triangles))
    parts = [_solid_angles(points[at : at + step], triangles) for at in range(0, len(points), step)]
    return np.concatenate(parts) / (4.0 * np.pi)


def _solid_angles(points: Floats, triangles: Floats) -> Floats:
    a, b, c = (triangles[None, :, i] - points[:, None] for i in range(3))
    la, lb, lc = (np.linalg.norm(side, axis=2) for side in (a, b, c))
    volume = np.einsum("ijk,ijk->ij", a, np.cross(b, c))
    spread = (
        la * lb * lc
        + np.einsum("ijk,ijk->ij", a, b) * lc
        + np.einsum("ijk,ijk->ij", b, c) * la
        + np.einsum("ijk,ijk->ij", c, a) * lb
    )
    return np.asarray(2.0 * np.arctan2(volume, spread).sum(axis=1))
