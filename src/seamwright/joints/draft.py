"""Drafts of joints: each settled touch with its lines in space, before it has a kind or a name."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal, TypeAlias

import numpy as np

from seamwright.geometry.search import Floats
from seamwright.geometry.types import Segment, Vec3
from seamwright.joints.gather import FRONT, INNER, Edges, Surfaces
from seamwright.joints.touch import Touches
from seamwright.shell.types import Panel

Contact: TypeAlias = Literal["edge_edge", "edge_face", "edge_support", "opening", "penetration"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Use:
    """A stretch of a panel's inner edge that a joint takes up. [m]"""

    panel: int
    edge: int
    start: float
    end: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Draft:
    """One joint before classification. Panels are numbers in natural order, the edge's first.

    `surface` is the face the edge stands on: (INNER or OUTER, panel) or (FRONT or BACK, support);
    None for edge to edge. `along` is the joint's direction, `room` points from the edge panel to
    its room, `into` from the joint into the edge panel. Lines are None where a skin has none.
    `inner_open` and `outer_open` are the openings at the skins, negative where an arris stands
    inside the other part. `label` is what a joint with an opening, penetration or ledger adds to
    its name. [m]
    """

    panels: tuple[int, ...]
    surface: tuple[int, int] | None
    members: tuple[int, ...]
    uses: tuple[Use, ...]
    along: Vec3
    room: Vec3
    into: Vec3
    line: Segment
    inner: Segment | None
    outer: Segment | None
    dihedral: float
    gap: float
    inner_step: float
    outer_step: float
    inner_open: float
    outer_open: float
    contact: Contact
    label: str = ""
    others: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class _Lines:
    inner: tuple[Floats, Floats]
    outer: tuple[Floats, Floats]
    other_use: tuple[Floats, Floats]
    angle: Floats


def draft_joints(
    panels: Sequence[Panel], edges: Edges, surfaces: Surfaces, touches: Touches
) -> list[Draft]:
    """Return one draft for every settled touch, in the order of the touches."""
    if len(touches) == 0:
        return []
    normals = np.array([panel.frame.n for panel in panels], dtype=float)
    lines = _lines(edges, surfaces, touches, normals)
    e, j = touches.edge, touches.other
    plain = {
        "panel": edges.panel[e],
        "edge": edges.index[e],
        "other_panel": np.where(j >= 0, edges.panel[j], -1),
        "other_edge": np.where(j >= 0, edges.index[j], -1),
        "side": np.where(j >= 0, 0, surfaces.side[touches.surface]),
        "owner": np.where(j >= 0, -1, surfaces.owner[touches.surface]),
        "along": edges.along[e],
        "room": -normals[edges.panel[e]],
        "into": np.cross(normals[edges.panel[e]], edges.along[e]),
        "inner_a": lines.inner[0],
        "inner_b": lines.inner[1],
        "outer_a": lines.outer[0],
        "outer_b": lines.outer[1],
        "other_start": lines.other_use[0],
        "other_end": lines.other_use[1],
        "angle": lines.angle,
        "has_outer": touches.outer_end - touches.outer_start > 1e-6,
    }
    names = ("start", "end", "on_inner", "gap", "inner_step", "outer_step", "member")
    plain |= {name: getattr(touches, name) for name in (*names, "inner_open", "outer_open")}
    columns = {name: column.tolist() for name, column in plain.items()}
    keys = tuple(columns)
    return [
        _draft(dict(zip(keys, row, strict=True))) for row in zip(*columns.values(), strict=True)
    ]


def _lines(edges: Edges, surfaces: Surfaces, touches: Touches, normals: Floats) -> _Lines:
    """Return the skin lines in space, the other edge's stretch and the angle through the room."""
    e, j = touches.edge, touches.other
    paired = (j >= 0)[:, None]
    along, start, across = edges.along[e], edges.start[e], edges.across[e]
    offset = edges.start[j] - start
    begin = np.einsum("ij,ij->i", offset, along)
    sign = np.sign(np.einsum("ij,ij->i", edges.along[j], along))
    lean = edges.along[j] * sign[:, None]

    def on_both(at: Floats, lift: Floats, other_lift: Floats) -> Floats:
        here = start + along * at[:, None] + lift
        there = edges.start[j] + lean * (at - begin)[:, None] + other_lift
        return np.where(paired, (here + there) / 2.0, here)

    none = np.zeros_like(start)
    ends = ((touches.start - begin) * sign, (touches.end - begin) * sign)
    far = (touches.outer_start, touches.outer_end)
    return _Lines(
        inner=(on_both(touches.start, none, none), on_both(touches.end, none, none)),
        outer=(
            on_both(far[0], across, edges.across[j]),
            on_both(far[1], across, edges.across[j]),
        ),
        other_use=(np.minimum(*ends), np.maximum(*ends)),
        angle=_angles(edges, surfaces, touches, normals),
    )


def _angles(edges: Edges, surfaces: Surfaces, touches: Touches, normals: Floats) -> Floats:
    """Return the angle between the inner faces, measured through the room. [rad]"""
    e, j, k = touches.edge, touches.other, touches.surface
    normal = normals[edges.panel[e]]
    into = np.cross(normal, edges.along[e])
    other_into = np.cross(normals[edges.panel[j]], edges.along[j])
    face = surfaces.normal[k]
    toward = np.where((surfaces.side[k] == INNER) | (surfaces.side[k] >= FRONT), -1.0, 1.0)
    lean = normal * toward[:, None]
    on_face = lean - face * np.einsum("ij,ij->i", lean, face)[:, None]
    on_face /= np.maximum(np.linalg.norm(on_face, axis=1), 1e-12)[:, None]
    arm = np.where((j >= 0)[:, None], other_into, on_face)
    rise = np.einsum("ij,ij->i", arm, -normal)
    run = np.einsum("ij,ij->i", arm, into)
    rise = np.where(np.abs(rise) < 1e-12, 0.0, rise)
    return np.asarray(np.mod(np.arctan2(rise, run), 2.0 * np.pi))


def _draft(row: dict[str, Any]) -> Draft:
    """Turn one row of plain numbers into a draft."""
    get = row.__getitem__
    inner = Segment(start=tuple(get("inner_a")), end=tuple(get("inner_b")))
    outer = Segment(start=tuple(get("outer_a")), end=tuple(get("outer_b")))
    side, member = get("side"), get("member")
    inner_step, outer_step = get("inner_step"), get("outer_step")
    if side != 0 and member == -1:
        unfilled = min(inner_step, outer_step)
        inner_step, outer_step = inner_step - unfilled, outer_step - unfilled
    numbers, uses = _parts(row)
    return Draft(
        panels=tuple(numbers),
        surface=None if side == 0 else (side, get("owner")),
        members=() if member == -1 else (member,),
        uses=tuple(uses) if get("on_inner") else (),
        along=tuple(get("along")),
        room=tuple(get("room")),
        into=tuple(get("into")),
        line=inner if get("on_inner") else outer,
        inner=inner if get("on_inner") else None,
        outer=outer if get("has_outer") else None,
        dihedral=get("angle"),
        gap=get("gap") if member == -1 else 0.0,
        inner_step=inner_step,
        outer_step=outer_step,
        inner_open=get("inner_open") if member == -1 else 0.0,
        outer_open=get("outer_open") if member == -1 else 0.0,
        contact="edge_edge" if side == 0 else "edge_face" if side < FRONT else "edge_support",
    )


def _parts(row: dict[str, Any]) -> tuple[list[int], list[Use]]:
    """Return the panels that meet, the edge's first, and the stretches of edge taken up."""
    numbers = [row["panel"]]
    uses = [Use(panel=row["panel"], edge=row["edge"], start=row["start"], end=row["end"])]
    if row["other_panel"] != -1:
        numbers.append(row["other_panel"])
        other = (row["other_edge"], row["other_start"], row["other_end"])
        uses.append(Use(panel=row["other_panel"], edge=other[0], start=other[1], end=other[2]))
    elif row["side"] < FRONT:
        numbers.append(row["owner"])
    return numbers, uses
