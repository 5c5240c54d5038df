"""Tasks, the links between them, the people and days there are, and the plan of days.

Durations are working time of one crew in seconds, lags are elapsed time in seconds. Hours of the
calendar are whole numbers counted from the start of the plan (hour 0 begins at `Calendar.start`),
so that the core needs no clock.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

Work: TypeAlias = Literal[
    "set_panel",
    "set_timber",
    "set_buck",
    "lay_beads",
    "plug_chase",
    "drape_strip",
    "dam",
    "apron",
    "gasket",
    "cover_roof",
    "milestone",
    "clean",
    "dry",
    "prime",
    "tape",
    "patch_node",
    "fill",
    "seal_service",
    "inspect",
    "fan_test",
    "mend",
    "finish",
    "other",
]
LinkKind: TypeAlias = Literal["finish_start", "start_start", "finish_finish"]
DayState: TypeAlias = Literal["optimal", "feasible", "contradiction", "no_answer"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Span3:
    """A duration as low, likely and high. [s]"""

    low: float
    likely: float
    high: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Task:
    """One piece of work. `refs` are the panels, joints or nodes it is about.

    `window` names the class of hours it may be done in (None: any working hour), such as
    ``tape/outer/roof``. `same_day_as` groups tasks that must end on the day the group began (a
    roof panel and its cover). `hold_point` is the sentence somebody signs before the task's
    successors may bury anything, `released_by` who. `source` says where the duration comes from.
    `seals` are the ids of the seals the task makes (see `seamwright.schedule.tasks_seals`).
    """

    id: str
    work: Work
    title: str
    refs: tuple[str, ...]
    duration: Span3
    skill: str
    crew_size: int = 2
    crane: bool = False
    storey: str | None = None
    zone: str = ""
    window: str | None = None
    same_day_as: str | None = None
    hold_point: str | None = None
    released_by: str | None = None
    products: tuple[str, ...] = ()
    source: str = "common practice, no source"
    seals: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Link:
    """`before` must be done before `after`, by `rule`, for `reason`.

    `lag` is the least elapsed time between them, `most` the longest (None: no limit) [s].
    `buries` lists the seals that `after` hides.
    """

    before: str
    after: str
    rule: str
    reason: str
    kind: LinkKind = "finish_start"
    lag: float = 0.0
    most: float | None = None
    buries: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Network:
    """All tasks and links of a house, and findings in words (a seal nothing can protect)."""

    tasks: tuple[Task, ...]
    links: tuple[Link, ...]
    findings: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Crew:
    """People who work together: what they can do and how many they are."""

    id: str
    skills: tuple[str, ...]
    size: int


@dataclass(frozen=True, kw_only=True, slots=True)
class Calendar:
    """The hours there are. `start` is an ISO 8601 local time with offset, for print only.

    `working_hours` are the hour numbers anyone works, `crane_hours` those with the crane on site,
    `windows` the hours of each window class. `first_hour` is the hour of the day at which hour 0
    begins, so that days can be told apart without a clock. `closed` tells for some classes why
    working hours are closed.
    """

    start: str
    hours: int
    working_hours: tuple[int, ...]
    crane_hours: tuple[int, ...]
    windows: tuple[tuple[str, tuple[int, ...]], ...] = ()
    first_hour: int = 0
    closed: tuple[tuple[str, tuple[tuple[int, str], ...]], ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Fixed:
    """What the user fixed: a task's start hour, a ban, or work already done (frozen).

    `start_minute` and `end_minute` are minutes past `start_hour` and `end_hour`. `not_before`
    bounds the start, `not_after` the end.
    """

    task_id: str
    start_hour: int | None = None
    not_before: int | None = None
    not_after: int | None = None
    done: bool = False
    crew_id: str | None = None
    end_hour: int | None = None
    reason: str = ""
    start_minute: int = 0
    end_minute: int = 0


@dataclass(frozen=True, kw_only=True, slots=True)
class Slot:
    """When a task is done and by whom; steps of the plan from the start of the calendar.

    `float_hours` is how many working hours it can slip before the end moves, whole hours rounded
    down. `critical` marks the chain that drives the end: what the next task waits for.
    """

    task_id: str
    start: int
    end: int
    crew_id: str
    float_hours: int
    critical: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class DayPlan:
    """The plan of days. `gap` is the proven gap of the end in working time (0 when optimal).

    `step` is the length of one step, in which slots, `end` and `bound` are counted [s].
    `conflict` is the shortest chain of rules that contradict each other, in words, when the state
    is ``contradiction``; `rain_day_cost` is how many working hours later the end comes if one more
    day is lost, where it was asked for.
    """

    state: DayState
    slots: tuple[Slot, ...]
    end: int
    bound: int
    gap: float
    conflict: tuple[str, ...] = ()
    rain_day_cost: float | None = None
    notes: tuple[str, ...] = field(default_factory=tuple)
    step: float = 3600.0


@dataclass(frozen=True, kw_only=True, slots=True)
class AddedTask:
    """A task the user adds, with the ids of the tasks it stands between."""

    task: Task
    after: tuple[str, ...] = ()
    before: tuple[str, ...] = ()
    reason: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class AskedLink:
    """An order the user asks for: `before` is done before `after`, `lag` seconds apart."""

    before: str
    after: str
    reason: str
    lag: float = 0.0


@dataclass(frozen=True, kw_only=True, slots=True)
class AskedDate:
    """What the user fixed about one task, as ISO 8601 local dates, with or without a time.

    `on` fixes the start, to the day where no time is given; `finished` says it is done.
    """

    task: str
    reason: str
    on: str | None = None
    not_before: str | None = None
    not_after: str | None = None
    finished: str | None = None
    crew: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Ban:
    """Days, first and last counted, on which a task or a kind of work must not be done."""

    first: str
    last: str
    reason: str
    task: str | None = None
    work: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class WorkHours:
    """Hours anyone works: weekdays (0 is Monday) and the times of day work begins and ends. [h]"""

    weekdays: tuple[int, ...] = (0, 1, 2, 3, 4)
    begin: float = 7.0
    end: float = 16.0


@dataclass(frozen=True, kw_only=True, slots=True)
class DaysGiven:
    """The days part of a plan: start, working week, crews, crane days, and what the user asks.

    Dates are ISO 8601 local dates; `offset` is that of local time from UTC, such as ``-07:00``.
    """

    start: str | None = None
    offset: str = "+00:00"
    week: WorkHours = field(default_factory=WorkHours)
    days_off: tuple[str, ...] = ()
    crane_days: tuple[str, ...] = ()
    crews: tuple[Crew, ...] = ()
    tasks: tuple[AddedTask, ...] = ()
    order: tuple[AskedLink, ...] = ()
    dates: tuple[AskedDate, ...] = ()
    bans: tuple[Ban, ...] = ()
