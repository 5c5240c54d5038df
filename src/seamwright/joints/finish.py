"""From classified drafts to joints: names, the two faces with their reach, storey and spline."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from seamwright.geometry.types import Vec3, dot
from seamwright.joints.classify import end_edge
from seamwright.joints.draft import Draft
from seamwright.joints.gather import FRONT, INNER, OUTER
from seamwright.joints.name import in_order, joint_name
from seamwright.joints.reach import ACCESS, LEDGER, access
from seamwright.joints.types import FaceLine, Joint, JointKind
from seamwright.shell.types import Panel, Shell, Support

_SEAMS = ("wall_spline", "roof_spline", "floor_spline", "end_joint")

_BITE = 0.010
"""An arris deeper than this inside the other panel must be cut. [m] (common practice, no source)"""

_NEAR_RIM = 0.3
"""A bearing's rim farther than this from the outer skin line is not part of the joint. [m]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Ready:
    """A draft with its kind, note and id, and the members behind its inner line."""

    draft: Draft
    kind: JointKind
    note: str
    id: str
    length: float
    timbers: tuple[int, ...] = ()
    crossings: tuple[int, ...] = ()


def base_name(draft: Draft, panels: Sequence[Panel], supports: Sequence[Support]) -> str:
    """Return the id a joint would have if the same parts met only once."""
    parts = list(in_order([panels[number].id for number in draft.panels]))
    if draft.surface is not None and draft.surface[0] >= FRONT:
        parts.append(supports[draft.surface[1]].id)
    if draft.label:
        parts.append(draft.label)
    return joint_name(parts)


def finish(
    ready: Ready, shell: Shell, panels: Sequence[Panel], splines: Mapping[str, str]
) -> Joint:
    """Return the joint of a classified draft."""
    draft, kind = ready.draft, ready.kind
    ids = in_order([panels[number].id for number in draft.panels])
    first = panels[draft.panels[0]]
    inner, outer = _faces(ready, shell, panels)
    return Joint(
        id=ready.id,
        kind=kind,
        panels=ids,
        others=_others(draft, shell),
        line=draft.line,
        length=ready.length,
        inner=inner,
        outer=outer,
        dihedral=_angle(draft, kind),
        gap=draft.gap,
        storey=_storey(draft, panels),
        contact=draft.contact,
        outside_corner=kind != "wall_corner" or draft.dihedral < math.pi,
        spline=splines.get(first.build_id) if kind in _SEAMS else None,
        note=_note(ready),
    )


def _note(ready: Ready) -> str:
    """Return the joint's note; a square-cut arris that stands inside the other panel is told."""
    deepest = min(ready.draft.inner_open, ready.draft.outer_open)
    if deepest >= -_BITE:
        return ready.note
    told = "square-cut: one arris stands inside the other panel, cut it to the slope"
    return f"{ready.note}; {told}" if ready.note else told


def stands_outside(draft: Draft) -> bool:
    """Return whether the edge stands against another panel's outer skin."""
    return draft.surface is not None and draft.surface[0] == OUTER


def _angle(draft: Draft, kind: JointKind) -> float:
    """Return the angle through the room; a wall that butts outside mid-field opens one corner."""
    if kind == "wall_tee" and stands_outside(draft) and draft.dihedral > math.pi:
        return draft.dihedral - math.pi
    return draft.dihedral


def room_way(draft: Draft, panels: Sequence[Panel]) -> Vec3:
    """Return the unit direction from the inner line into the room, between both inner faces."""
    if draft.contact != "edge_edge":
        return draft.room
    a, b = (panels[number].frame.n for number in draft.panels)
    total = tuple(-(x + y) for x, y in zip(a, b, strict=True))
    size = math.sqrt(math.fsum(x * x for x in total))
    if size < 1e-6:
        return draft.room
    return (total[0] / size, total[1] / size, total[2] / size)


def _faces(ready: Ready, shell: Shell, panels: Sequence[Panel]) -> tuple[FaceLine, FaceLine]:
    draft, kind = ready.draft, ready.kind
    roles = {panels[number].role for number in draft.panels}
    names = tuple(shell.members[m].id for m in ready.timbers)
    reach = access(
        kind,
        rim="rim" in roles and (kind == "floor_line" or roles == {"rim"}),
        roof_end=roles == {"roof"},
        timber=names[0] if names else None,
    )
    inner_step, outer_step = _steps(draft, kind, shell, panels)
    if draft.contact == "edge_support" and draft.label:
        reach = (("before_panels_only", draft.label), LEDGER[1])
    buried = kind == "wall_tee" and not stands_outside(draft)
    if buried:
        tee = panels[draft.panels[0]].id
        reach = (("before_panels_only", tee), ("never", ""))
    elif kind == "wall_tee":
        reach = ACCESS["wall_corner"]
    inner = FaceLine(
        line=draft.inner,
        offset=inner_step,
        reach=reach[0][0],
        hidden_by=reach[0][1],
        timbers=names,
        crossings=tuple(shell.members[m].id for m in ready.crossings),
        opening=max(draft.inner_open, 0.0),
    )
    outer = FaceLine(
        line=None if buried else draft.outer,
        offset=outer_step,
        reach=reach[1][0],
        hidden_by=reach[1][1],
        opening=max(draft.outer_open, 0.0),
    )
    return inner, outer


def _steps(
    draft: Draft, kind: JointKind, shell: Shell, panels: Sequence[Panel]
) -> tuple[float, float]:
    """Return the step between the skins on the inner and on the outer face. [m]"""
    if kind == "wall_tee":
        return 0.0, 0.0
    if kind == "wall_corner" and draft.contact == "edge_face":
        edge, beyond = end_edge(draft, panels[draft.panels[1]])
        step = abs(beyond) if edge >= 0 else 0.0
        on_inner = draft.surface is not None and draft.surface[0] == INNER
        return (0.0, step) if on_inner else (step, 0.0)
    if draft.surface is not None and draft.surface[0] == FRONT:
        rim = _rim_distance(draft, shell.supports[draft.surface[1]])
        return draft.inner_step, max(draft.outer_step, rim)
    return draft.inner_step, draft.outer_step


def _rim_distance(draft: Draft, support: Support) -> float:
    """Return how far the outer skin line stands in or out of the bearing's nearest rim. [m]"""
    if draft.outer is None:
        return 0.0
    frame = support.frame
    here = frame.local(draft.outer.middle)
    run = (dot(draft.along, frame.u), dot(draft.along, frame.v))
    best = math.inf
    ring = support.outline
    for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
        side = (b[0] - a[0], b[1] - a[1])
        size = math.hypot(*side)
        if size < 1e-9 or abs(side[0] * run[1] - side[1] * run[0]) > 0.02 * size:
            continue
        off = (here[0] - a[0]) * side[1] - (here[1] - a[1]) * side[0]
        best = min(best, abs(off) / size)
    return best if best <= _NEAR_RIM else 0.0


def _others(draft: Draft, shell: Shell) -> tuple[str, ...]:
    names = list(draft.others)
    if draft.surface is not None and draft.surface[0] > OUTER:
        names.append(shell.supports[draft.surface[1]].id)
    names += [shell.members[m].id for m in draft.members]
    return in_order(names)


def _storey(draft: Draft, panels: Sequence[Panel]) -> str | None:
    """Return the storey of the walls that meet, the first in natural order where they differ."""
    upright = [n for n in draft.panels if panels[n].role in ("wall", "rim", "partition")]
    found = [panels[n].storey for n in (upright or draft.panels)]
    named = in_order([storey for storey in found if storey is not None])
    return named[0] if named else None
