"""A joint's section made ready for heat, air and moisture: grid, way of the air, what to watch."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from shapely.geometry import LineString, Polygon

from seamwright.joints.types import Joint, Section, SkinPath
from seamwright.moisture.grid import make_grid
from seamwright.moisture.seam import Seam, find_seam
from seamwright.moisture.transient.materials import HYGRO
from seamwright.moisture.transient.types import HygroMaterial
from seamwright.moisture.types import Grid, PlainSection, Point
from seamwright.report.section_grid import Cutter, plain_section

REACH = (1.3, 1.15, 1.0)
"""How far from the joint to cut, in thicknesses: nearer than for conduction, because moisture
hardly moves along a skin (a decimetre in a year)."""

FINE = 0.005
"""Spacing at both ends of the seam. [m]"""

_COARSEST, _GROWTH = 12.0, 0.6
_ENDS = 0.06


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class JointCut:
    """A section with its grid. `seam` is None where no air passes between its parts.

    `materials` are those of the regions, `material` (r,) the index of each region's.
    """

    joint: Joint
    section: Section
    plain: PlainSection
    grid: Grid
    seam: Seam | None
    materials: tuple[HygroMaterial, ...]
    material: tuple[int, ...]


def cut_joint(cutter: Cutter, joint: Joint, *, fine: float = FINE) -> JointCut:
    """Return a joint's section with a grid that is fine (`fine` [m]) where its seam meets the air.

    The seam is first found on a rough grid, then the grid is made anew around its ends.
    """
    plain, section = plain_section(cutter, joint, REACH)
    first, last = _line(section.inner), _line(section.outer)
    rough = make_grid(plain, 4 * fine)
    seam = None
    if section.inner is not None and section.outer is not None:
        seam = find_seam(rough, first, last)
    about = np.zeros((0, 2))
    if seam is not None:
        near = (seam.along < _ENDS) | (seam.along > seam.length - _ENDS)
        about = rough.points[seam.cells[near]]
    grid = make_grid(plain, fine, about=about, coarsest=_COARSEST, growth=_GROWTH)
    if seam is not None:
        seam = find_seam(grid, first, last)
    materials, material = _materials(plain)
    return JointCut(
        joint=joint, section=section, plain=plain, grid=grid, seam=seam, materials=materials,
        material=material,
    )  # fmt: skip


def middle_of(path: SkinPath) -> Point:
    """Return the middle of the way of a strip. [m]"""
    at = LineString([*path.path, path.path[-1]]).interpolate(0.5, normalized=True)
    return (float(at.x), float(at.y))


def _line(path: SkinPath | None) -> Point | None:
    return None if path is None else middle_of(path)


def _materials(plain: PlainSection) -> tuple[tuple[HygroMaterial, ...], tuple[int, ...]]:
    """Return the materials of a section; air by the width of its pocket."""
    found: list[HygroMaterial] = []
    index = []
    for region in plain.regions:
        material = HYGRO[region.material]
        if region.material == "air":
            width = _width(region.outline)
            material = replace(
                material, id=f"air {width * 1000:.0f} mm", conductivity=region.conductivity
            )
        place = next((i for i, m in enumerate(found) if m.id == material.id), len(found))
        if place == len(found):
            found.append(material)
        index.append(place)
    return tuple(found), tuple(index)


def _width(outline: Sequence[Point]) -> float:
    box = Polygon(outline).minimum_rotated_rectangle
    ring = np.asarray(box.exterior.coords)
    return float(np.linalg.norm(np.diff(ring[:3], axis=0), axis=1).min())
