"""Which face of each plate is the outside, and on what evidence."""

from __future__ import annotations

import numpy as np
import shapely

from seamwright.io.ifc.notes import Notes
from seamwright.io.ifc.types import Floats, Layered, Mask, Piece, Plate

_OUT = ("exterior", "external", "outside", "outer", "cladding", "weather", "siding", "roofing")
_IN = ("interior", "internal", "inside", "inner", "drywall", "gypsum", "plaster", "ceiling")

RAYS = 7
"""Rays sent each way from a wall; an odd count, so that one through a gap is outvoted."""


def decide_sides(pieces: list[Piece], notes: Notes) -> None:
    """Set `outward` of every piece: +1 when outside is at the end of its plate's normal.

    Layer names come first, then what the position says: up on a roof, down
    on a floor, and for a wall the side from which a level ray crosses the other walls an even
    number of times; where that does not decide, away from the middle of all plates.
    """
    shell = _Faces([piece for piece in pieces if piece.role not in ("partition", "floor")])
    middle = np.mean([piece.plate.middle for piece in pieces], axis=0) if pieces else np.zeros(3)
    for piece in pieces:
        if piece.role == "partition":
            piece.outward = 1
            continue
        normal = piece.plate.normal
        named = _by_layers(piece.layers, normal)
        if named != 0:
            piece.outward = named
            notes.use("Outside face taken from the names of the layers", piece.element)
        elif abs(normal[2]) > 0.1 and piece.role in ("roof", "floor"):
            piece.outward = int(np.sign(normal[2])) * (1 if piece.role == "roof" else -1)
        else:
            piece.outward = _by_position(piece, shell, middle, notes)


def _by_layers(layers: Layered | None, normal: Floats) -> int:
    """Return the side the layer names tell, 0 when they tell nothing."""
    if layers is None or len(layers.names) < 2:
        return 0
    first, last = (_name_side(layers.names[i]) for i in (0, -1))
    if first == last:
        return 0
    toward_last = last if last != 0 else -first
    along = float(layers.axis @ normal)
    return 0 if abs(along) < 0.7 else int(np.sign(along)) * toward_last


def _name_side(name: str) -> int:
    words = name.lower()
    if any(word in words for word in _OUT):
        return 1
    return -1 if any(word in words for word in _IN) else 0


def _by_position(piece: Piece, shell: _Faces, middle: Floats, notes: Notes) -> int:
    ahead, behind = shell.crossings(piece, 1.0), shell.crossings(piece, -1.0)
    votes = sum((b % 2) - (a % 2) for a, b in zip(ahead, behind, strict=True))
    if abs(votes) > RAYS // 2:
        notes.guess(
            "Which face is outside was worked out from the walls standing around", piece.element
        )
        return 1 if votes > 0 else -1
    away = float((piece.plate.middle - middle) @ piece.plate.normal)
    notes.guess(
        "Which face is outside could not be told from the walls around; "
        "taken as the face away from the middle of the building",
        piece.element,
    )
    return 1 if away >= 0 else -1


class _Faces:
    """The middle planes of many plates, ready to be crossed by rays."""

    def __init__(self, pieces: list[Piece]) -> None:
        plates = [piece.plate for piece in pieces]
        self.index = {id(piece): i for i, piece in enumerate(pieces)}
        self.normals = np.array([p.normal for p in plates]).reshape(-1, 3)
        self.origins = np.array([p.low[0] + 0.5 * p.thickness * p.normal for p in plates]).reshape(
            -1, 3
        )
        corners = [np.vstack([p.low, p.high]) for p in plates]
        self.low = np.array([c.min(axis=0) for c in corners]).reshape(-1, 3) - 1e-6
        self.high = np.array([c.max(axis=0) for c in corners]).reshape(-1, 3) + 1e-6
        self.plates = plates

    def crossings(self, piece: Piece, way: float) -> list[int]:
        """Return, for each ray from a plate along its normal, how many others it crosses."""
        plate = piece.plate
        slopes = self.normals @ plate.normal * way
        meets = np.abs(slopes) > 0.05
        if id(piece) in self.index:
            meets[self.index[id(piece)]] = False
        starts = _spread(plate)
        others = np.flatnonzero(meets & self._beside(starts, plate.normal))
        counts = []
        for start in starts:
            reach = ((self.origins[others] - start) * self.normals[others]).sum(axis=1)
            reach = reach / slopes[others]
            hits = start + reach[:, None] * way * plate.normal
            near = (hits >= self.low[others]).all(axis=1) & (hits <= self.high[others]).all(axis=1)
            near &= reach > plate.thickness
            chosen = np.flatnonzero(near)
            counts.append(sum(_holds(self.plates[others[i]], hits[i]) for i in chosen))
        return counts

    def _beside(self, starts: Floats, way: Floats) -> Mask:
        """Return which plates' boxes overlap the band that the rays sweep, seen along them."""
        middle, half = (self.low + self.high) / 2, (self.high - self.low) / 2
        meets = np.ones(len(middle), dtype=bool)
        for axis in _square_to(way):
            at, reach = starts @ axis, half @ np.abs(axis)
            meets &= (middle @ axis + reach >= at.min()) & (middle @ axis - reach <= at.max())
        return meets


def _square_to(way: Floats) -> tuple[Floats, Floats]:
    spare = np.array([0.0, 0.0, 1.0]) if abs(way[2]) < 0.9 else np.array([1.0, 0.0, 0.0])
    side = np.cross(way, spare)
    side = side / np.linalg.norm(side)
    return side, np.cross(way, side)


def _spread(plate: Plate) -> Floats:
    """Return `RAYS` points on the middle of the plate, spread over its width at mid-height."""
    low, high = plate.low.min(axis=0), plate.low.max(axis=0)
    across = np.cross(plate.normal, [0.0, 0.0, 1.0])
    if np.linalg.norm(across) < 1e-6:
        across = np.array([1.0, 0.0, 0.0])
    reach = (plate.low - plate.middle) @ across
    level = np.array([*plate.middle[:2], 0.47 * low[2] + 0.53 * high[2]])
    parts = np.linspace(0.11, 0.87, RAYS)[:, None]
    return np.asarray(level + (reach.min() + parts * np.ptp(reach)) * across, dtype=float)


def _holds(plate: Plate, point: Floats) -> bool:
    """Return whether a point on the plate's plane lies inside its outline."""
    axis = int(np.argmax(np.abs(plate.normal)))
    kept = [i for i in range(3) if i != axis]
    outline = shapely.Polygon(plate.low[:, kept])
    return bool(shapely.contains_xy(outline, *point[kept]))
