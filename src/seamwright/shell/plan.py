"""The plan: what the user wrote, checked for form but not yet turned into shapes.

Every length is an exact `fractions.Fraction` of a metre (one inch is 127/5000), so nothing is
rounded before the shell is laid out. Plan coordinates: x east, y north, z up, unless the user's
own axes say otherwise; footprints run counter-clockwise seen from above along the **outer** face
of the walls. Walls take the id of their footprint edge (A, B, C ... over all footprints in order),
with the storey's number in front from the second storey up (2A); panels add a running number from
the start corner (A.1, 2A.3). Roof planes are R1, R2 ... in the order of the parts, panels R1.1 ...
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal, TypeAlias

from seamwright.shell.types import (
    MemberKind,
    OpeningKind,
    PanelRole,
    PenetrationKind,
    SplineKind,
)

Length: TypeAlias = Fraction
Point2: TypeAlias = tuple[Length, Length]
Point3: TypeAlias = tuple[Length, Length, Length]
Face: TypeAlias = Literal["inner", "outer", "both"]
FloorKind: TypeAlias = Literal["base", "platform", "hanging"]
BaseKind: TypeAlias = Literal["slab", "stem_wall", "floor_panels"]
RoofKind: TypeAlias = Literal["gable", "hip", "shed", "gambrel", "saltbox"]
CornerRule: TypeAlias = Literal["start_through", "end_through", "alternate"]
End: TypeAlias = Literal["start", "end"]

ZERO = Fraction(0)


@dataclass(frozen=True, kw_only=True, slots=True)
class Site:
    """Where the house stands. `zone_edition` names the edition `climate_zone` is read in.

    `county` and `state` (two letters) are those of the United States; `weather` is a file of
    hourly weather beside the plan, `station` the number of the station to generate a year from.
    """

    name: str
    place: str | None = None
    latitude_deg: float | None = None
    longitude_deg: float | None = None
    elevation: Length = ZERO
    climate_zone: str | None = None
    zone_edition: str | None = None
    county: str | None = None
    state: str | None = None
    station: str | None = None
    weather: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class PanelType:
    """A kind of panel that can be ordered: layers from inside out, largest size, spline."""

    id: str
    skin_inner: Length
    core: Length
    skin_outer: Length
    max_width: Length
    max_length: Length
    spline: SplineKind
    spline_width: Length
    edge_gap: Length
    core_material: str = "EPS"


@dataclass(frozen=True, kw_only=True, slots=True)
class Base:
    """What the lowest walls stand on. `top` is the elevation of the bearing face. [m]

    `floor_panels` lays panels of `panel_type` over the footprint, their upper skin (the inner
    face) at `top`. `sill` is the thickness of a sill plate between base and wall (0 for none).
    """

    kind: BaseKind
    top: Length = ZERO
    thickness: Length = Fraction(1, 10)
    sill: Length = ZERO
    panel_type: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Storey:
    """One storey: wall height on the outer face from bearing to plate, and what it stands on.

    `floor` is ``base`` for the lowest storey. A ``platform`` floor breaks the walls: its depth
    (joists and deck) stands between the wall below and the wall above, closed by a rim panel. With
    a ``hanging`` floor the walls run past and the joists hang on a ledger of `floor_depth` inside.
    """

    id: str
    height: Length
    panel_type: str
    floor: FloorKind = "base"
    floor_depth: Length = ZERO
    deck: Length = ZERO


@dataclass(frozen=True, kw_only=True, slots=True)
class Footprint:
    """A simple polygon on the outer face of the walls, and the ids of the storeys it rises."""

    id: str
    corners: tuple[Point2, ...]
    storeys: tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class WallRule:
    """What the user fixed for one wall (`wall` is a wall id such as A or 2A)."""

    wall: str
    panel_type: str | None = None
    start_corner: Literal["through", "butts"] | None = None
    end_corner: Literal["through", "butts"] | None = None
    layout_from: End | None = None
    widths: tuple[Length, ...] | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class TimberSize:
    """Cross-section of a timber: width across, depth down. [m]"""

    width: Length
    depth: Length


@dataclass(frozen=True, kw_only=True, slots=True)
class Spaced:
    """Timbers of one size at a regular spacing, measured on the slope (purlins) or along the
    eave (rafters).
    """

    size: TimberSize
    spacing: Length


@dataclass(frozen=True, kw_only=True, slots=True)
class RoofPart:
    """One convex wing of the roof; the roof is the upper envelope of all its parts.

    `area` is the wing's outline in plan on the outer wall face (a rectangle for everything but
    `hip`), counter-clockwise. `eaves` are the indices of the area edges that carry an eave: two
    opposite ones for `gable`, `gambrel` and `saltbox` (the first takes `pitch`), one for `shed`
    (the low one), all for `hip`. The underside of the roof passes through the outer face of the
    wall at `eave_height` (elevation; None: the top of the highest storey below) raised by
    `eave_plate`, the timber between wall top and roof (0: flush, bevel-cut wall top).

    `second_pitch` is the upper pitch of a gambrel (`break_run` in from the eave) or the pitch of a
    saltbox's second eave. `open_end` marks area edges where the wing runs on into another part
    (a valley forms where the surfaces cross) and which therefore have no rake or eave.
    """

    id: str
    kind: RoofKind
    area: tuple[Point2, ...]
    eaves: tuple[int, ...]
    pitch: Fraction
    panel_type: str
    second_pitch: Fraction | None = None
    break_run: Length | None = None
    eave_height: Length | None = None
    eave_plate: Length = ZERO
    overhang_eave: Length = ZERO
    overhang_rake: Length = ZERO
    open_end: tuple[int, ...] = ()
    ridge_beam: TimberSize | None = None
    hip_beams: TimberSize | None = None
    valley_beams: TimberSize | None = None
    purlins: Spaced | None = None
    rafters: Spaced | None = None
    layout_from: End | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Dormer:
    """A dormer standing on roof part `part`, above its eave `eave` (an area edge index).

    `along` runs from that eave edge's start to the dormer's nearer cheek (outer face), `back` from
    the eave line (outer wall face) horizontally to the dormer's front wall. `eave_height` is the
    elevation of the dormer's own plate; `kind` is its roof: a gable with the ridge running back
    into the main roof, or a shed falling to the front.
    """

    id: str
    part: str
    eave: int
    along: Length
    back: Length
    width: Length
    eave_height: Length
    kind: Literal["gable", "shed"]
    pitch: Fraction
    panel_type: str
    wall_panel_type: str
    overhang_eave: Length = ZERO
    overhang_rake: Length = ZERO


@dataclass(frozen=True, kw_only=True, slots=True)
class InnerWall:
    """A wall inside the shell that meets it: plan line on its middle, thickness, storey."""

    id: str
    storey: str
    start: Point2
    end: Point2
    thickness: Length
    bearing: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class OpeningSpec:
    """A window, door or skylight. `along` runs from the wall's start corner (outer face) in the
    footprint's direction to the opening's nearer edge; `up` from the storey's bearing to its lower
    edge. On a given panel or plane both are measured in its own axes. On a roof plane `along` runs
    along the eave from the left end seen from outside, `up` on the slope from the eave line over
    the outer wall face; on a floor of panels along the outline's first edge, `up` into the house.
    """

    id: str
    kind: OpeningKind
    host: str
    along: Length
    up: Length
    width: Length
    height: Length


@dataclass(frozen=True, kw_only=True, slots=True)
class PenetrationSpec:
    """A service through the shell, its middle placed like an opening's corner (`along`, `up`)."""

    id: str
    kind: PenetrationKind
    host: str
    along: Length
    up: Length
    diameter: Length | None = None
    width: Length | None = None
    height: Length | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Timber:
    """A timber given explicitly; `start` and `end` along the middle of its top face."""

    id: str
    kind: MemberKind
    start: Point3
    end: Point3
    size: TimberSize


@dataclass(frozen=True, kw_only=True, slots=True)
class GivenPanel:
    """A panel given one by one: `origin` is the lower start corner of the inner face, `along` and
    `up` are directions (need not be unit), `outline` the inner face in those axes. `panel_type`
    gives the layers; the outer side is at along × up.
    """

    id: str
    panel_type: str
    role: PanelRole
    origin: Point3
    along: tuple[float, float, float]
    up: tuple[float, float, float]
    outline: tuple[Point2, ...]
    storey: str | None = None
    plane: str | None = None
    bevels_deg: tuple[float, ...] | None = None
    """One angle per edge, 0 for square, positive where the outer face is larger. [deg]"""
    outer_outline: tuple[Point2, ...] | None = None
    """The outer face in the same axes, vertex by vertex; None where `bevels_deg` or square edges
    give it.
    """
    lay_out: bool = False
    """True when this is a whole plane that the tool still has to split into panels."""


@dataclass(frozen=True, kw_only=True, slots=True)
class GivenSupport:
    """A bearing face given explicitly (for plans that list their panels): horizontal polygon."""

    id: str
    kind: Literal["slab", "stem_wall", "deck"]
    outline: tuple[Point2, ...]
    top: Length
    thickness: Length


@dataclass(frozen=True, kw_only=True, slots=True)
class Preferences:
    """How the lead wants panels laid out. `min_width`: no sliver narrower than this. [m]"""

    corners: CornerRule = "start_through"
    layout_from: End = "start"
    break_at_openings: bool = False
    min_width: Length = Fraction(3048, 10000)


@dataclass(frozen=True, kw_only=True, slots=True)
class Decision:
    """A signed air-seal decision. `kinds` are joint kinds (empty: all), `joints` single ids."""

    face: Face
    signed_by: str
    role: str
    date: str
    kinds: tuple[str, ...] = ()
    joints: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Override:
    """A correction to one joint that survives re-runs; None leaves the computed value."""

    joint: str
    reason: str
    kind: str | None = None
    face: Face | None = None
    strip_width: Length | None = None
    span: Length | None = None
    ignore: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Plan:
    """Everything the user described. Either `footprints` (laid out by the tool) or `panels`
    (given one by one), or both.
    """

    site: Site
    panel_types: tuple[PanelType, ...]
    base: Base | None = None
    storeys: tuple[Storey, ...] = ()
    footprints: tuple[Footprint, ...] = ()
    wall_rules: tuple[WallRule, ...] = ()
    roof: tuple[RoofPart, ...] = ()
    dormers: tuple[Dormer, ...] = ()
    inner_walls: tuple[InnerWall, ...] = ()
    openings: tuple[OpeningSpec, ...] = ()
    penetrations: tuple[PenetrationSpec, ...] = ()
    timbers: tuple[Timber, ...] = ()
    panels: tuple[GivenPanel, ...] = ()
    supports: tuple[GivenSupport, ...] = ()
    preferences: Preferences = field(default_factory=Preferences)
    decisions: tuple[Decision, ...] = ()
    overrides: tuple[Override, ...] = ()
