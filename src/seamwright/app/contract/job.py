"""Long work: what may be asked for, and how it stands."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import BaseModel, Field

from seamwright.app.contract.house import Body
from seamwright.app.contract.problem import ProblemOut
from seamwright.app.contract.setting import Units
from seamwright.app.contract.told import Told

Day: TypeAlias = Annotated[str, Field(pattern=r"^\d{4}-\d{2}-\d{2}$")]
Days: TypeAlias = Annotated[list[Day], Field(max_length=60)]
Short: TypeAlias = Annotated[str, Field(min_length=1, max_length=200)]
FileText: TypeAlias = Annotated[str, Field(min_length=1, max_length=4_000_000)]


class Wishes(Body):
    """How long work is to be done; each kind takes what concerns it, and all have defaults.

    `start`, `crews`, `rain`, `no_crane`, `rain_cost`, `limit_s`: the plan of days. `workmanship`,
    `target`, `seed`: the forecast. `by`, `aim`, `top`: the hunt. `readings` (the text of a file of
    readings), `standard`, `target`: a fan test. `records`: what the site wrote down, as text.
    `seed`, `joint` (a kind), `face`, `years`: dryness. `weather`: hours of weather as text,
    `weather_name` the name of its file. `units` of files and sentences: those of the request.
    """

    start: Day | None = None
    crews: Short | None = None
    rain: Days = Field(default_factory=list)
    no_crane: Days = Field(default_factory=list)
    rain_cost: Day | None = None
    limit_s: Annotated[float, Field(ge=1, le=600, allow_inf_nan=False)] | None = None
    workmanship: Literal["careful", "ordinary", "careless"] | None = None
    target: Short | None = None
    seed: Annotated[int, Field(ge=0, le=2**31 - 1)] | None = None
    joint: Short | None = None
    face: Literal["inner", "outer", "both"] | None = None
    years: Annotated[int, Field(ge=1, le=20)] | None = None
    by: Literal["smoke", "infrared", "hand"] | None = None
    aim: Short | None = None
    top: Annotated[int, Field(ge=1, le=1000)] | None = None
    standard: Literal["iso-9972", "astm-e779", "astm-e1827"] | None = None
    readings: FileText | None = None
    records: FileText | None = None
    weather: FileText | None = None
    units: Units | None = None
    weather_name: Annotated[str, Field(pattern=r"^[A-Za-z0-9_-]{1,40}\.(csv|epw|json)$")] = (
        "weather.csv"
    )


class JobIn(Body):
    """Work to be done on the head of a house."""

    kind: Annotated[str, Field(min_length=1, max_length=40)]
    wishes: Wishes = Wishes()


class JobFileOut(BaseModel):
    """A file that work brought back."""

    name: str
    media_type: str


class JobOut(BaseModel):
    """Work asked for. `progress` runs from 0 to 1; `is_current` is unset when the plan changed.

    `interrupted` is work that ran when the desk was closed: ask for it again.
    """

    id: str
    house: str
    revision: int
    is_current: bool
    kind: str
    title: Told
    state: Literal["queued", "running", "done", "failed", "cancelled", "interrupted"]
    phase: Told
    progress: float
    problems: list[ProblemOut]
    files: list[JobFileOut]
    made_at: str
    started_at: str | None
    ended_at: str | None


class JobList(BaseModel):
    """The work asked for at a house, the newest first."""

    jobs: list[JobOut]


class JointValues(BaseModel):
    """What finished work says of each joint, in the order of the scene; None where it does not.

    `moisture_margin` is the distance of the wettest wood from its limit as a part of the limit,
    below 0 when it fails; `leak_chance` the chance of a defect, from 0 to 1.
    """

    moisture_margin: list[float | None]
    leak_chance: list[float | None]
