"""The kind of a joint, from what the parts are and the angles at which they meet."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from seamwright.geometry.types import dot
from seamwright.joints.draft import Draft
from seamwright.joints.gather import BACK, INNER, OUTER, SIDE
from seamwright.joints.types import JointKind
from seamwright.shell.types import Panel, Support
from seamwright.tolerance import Tolerance

_FLAT = 0.035
"""Panels within this angle (2 degrees) lie in one plane. [rad] (common practice, no source)"""

_LEVEL = 0.02
"""Slope below which a line counts as level. [-] (common practice, no source)"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Around:
    """What the kind of one joint depends on beyond its own two parts.

    `carried` are floor panels that stand on walls, `carried_decks` supports that do. `spliced`
    holds (panel, edge) pairs that meet a neighbor in the same plane.
    """

    panels: Sequence[Panel]
    supports: Sequence[Support]
    carried: Collection[int]
    carried_decks: Collection[int]
    spliced: Collection[tuple[int, int]]
    tolerance: Tolerance


Verdict = tuple[JointKind, str]


def look_around(
    drafts: Sequence[Draft],
    panels: Sequence[Panel],
    supports: Sequence[Support],
    tolerance: Tolerance,
) -> Around:
    """Return what classification needs to know of the neighborhood."""
    carried: set[int] = set()
    decks: set[int] = set()
    spliced: set[tuple[int, int]] = set()
    for draft in drafts:
        role = panels[draft.panels[0]].role
        if draft.surface is None:
            if abs(draft.dihedral - math.pi) < _FLAT:
                spliced.update((use.panel, use.edge) for use in draft.uses)
        elif role in ("wall", "rim") and draft.surface[0] == OUTER:
            carried.add(draft.surface[1])
        elif role in ("wall", "rim") and draft.surface[0] == BACK:
            decks.add(draft.surface[1])
    return Around(
        panels=panels,
        supports=supports,
        carried=carried,
        carried_decks=decks,
        spliced=spliced,
        tolerance=tolerance,
    )


def classify(draft: Draft, around: Around) -> Verdict | None:
    """Return the kind and a note; None where no seal is needed (two partitions)."""
    roles = [around.panels[number].role for number in draft.panels]
    if "partition" in roles:
        return _partition(draft, roles)
    if draft.surface is not None and draft.surface[0] > OUTER:
        return _on_support(draft, around, roles[0])
    solid = ["wall" if role == "rim" else role for role in roles]
    if set(solid) == {"wall"}:
        return _walls(draft, around, roles)
    if "wall" in solid:
        with_roof = "roof" in solid
        return _wall_and_roof(draft, solid) if with_roof else _wall_and_floor(draft, around, solid)
    return _lying(draft, around, solid)


def is_level(draft: Draft) -> bool:
    """Return whether the joint runs level."""
    return abs(draft.along[2]) < _LEVEL


def end_edge(draft: Draft, panel: Panel) -> tuple[int, float]:
    """Return the edge where the panel stood against ends beyond the joint, and how far off.

    For a butt on the inner skin that is the end on the butting panel's outer side, and on the
    outer skin the end on its room side. The distance runs from the nearer skin line. [m]
    """
    sign = -1.0 if draft.surface is not None and draft.surface[0] == INNER else 1.0
    way = tuple(sign * x for x in draft.room)
    u, v = panel.frame.u, panel.frame.v
    flat = (sum(map(_times, way, u)), sum(map(_times, way, v)))
    size = math.hypot(*flat)
    if size < 1e-9:
        return -1, math.inf
    reach = [(p[0] * flat[0] + p[1] * flat[1]) / size for p in panel.inner]
    side = draft.outer if sign < 0.0 else draft.inner
    middle = (side if side is not None else draft.line).middle
    local = panel.frame.local(middle)
    here = (local[0] * flat[0] + local[1] * flat[1]) / size
    ends = [min(a, b) for a, b in zip(reach, reach[1:] + reach[:1], strict=True)]
    edge = max(range(len(ends)), key=ends.__getitem__)
    return edge, max(reach) - here


def _times(a: float, b: float) -> float:
    return a * b


def _partition(draft: Draft, roles: Sequence[str]) -> Verdict | None:
    if draft.surface is None or draft.surface[0] > OUTER or roles.count("partition") == 2:
        return None
    if "floor" in roles:
        return None
    return "wall_tee", "partition under a roof" if "roof" in roles else ""


def _lying(draft: Draft, around: Around, roles: Sequence[str]) -> Verdict:
    """Return the kind of a joint between roofs and floors."""
    if set(roles) == {"roof"}:
        return _roofs(draft, around)
    if set(roles) == {"floor"}:
        folded = abs(draft.dihedral - math.pi) >= _FLAT
        return "floor_spline", "floor panels at an angle" if folded else ""
    return ("eave" if is_level(draft) else "rake"), "roof bears on a floor panel"


def _walls(draft: Draft, around: Around, roles: Sequence[str]) -> Verdict:
    upright = abs(draft.along[2]) > math.sqrt(0.5)
    if draft.surface is not None:
        return _butted_walls(draft, around, upright=upright)
    if "rim" in roles and not upright:
        return "floor_line", ""
    if abs(draft.dihedral - math.pi) >= _FLAT:
        return ("wall_corner", "") if upright else ("end_joint", "walls at an angle")
    if upright:
        return "wall_spline", ""
    storeys = {around.panels[number].storey for number in draft.panels}
    if len(storeys) == 2 and None not in storeys:
        return "floor_line", "walls of two storeys stand on each other"
    return "end_joint", ""


def _butted_walls(draft: Draft, around: Around, *, upright: bool) -> Verdict:
    if not upright:
        return "floor_line", "wall stands on the face of a wall"
    through = around.panels[draft.panels[1]]
    edge, beyond = end_edge(draft, through)
    limit = around.panels[draft.panels[0]].thickness + around.tolerance.gap
    if beyond > limit or (draft.panels[1], edge) in around.spliced:
        return "wall_tee", "wall butts in the field of a wall"
    return "wall_corner", ""


def _roofs(draft: Draft, around: Around) -> Verdict:
    if draft.surface is not None and draft.surface[0] == SIDE:
        return "valley", "stands against the cut edge of the other roof"
    a, b = (around.panels[number].frame.n for number in draft.panels)
    if abs(draft.dihedral - math.pi) < _FLAT:
        return _roof_seam(draft, a), ""
    level = is_level(draft)
    same_fall = a[0] * b[0] + a[1] * b[1] > 1e-9
    if draft.dihedral > math.pi:
        return "valley", "slopes fall the same way" if level and same_fall else ""
    if not level:
        return "hip", ""
    return "ridge", "gambrel break: both slopes fall the same way" if same_fall else ""


def _roof_seam(draft: Draft, normal: tuple[float, float, float]) -> JointKind:
    across = math.hypot(normal[0], normal[1])
    if across < _LEVEL:
        return "roof_spline"
    level_line = (-normal[1] / across, normal[0] / across, 0.0)
    return "end_joint" if abs(dot(draft.along, level_line)) > math.sqrt(0.5) else "roof_spline"


def _wall_and_roof(draft: Draft, roles: Sequence[str]) -> Verdict:
    level = is_level(draft)
    if draft.surface is None:
        return ("eave" if level else "rake"), ""
    if roles[0] == "roof":
        return "roof_step", ""
    if draft.surface[0] == OUTER:
        return "roof_step", "wall stands on the roof"
    return ("eave" if level else "rake"), ""


def _wall_and_floor(draft: Draft, around: Around, roles: Sequence[str]) -> Verdict:
    floor = draft.panels[roles.index("floor")]
    if draft.surface is None:
        return ("floor_line" if floor in around.carried else "sill"), ""
    if roles[0] == "floor" or draft.surface[0] == OUTER or floor in around.carried:
        return "floor_line", ""
    return "sill", ""


def _on_support(draft: Draft, around: Around, role: str) -> Verdict:
    assert draft.surface is not None
    number = draft.surface[1]
    support = around.supports[number]
    if role == "roof":
        return ("roof_step" if support.kind == "other_wall" else "eave"), ""
    if abs(draft.along[2]) > math.sqrt(0.5):
        return "wall_corner", "ends against another building part"
    if role == "floor":
        return "sill", ""
    if support.kind == "deck" and (draft.surface[0] == BACK or number in around.carried_decks):
        return "floor_line", ""
    if draft.surface[0] == BACK:
        return "floor_line", ""
    return "sill", ""
