"""Joints and nodes: the table, and everything about one of them."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import BaseModel, Field

from seamwright.app.contract.house import Body, Number, Person, Words
from seamwright.app.contract.told import Told
from seamwright.joints.types import JointKind

Xyz: TypeAlias = tuple[float, float, float]
Face: TypeAlias = Literal["inner", "outer", "both"]


class JointRow(BaseModel):
    """One joint in the table. `look` is `stop`, `attention` or empty."""

    id: str
    kind: str
    storey: str | None
    length_m: float
    face: str
    signed: bool
    strips: list[str]
    stage: str | None
    state: str
    look: str
    corrected: bool


class NodeRow(BaseModel):
    """One node in the table."""

    id: str
    kind: str
    at_m: Xyz
    joints: list[str]


class JointTable(BaseModel):
    """Every joint and node of a house."""

    revision: int
    joints: list[JointRow]
    nodes: list[NodeRow]


class TermOut(BaseModel):
    """A summand of a strip's width: count × value."""

    label: str
    count: int
    value_m: float


class StripOut(BaseModel):
    """A strip with its arithmetic: the terms add up to what is required."""

    id: str
    face: str
    span_m: float
    terms: list[TermOut]
    required_m: float
    stock: str | None
    width_m: float | None
    lap_m: float
    length_m: float
    stage: str
    primary: bool
    wings_open: bool
    fold: bool


class LayerOut(BaseModel):
    """Any seal of a joint that is no strip, in a sentence with its figures."""

    id: str
    sort: Literal["bead", "fill", "dam", "gasket"]
    place: Told
    stage: str
    count: int | None = None
    diameter_m: float | None = None
    length_m: float | None = None
    area_m2: float | None = None
    volume_m3: float | None = None
    at_m: Xyz | None = None
    source: Told = ""


class FaceOut(BaseModel):
    """One face of a joint: its line, and who can reach it until when."""

    length_m: float
    offset_m: float
    opening_m: float
    reach: str
    hidden_by: Told
    timbers: list[str]
    crossings: list[str]


class FindingOut(BaseModel):
    """Something to look at, with a way out."""

    id: str
    severity: Literal["stop", "attention", "note"]
    subject: str
    sentence: Told
    way_out: Told


class SideOut(BaseModel):
    """Which face carries the air seal, and on whose word."""

    face: Face
    signed: bool
    by: Told
    reason: Told


class OverrideOut(BaseModel):
    """A correction that stands in the plan."""

    reason: str
    kind: str | None
    face: Face | None
    span_m: float | None
    strip_width_m: float | None
    ignore: bool


class NeighborOut(BaseModel):
    """A joint that meets this one, and the node where it does."""

    id: str
    kind: str
    node: str


class HappeningOut(BaseModel):
    """Something that happened to this joint: a record from the site, or a change of the plan.

    `by` and `saw` belong to a look, `flow` to a fan test of the whole house; both, and mends, come
    from the diary of the search.
    """

    when: str
    what: str
    person: str
    note: Told
    revision: int | None
    by: str = ""
    saw: str = ""
    flow: str = ""


class JointOut(BaseModel):
    """Everything about one joint. `shown_as` is the sheet of the packet that draws its type."""

    id: str
    kind: str
    title: Told
    shown_as: str | None
    storey: str | None
    panels: list[str]
    others: list[str]
    start_m: Xyz
    end_m: Xyz
    length_m: float
    dihedral_deg: float
    gap_m: float
    spline: str | None
    note: Told
    faces: dict[Literal["inner", "outer"], FaceOut]
    side: SideOut | None
    strips: list[StripOut]
    layers: list[LayerOut]
    stage: str | None
    state: str
    nodes: list[str]
    neighbors: list[NeighborOut]
    findings: list[FindingOut]
    override: OverrideOut | None
    history: list[HappeningOut]


class FindingList(BaseModel):
    """Everything to look at, the gravest first; a break is a place where a line does not close."""

    findings: list[FindingOut]
    lost_overrides: list[str]


Metres: TypeAlias = Annotated[float, Field(gt=0, le=1000, allow_inf_nan=False)]


class OverrideIn(Body):
    """A correction to one joint, with its reason; what is left out keeps the computed value."""

    base: Number
    reason: Annotated[str, Field(min_length=3, max_length=500)]
    kind: JointKind | None = None
    face: Face | None = None
    span_m: Annotated[float, Field(ge=0, le=1000, allow_inf_nan=False)] | None = None
    strip_width_m: Metres | None = None
    ignore: bool = False
    author: Person = ""
    change_reason: Words = ""
