"""GO, WAIT or STOP."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from seamwright.climate.face import Face, FaceHours, face_hours
from seamwright.climate.weather import HourlyWeather
from seamwright.schedule.tape import judge_tape
from seamwright.schedule.tape_limits import PRODUCTS
from seamwright.schedule.tape_types import Reading, TapeReadings

ACRYLIC = PRODUCTS["acrylic"]
FINE = TapeReadings(
    surface=Reading(value=16.0, within=1.0),
    air=Reading(value=16.0, within=1.0),
    humidity=Reading(value=0.5, within=0.03),
    board=Reading(value=0.12, within=0.02),
)
ROOF = Face(id="roof", azimuth=0.0, tilt=0.5)


def outlook(
    temperature: list[float], rain: list[float] | None = None, humidity: float = 0.5
) -> FaceHours:
    """Return a roof under a cloudy sky with these air temperatures and rain, hour by hour."""
    count = len(temperature)
    weather = HourlyWeather(
        start=0.0,
        utc_offset=0.0,
        air=np.array(temperature),
        humidity=np.full(count, humidity),
        wind=np.full(count, 3.0),
        rain=np.zeros(count) if rain is None else np.array(rain),
        cloud=np.ones(count),
    )
    return face_hours(weather, ROOF)


def state(answer, name: str) -> str:
    """Return the state of a check."""
    return next(check.state for check in answer.checks if check.id == name)


def test_a_fair_day_is_a_go() -> None:
    """Dry, warm, clean and far from every limit: GO, with near certainty, naming the nearest."""
    answer = judge_tape(FINE, ACRYLIC)
    assert answer.answer == "GO"
    assert answer.chance == pytest.approx(1.0, abs=1e-3)
    assert answer.binding.id == "board_moisture"


@pytest.mark.parametrize(
    ("change", "check"),
    [
        ({"wet": True}, "wet"),
        ({"frost": True}, "frost"),
        ({"board": Reading(value=0.22, within=0.02)}, "board_moisture"),
        ({"surface": Reading(value=-20.0, within=1.0)}, "surface_cold"),
        ({"surface": Reading(value=60.0, within=1.0)}, "surface_hot"),
        ({"air": Reading(value=55.0, within=1.0)}, "air_hot"),
        ({"sun_days": 120.0}, "sun"),
    ],
)
def test_hard_limits_stop(change: dict[str, object], check: str) -> None:
    """Water, frost, a soaked board, a wrong temperature or a worn strip is a STOP that names it."""
    answer = judge_tape(replace(FINE, **change), ACRYLIC)
    assert answer.answer == "STOP"
    assert state(answer, check) == "fail"
    assert answer.binding.hard


def test_a_skin_below_the_dew_point_stops() -> None:
    """A skin surely colder than the dew point is getting wet: STOP."""
    cold = replace(FINE, surface=Reading(value=2.0, within=1.0))
    answer = judge_tape(replace(cold, humidity=Reading(value=0.9, within=0.03)), ACRYLIC)
    assert answer.answer == "STOP"
    assert answer.binding.id == "condensing"


@pytest.mark.parametrize(
    ("change", "check"),
    [
        ({"dust": True}, "dust"),
        ({"rough": True}, "primer"),
        ({"board": Reading(value=0.15, within=0.02)}, "board_moisture"),
        ({"board": Reading(value=0.18, within=0.0)}, "board_moisture"),
        ({"surface": Reading(value=9.0, within=1.0)}, "dew_margin"),
        ({"surface": None}, "surface_temperature"),
        ({"humidity": None}, "dew_margin"),
        ({"board": None}, "board_moisture"),
    ],
)
def test_what_can_be_mended_or_measured_waits(change: dict[str, object], check: str) -> None:
    """Dust, missing primer, a doubtful or damp board, a thin margin or a missing reading: WAIT."""
    answer = judge_tape(replace(FINE, **change), ACRYLIC)
    assert answer.answer == "WAIT"
    assert state(answer, check) in {"fail", "open", "unknown"}
    assert any(c.way_out.text for c in answer.checks if c.id == check)


def test_primer_lifts_the_wait_for_a_rough_face() -> None:
    """A rough face that is primed can be taped."""
    assert judge_tape(replace(FINE, rough=True, primed=True), ACRYLIC).answer == "GO"


def test_a_narrower_instrument_can_turn_wait_into_go() -> None:
    """The same values with a better instrument can pass: the uncertainty was what held."""
    near = replace(FINE, board=Reading(value=0.15, within=0.02))
    assert judge_tape(near, ACRYLIC).answer == "WAIT"
    assert (
        judge_tape(replace(near, board=Reading(value=0.15, within=0.005)), ACRYLIC).answer == "GO"
    )


def test_a_damp_morning_is_no_go_though_the_air_looks_fine() -> None:
    """At 10 °C and 80 % a skin of 8 °C is too near the dew point of 6.7 °C."""
    morning = TapeReadings(
        surface=Reading(value=8.0, within=1.0),
        air=Reading(value=10.0, within=1.0),
        humidity=Reading(value=0.8, within=0.03),
        board=Reading(value=0.12, within=0.02),
    )
    answer = judge_tape(morning, ACRYLIC)
    assert answer.answer == "WAIT"
    assert answer.binding.id == "dew_margin"
    assert answer.chance is not None
    assert answer.chance < 0.1


def test_the_chance_is_a_half_on_the_limit() -> None:
    """A board read exactly at its limit, all else far from limits, passes half the time."""
    on_limit = replace(FINE, board=Reading(value=0.16, within=0.02))
    assert judge_tape(on_limit, ACRYLIC).chance == pytest.approx(0.5, abs=1e-3)


def test_rain_before_it_is_dry_waits_outside_and_not_inside() -> None:
    """Rain in two hours holds a seam that rain can reach, and no other."""
    ahead = outlook([16.0] * 30, rain=[0.0, 0.0, 2.0] + [0.0] * 27)
    assert judge_tape(replace(FINE, exposed=True), ACRYLIC, ahead).binding.id == "rain_ahead"
    assert judge_tape(FINE, ACRYLIC, ahead).answer == "GO"


def test_a_forecast_that_ends_early_promises_nothing() -> None:
    """With two hours of forecast and four that must stay dry the answer is WAIT."""
    answer = judge_tape(replace(FINE, exposed=True), ACRYLIC, outlook([16.0, 16.0]))
    assert state(answer, "rain_ahead") == "unknown"
    assert answer.answer == "WAIT"


def test_without_a_forecast_rain_is_a_caution() -> None:
    """Outside without a forecast the answer can be GO, with a caution."""
    answer = judge_tape(replace(FINE, exposed=True), ACRYLIC)
    assert answer.answer == "GO"
    assert answer.binding.id == "rain_ahead"


def test_a_stop_that_weather_mends_becomes_a_wait_with_its_hour() -> None:
    """Too cold now and warm later: WAIT, and the forecast says from when; never: STOP."""
    cold = replace(
        FINE, surface=Reading(value=-15.0, within=1.0), air=Reading(value=-15.0, within=1.0)
    )
    warms = outlook([-15.0] * 6 + [15.0] * 30)
    answer = judge_tape(cold, ACRYLIC, warms)
    assert answer.answer == "WAIT"
    assert answer.turns_at is not None
    assert answer.turns_at >= 6
    assert judge_tape(cold, ACRYLIC, outlook([-15.0] * 36)).answer == "STOP"
    soaked = replace(cold, board=Reading(value=0.25, within=0.02))
    assert judge_tape(soaked, ACRYLIC, warms).answer == "STOP"


def test_a_cold_night_before_the_bond_is_a_caution() -> None:
    """A skin forecast below the product's least before the bond is full is told, and no more."""
    answer = judge_tape(FINE, PRODUCTS["butyl"], outlook([16.0] * 8 + [-5.0] * 20))
    assert state(answer, "cold_ahead") == "caution"
    assert answer.answer == "GO"


def test_every_default_names_where_it_comes_from() -> None:
    """No limit of a default product is without a source or the mark of common practice."""
    for product in PRODUCTS.values():
        for name in type(product).__dataclass_fields__:
            assert product.source_of(name)
