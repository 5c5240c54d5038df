"""Laws of the drying of boards after rain."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from seamwright.climate.face import Face
from seamwright.climate.weather import HOUR, HourlyWeather
from seamwright.schedule.outlook import outlook_of
from seamwright.schedule.skin import board_water
from seamwright.schedule.tape_limits import PRODUCTS
from seamwright.schedule.window import usable_hours
from seamwright.schedule.window_classes import classes_of

LAW = settings(derandomize=True, max_examples=25, deadline=None)
FACES = (Face(id="roof", azimuth=0.0, tilt=0.5), Face(id="wall", azimuth=math.pi, tilt=math.pi / 2))


@st.composite
def weathers(draw: st.DrawFn) -> HourlyWeather:
    """Return three days of weather with a rain in the first."""
    hours = 72
    day = np.sin(2 * math.pi * (np.arange(hours) - 9) / 24)
    rain = np.zeros(hours)
    begin, long = draw(st.integers(1, 12)), draw(st.integers(1, 14))
    rain[begin : begin + long] = draw(st.floats(0.2, 6.0))
    warm, swing = draw(st.floats(0.0, 22.0)), draw(st.floats(0.0, 7.0))
    return HourlyWeather(
        start=1_776_513_600.0, utc_offset=-7 * HOUR, air=warm + swing * day,
        humidity=np.clip(draw(st.floats(0.4, 0.9)) - 0.02 * swing * day, 0.05, 1.0),
        wind=np.full(hours, draw(st.floats(0.0, 8.0))), rain=rain,
        cloud=np.full(hours, draw(st.floats(0.0, 1.0))),
        sun=np.maximum(day, 0.0) * draw(st.floats(0.0, 800.0)),
    )  # fmt: skip


@LAW
@given(weathers(), st.floats(1.1, 4.0), st.integers(0, 10))
def test_more_rain_never_dries_sooner(weather: HourlyWeather, times: float, more: int) -> None:
    """Heavier and longer rain leaves the board at least as wet in every hour."""
    last = int(np.flatnonzero(weather.rain)[-1])
    wetter = times * weather.rain
    wetter[last : last + more] = wetter[last]
    less, much = (
        board_water(replace(weather, rain=rain), FACES) for rain in (weather.rain, wetter)
    )
    for one, other in zip(less, much, strict=True):
        assert (other >= one - 2e-3).all()


@LAW
@given(weathers())
def test_the_run_never_opens_an_hour_that_the_film_closes(weather: HourlyWeather) -> None:
    """With boards each class has no hour that it has not without, and open hours are dry."""
    boards = outlook_of(weather, FACES)
    film = outlook_of(weather, FACES, bare=())
    assert boards.rule == "board"
    closed = {row.name: frozenset(row.open) for row in classes_of(film)}
    for row in classes_of(boards):
        assert closed[row.name] >= frozenset(row.open)
    for face in FACES:
        water = boards.boards[face.id]
        suits = usable_hours(boards.hours[face.id], PRODUCTS["acrylic"], board=water)
        assert (water[suits] <= PRODUCTS["acrylic"].board_hold).all()


@LAW
@given(weathers())
def test_every_hour_is_open_or_closed_for_a_reason(weather: HourlyWeather) -> None:
    """Open and closed hours of a class are all hours of the record, each once."""
    for row in classes_of(outlook_of(weather, FACES)):
        told = [*row.open, *(hour for hour, _ in row.closed)]
        assert sorted(told) == list(range(weather.hours))
        assert all(reason for _, reason in row.closed)
