"""The chart of boards through a wet spell."""

from __future__ import annotations

from pathlib import Path

import seamwright
from seamwright.climate.face import Face
from seamwright.draw.board_chart import board_chart
from seamwright.io.weather_forecast import read_forecast
from seamwright.schedule.after_rain import after_rains
from seamwright.schedule.outlook import TIMBERS, outlook_of

FILE = read_forecast(
    Path(seamwright.__file__).parent / "data" / "examples" / "heron_house_wet_week.csv"
)
NORTH = Face(id="north", azimuth=0.0, tilt=1.5708)
OUTLOOK = outlook_of(FILE.weather, [NORTH], FILE.place)


def test_the_chart_names_faces_limit_and_days() -> None:
    """Each face has a line in the key and two bars; days of the record stand below."""
    chart = board_chart(
        OUTLOOK, [("north", "north wall"), (TIMBERS.id, "timbers")], 0.16, title="T"
    )
    for words in ("north wall", "timbers, film", "timbers, board", "limit 16%", "Wed Apr 14"):
        assert words in chart.svg


def test_the_story_of_the_wet_week_holds() -> None:
    """After two days of rain the board of a north wall takes days longer than the film."""
    last = after_rains(OUTLOOK, "north", 0.16)[-1]
    assert last.film is not None
    assert last.film < 20
    assert last.board is None or last.board > 72
