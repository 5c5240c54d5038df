"""How soon faces are dry after each rain, and how it is told."""

from __future__ import annotations

from pathlib import Path

import pytest

import seamwright
from seamwright.climate.face import Face
from seamwright.errors import InputError, Problem
from seamwright.io.weather_forecast import read_forecast
from seamwright.schedule import outlook
from seamwright.schedule.after_rain import AfterRain, after_rains, rains_told, season_told
from seamwright.schedule.outlook import outlook_of

FILE = read_forecast(
    Path(seamwright.__file__).parent / "data" / "examples" / "heron_house_forecast.csv"
)
WALL = Face(id="wall", azimuth=0.0, tilt=1.5708)


def rain(hours: int | None, film: int | None = 3, face: str = "A") -> AfterRain:
    """Return a rain after which a board is dry after so many hours."""
    return AfterRain(face=face, start=2, end=6, fallen=4.0, film=film, board=hours)


def test_the_rain_of_the_forecast_is_found_and_dries_no_sooner_than_its_film() -> None:
    """The invented forecast has one wet day; the board is dry after it, not before the film."""
    found = after_rains(outlook_of(FILE.weather, [WALL], FILE.place), "wall", 0.16)
    assert found
    fallen = FILE.weather.rain
    assert all(fallen[row.start] >= 0.1 <= fallen[row.end - 1] for row in found)
    for row in found:
        assert row.film is not None
        assert row.board is None or row.board >= row.film


def test_each_rain_is_told_once_with_its_faces_by_hours() -> None:
    """Faces that dry alike stand together; one that does not dry is told so."""
    rains = [rain(9), rain(9, 4, "C"), rain(None, 3, "B")]
    (told,) = rains_told(rains, lambda hour: f"hour {hour}")
    assert told == (
        "Rain of 4 h until hour 6; boards dry: A, C after 9 h; B not before the next rain or the "
        "end of the record. By the film of water alone: after 3 h to after 4 h."
    )


def test_a_season_is_told_by_its_middle_and_its_worst() -> None:
    """Half of the rains, the longest, and the part that never dried between."""
    told = season_told([rain(2, 1), rain(8, 2), rain(30, 5), rain(None, 3)])
    assert "within 8 h in half of the cases, 30 h at most, and 25% not before" in told
    assert season_told([]) == ""


def test_without_the_engine_the_film_stands_and_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the run cannot be made, the outlook has no boards and a sentence says why."""

    def missing(*_: object, **__: object) -> None:
        told = "a run hour by hour needs numba"
        raise InputError([Problem(subject="numba", sentence=told, remedy="install it")])

    monkeypatch.setattr(outlook, "board_water", missing)
    found = outlook_of(FILE.weather, [WALL], FILE.place)
    assert found.rule == "film"
    assert not found.boards
    assert "because a run hour by hour needs numba" in found.told
