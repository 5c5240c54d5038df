"""The joint register: lines where panels meet, the nodes where lines meet, and the edge ledger.

A joint is a void with two faces: an inner skin line and an outer skin line, and a channel between.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal, TypeAlias

from seamwright.geometry.types import Frame, Ring, Segment, Vec2, Vec3

JointKind: TypeAlias = Literal[
    "wall_spline",
    "wall_corner",
    "wall_tee",
    "sill",
    "floor_line",
    "floor_spline",
    "roof_spline",
    "ridge",
    "hip",
    "valley",
    "eave",
    "rake",
    "roof_step",
    "opening",
    "penetration",
    "end_joint",
]
FaceName: TypeAlias = Literal["inner", "outer"]
Reach: TypeAlias = Literal["until_hidden", "before_panels_only", "never"]
EdgeFate: TypeAlias = Literal["joint", "free", "explained"]


@dataclass(frozen=True, kw_only=True, slots=True)
class FaceLine:
    """One face of a joint: its skin line, and who can reach it until when.

    `line` is None where the joint has no line on this face (the outer side of a tee). `offset` is
    the step between the two skins across the joint, 0 when flush [m]. `reach` says whether a strip
    can go on after the panels stand (``until_hidden``), only before (``before_panels_only``: a
    timber will cover it) or ``never``; `hidden_by` names the thing or step that ends it.
    `timbers` are the ids of members that lie along this line and cover it; `crossings` those that
    cross it at an angle and cover only a short stretch. The inner line is the part within the air
    boundary: it ends where an eave or rake line crosses it, while the outer line runs on.
    `opening` is how far the two skins stand apart on this face: the gap of a seam, the mouth of a
    wedge where square-cut panels fold. [m]
    """

    line: Segment | None
    offset: float
    reach: Reach
    hidden_by: str
    timbers: tuple[str, ...] = ()
    crossings: tuple[str, ...] = ()
    opening: float = 0.0

    @property
    def length(self) -> float:
        """Length of the skin line, 0 when there is none. [m]"""
        return 0.0 if self.line is None else self.line.length


@dataclass(frozen=True, kw_only=True, slots=True)
class Joint:
    """One straight joint between two panels, or a panel and something else.

    `id` joins the ids of what meets (``A.1-A.2``), with ``:2``, ``:3`` when the same two meet more
    than once (from the lowest up, then by length), so it does not depend on panel order, position,
    rotation or units. `others` are ids of the supports, members, openings or
    penetrations that take part. `line` is where the parts touch; a penetration has a line of zero
    length at its middle and `length` holds its perimeter. `dihedral` is the angle between the inner
    faces measured through the room: π flush, less at a ridge or an outside corner, more at a
    valley or an inside corner. [rad] `gap` is the clear opening between
    the parts, 0 where a timber fills it. [m]
    """

    id: str
    kind: JointKind
    panels: tuple[str, ...]
    others: tuple[str, ...]
    line: Segment
    length: float
    inner: FaceLine
    outer: FaceLine
    dihedral: float
    gap: float
    storey: str | None
    contact: Literal["edge_edge", "edge_face", "edge_support", "opening", "penetration"]
    outside_corner: bool = True
    spline: str | None = None
    note: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Node:
    """A place where joints meet. `kind` joins the kinds that meet (``wall_corner+sill``)."""

    id: str
    kind: str
    at: Vec3
    joints: tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class EdgeUse:
    """What became of a stretch of a panel's inner edge, from `start` to `end` along it. [m]

    `fate` is ``joint`` (`ref` is the joint id), ``free`` (meets nothing) or ``explained`` (`reason`
    says why nothing is needed: the end of a wall that runs through at a corner, an overhang).
    """

    panel_id: str
    edge: int
    start: float
    end: float
    fate: EdgeFate
    ref: str
    reason: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Break:
    """A stretch where the line of one face does not close around the shell, and what would."""

    face: FaceName
    panel_id: str
    line: Segment
    reason: str
    remedy: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Register:
    """All joints and nodes of a shell, the ledger of every panel edge, and the breaks found.

    `lost_overrides` are ids of corrections whose joint no longer exists.
    """

    joints: tuple[Joint, ...]
    nodes: tuple[Node, ...]
    ledger: tuple[EdgeUse, ...]
    breaks: tuple[Break, ...]
    lost_overrides: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class SectionShape:
    """One cut part in a section: its outline, its material and whose part it is (`owner`)."""

    outline: Ring
    material: Literal["skin", "core", "timber", "concrete", "deck", "gap", "spline"]
    owner: str


@dataclass(frozen=True, kw_only=True, slots=True)
class SkinPath:
    """The way a strip takes on one face of a joint, in section coordinates. [m]

    `path` runs from the sound edge of the first skin to the sound edge of the second, over whatever
    lies between (a single point for skins that meet); its length is the developed span. `lands`
    are the unit directions in which each lap runs on from the two ends of the path, along the
    skin and away from the joint.
    """

    path: tuple[Vec2, ...]
    lands: tuple[Vec2, Vec2]

    @property
    def span(self) -> float:
        """Developed length from sound skin to sound skin. [m]"""
        pairs = zip(self.path, self.path[1:], strict=False)
        return math.fsum(math.dist(a, b) for a, b in pairs)


@dataclass(frozen=True, kw_only=True, slots=True)
class Section:
    """A cut square to a joint. The frame's origin lies on the joint's line, in the middle or at the
    nearest typical place; its normal runs along the joint; v points as near to up (or, for level
    cuts, to the outside) as it can. Parts reach about `reach` from the joint; no two overlap. [m]
    """

    joint_id: str
    frame: Frame
    reach: float
    shapes: tuple[SectionShape, ...]
    inner: SkinPath | None
    outer: SkinPath | None
