"""The shell: panels as solids in space, with the timbers, bearings and holes that meet them.

A panel is a plate between two skins. Its frame lies on the **inner** face: `u` along the panel,
`v` up (up the slope on a roof, any direction on a floor), and the normal `n` points **outward**,
from the inner skin to the outer skin. `inner` is the outline on the inner face and `outer` the
outline on the outer face, in the same (u, v) axes; vertex i of one belongs to vertex i of the
other, so edge i has a flat side face from inner edge i to outer edge i. Square edges have the same
outlines; a bevel, a plumb cut or a miter shows as a difference between the two.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from seamwright.geometry.types import Frame, Ring, Vec3

PanelRole: TypeAlias = Literal["wall", "roof", "floor", "rim", "partition"]
SplineKind: TypeAlias = Literal["surface", "block", "lumber", "i_joist", "cam_lock"]
MemberKind: TypeAlias = Literal[
    "ridge_beam", "hip_beam", "valley_beam", "purlin", "rafter", "plate", "ledger", "post", "beam"
]
SupportKind: TypeAlias = Literal["slab", "stem_wall", "deck", "other_wall"]
OpeningKind: TypeAlias = Literal["window", "door", "skylight", "hatch"]
PenetrationKind: TypeAlias = Literal["pipe", "duct", "flue", "box", "chase"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Build:
    """What a panel is made of, from inside out. Thicknesses and spline width in metres.

    `spline_width` is measured across the seam, both halves together; `edge_gap` is the opening
    left between neighboring skins at a seam.
    """

    id: str
    skin_inner: float
    core: float
    skin_outer: float
    max_width: float
    max_length: float
    spline: SplineKind
    spline_width: float
    edge_gap: float
    core_material: str = "EPS"

    @property
    def thickness(self) -> float:
        """Skins and core together. [m]"""
        return self.skin_inner + self.core + self.skin_outer


@dataclass(frozen=True, kw_only=True, slots=True)
class Hole:
    """An opening cut wholly inside one panel, square through it."""

    opening_id: str
    outline: Ring


@dataclass(frozen=True, kw_only=True, slots=True)
class Panel:
    """One panel. See the module text for the axes, `inner`, `outer` and which way `n` points."""

    id: str
    build_id: str
    role: PanelRole
    plane_id: str
    storey: str | None
    frame: Frame
    inner: Ring
    outer: Ring
    thickness: float
    skin_inner: float
    skin_outer: float
    holes: tuple[Hole, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Member:
    """A straight timber. `start` and `end` run along the middle of its top face. [m]

    `up` is the unit vector out of the top face, square to the axis; `width` is measured across,
    `depth` downward from the top face (against `up`).
    """

    id: str
    kind: MemberKind
    start: Vec3
    end: Vec3
    up: Vec3
    width: float
    depth: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Support:
    """What panels stand on or lean against: a flat face (frame, outline) with a body behind it.

    The frame's normal points out of the body, toward the panels; `thickness` goes the other way.
    """

    id: str
    kind: SupportKind
    frame: Frame
    outline: Ring
    thickness: float
    storey: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Opening:
    """A rough opening in a wall or roof plane, in that plane's frame (square through)."""

    id: str
    kind: OpeningKind
    plane_id: str
    frame: Frame
    outline: Ring
    storey: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Penetration:
    """A service through the shell. `at` is its middle on the inner face, `axis` points outward.

    Round ones have `diameter`; square ones `width` and `height` (the others are None). [m]
    """

    id: str
    kind: PenetrationKind
    plane_id: str
    panel_id: str | None
    at: Vec3
    axis: Vec3
    diameter: float | None = None
    width: float | None = None
    height: float | None = None
    storey: str | None = None

    @property
    def perimeter(self) -> float:
        """Length of the line to seal around it on one face. [m]"""
        if self.diameter is not None:
            return 3.141592653589793 * self.diameter
        if self.width is None or self.height is None:
            return 0.0
        return 2.0 * (self.width + self.height)


@dataclass(frozen=True, kw_only=True, slots=True)
class Shell:
    """Everything that stands in space, ready for the search for joints.

    `assumptions` are sentences about what the layout had to assume; they reach the cover sheet.
    """

    builds: tuple[Build, ...]
    panels: tuple[Panel, ...]
    members: tuple[Member, ...] = ()
    supports: tuple[Support, ...] = ()
    openings: tuple[Opening, ...] = ()
    penetrations: tuple[Penetration, ...] = ()
    assumptions: tuple[str, ...] = ()
