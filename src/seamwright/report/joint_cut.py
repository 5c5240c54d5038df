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
from seamwright.moisture.types import Grid, PlainSection, Point, Region
from seamwright.report.section_grid import Cutter, plain_section

REACH = (1.3, 1.15, 1.0)
"""How far from the joint to cut, in thicknesses: nearer than for conduction, because moisture
hardly moves along a skin (a decimetre in a year). [-] common practice, no source"""

FINE = 0.005
"""Spacing at both ends of the seam. [m] common practice, no source; what it moves is measured in
``docs/theory.md``."""

_COARSEST, _GROWTH = 12.0, 0.6
"""Coarsest spacing over the finest, and growth with the distance from the seam's ends. [-] common
practice, no source"""

_ENDS = 0.06
"""Stretch at both ends of the seam along which the grid is finest. [m] common practice, no
source"""

PARTS = ("skins", "splines", "cores", "timbers", "decks")
"""Parts of a house that may be of a material of the user's own."""

_PART_OF = {"skin": "skins", "spline": "splines", "core": "cores", "timber": "timbers",
            "deck": "decks"}  # fmt: skip
_WOOD = frozenset({"osb", "osb_iso", "plywood", "softwood", "spruce"})
"""Built-in materials that rot."""


@dataclass(frozen=True, kw_only=True, slots=True)
class OwnPart:
    """A material of the user's own and where it is: one of `PARTS`, and the panel type, empty for
    all. `like` is the built-in material it was made from; it rots where that does.
    """

    part: str
    build: str
    material: HygroMaterial
    like: str

    @property
    def where(self) -> str:
        """The part and its panel type in words."""
        return f"{self.part} of {self.build}" if self.build else self.part


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class JointCut:
    """A section with its grid. `seam` is None where no air passes between its parts.

    `materials` are those of the regions, `material` (r,) the index of each region's; `rots` says
    which of the materials are wood.
    """

    joint: Joint
    section: Section
    plain: PlainSection
    grid: Grid
    seam: Seam | None
    materials: tuple[HygroMaterial, ...]
    material: tuple[int, ...]
    rots: tuple[bool, ...]


def cut_joint(
    cutter: Cutter, joint: Joint, *, fine: float = FINE, parts: Sequence[OwnPart] = ()
) -> JointCut:
    """Return a joint's section with a grid that is fine (`fine` [m]) where its seam meets the air,
    with the user's own materials in their `parts`.

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
    materials, material, rots = _materials(plain, _Own(cutter, parts))
    return JointCut(
        joint=joint, section=section, plain=plain, grid=grid, seam=seam, materials=materials,
        material=material, rots=rots,
    )  # fmt: skip


def middle_of(path: SkinPath) -> Point:
    """Return the middle of the way of a strip. [m]"""
    at = LineString([*path.path, path.path[-1]]).interpolate(0.5, normalized=True)
    return (float(at.x), float(at.y))


def _line(path: SkinPath | None) -> Point | None:
    return None if path is None else middle_of(path)


class _Own:
    """The user's own materials by part and panel type."""

    def __init__(self, cutter: Cutter, parts: Sequence[OwnPart]) -> None:
        self.by_part = {(own.part, own.build): own for own in parts}
        self.build_of = {panel.id: panel.build_id for panel in cutter.shell.panels}

    def of(self, region: Region) -> OwnPart | None:
        """Return the user's own material of a region, that for its panel type first."""
        part = _PART_OF.get(region.name, "")
        build = self.build_of.get(region.owner.removesuffix(" let-in timber"), "")
        return self.by_part.get((part, build), self.by_part.get((part, "")))


def _materials(
    plain: PlainSection, own: _Own
) -> tuple[tuple[HygroMaterial, ...], tuple[int, ...], tuple[bool, ...]]:
    """Return the materials of a section, that of each region, and which rot; air by the width of
    its pocket.
    """
    found: list[HygroMaterial] = []
    index, rots = [], []
    for region in plain.regions:
        mine = own.of(region)
        material = HYGRO[region.material] if mine is None else mine.material
        if region.material == "air":
            width = _width(region.outline)
            material = replace(
                material, id=f"air {width * 1000:.0f} mm", conductivity=region.conductivity
            )
        place = next((i for i, m in enumerate(found) if m == material), len(found))
        if place == len(found):
            found.append(material)
            rots.append((region.material if mine is None else mine.like) in _WOOD)
        index.append(place)
    return tuple(found), tuple(index), tuple(rots)


def _width(outline: Sequence[Point]) -> float:
    box = Polygon(outline).minimum_rotated_rectangle
    ring = np.asarray(box.exterior.coords)
    return float(np.linalg.norm(np.diff(ring[:3], axis=0), axis=1).min())
