"""Draw the pictures of the docs anew from the built-in houses: ``python docs/make_pictures.py``."""

from __future__ import annotations

import math
from pathlib import Path
from tempfile import TemporaryDirectory

from typer.testing import CliRunner

import seamwright
from seamwright.cli.main import app
from seamwright.climate.face import Face, face_hours
from seamwright.draw.board_chart import board_chart
from seamwright.draw.fan_chart import draw_fan_chart
from seamwright.draw.forecast_chart import forecast_chart, parts_chart
from seamwright.draw.hunt_chart import hunt_charts
from seamwright.draw.sheets import draw_sheets
from seamwright.draw.weather_chart import weather_chart
from seamwright.io.fan_examples import builtin_fan_test
from seamwright.io.fan_readings import read_fan_test
from seamwright.io.plan import builtin_house, read_plan
from seamwright.io.records import read_records
from seamwright.io.weather_forecast import read_forecast
from seamwright.leakage.fan import analyze_fan_test
from seamwright.leakage.hunt_priors import hunt_start
from seamwright.leakage.hunt_story import tell
from seamwright.leakage.targets import target_for
from seamwright.report.hunt_sheet import neighbors
from seamwright.report.leak_places import leak_places
from seamwright.report.outlook import look_ahead
from seamwright.schedule.outlook import TIMBERS, outlook_of
from seamwright.schedule.tape_limits import PRODUCTS
from seamwright.schedule.window import lifting_windows, roof_windows, windows
from seamwright.seals.catalog import default_catalog
from seamwright.workflow import seal_house

HOUSE = "heron_house"
FOLDER = Path(__file__).parent / "pictures"
KEPT = (
    "axonometric",
    "plan-1",
    "elevation-south",
    "roof-plan",
    "section-eave",
    "section-ridge",
    "section-sill",
    "section-valley",
    "section-wall_corner",
    "section-wall_spline",
)


EXAMPLES = Path(seamwright.__file__).parent / "data" / "examples"
WET_WEEK = EXAMPLES / "heron_house_wet_week.csv"
AFTER_RAIN = (
    "--now", "2027-04-14T07:00", "--weather", str(WET_WEEK),
    "--no-crane", "2027-04-16", "--no-crane", "2027-04-19", "--from-state",
)  # fmt: skip
"""A forecast with two days of rain, then two without the crane: the story of docs/days.md."""


def pictures() -> dict[str, str]:
    """Return the SVG text of each picture by its file name."""
    house = seal_house(read_plan(builtin_house(HOUSE)).plan, default_catalog())
    drawings = draw_sheets(
        house.shell,
        house.register,
        house.schedule,
        house.sections,
        system="us",
        paper="letter",
        title=house.plan.site.name,
    )
    chosen = {}
    for name in KEPT:
        first = next((key for key in drawings if key == name or key.startswith(f"{name}-")), None)
        if first is not None:
            chosen[f"{name}.svg"] = drawings[first].svg
    return chosen


def fan_picture() -> dict[str, str]:
    """Return the chart of the built-in fan test by its file name."""
    test = read_fan_test(builtin_fan_test("heron_house_fan_test"))
    result = analyze_fan_test(
        test.series,
        test.conditions,
        test.envelope,
        devices=test.devices,
        accuracy=test.accuracy,
        target=target_for("4C", "IECC 2021"),
    )
    assert test.envelope.volume is not None
    limit = 3.0 * test.envelope.volume / 3600.0
    chart = draw_fan_chart(result, title="Heron House: ISO 9972:2015", system="us", limit=limit)
    return {f"{chart.name}.svg": chart.svg}


def forecast_pictures() -> dict[str, str]:
    """Return the charts of the forecast of a small house by their file names."""
    house = seal_house(read_plan(builtin_house("first_house")).plan, default_catalog())
    result = look_ahead(house, target=target_for("5B", "IECC 2021")).forecast
    charts = (forecast_chart(result, "us"), parts_chart(result, "us"))
    return {f"{chart.name}.svg": chart.svg for chart in charts}


def hunt_pictures() -> dict[str, str]:
    """Return the charts of the hunt's story by their file names."""
    house = seal_house(read_plan(builtin_house(HOUSE)).plan, default_catalog())
    example = EXAMPLES / "heron_house_records.yaml"
    places = leak_places(house)
    known = read_records(example, places)
    start = hunt_start(places, known.facts, known.workmanship, crews=known.crews)
    near = neighbors(house.register)
    steps = tell(start.priors, known.diary, start.model, neighbors=near)
    charts = hunt_charts(steps, system="metric", target=known.target)
    return {f"{chart.name}.svg": chart.svg for chart in charts}


def weather_picture() -> dict[str, str]:
    """Return the chart of the invented forecast on a north roof by its file name."""
    example = EXAMPLES / "heron_house_forecast.csv"
    file = read_forecast(example)
    face = Face(id="north roof", azimuth=0.0, tilt=math.atan(8 / 12))
    work = {
        name: windows(file.weather, face, PRODUCTS[name], file.place)
        for name in ("acrylic", "bitumen", "sealant")
    }
    work["lift"] = lifting_windows(file.weather)
    work["roof open"] = roof_windows(file.weather, cover_hours=8)
    chart = weather_chart(
        face_hours(file.weather, face, file.place),
        work,
        title="Heron House, north roof at 8/12 (invented forecast)",
        system="us",
    )
    return {f"{chart.name}.svg": chart.svg}


def days_pictures() -> dict[str, str]:
    """Return the charts of the first house, and of the heron house after rain and a broken crane.

    The search may find other plans that end as early, so these differ a little from run to run.
    """
    runner = CliRunner()
    with TemporaryDirectory() as folder:
        first, season, again = (str(Path(folder) / name) for name in ("first", "season", "again"))
        begin = ("--start", "2027-04-05", "--out")
        runner.invoke(app, ["days", "first_house", *begin, first])
        runner.invoke(app, ["days", "heron_house", "--weather", "typical", *begin, season])
        runner.invoke(app, ["days", "heron_house", *AFTER_RAIN, f"{season}/days.json",
                            "--out", again])  # fmt: skip
        charts = {"first-house": first, "heron-house": season, "heron-house-again": again}
        return {
            f"days-{name}.svg": (Path(place) / "days-chart.svg").read_text(encoding="utf-8")
            for name, place in charts.items()
        }


def board_picture() -> dict[str, str]:
    """Return the chart of boards through the invented wet week by its file name."""
    file = read_forecast(WET_WEEK)
    walls = (("north", 0.0), ("south", math.pi))
    faces = [Face(id=name, azimuth=at, tilt=math.pi / 2) for name, at in walls]
    words = [("north", "north wall"), ("south", "south wall"), (TIMBERS.id, "timbers")]
    limit = PRODUCTS["acrylic"].board_hold
    outlook = outlook_of(file.weather, faces, file.place)
    title = "Bare boards in an invented wet week"
    return {"board-after-rain.svg": board_chart(outlook, words, limit, title=title).svg}


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    made = pictures() | fan_picture() | forecast_pictures() | hunt_pictures() | weather_picture()
    made |= days_pictures() | board_picture()
    for file_name, svg in made.items():
        (FOLDER / file_name).write_text(svg, encoding="utf-8")
        print(file_name)  # noqa: T201 - a script that says what it made
