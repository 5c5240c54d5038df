"""What seals each joint: the catalog of products, strips with their arithmetic, beads, dams."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from seamwright.geometry.types import Vec3
from seamwright.joints.types import FaceName

COMMON_PRACTICE = "common practice, no source"

Stage: TypeAlias = Literal[
    "before_setting",
    "at_setting",
    "before_next_panel",
    "before_roof",
    "same_day",
    "weathered_in",
    "rough_in",
]
FaceChoice: TypeAlias = Literal["inner", "outer", "both"]
Severity: TypeAlias = Literal["stop", "attention", "note"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Sentence:
    """A sentence with its lengths left as numbers, so that an edge prints them in its own units.

    `text` holds ``{name}`` placeholders; `lengths` gives each in metres.
    """

    text: str
    lengths: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True, slots=True)
class StripStock:
    """A strip sold in rolls. `per_carton` rolls to a carton; price per roll, None if unknown."""

    id: str
    width: float
    roll_length: float
    per_carton: int
    source: str = COMMON_PRACTICE
    price: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class SealantStock:
    """A sealant pack: volume in m³ as on the label, kind of pack, packs to a carton."""

    id: str
    pack: Literal["cartridge", "sausage"]
    volume: float
    per_carton: int
    source: str = COMMON_PRACTICE
    price: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class FoamStock:
    """A foam can: yield in m³ of filled void (free rise less loss), cans to a carton."""

    id: str
    volume: float
    per_carton: int
    source: str = COMMON_PRACTICE
    price: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class BeadRule:
    """Beads of one joint kind (and spline kind, or None for any): how many, where, diameter.

    `on` narrows the rule to what the joint stands on or is: ``concrete``, ``deck``, ``timber`` (a
    beam or rafter along it), ``bare`` (none), ``ledger`` or ``plate`` (a floor line), or the kind
    of a penetration; None fits any. Several rules that fit one joint add up. `stage` is when the
    beads are laid.
    """

    kind: str
    spline: str | None
    count: int
    place: str
    diameter: float | None
    source: str = COMMON_PRACTICE
    on: str | None = None
    stage: Stage = "at_setting"


@dataclass(frozen=True, kw_only=True, slots=True)
class Laps:
    """Laps and allowances of strips, with where they come from. [m]

    `land` is the least lap onto sound skin by joint kind (key ``*`` for all others); a seam whose
    span is no wider than `closed_seam` counts as closed: the strip is centered on it and its span
    is not added. `placement` is added once per strip where the span is open or stepped;
    `handling` where a strip is placed before the panels it will bond to.
    """

    land: Mapping[str, float]
    closed_seam: float
    placement: float
    placement_overhead: float
    handling: float
    end_lap: float
    end_lap_ridge: float
    node_patch: float
    fold: float
    source: str = COMMON_PRACTICE


@dataclass(frozen=True, kw_only=True, slots=True)
class Rates:
    """Work rates and wages the user gives; None leaves time and cost blank. [m/s], [1/s], money"""

    strip: float | None = None
    strip_overhead: float | None = None
    bead: float | None = None
    node: float | None = None
    wage: float | None = None
    currency: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Catalog:
    """Everything on the shelf, and the rules of use. The default is common practice throughout."""

    strips: tuple[StripStock, ...]
    sealants: tuple[SealantStock, ...]
    foams: tuple[FoamStock, ...]
    beads: tuple[BeadRule, ...]
    laps: Laps
    reserve_strip: float = 0.08
    reserve_sealant: float = 0.15
    reserve_foam: float = 0.25
    rates: Rates = field(default_factory=Rates)
    source: str = COMMON_PRACTICE


@dataclass(frozen=True, kw_only=True, slots=True)
class Term:
    """One summand of a strip's width: ``count × value`` with what it stands for. [m]"""

    label: str
    value: float
    count: int = 1


@dataclass(frozen=True, kw_only=True, slots=True)
class Strip:
    """A strip on one face of a joint. `stock_id` is None when no stock width covers `required`.

    `terms` sum to `required`. `lap` is the real lap on each skin when the chosen stock is
    centered. `length` is the run along the joint before end laps. `wings_open` marks a strip laid
    over a timber with its liner left on until the panels are set.
    """

    joint_id: str
    face: FaceName
    span: float
    terms: tuple[Term, ...]
    required: float
    stock_id: str | None
    width: float | None
    lap: float
    length: float
    stage: Stage
    primary: bool
    wings_open: bool = False
    fold: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Bead:
    """`count` beads of one diameter along a joint; diameter None is a finding, not a guess. [m]"""

    joint_id: str
    place: str
    count: int
    diameter: float | None
    length: float
    stage: Stage
    source: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Dam:
    """A short cross-seal in a joint's channel: where, why, and how much void it fills. [m³]"""

    joint_id: str
    at: Vec3
    why: Literal["panel_end", "chase_crossing", "wall_line"]
    volume: float
    stage: Stage


@dataclass(frozen=True, kw_only=True, slots=True)
class Fill:
    """Foam in the channel or wedge of a joint: void area [m²] times length [m]."""

    joint_id: str
    area: float
    length: float
    stage: Stage

    @property
    def volume(self) -> float:
        """Void to fill. [m³]"""
        return self.area * self.length


@dataclass(frozen=True, kw_only=True, slots=True)
class Gasket:
    """A gasket under a sill or along a beam. [m]"""

    joint_id: str
    place: str
    length: float
    stage: Stage


@dataclass(frozen=True, kw_only=True, slots=True)
class NodePatch:
    """The patch of one node: square side [m], on which face, when."""

    node_id: str
    kind: str
    face: FaceName
    side: float
    how: str
    stage: Stage


@dataclass(frozen=True, kw_only=True, slots=True)
class SidePlan:
    """Which face carries the primary air seal of a joint, and on whose word.

    `signed` False means proposed: it must read UNSIGNED wherever it shows. `reason` says why.
    """

    joint_id: str
    face: FaceChoice
    signed: bool
    by: str
    reason: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Finding:
    """Something the lead must look at, with a way out. `subject` is a joint, node or product id."""

    id: str
    severity: Severity
    subject: str
    sentence: Sentence
    way_out: Sentence


@dataclass(frozen=True, kw_only=True, slots=True)
class SealSchedule:
    """Every seal of the house."""

    sides: tuple[SidePlan, ...]
    strips: tuple[Strip, ...]
    beads: tuple[Bead, ...]
    fills: tuple[Fill, ...]
    dams: tuple[Dam, ...]
    gaskets: tuple[Gasket, ...]
    patches: tuple[NodePatch, ...]
    findings: tuple[Finding, ...]
