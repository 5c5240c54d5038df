"""From a joint's section to the mesh of a transient run: volumes, rims with covers and strips.

Airs of a mesh: 0 the room; 1, 2 and 3 the outdoors as walls, roofs and undersides feel it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import LineString

from seamwright.geometry.types import Frame
from seamwright.joints.types import SkinPath
from seamwright.moisture.covers import Cover, Covers, Place, Strip, Strips, vapor_resistance
from seamwright.moisture.types import Exposure, Flags, Floats
from seamwright.moisture.volumes import Rims, Volumes, control_volumes
from seamwright.report.joint_cut import JointCut

AIRS = ("room", "outdoors at walls", "outdoors at roofs", "outdoors at undersides")
"""What the airs of a mesh are."""

_AIR_OF: dict[Place, int] = {"wall": 1, "roof": 2, "underside": 3}
_STEEP = 0.5
"""Sine of the slope up to which an edge counts as a wall: 30°, as ISO 6946 tells level heat from
heat that rises. [-]"""

_ON = 0.003
"""How near to its line an edge counts as under a strip: less than a third of the finest grid. [m]
common practice, no source"""

_SAMPLES = 8
"""Points at which a stretch of edge is looked at. [-] common practice, no source"""


@dataclass(frozen=True, kw_only=True, slots=True)
class _Face:
    """What an exposure meets: which air, what covers it, where rain and strips go."""

    place: Place
    air: int
    cover: Cover


def joint_mesh(cut: JointCut, covers: Covers, strips: Strips) -> Volumes:
    """Return the control volumes of a joint's section between covers, with strips on its lines.

    Skins carry the cover of the place they face, by their slope; timber, concrete and cut ends
    are bare outdoors only where they look down, else covered as the skin beside them.
    """
    faces = [_face(cut, e, covers) for e in cut.plain.exposures]
    grid = cut.grid
    index = np.repeat(grid.exposure, 2)
    cell = grid.borders.ravel()
    ends = grid.points[grid.borders]
    middle = ends.mean(axis=1)
    halves = np.stack([ends, np.repeat(middle[:, None, :], 2, axis=1)], axis=2).reshape(-1, 2, 2)
    length = np.linalg.norm(halves[:, 1] - halves[:, 0], axis=1)
    inside = np.array([f.air == 0 for f in faces])[index]
    under = _covered(halves, inside, cut, strips)
    heat = np.array([e.resistance + f.cover.heat for e, f in zip(cut.plain.exposures, faces,
                                                                 strict=True)])[index]  # fmt: skip
    plain = np.array([_vapor(f, None) for f in faces])[index]
    taped = np.array([
        _vapor(f, strips.inner if f.air == 0 else strips.outer) for f in faces
    ])[index]  # fmt: skip
    air = np.array([f.air for f in faces], dtype=np.int64)[index]
    rain = np.array([f.cover.rain for f in faces])[index]
    kept = [(length * (1 - under), plain, rain), (length * under, taped, 0.0 * rain)]
    some = [parts[0] > 1e-7 for parts in kept]
    rims = Rims(
        cell=np.concatenate([cell[s] for s in some]),
        air=np.concatenate([air[s] for s in some]),
        length=np.concatenate([p[0][s] for p, s in zip(kept, some, strict=True)]),
        heat=np.concatenate([heat[s] for s in some]),
        vapor=np.concatenate([p[1][s] for p, s in zip(kept, some, strict=True)]),
        rain=np.concatenate([p[2][s] for p, s in zip(kept, some, strict=True)]),
    )
    return control_volumes(grid, cut.material, rims)


def _face(cut: JointCut, exposure: Exposure, covers: Covers) -> _Face:
    """Return what a stretch of the edge meets, by its side and by the way it faces."""
    rise = _rise(cut, exposure)
    if exposure.side == "inside":
        place: Place = "floor" if rise > _STEEP else "lining"
        if _region_at(cut, exposure) not in {"skin", "deck"}:
            place = "bare"
        return _Face(place=place, air=0, cover=covers.at(place))
    place = "roof" if rise > _STEEP else "underside" if rise < -_STEEP else "wall"
    return _Face(place=place, air=_AIR_OF[place], cover=covers.at(place))


def _rise(cut: JointCut, exposure: Exposure) -> float:
    """Return how far an edge faces up: 1 flat and open above, -1 an underside. [-]"""
    (x0, y0), (x1, y1) = exposure.start, exposure.end
    d = math.hypot(x1 - x0, y1 - y0)
    frame: Frame = cut.section.frame
    return ((y1 - y0) * frame.u[2] - (x1 - x0) * frame.v[2]) / d


def _region_at(cut: JointCut, exposure: Exposure) -> str:
    """Return the name of the region just behind a stretch of the edge."""
    (x0, y0), (x1, y1) = exposure.start, exposure.end
    d = math.hypot(x1 - x0, y1 - y0)
    at = shapely.Point((x0 + x1) / 2 - 1e-4 * (y1 - y0) / d, (y0 + y1) / 2 + 1e-4 * (x1 - x0) / d)
    for region in cut.plain.regions:
        if shapely.Polygon(region.outline).contains(at):
            return region.name
    return ""


def _vapor(face: _Face, strip: Strip | None) -> float:
    sd = face.cover.sd + (0.0 if strip is None else strip.sd)
    return vapor_resistance(sd, "room" if face.air == 0 else "outdoors")


def _covered(halves: Floats, inside: Flags, cut: JointCut, strips: Strips) -> Floats:
    """Return which share of each stretch lies under a strip. [-]"""
    share = np.zeros(len(halves))
    steps = (np.arange(_SAMPLES) + 0.5) / _SAMPLES
    for strip, path, mine in ((strips.inner, cut.section.inner, inside),
                              (strips.outer, cut.section.outer, ~inside)):  # fmt: skip
        if strip is None or path is None or not mine.any():
            continue
        a, b = halves[mine, 0], halves[mine, 1]
        samples = a[:, None, :] + steps[None, :, None] * (b - a)[:, None, :]
        far = shapely.distance(shapely.points(samples), _laid(path, strip))
        share[mine] = (far < _ON).mean(axis=1)
    return share


def _laid(path: SkinPath, strip: Strip) -> LineString:
    """Return the line on which a strip lies, centered on the way between its lands."""
    lap = max((strip.width - path.span) / 2 - _ON, 0.0)
    (first, last), (a, b) = (path.path[0], path.path[-1]), path.lands
    return LineString([
        (first[0] + lap * a[0], first[1] + lap * a[1]),
        *path.path,
        (last[0] + lap * b[0], last[1] + lap * b[1]),
    ])  # fmt: skip
