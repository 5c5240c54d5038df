"""Air as the desk gives it on: forecast, fan test, search for leaks. Flows are at 50 Pa."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel

from seamwright.app.contract.told import Figured, Told

Way = Literal["careful", "ordinary", "careless"]


class SpreadOut(BaseModel):
    """A figure nobody knows exactly: its mean, and what it stays below with 5 to 95 % chance."""

    mean: float
    p05: float
    p10: float
    p50: float
    p90: float
    p95: float


class TargetOut(BaseModel):
    """A limit and where it stands; one of the limits is told, by `measure`."""

    measure: Literal["ach50", "q50", "flow_50"]
    limit_1_h: float | None = None
    limit_per_h: float | None = None
    limit_m3_h_m2: float | None = None
    limit_m3_h: float | None = None
    source: Told


class OutcomeOut(BaseModel):
    """What a house would test at with one way of working. `chance` is that to meet the target."""

    id: str
    workmanship: Way
    draws: int
    flow_50_m3_h: SpreadOut
    ach50_1_h: SpreadOut | None
    q50_m3_h_m2: SpreadOut | None
    ela_4_m2: SpreadOut
    target: TargetOut | None
    target_flow_50_m3_h: float | None
    chance: float | None


class FlowShare(BaseModel):
    """A kind or place with its part of the leak; 90 % lies between low and high."""

    id: str
    sort: str
    length_m: float
    flow_50_m3_h: float
    low_flow_50_m3_h: float
    high_flow_50_m3_h: float
    share: float


class KindShareOut(FlowShare):
    """All joints of a kind."""

    count: int


class PlaceShareOut(FlowShare):
    """One place."""

    kind: str


class DriverOut(BaseModel):
    """What the figure hangs on, and where it would go if that were low or high."""

    id: str
    low_flow_50_m3_h: float
    high_flow_50_m3_h: float
    share: float


class BudgetOut(BaseModel):
    """How much air a metre of joint may lose for the target, and is expected to."""

    joint_length_m: float
    others_m3_h: float
    allowed_m3_h_m: float
    expected_m3_h_m: float


class AirDay(BaseModel):
    """A day of some cold and wind: the air that comes through by two models, the heat it takes."""

    id: str
    difference_k: float
    wind_m_s: float
    basic_flow_m3_h: float
    enhanced_flow_m3_h: float
    heat_w: float


class SeasonOut(BaseModel):
    """Hours of weather summed by one model."""

    hours_h: float
    mean_flow_m3_h: float
    greatest_flow_m3_h: float
    heat_j: float
    gain_j: float


class YearOut(BaseModel):
    """A year of air by both models, and whose weather that was."""

    id: str
    weather: Told
    indoor_c: float
    basic: SeasonOut
    enhanced: SeasonOut


class FreshAirOut(BaseModel):
    """The outdoor air that ventilation must bring, by bedrooms."""

    id: str
    bedrooms: int
    flow_m3_h: float


class ForecastOut(OutcomeOut):
    """The forecast of the fan test with all that it rests on."""

    volume_m3: float
    area_m2: float
    floor_area_m2: float
    measured_by: Figured
    warnings: list[Figured]
    learned_from: list[Told]
    alternatives: list[OutcomeOut]
    kinds: list[KindShareOut]
    places: list[PlaceShareOut]
    drivers: list[DriverOut]
    budget: BudgetOut | None
    days: list[AirDay]
    year: YearOut | None
    fresh_air: list[FreshAirOut]


class FlowSpan(BaseModel):
    """A flow between its 95 % limits."""

    value_m3_h: float
    low_m3_h: float
    high_m3_h: float


class FlowAt(FlowSpan):
    """The flow at a pressure."""

    pressure_pa: float


class PerHourSpan(BaseModel):
    """Air changes an hour between their 95 % limits."""

    value_per_h: float
    low_per_h: float
    high_per_h: float


class PerAreaSpan(BaseModel):
    """Flow through a square metre between its 95 % limits."""

    value_m3_h_m2: float
    low_m3_h_m2: float
    high_m3_h_m2: float


class AreaSpan(BaseModel):
    """An area between its 95 % limits."""

    value_m2: float
    low_m2: float
    high_m2: float


class CoefficientSpan(BaseModel):
    """The coefficient of the power law between its 95 % limits."""

    value_m3_h_pa_n: float
    low_m3_h_pa_n: float
    high_m3_h_pa_n: float


class ExponentSpan(BaseModel):
    """The exponent of the power law between its 95 % limits."""

    value_of_pressure: float
    low_of_pressure: float
    high_of_pressure: float


class CheckOut(BaseModel):
    """A rule of the standard, what was measured, the limit, and whether it holds."""

    rule: Told
    measured: Figured
    limit: Figured
    holds: bool
    required: bool
    source: Told


class SeriesOut(BaseModel):
    """The readings in one direction and the line through them."""

    id: str
    baseline_pa: float
    pressures_pa: list[float]
    flows_m3_h: list[float]
    coefficient: CoefficientSpan
    exponent: ExponentSpan
    r_squared: float | None
    readings: int
    flow_50: FlowSpan
    ela_4: AreaSpan
    eqla_10: AreaSpan
    checks: list[CheckOut]


class FanOut(BaseModel):
    """A fan test worked out. `outcome` is None without a target."""

    id: str
    about: dict[str, str]
    method: Told
    flow_50: FlowSpan
    ach50: PerHourSpan | None
    q50: PerAreaSpan | None
    per_floor_50: PerAreaSpan | None
    ela_4: AreaSpan
    eqla_10: AreaSpan
    flows: list[FlowAt]
    series: list[SeriesOut]
    checks: list[CheckOut]
    target: TargetOut | None
    outcome: str | None
    reason: Figured | None
    notes: list[Figured]


class LeakSpan(BaseModel):
    """A leak; 90 % lies between low and high."""

    leak_m3_h: float
    leak_low_m3_h: float
    leak_high_m3_h: float


class AdviceOut(BaseModel):
    """Whether to go on, and why."""

    word: str
    sentence: Told
    gain_m3_h_per_h: float
    limit_m3_h_per_h: float
    first_share: float
    first_count: int
    effective_places: float


class ChoiceOut(BaseModel):
    """A place to look at next: why, what it is expected to save, how long it takes."""

    id: str
    kind: str
    why: Told
    gain_m3_h: float
    time_min: float
    gain_m3_h_per_h: float


class StandingOut(LeakSpan):
    """Where a place stands: its leak, the chance of a defect, what was looked at and mended."""

    id: str
    sort: str
    kind: str
    length_m: float
    height_m: float
    reachable: bool
    defect: float
    share: float
    found: float
    gain_m3_h: float
    looks: int
    mended: bool


class HuntOut(BaseModel):
    """Where the search for leaks stands."""

    total: LeakSpan
    method: Literal["smoke", "infrared", "hand"]
    advice: AdviceOut
    next: list[ChoiceOut]
    while_there: list[str]
    places: list[StandingOut]
    notes: list[Figured]
