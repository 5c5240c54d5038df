"""What a change of the plan does: to joints, to the order, to work done, to what was signed."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import BaseModel, Field

from seamwright.app.contract.house import Body, HouseOut, Number, Person, Words
from seamwright.app.contract.joint import Face
from seamwright.app.contract.told import Told
from seamwright.joints.types import JointKind

KindNames: TypeAlias = Annotated[list[JointKind], Field(max_length=16)]
JointName: TypeAlias = Annotated[str, Field(min_length=1, max_length=120)]
JointNames: TypeAlias = Annotated[list[JointName], Field(max_length=500)]


class JointBrief(BaseModel):
    """A joint by its id, kind and length."""

    id: str
    kind: str
    length_m: float


class PropertyChange(BaseModel):
    """A property that changed; a name that ends in `_m` is a length."""

    name: str
    before: float | Told | None
    after: float | Told | None


class JointChangeOut(JointBrief):
    """A joint that is still there and differs."""

    changes: list[PropertyChange]


class OrderChangeOut(BaseModel):
    """An order line that differs; amounts in metres, cubic metres or pieces, as `unit` says."""

    item: str
    description: Told
    unit: Literal["m", "m3", "piece"]
    amount_before: float
    amount_after: float
    packs_before: int
    packs_after: int


class WorkTouched(BaseModel):
    """Work already recorded done that a change touches."""

    joint: str
    state: str
    sentence: Told


class Undone(BaseModel):
    """A signed side that a change takes back, in a sentence, with its joints."""

    sentence: Told
    kind: str
    signed_by: str
    joints: list[str]


class ChangesOut(BaseModel):
    """Everything that differs between two plans of a house."""

    before: int
    after: int | None
    joints_came: list[JointBrief]
    joints_went: list[JointBrief]
    joints_changed: list[JointChangeOut]
    nodes_came: list[str]
    nodes_went: list[str]
    order: list[OrderChangeOut]
    work_touched: list[WorkTouched]
    undone: list[Undone]


class Changed(BaseModel):
    """A house after a change, and what the change did."""

    house: HouseOut
    changes: ChangesOut


class FaceEvidence(BaseModel):
    """What speaks for and against one face, for the joints of a group.

    `reachable` counts joints whose face can be sealed and looked at once the panels stand,
    `before_panels_only` and `never` the rest. Strips are those needed if this face were signed for
    the whole house; `without_stock` of them are wider than anything on the shelf.
    """

    face: Literal["inner", "outer"]
    joints_with_line: int
    reachable: int
    before_panels_only: int
    never: int
    strips: int
    strip_length_m: float
    without_stock: int
    stages: dict[str, int]
    hidden_by: dict[Told, int]


class SignedOut(BaseModel):
    """A signature that stands."""

    face: Face
    by: Told
    joints: int


class DecisionGroup(BaseModel):
    """The joints of one kind: what is proposed for them and why, what is signed, the evidence.

    `locked` is set when all of them are signed: changing that needs a reason.
    """

    kind: str
    joints: list[str]
    length_m: float
    proposed: dict[str, int]
    reason: Told
    signed: list[SignedOut]
    unsigned: int
    locked: bool
    inner: FaceEvidence
    outer: FaceEvidence


class DecisionsOut(BaseModel):
    """Every group of joints with its evidence, side by side."""

    revision: int
    climate_zone: str
    zone_edition: str
    disagreement: Told
    source: Told
    groups: list[DecisionGroup]


class SignIn(Body):
    """A side to sign for the kinds or joints named; `reason` where it changes what was signed."""

    base: Number
    face: Face
    kinds: KindNames = Field(default_factory=list)
    joints: JointNames = Field(default_factory=list)
    signed_by: Annotated[str, Field(min_length=2, max_length=80)]
    role: Annotated[str, Field(min_length=2, max_length=80)]
    date: Annotated[str, Field(pattern=r"^\d{4}-\d{2}-\d{2}$")] | None = None
    note: Words = ""
    reason: Words = ""


class WithdrawIn(Body):
    """Signatures to take back for the kinds or joints named, with the reason."""

    base: Number
    kinds: KindNames = Field(default_factory=list)
    joints: JointNames = Field(default_factory=list)
    person: Person
    reason: Annotated[str, Field(min_length=3, max_length=2000)]


class SignatureOut(BaseModel):
    """A line in the book of signatures; lines are only ever added."""

    id: int
    revision: int
    action: Literal["signed", "withdrawn", "changed"]
    face: str
    kinds: list[str]
    joints: list[str]
    signed_by: str
    role: str
    date: str
    note: Told
    reason: str
    undone: list[Told]
    made_at: str


class SignatureBook(BaseModel):
    """Everything that was ever signed or taken back, the oldest first."""

    signatures: list[SignatureOut]
