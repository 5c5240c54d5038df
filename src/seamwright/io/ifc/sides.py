"""Which face of each plate is the outside, and on what evidence."""

from __future__ import annotations

import numpy as np
import shapely

from seamwright.io.ifc.notes import Notes
from seamwright.io.ifc.types import Floats, Layered, Piece, Plate

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
    shell = [piece for piece in pieces if piece.role not in ("partition", "floor")]
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


def _by_position(piece: Piece, shell: list[Piece], middle: Floats, notes: Notes) -> int:
    others = [p for p in shell if p is not piece]
    ahead = _crossings(piece.plate, others, 1.0)
    behind = _crossings(piece.plate, others, -1.0)
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


def _crossings(plate: Plate, others: list[Piece], way: float) -> list[int]:
    """Return, for each ray from the plate along its normal, how many other plates it crosses."""
    starts = _spread(plate)
    counts = [0] * len(starts)
    for other in others:
        face = other.plate
        slope = float(face.normal @ plate.normal) * way
        if abs(slope) < 0.05:
            continue
        origin = face.low[0] + 0.5 * face.thickness * face.normal
        reach = ((origin - starts) @ face.normal) / slope
        hits = starts + reach[:, None] * way * plate.normal
        inside = _within(face, hits)
        for index in np.flatnonzero(inside & (reach > plate.thickness)):
            counts[int(index)] += 1
    return counts


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


def _within(plate: Plate, points: Floats) -> Floats:
    """Return which points, on the plate's plane, lie inside its outline."""
    axis = int(np.argmax(np.abs(plate.normal)))
    kept = [i for i in range(3) if i != axis]
    outline = shapely.Polygon(plate.low[:, kept])
    shapely.prepare(outline)
    return np.asarray(shapely.contains_xy(outline, points[:, kept[0]], points[:, kept[1]]))
