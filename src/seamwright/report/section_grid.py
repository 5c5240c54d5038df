"""From a joint's section to the plain section that heat conduction takes.

Outlines with conductivities, the stretches of edge that meet room air and outdoor air, and the
plane elements that run into the joint. Which air an edge meets follows from the winding number of
the shell's inner faces, as for the enclosure.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely.geometry import LineString, Polygon, box

from seamwright.geometry.types import Frame, dot
from seamwright.joints.enclose import hull_triangles, winding_numbers
from seamwright.joints.hulls import hulls
from seamwright.joints.section import SEAMS, cut_section
from seamwright.joints.section_near import Surroundings
from seamwright.joints.types import Joint, Register, Section, SectionShape
from seamwright.moisture.layers import cavity_conductivity
from seamwright.moisture.materials import MATERIALS
from seamwright.moisture.types import Floats, PlainSection, Point, Region
from seamwright.report.section_airs import Rim, exposures_of, rim_of
from seamwright.report.section_flanks import find_flanks
from seamwright.report.section_runs import Window, core_material, ground_runs, plane_runs
from seamwright.shell.types import Panel, Shell
from seamwright.tolerance import DEFAULT, Tolerance

LEFT_OUT = frozenset({"opening", "penetration"})
"""Kinds whose other half (frame, pipe, flue) the plan does not describe."""

DEPTHS = (3.0, 2.5, 2.0, 1.6, 1.3, 1.0)
"""How far from the joint a section is cut, in thicknesses of its thickest panel: the first at which
no other joint shows. ISO 10211:2017, 5.2.4, wants the larger of 1 m and three thicknesses (from
memory); in these panels the disturbance dies out within one.
"""

_STRAIGHT = 1.0 - 1e-9
SNAP = 1e-6
"""Corners of parts nearer than this are one. [m]"""

SLIT = 0.006
"""Slits up to this wide between panels count as closed. [m]"""

CONDUCTS = {"skin": "osb", "spline": "osb", "timber": "softwood", "deck": "plywood",
            "concrete": "concrete"}  # fmt: skip
"""What the parts of a section are made of; cores follow the panel."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Cutter:
    """A shell ready to have its joints cut: parts by place, and the inner faces all around.

    `foamed` says whether the open seam between two panels is filled with foam, as the seal
    schedule has it, or left as still air.
    """

    shell: Shell
    near: Surroundings
    triangles: Floats
    foamed: bool = True

    def indoors(self, frame: Frame, points: Floats) -> Floats:
        """Return how far points of a section (n, 2) [m] are enclosed: about 1 in a room. [-]"""
        space = np.array([frame.point((float(x), float(y))) for x, y in points])
        return winding_numbers(space.reshape(-1, 3), self.triangles)


def cutter_of(
    shell: Shell, register: Register, *, foamed: bool = True, tolerance: Tolerance = DEFAULT
) -> Cutter:
    """Return what `plain_section` needs of a shell, worked out once for all its joints."""
    triangles = [
        hull_triangles(
            house.panels,
            [*house.bases, *([o.frame.point(p) for p in o.outline] for o in house.openings)],
        )
        for house in hulls(shell, register, tolerance)
    ]
    return Cutter(
        shell=shell,
        near=Surroundings(shell),
        triangles=np.concatenate([np.zeros((0, 3, 3)), *triangles]),
        foamed=foamed,
    )


def plain_section(
    cutter: Cutter, joint: Joint, depths: Sequence[float] = DEPTHS
) -> tuple[PlainSection, Section]:
    """Return the section of a joint for heat conduction, and the cut it was made from.

    `depths` is how far from the joint it may be cut, in thicknesses, the first wish first.

    Parts of other joints are left out; panels that only carry on a panel of the joint stay. The
    panels are bare: no cladding, roofing, lining, strip or fastener. Where a slab meets the ground
    no heat passes. [m], [W/(m·K)], [m²·K/W]
    """
    thick = max(p.thickness for p in cutter.shell.panels if p.id in joint.panels)
    cut = _Cut(cutter, joint, depths[0] * thick)
    for depth in depths[1:]:
        if cut.is_clean:
            break
        cut = _Cut(cutter, joint, depth * thick)
    plain = PlainSection(
        regions=cut.regions(),
        exposures=exposures_of(cut.rim, cut.section.frame),
        flanks=find_flanks(cut.runs, ground_runs(cutter.shell, joint, cut.view), cut.view),
        probes=_probes(cut),
        notes=cut.notes(),
    )
    return plain, cut.section


class _Cut:
    """One try at a section, `reach` to each side of the joint. [m]"""

    def __init__(self, cutter: Cutter, joint: Joint, reach: float) -> None:
        self.cutter, self.joint, self.reach = cutter, joint, reach
        self.section = cut_section(cutter.near.of(joint, reach), joint, reach)
        self.panels = _in_plane(cutter.shell, joint)
        self.view = Window(frame=self.section.frame, reach=reach, indoors=cutter.indoors)
        self.runs = plane_runs(cutter.shell, self.panels, self.view)
        self.shapes, foreign = self._sorted()
        areas = [Polygon(shape.outline) for shape in self.shapes]
        solid = shapely.unary_union(areas, grid_size=SNAP)
        self.touched = any(solid.distance(area) < SLIT for area in foreign)
        self.air = _air(_closed(solid), reach)
        self.shapes, cuts = self._trimmed()
        solid = shapely.unary_union([Polygon(s.outline) for s in self.shapes], grid_size=SNAP)
        closed = _closed(solid)
        self.slits = [p for p in _polygons(closed.difference(solid)) if p.area > 1e-7]
        whole = _nearest(closed)
        self.pockets = [Polygon(ring) for ring in whole.interiors]
        grounds = [Polygon(s.outline) for s in self.shapes if s.material == "concrete"]
        self.rim: Rim = rim_of(
            Polygon(whole.exterior), air=self.air, ground=shapely.unary_union(grounds), cuts=cuts,
            frame=self.section.frame, indoors=cutter.indoors,
        )  # fmt: skip

    @property
    def is_clean(self) -> bool:
        """Whether no other joint shows and no air reaches from the room to the outdoors."""
        return not self.touched and not self.rim.mixed

    def _sorted(self) -> tuple[list[SectionShape], list[Polygon]]:
        joint, names = self.joint, {p.id for p in self.panels}
        timbers = {*joint.others, *joint.inner.timbers, *joint.outer.timbers, "spline", "void"}
        partitions = {p.id for p in self.cutter.shell.panels if p.role == "partition"}
        kept, foreign = [], []
        for shape in self.section.shapes:
            owner = shape.owner.removesuffix(" let-in timber")
            if owner in names or shape.owner in timbers:
                kept.append(shape)
            elif shape.material in {"skin", "core"} and owner not in partitions:
                foreign.append(Polygon(shape.outline))
        return kept, foreign

    def _trimmed(self) -> tuple[list[SectionShape], shapely.Geometry]:
        """Return the shapes with slanted planes cut off square, and the lines of all cuts."""
        half = self.reach
        lines = [box(-half, -half, half, half).exterior]
        shapes = list(self.shapes)
        for run in self.runs:
            ring = run.strip(self.reach)
            if ring is None or max(map(abs, run.along)) > _STRAIGHT:
                continue
            strip = Polygon(ring)
            lines += [LineString([ring[0], ring[3]]), LineString([ring[1], ring[2]])]
            shapes = [
                part
                for shape in shapes
                for part in ([shape] if shape.owner not in run.panel_ids else _within(shape, strip))
            ]
        return shapes, shapely.union_all(lines)

    def regions(self) -> tuple[Region, ...]:
        """Return the parts with their conductivities. [W/(m·K)]"""
        builds = {b.id: b for b in self.cutter.shell.builds}
        found: list[Region] = []
        cores = {p.id: core_material(builds[p.build_id]) for p in self.cutter.shell.panels}
        core = cores[self.joint.panels[0]]
        fill = MATERIALS["canned_foam"].conductivity
        for shape in sorted(self.shapes, key=lambda s: s.material == "gap"):
            if shape.material == "gap":
                wide = _width(Polygon(shape.outline))
                k = fill if self.cutter.foamed else cavity_conductivity(wide)
                void = "canned_foam" if self.cutter.foamed else "air"
                found.append(_filled(Polygon(shape.outline), k, "gap", void))
                continue
            key = CONDUCTS.get(shape.material, "")
            material = MATERIALS[key] if key else cores.get(shape.owner, core)
            found.append(Region(
                outline=shape.outline, conductivity=material.conductivity, name=shape.material,
                material=material.id, owner=shape.owner,
            ))  # fmt: skip
        found += [_filled(area, fill, "gap", "canned_foam") for area in self.slits]
        found += [
            _filled(area, cavity_conductivity(_width(area)), "pocket", "air")
            for area in self.pockets
        ]  # fmt: skip
        return tuple(found)

    def notes(self) -> tuple[str, ...]:
        """Return what had to be assumed, as sentences."""
        said = []
        if any(shape.material == "concrete" for shape in self.shapes):
            said.append("the ground below is left out: no heat passes into it")
        if not self.is_clean:
            said.append("another joint lies so near that it takes part")
        return tuple(said)


def _probes(cut: _Cut) -> tuple[tuple[str, Point], ...]:
    """Return where leaking air meets the joint: both seams, and behind the outer skin."""
    section, found = cut.section, []
    for name, path in (("inner seam", section.inner), ("outer seam", section.outer)):
        if path is not None:
            at = LineString([*path.path, path.path[-1]]).interpolate(0.5, normalized=True)
            found.append((name, (float(at.x), float(at.y))))
    panel = next(p for p in cut.panels if p.id == cut.joint.panels[0])
    n, frame = panel.frame.n, section.frame
    out = (dot(n, frame.u), dot(n, frame.v))
    if section.outer is not None and cut.joint.kind in SEAMS:
        x, y = found[-1][1]
        behind = (x - panel.skin_outer * out[0], y - panel.skin_outer * out[1])
        found.append(("behind the outer skin", behind))
    return tuple(found)


def _in_plane(shell: Shell, joint: Joint) -> tuple[Panel, ...]:
    """Return the panels of the joint, and those that carry on one of them in its plane."""
    own = [p for p in shell.panels if p.id in joint.panels]
    found = []
    for panel in shell.panels:
        near = any(
            max(abs(a - b) for a, b in zip(panel.frame.n, o.frame.n, strict=True)) < 1e-3
            and abs(o.frame.local(panel.frame.origin)[2]) < 1e-3
            for o in own
        )
        if panel in own or (near and panel.role != "partition"):
            found.append(panel)
    return tuple(found)


def _within(shape: SectionShape, strip: Polygon) -> list[SectionShape]:
    kept = Polygon(shape.outline).intersection(strip)
    return [
        replace(shape, outline=tuple((float(x), float(y)) for x, y in part.exterior.coords[:-1]))
        for part in _polygons(kept)
    ]


def _closed(solid: shapely.Geometry) -> shapely.Geometry:
    """Return the area with its slits closed."""
    wide = solid.buffer(SLIT / 2, join_style="mitre")
    return shapely.set_precision(wide.buffer(-SLIT / 2, join_style="mitre"), SNAP)


def _air(solid: shapely.Geometry, reach: float) -> list[Polygon]:
    """Return the bodies of air around an area, within the square."""
    half = reach - 1e-4
    return [p for p in _polygons(box(-half, -half, half, half).difference(solid)) if p.area > 1e-9]


def _filled(area: Polygon, conductivity: float, name: str, material: str) -> Region:
    ring = tuple((float(x), float(y)) for x, y in list(area.exterior.coords)[:-1])
    return Region(outline=ring, conductivity=conductivity, name=name, material=material)


def _width(area: Polygon) -> float:
    """Return the least width of an area, at least 1 mm. [m]"""
    box = area.minimum_rotated_rectangle
    sides = [float(np.hypot(*np.subtract(box.exterior.coords[i], box.exterior.coords[i + 1])))
             for i in (0, 1)]  # fmt: skip
    return max(min(sides), 1e-3)


def _polygons(area: shapely.Geometry) -> list[Polygon]:
    return [p for p in shapely.get_parts(area) if p.geom_type == "Polygon"]


def _nearest(area: shapely.Geometry) -> Polygon:
    """Return the body that the joint itself belongs to."""
    middle = shapely.Point(0.0, 0.0)
    return min(_polygons(area), key=lambda p: (round(p.distance(middle), 3), -p.area))
