"""Draw a generated year beside a measured one: ``python docs/make_climate_pictures.py``.

Needs the test extra, whose pvlib carries the measured year (TMY3 of Greensboro, NC).
"""

from __future__ import annotations

from importlib.util import find_spec
from pathlib import Path

import numpy as np

from seamwright.climate.generated import generated_year
from seamwright.climate.indoor import indoor_hours, indoor_named
from seamwright.climate.moist_air import saturation_pressure
from seamwright.climate.monthly import MONTH_DAYS, MONTH_OF_HOUR, monthly_means, monthly_of
from seamwright.climate.weather import HourlyWeather
from seamwright.draw.curves_chart import Panel, Trace, curves_chart
from seamwright.draw.types import Drawing
from seamwright.io.weather_year import read_weather

FOLDER = Path(__file__).parent / "pictures"
NAMES = tuple("JFMAMJJASOND")


def drive(weather: HourlyWeather) -> np.ndarray:
    """Return the condensation drive at the cold skin of each month. [kPa·h]"""
    rooms = indoor_hours(weather, indoor_named("en 15026 normal"))
    skin = weather.air + 0.1 * (rooms.temperature - weather.air)
    excess = np.maximum(rooms.vapor - saturation_pressure(skin), 0.0) / 1000.0
    return np.bincount(MONTH_OF_HOUR, weights=excess)


def flat(weather: HourlyWeather) -> HourlyWeather:
    """Return the year as its twelve mean temperatures."""
    air = np.repeat(monthly_means(weather.air), 24 * np.array(MONTH_DAYS))
    return HourlyWeather(
        start=weather.start, utc_offset=weather.utc_offset, air=air, humidity=weather.humidity,
        wind=weather.wind, rain=weather.rain, cloud=weather.cloud,
    )  # fmt: skip


def generated_chart() -> Drawing:
    """Return two winter weeks, and the drive by month: measured, generated, months alone."""
    spec = find_spec("pvlib")
    if spec is None or spec.origin is None:
        raise SystemExit("install the test extra: pvlib carries the measured year")
    read = read_weather(Path(spec.origin).parent / "data" / "723170TYA.CSV")
    real, place = read.weather, read.place
    if place is None:
        raise SystemExit("the measured year names no place")
    made = [
        generated_year(monthly_of(real), place, seed=seed, utc_offset=real.utc_offset)
        for seed in (1, 2, 3)
    ]
    weeks = slice(24 * 14, 24 * 28)
    days = tuple(float(15.0 + k / 24.0) for k in range(24 * 14))
    winter = Panel(
        title="Two weeks in January, hour by hour", x_title="day of January",
        y_title="air [°C]", x_range=(15.0, 29.0), y_range=(-15.0, 20.0),
        traces=(
            Trace(name="measured", x=days, y=tuple(real.air[weeks].tolist())),
            Trace(name="generated, seed 1", x=days, y=tuple(made[0].air[weeks].tolist())),
        ),
        x_ticks=tuple((float(d), str(d)) for d in range(15, 30, 2)),
    )  # fmt: skip
    months = tuple(k + 0.5 for k in range(12))
    means = np.mean([drive(year) for year in made], axis=0)
    by_month = Panel(
        title="Condensation drive at the cold skin", x_title="month",
        y_title="drive [kPa·h in the month]", x_range=(0.0, 12.0), y_range=(0.0, 180.0),
        traces=(
            Trace(name="measured", x=months, y=tuple(drive(real).tolist())),
            Trace(name="generated, 3 seeds", x=months, y=tuple(means.tolist())),
            Trace(name="monthly means alone", x=months, y=tuple(drive(flat(real)).tolist())),
        ),
        x_ticks=tuple((k + 0.5, name) for k, name in enumerate(NAMES)),
    )  # fmt: skip
    return curves_chart(
        "generated-year", "A generated year beside a measured one: Greensboro, NC",
        [winter, by_month],
        "The days are not those that were, the cold is. Rooms by EN 15026, normal occupancy.",
    )  # fmt: skip


if __name__ == "__main__":
    chart = generated_chart()
    (FOLDER / f"{chart.name}.svg").write_text(chart.svg, encoding="utf-8")
    print(chart.name)  # noqa: T201 - a script that says what it made
