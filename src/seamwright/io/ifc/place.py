"""From a plate with a known outside to a panel of the plan, in exact metres."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from seamwright.io.ifc.layers import exact
from seamwright.io.ifc.types import Floats, Piece
from seamwright.shell.plan import GivenPanel, PanelType, Point2


@dataclass(frozen=True, kw_only=True, slots=True)
class Placed:
    """A panel of the plan with its axes as numbers: rows u, v, n of `axes`; n points outward."""

    piece: Piece
    panel: GivenPanel
    origin: Floats
    axes: Floats
    width: float
    height: float

    def local(self, points: Floats) -> Floats:
        """Return points as (u, v, height above the inner face). [m]"""
        return np.asarray((points - self.origin) @ self.axes.T, dtype=float)


def place_panel(piece: Piece, kind: PanelType) -> Placed:
    """Return the panel of a piece; its origin is the lower start corner of the inner face."""
    plate = piece.plate
    faces = (plate.low, plate.high) if piece.outward > 0 else (plate.high[::-1], plate.low[::-1])
    normal = plate.normal * piece.outward
    axes = _axes(normal, faces[0])
    flat = [face @ axes[:2].T for face in faces]
    corner = flat[0].min(axis=0)
    origin = corner @ axes[:2] + (faces[0][0] @ normal) * normal
    start = int(np.argmin((flat[0] - corner).sum(axis=1)))
    inner, outer = (np.roll(ring, -start, axis=0) - corner for ring in flat)
    width, height = (float(x) for x in np.ptp(inner, axis=0))
    square = bool(np.abs(inner - outer).max() < 2e-6)
    return Placed(
        piece=piece,
        origin=origin,
        axes=axes,
        width=width,
        height=height,
        panel=GivenPanel(
            id=piece.id,
            panel_type=kind.id,
            role=piece.role,
            origin=(exact(origin[0]), exact(origin[1]), exact(origin[2])),
            along=_direction(axes[0]),
            up=_direction(axes[1]),
            outline=_ring(inner),
            storey=piece.storey,
            plane=piece.plane,
            outer_outline=None if square else _ring(outer),
            lay_out=piece.role != "partition" and not piece.own and _too_large(width, height, kind),
        ),
    )


def _axes(normal: Floats, face: Floats) -> Floats:
    """Return rows u, v, n; v is as near to up as can be, or u along the longest edge if level."""
    if abs(normal[2]) > 1 - 1e-6:
        edges = np.roll(face, -1, axis=0) - face
        u = edges[int(np.argmax(np.linalg.norm(edges, axis=1)))]
        u = u - (u @ normal) * normal
        u = _clean(u if (u[0], u[1]) > (-1e-9 * abs(u[1]), 0.0) or u[0] > 0 else -u)
        return np.vstack([u, np.cross(normal, u), normal])
    v = _clean(np.array([0.0, 0.0, 1.0]) - normal[2] * normal)
    return np.vstack([_clean(np.cross(v, normal)), v, normal])


def _clean(vector: Floats) -> Floats:
    unit = vector / np.linalg.norm(vector)
    unit = np.where(np.abs(unit) < 1e-12, 0.0, unit)
    return np.asarray(unit / np.linalg.norm(unit), dtype=float)


def _direction(vector: Floats) -> tuple[float, float, float]:
    return (float(vector[0]) + 0.0, float(vector[1]) + 0.0, float(vector[2]) + 0.0)


def _ring(points: Floats) -> tuple[Point2, ...]:
    return tuple((exact(float(u)), exact(float(v))) for u, v in points)


def _too_large(width: float, height: float, kind: PanelType) -> bool:
    """Return whether no panel of this kind is large enough, turned either way."""
    slack = Fraction(1, 1000)
    sides = sorted((exact(width) - slack, exact(height) - slack))
    return sides[0] > kind.max_width or sides[1] > kind.max_length
