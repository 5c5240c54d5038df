"""Laws of “can we tape now?”."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from itertools import product as corners
from pathlib import Path

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

import seamwright
from seamwright.climate.face import Face, face_hours
from seamwright.climate.sun import Place
from seamwright.climate.weather import HourlyWeather
from seamwright.io.weather_forecast import read_forecast
from seamwright.schedule.tape import judge_tape
from seamwright.schedule.tape_limits import PRODUCTS
from seamwright.schedule.tape_types import Reading, TapeReadings
from seamwright.schedule.window import Window, hours_of, lifting_windows, roof_windows, windows
from seamwright.units.weather import parse_reading

EXAMPLE = Path(seamwright.__file__).parent / "data" / "examples" / "heron_house_forecast.csv"
FORECAST = read_forecast(EXAMPLE)
ROOF = Face(id="roof", azimuth=0.0, tilt=0.59)
RANK = {"STOP": 0, "WAIT": 1, "GO": 2}
LAW = settings(derandomize=True, max_examples=100, deadline=None)
PRODUCT = st.sampled_from(sorted(PRODUCTS))


def reading(low: float, high: float, within: float) -> st.SearchStrategy[Reading]:
    """Return readings between two values with an uncertainty up to `within`."""
    return st.builds(
        lambda value, share: Reading(value=value, within=share * within),
        st.floats(low, high),
        st.floats(0.0, 1.0),
    )


READINGS = st.builds(
    TapeReadings,
    surface=reading(-15.0, 55.0, 3.0),
    air=reading(-15.0, 45.0, 2.0),
    humidity=reading(0.1, 0.98, 0.05),
    board=reading(0.06, 0.24, 0.03),
    rough=st.booleans(),
    primed=st.booleans(),
    dust=st.booleans(),
)


@settings(derandomize=True, max_examples=300, deadline=None)
@given(READINGS, PRODUCT)
def test_go_holds_at_every_corner_of_the_uncertainty(readings: TapeReadings, name: str) -> None:
    """Where the answer is GO, exact readings at any corner of the box are a GO as well."""
    answer = judge_tape(readings, PRODUCTS[name])
    if answer.answer != "GO":
        return
    names = ("surface", "air", "humidity", "board")
    given_ = [getattr(readings, key) for key in names]
    for choice in corners(*[(r.low, r.high) for r in given_]):
        exact = {
            key: Reading(value=min(value, 1.0) if key == "humidity" else value)
            for key, value in zip(names, choice, strict=True)
        }
        assert judge_tape(replace(readings, **exact), PRODUCTS[name]).answer == "GO"


def test_the_law_of_corners_meets_enough_gos() -> None:
    """The mild part of the box above holds GOs, so the law of corners is not empty."""
    mild = [
        TapeReadings(
            surface=Reading(value=t, within=1.0),
            air=Reading(value=t, within=1.0),
            humidity=Reading(value=h, within=0.03),
            board=Reading(value=0.12, within=0.02),
        )
        for t in (8.0, 15.0, 25.0)
        for h in (0.3, 0.5)
    ]
    answers = [judge_tape(r, PRODUCTS["acrylic"]).answer for r in mild]
    assert answers.count("GO") == len(mild)


@LAW
@given(READINGS, PRODUCT, st.floats(0.0, 10.0))
def test_a_colder_skin_is_never_better(readings: TapeReadings, name: str, fall: float) -> None:
    """Unless it was too hot, a colder skin never improves the answer."""
    product = PRODUCTS[name]
    skin = readings.surface
    assert skin is not None
    if product.surface_max is not None and skin.high > product.surface_max:
        return
    colder = replace(readings, surface=replace(skin, value=skin.value - fall))
    assert RANK[judge_tape(colder, product).answer] <= RANK[judge_tape(readings, product).answer]


@LAW
@given(READINGS, PRODUCT, st.floats(0.0, 0.3))
def test_wetter_is_never_better(readings: TapeReadings, name: str, more: float) -> None:
    """Damper air, a wetter board, water, frost or dust never improve the answer."""
    product = PRODUCTS[name]
    before = RANK[judge_tape(readings, product).answer]
    humidity, board = readings.humidity, readings.board
    assert humidity is not None
    assert board is not None
    damper = replace(humidity, value=min(humidity.value + more, 1.0))
    for worse in (
        replace(readings, humidity=damper),
        replace(readings, board=replace(board, value=board.value + more)),
        replace(readings, wet=True),
        replace(readings, frost=True),
        replace(readings, dust=True),
    ):
        assert RANK[judge_tape(worse, product).answer] <= before


@LAW
@given(READINGS, PRODUCT, st.integers(0, 71), st.floats(0.0, 10.0), st.booleans())
def test_no_forecast_makes_a_go_of_a_colder_or_wetter_skin(
    readings: TapeReadings, name: str, hour: int, fall: float, exposed: bool
) -> None:
    """With a forecast as without: what is no GO stays none when colder or wetter, and a forecast
    itself makes no GO of what is none without it.
    """
    product = PRODUCTS[name]
    ahead = face_hours(FORECAST.weather.from_hour(hour), ROOF, FORECAST.place)
    seam = replace(readings, exposed=exposed)
    if judge_tape(seam, product).answer != "GO":
        assert judge_tape(seam, product, ahead).answer != "GO"
    if judge_tape(seam, product, ahead).answer == "GO":
        return
    skin, humidity = seam.surface, seam.humidity
    assert skin is not None
    assert humidity is not None
    wetter = replace(seam, wet=True)
    damper = replace(seam, humidity=replace(humidity, value=min(humidity.value + fall / 20, 1.0)))
    colder = replace(seam, surface=replace(skin, value=skin.value - fall))
    too_hot = product.surface_max is not None and skin.high > product.surface_max
    for worse in (wetter, damper, *([] if too_hot else [colder])):
        assert judge_tape(worse, product, ahead).answer != "GO"


@LAW
@given(READINGS, PRODUCT, st.sampled_from(["surface", "air", "humidity", "board"]))
def test_a_worse_instrument_never_makes_a_go(readings: TapeReadings, name: str, which: str) -> None:
    """A wider uncertainty, or no reading at all, never turns another answer into GO."""
    product = PRODUCTS[name]
    if judge_tape(readings, product).answer == "GO":
        return
    was = getattr(readings, which)
    wider = replace(readings, **{which: replace(was, within=was.within * 2.0 + 0.01)})
    assert judge_tape(wider, product).answer != "GO"
    assert judge_tape(replace(readings, **{which: None}), product).answer != "GO"


@LAW
@given(st.integers(-20, 45), st.integers(-20, 40), st.integers(10, 98), st.integers(6, 24), PRODUCT)
def test_units_change_nothing(surface: int, air: int, humidity: int, board: int, name: str) -> None:
    """Readings written in °F or in °C give one answer, one state of each check, one chance."""

    def judged(skin: str, around: str):
        read = [parse_reading(text, "temperature") for text in (skin, around)]
        (s, s_within), (a, a_within) = read
        assert s_within is not None
        assert a_within is not None
        return judge_tape(
            TapeReadings(
                surface=Reading(value=s, within=s_within),
                air=Reading(value=a, within=a_within),
                humidity=Reading(value=parse_reading(f"{humidity}%", "share")[0], within=0.03),
                board=Reading(value=parse_reading(f"{board} %", "share")[0], within=0.02),
            ),
            PRODUCTS[name],
        )

    celsius = judged(f"{surface}C ± 1", f"{air} °C ±1")
    fahrenheit = judged(f"{surface * 9 / 5 + 32:.1f} F ± 1.8", f"{air * 9 / 5 + 32:.1f}°F +- 1.8")
    assert celsius.answer == fahrenheit.answer
    assert [c.state for c in celsius.checks] == [c.state for c in fahrenheit.checks]
    assert celsius.binding.id == fahrenheit.binding.id


@settings(derandomize=True, max_examples=25, deadline=None)
@given(
    st.integers(1, 60),
    st.integers(0, 2**32 - 1),
    PRODUCT,
    st.floats(0.0, 6.28),
    st.floats(0.0, 1.57),
    st.booleans(),
)
def test_windows_are_inside_the_forecast_and_apart(
    hours: int, seed: int, name: str, azimuth: float, tilt: float, covered: bool
) -> None:
    """Windows lie in the record, in order, not touching; rain falls in none on an open face."""
    draw = np.random.default_rng(seed)
    weather = HourlyWeather(
        start=1.7765e9,
        utc_offset=0.0,
        air=draw.uniform(-5, 30, hours),
        humidity=draw.uniform(0.2, 1.0, hours),
        wind=draw.uniform(0, 12, hours),
        rain=np.where(draw.uniform(size=hours) < 0.15, 1.0, 0.0),
        cloud=draw.uniform(0, 1, hours),
    )
    face = Face(id="f", azimuth=azimuth, tilt=tilt, covered=covered)
    place = Place(latitude=0.8, longitude=-2.0)
    found = windows(weather, face, PRODUCTS[name], place)
    for each in (found, lifting_windows(weather), roof_windows(weather, cover_hours=6)):
        assert all(0 <= w.start < w.end <= hours for w in each)
        assert all(a.end < b.start for a, b in pairwise(each))
        assert hours_of(each) == tuple(h for w in each for h in range(w.start, w.end))
    if not covered:
        assert not any(weather.rain[h] > 0 for h in hours_of(found))
    assert all(isinstance(w, Window) for w in found)
