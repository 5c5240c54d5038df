"""Houses, their plan in any of its forms, revisions and drafts."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import BaseModel, ConfigDict, Field

from seamwright.app.contract.problem import ProblemOut
from seamwright.app.contract.told import Figured, Told
from seamwright.io.desk.form import HouseForm

PLAN_LETTERS = 2_000_000
"""Letters of the longest plan text taken."""

Person: TypeAlias = Annotated[str, Field(max_length=80)]
Words: TypeAlias = Annotated[str, Field(max_length=2000)]
Number: TypeAlias = Annotated[int, Field(ge=1, le=2**31 - 1)]
PlanText: TypeAlias = Annotated[str, Field(max_length=PLAN_LETTERS)]


class Body(BaseModel):
    """A body of a request: words it does not know are refused."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class FromForm(Body):
    """A house as the guided form tells it."""

    kind: Literal["form"]
    form: HouseForm


class FromYaml(Body):
    """A house as a plan text."""

    kind: Literal["yaml"]
    text: PlanText
    name: Annotated[str, Field(max_length=120)] = "plan.yaml"


class FromExample(Body):
    """A built-in house by its name."""

    kind: Literal["example"]
    name: Annotated[str, Field(max_length=60)]


class FromCsv(Body):
    """A panel list, and the plan text that says what its panels are made of."""

    kind: Literal["csv"]
    text: PlanText
    types: PlanText
    name: Annotated[str, Field(max_length=120)] = "panels.csv"


class FromRevision(Body):
    """A revision of the same house, put back in force as it was, letter by letter."""

    kind: Literal["revision"]
    number: Number


PlanSource: TypeAlias = Annotated[
    FromForm | FromYaml | FromExample | FromCsv, Field(discriminator="kind")
]
RevisionSource: TypeAlias = Annotated[
    FromForm | FromYaml | FromExample | FromCsv | FromRevision, Field(discriminator="kind")
]


class NewHouse(Body):
    """A house to add."""

    source: PlanSource
    author: Person = ""
    note: Words = ""


class NewRevisionIn(Body):
    """A plan to put in place of revision `base`; `reason` where it changes a signed side."""

    base: Number
    source: RevisionSource
    author: Person = ""
    note: Words = ""
    reason: Words = ""


class StepIn(Body):
    """An undo or redo from revision `base`; `reason` where it changes a signed side."""

    base: Number
    reason: Words = ""


class ValidateIn(Body):
    """A plan to look at without keeping it."""

    source: PlanSource


class Measured(BaseModel):
    """A plan in a few numbers."""

    panels: int
    joints: int
    nodes: int
    joint_length_m: float
    breaks: int


class Counted(Measured):
    """A house in a few numbers, its findings by gravity and the sides nobody signed."""

    stops: int
    looks: int
    unsigned: int


class Validated(BaseModel):
    """What is wrong with a plan, or what it makes. `text` is the plan text that lines refer to."""

    usable: bool
    problems: list[ProblemOut]
    notes: list[Figured]
    text: str
    counted: Measured | None


class HouseRow(BaseModel):
    """A house as the list shows it. Times are UTC."""

    id: str
    name: str
    head: int
    made_at: str
    changed_at: str


class HouseList(BaseModel):
    """The houses of this desk, the one changed last in front."""

    houses: list[HouseRow]


class HouseOut(HouseRow):
    """A house: what it is now, and what is open about it.

    `has_climate` says that the plan tells where the house stands: dryness needs that, or a file.
    """

    place: str
    climate_zone: str
    plan_hash: str
    origin: str
    counted: Counted
    findings_open: int
    lost_overrides: list[str]
    notes: list[Figured]
    can_undo: bool
    can_redo: bool
    has_form: bool
    has_draft: bool
    has_climate: bool


class PlanOut(BaseModel):
    """The plan of one revision: its text, and the form it came from where it came from one."""

    house: str
    number: int
    text: str
    form: HouseForm | None


class ExampleOut(BaseModel):
    """A house that comes with the package, all invented."""

    name: str
    title: str
    place: str


class ExampleList(BaseModel):
    """The houses that come with the package."""

    examples: list[ExampleOut]


class RevisionOut(BaseModel):
    """A plan that was kept."""

    number: int
    parent: int | None
    is_head: bool
    origin: str
    origin_name: str
    author: str
    note: Told
    made_at: str


class RevisionList(BaseModel):
    """Every revision of a house, the newest in front."""

    revisions: list[RevisionOut]


class DraftIn(Body):
    """What is being written on top of revision `base`; it may be wrong."""

    base: Number
    source: PlanSource


class DraftOut(BaseModel):
    """What was being written; `source` is None when nothing was."""

    base: int | None
    source: PlanSource | None
    saved_at: str | None


class RemovalOut(BaseModel):
    """What would be removed, and the token that confirms it."""

    token: str
    sentence: Told
