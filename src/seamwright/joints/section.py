"""The section of a joint: everything cut square to it, and the way a strip takes on each face."""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterable
from dataclasses import dataclass

from seamwright.geometry.slice import Plate, clip
from seamwright.geometry.types import Frame
from seamwright.joints import section_path as way
from seamwright.joints.section_alike import Likeness, Likenesses, moved
from seamwright.joints.section_fit import fitted
from seamwright.joints.section_near import Surroundings
from seamwright.joints.section_parts import (
    BodyCut,
    PanelCut,
    cut_body,
    cut_panel,
    is_near,
    member_plate,
    panel_plate,
    panel_shapes,
    support_plate,
    timbers_and_bearings,
)
from seamwright.joints.section_spline import spline_shapes, void_shape
from seamwright.joints.section_timber import let_in_timbers
from seamwright.joints.section_view import STATIONS, view_at
from seamwright.joints.types import FaceName, Joint, Section, SectionShape, SkinPath
from seamwright.shell.types import Panel, Shell

REACH = 0.30
"""How far from the joint a section shows its parts. [m]"""

CLEAR = 0.15
"""A cut is typical when nothing foreign comes nearer to the joint than this. [m]"""

SEAMS = frozenset({"wall_spline", "roof_spline", "floor_spline", "end_joint"})
"""Kinds of joint that carry a spline."""


def cut_sections(shell: Shell, joints: Iterable[Joint], reach: float = REACH) -> dict[str, Section]:
    """Return the section of each joint by its id; what `cut_section` gives, for a whole house.

    Each cut looks only at the parts near its joint, so that the time grows with their number and
    not with its square; joints with the same parts around them in the same places (to a millionth
    of a millimetre) are cut once. [m]
    """
    surroundings, likenesses = Surroundings(shell), Likenesses()
    first: dict[Hashable, tuple[Likeness, Joint]] = {}
    sections: dict[str, Section] = {}
    for joint in joints:
        near = surroundings.of(joint, reach)
        own = likenesses.of(joint, near, reach)
        found = None if own is None else first.get(own.key)
        if own is None or found is None:
            sections[joint.id] = cut_section(near, joint, reach)
            if own is not None:
                first[own.key] = own, joint
        else:
            alike, model = found
            sections[joint.id] = moved(sections[model.id], alike, model.line.start, joint, own)
    return sections


def cut_section(shell: Shell, joint: Joint, reach: float = REACH) -> Section:
    """Return the section of `joint`, cut square to it where it is typical.

    Parameters
    ----------
    shell
        The house; panels, timbers and bearings near the joint are cut.
    joint
        A joint of its register.
    reach
        Half-width of the square shown around the joint. [m]

    Returns
    -------
    Shapes (skins and core apart, so bevels and miters show), and the strip's path on each face;
    a path is None where the joint has no line on that face or the cut could not find both skins.
    The cut stands in the middle, or at the next station where no opening or crossing timber
    disturbs it.
    """
    near = _near_panels(shell, joint, reach)
    frame = _typical(shell, joint, near)
    plates = [(p, plate) for p, plate in near if is_near(plate, frame.origin, reach * math.sqrt(2))]
    parts = _parts(shell, joint, plates, frame)
    shapes = fitted(
        [s for panel, plate in plates for s in panel_shapes(panel, plate, frame, reach)],
        timbers_and_bearings(shell, frame, reach),
        _clipped(_let_in(shell, joint, parts), reach),
        _clipped(_voids(joint, parts), reach),
    )
    return Section(
        joint_id=joint.id,
        frame=frame,
        reach=reach,
        shapes=shapes,
        inner=_skin_path(shell, joint, parts, "inner"),
        outer=_skin_path(shell, joint, parts, "outer"),
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class _Parts:
    """What takes part in the joint, in the cut: its panels, the panels around, bodies by id."""

    panels: tuple[PanelCut, ...]
    around: tuple[PanelCut, ...]
    bodies: dict[str, BodyCut]


def _own(shell: Shell, joint: Joint) -> tuple[Panel, ...]:
    by_id = {panel.id: panel for panel in shell.panels}
    return tuple(by_id[i] for i in joint.panels if i in by_id)


def _near_panels(shell: Shell, joint: Joint, reach: float) -> list[tuple[Panel, Plate]]:
    """Return the panels that may come into a cut anywhere along the joint."""
    services = tuple(p for p in shell.penetrations if p.id in joint.others)
    wide = joint.line.length / 2 + reach * math.sqrt(2)
    plates = [(panel, panel_plate(panel, services)) for panel in shell.panels]
    return [(p, plate) for p, plate in plates if is_near(plate, joint.line.middle, wide)]


def _typical(shell: Shell, joint: Joint, near: list[tuple[Panel, Plate]]) -> Frame:
    """Return the first undisturbed cut, or the least disturbed one."""
    own = _own(shell, joint)
    best, least = view_at(joint, own, shell, STATIONS[0]), math.inf
    for share in STATIONS:
        frame = view_at(joint, own, shell, share)
        score = _clutter(shell, joint, near, frame)
        if score < least:
            best, least = frame, score
        if least == 0:
            break
    return best


def _clutter(shell: Shell, joint: Joint, near: list[tuple[Panel, Plate]], frame: Frame) -> int:
    """Return how untypical a cut is: missing panels weigh most, then foreign parts close by."""
    score = 0
    for panel, plate in near:
        if panel.id in joint.panels:
            score += 100 if cut_panel(panel, plate, frame) is None else 0
        elif is_near(plate, frame.origin, CLEAR) and panel_shapes(panel, plate, frame, CLEAR):
            score += 1
    if joint.kind != "opening":
        score += 10 * _openings_close(shell, frame)
    own = {*joint.others, *joint.inner.timbers, *joint.outer.timbers}
    for member in shell.members:
        if member.id not in own and is_near(member_plate(member), frame.origin, CLEAR):
            cut = cut_body(member.id, member_plate(member), frame)
            score += 5 if cut is not None and clip(cut.outline, CLEAR) else 0
    return score


def _openings_close(shell: Shell, frame: Frame) -> int:
    """Return how many openings come within `CLEAR` of the middle of a cut."""
    close = 0
    for opening in shell.openings:
        body = Plate(
            frame=opening.frame, lower=opening.outline, upper=opening.outline, thickness=CLEAR
        )
        close += is_near(body, frame.origin, CLEAR)
    return close


def _parts(shell: Shell, joint: Joint, plates: list[tuple[Panel, Plate]], frame: Frame) -> _Parts:
    cuts = {panel.id: cut_panel(panel, plate, frame) for panel, plate in plates}
    found = [cuts.get(panel_id) for panel_id in joint.panels]
    wanted = set(joint.others) | set(joint.inner.timbers) | set(joint.outer.timbers)
    bodies = {}
    for support in shell.supports:
        if support.id in wanted:
            bodies[support.id] = cut_body(support.id, support_plate(support), frame)
    for member in shell.members:
        if member.id in wanted:
            bodies[member.id] = cut_body(member.id, member_plate(member), frame)
    return _Parts(
        panels=tuple(cut for cut in found if cut is not None),
        around=tuple(
            cut for key, cut in cuts.items() if cut is not None and key not in joint.panels
        ),
        bodies={key: body for key, body in bodies.items() if body is not None},
    )


def _let_in(shell: Shell, joint: Joint, parts: _Parts) -> list[SectionShape]:
    """Return what is let into the panels' edges: a spline in a seam, timbers at other joints."""
    panels = parts.panels
    if not panels:
        return []
    if joint.kind in SEAMS:
        builds = {build.id: build for build in shell.builds}
        build = builds.get(panels[0].panel.build_id)
        return [] if len(panels) < 2 or build is None else spline_shapes(build, *panels[:2])
    if len(panels) < 2:
        return let_in_timbers(joint, panels[0], None)
    return let_in_timbers(joint, *_butting_first(panels[0], panels[1]))


def _voids(joint: Joint, parts: _Parts) -> list[SectionShape]:
    """Return the opening between two panels edge to edge."""
    if joint.contact != "edge_edge" or len(parts.panels) < 2:
        return []
    void = void_shape(*parts.panels[:2])
    return [] if void is None else [void]


def _clipped(shapes: list[SectionShape], reach: float) -> list[SectionShape]:
    clipped = [(shape, clip(shape.outline, reach)) for shape in shapes]
    return [
        SectionShape(outline=outline, material=shape.material, owner=shape.owner)
        for shape, outline in clipped
        if outline
    ]


def _skin_path(shell: Shell, joint: Joint, parts: _Parts, face: FaceName) -> SkinPath | None:
    line = joint.inner if face == "inner" else joint.outer
    if line.line is None or not parts.panels:
        return None
    path = _bare_path(shell, joint, parts, face)
    if path is None:
        return None
    for timber in line.timbers:
        if timber in parts.bodies:
            path = way.draped(path, parts.bodies[timber])
    return path


def _bare_path(shell: Shell, joint: Joint, parts: _Parts, face: FaceName) -> SkinPath | None:
    """Return the path on one face before any timber along it is counted."""
    panels = parts.panels
    if joint.contact in {"opening", "penetration"}:
        return way.around_hole(panels[0], face, inward=joint.contact == "opening")
    if joint.kind == "wall_tee":
        return _tee_path(shell, joint, parts)
    if joint.contact == "edge_edge" and len(panels) >= 2:
        return way.edge_to_edge(panels[0], panels[1], face)
    if joint.contact == "edge_face" and len(panels) >= 2:
        butting, through = _butting_first(panels[0], panels[1])
        return way.edge_to_face(butting, through, face, parts.around)
    bodies = [parts.bodies[i] for i in joint.others if i in parts.bodies]
    supports = {support.id for support in shell.supports}
    bearings = [body for body in bodies if body.id in supports]
    if not bearings:
        return None
    return way.edge_to_body(panels[0], bearings[0], face)


def _butting_first(a: PanelCut, b: PanelCut) -> tuple[PanelCut, PanelCut]:
    """Return the panel whose edge meets the other's face, then that other."""
    return (a, b) if way.contact_error(a, b) <= way.contact_error(b, a) else (b, a)


def _tee_path(shell: Shell, joint: Joint, parts: _Parts) -> SkinPath | None:
    """Return the path on the shell wall's inner face behind the wall that stands against it."""
    partitions = {p.id for p in shell.panels if p.role == "partition"}
    walls = [cut for cut in parts.panels if cut.panel.id not in partitions]
    inner_walls = [cut for cut in parts.panels if cut.panel.id in partitions]
    if walls and inner_walls:
        return way.behind(*way.feet(inner_walls[0], walls[0]))
    if len(walls) > 1:
        return way.behind(*way.feet(*_butting_first(walls[0], walls[1])))
    bodies = [parts.bodies[i] for i in joint.others if i in parts.bodies]
    if not walls or not bodies:
        return None
    feet = [way.foot_on(walls[0].inner, point) for point in bodies[0].outline]
    low, high = min(feet), max(feet)
    return way.behind(low, high) if low != high else None
