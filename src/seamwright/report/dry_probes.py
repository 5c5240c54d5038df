"""Where in a joint the wood is watched: both skins at the seam, and the way of the air by depth."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from shapely.geometry import LineString, Polygon

from seamwright.moisture.transient.types import Probe
from seamwright.moisture.types import Counts, Flags, Floats
from seamwright.moisture.volumes import Volumes
from seamwright.report.joint_cut import JointCut

NEAR = 0.04
"""How far from the end of the seam a skin counts as next to the joint. [m] common practice, no
source: under any strip, and wide enough for some volumes of the grid."""

BINS = 5
"""Stretches of the seam from the room's face to the outer face. [-] common practice, no source"""

OUTER, INNER = "outer skin at the seam", "inner skin at the seam"


def probes_of(cut: JointCut, volumes: Volumes) -> tuple[tuple[Probe, float | None], ...]:
    """Return the places to watch with their depth along the seam, 0 at the room to 1 outdoors.

    The skins have no depth (None). A place without wood is left out.
    """
    if cut.seam is None:
        return ()
    mesh = volumes.mesh
    wood = np.array(cut.rots)[mesh.part_material]
    skins = np.array([r.name == "skin" for r in cut.plain.regions])[volumes.part_region] & wood
    at = mesh.points[mesh.part_cell]
    found: list[tuple[str, Counts, float | None]] = []
    for name, side, end in ((OUTER, "outside", -1), (INNER, "inside", 0)):
        near = np.linalg.norm(at - mesh.points[cut.seam.cells[end]], axis=1) < NEAR
        mine = _faces(cut, side)[volumes.part_region]
        found.append((name, np.flatnonzero(skins & near & mine), None))
    for k, cells in enumerate(_bins(cut.seam.cells, cut.seam.along)):
        on_way = wood & np.isin(mesh.part_cell, cells)
        depth = (k + 0.5) / BINS
        found.append((f"wood along the seam, {_words(depth)}", np.flatnonzero(on_way), depth))
    return tuple(
        (Probe(name=name, parts=parts), depth) for name, parts, depth in found if len(parts)
    )


def _bins(cells: Counts, along: Floats) -> Sequence[Counts]:
    """Return the cells of the seam by stretches of even length."""
    place = np.minimum((BINS * along / along[-1]).astype(np.int64), BINS - 1)
    return [cells[place == k] for k in range(BINS)]


def _words(depth: float) -> str:
    names = ("at the room's face", "a quarter in", "halfway", "three quarters in",
             "at the outer face")  # fmt: skip
    return names[int(depth * BINS)]


def _faces(cut: JointCut, side: str) -> Flags:
    """Return which regions have most of their open edge on a side."""
    lines = {
        s: shapely.union_all(
            [LineString([e.start, e.end]) for e in cut.plain.exposures if e.side == s]
        ).buffer(1e-4)
        for s in ("inside", "outside")
    }
    other = "inside" if side == "outside" else "outside"
    mine = []
    for region in cut.plain.regions:
        ring = Polygon(region.outline).exterior
        length = {s: ring.intersection(line).length for s, line in lines.items()}
        mine.append(length[side] > length[other])
    return np.array(mine)
