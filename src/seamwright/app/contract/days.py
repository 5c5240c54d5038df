"""The plan of days as the desk gives it on: local times, SI with the unit in the key."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel

from seamwright.app.contract.told import Figured, Told


class CrewOut(BaseModel):
    """People who work together."""

    id: str
    skills: list[str]
    size: int


class DurationOut(BaseModel):
    """How long one crew takes."""

    low: float
    likely: float
    high: float


class TaskOut(BaseModel):
    """One task in the plan. `window` names the class of hours that it needs."""

    id: str
    title: Told
    work: str
    crew: str
    people: int
    start: str
    end: str
    float_working_h: float
    critical: bool
    crane: bool
    window: str | None
    seals: list[str]
    refs: list[str]
    hold_point: Told | None
    released_by: Told | None
    duration_s: DurationOut


class LinkOut(BaseModel):
    """What waits for what, by which rule, and what is hidden then."""

    before: str
    after: str
    rule: str
    kind: str
    lag_s: float
    most_s: float | None
    buries: list[str]


class DaysOut(BaseModel):
    """A plan of days. Without tasks there is none, and `conflict` says what cannot go together.

    `gap` is the part of the working time that another plan might still save; `end_not_before` is
    proven. `open_hours` counts the hours that the weather leaves to each class.
    """

    state: Literal["optimal", "feasible", "contradiction", "no_answer"]
    start: str
    end: str | None
    end_not_before: str | None
    gap: float
    rain_day_cost_working_h: float | None
    crews: list[CrewOut]
    tasks: list[TaskOut]
    links: list[LinkOut]
    conflict: list[Told]
    notes: list[Figured]
    open_hours: dict[str, int]
