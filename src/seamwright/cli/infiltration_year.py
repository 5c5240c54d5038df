"""What tightness means for air and heat over a year: of a forecast, and of a house as tested."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from seamwright.cli.fan_house import House
from seamwright.cli.source import Source
from seamwright.climate.weather import HourlyWeather
from seamwright.errors import InputError
from seamwright.io.weather_source import resolve_weather
from seamwright.leakage.priors import DEFAULT_TABLE, LeakTable
from seamwright.leakage.types import FanResult
from seamwright.report.outlook import Outlook, Tightness, tightness_of, with_year, year_of


def after_a_test(result: FanResult, house: House) -> tuple[Tightness | None, str]:
    """Return what a test means for the air of the house, where a plan was named, and a note."""
    if house.source is None or house.shell is None or house.measured is None:
        return None, ""
    flow, fits = result.flow_50, [one.fit.exponent.value for one in result.series]
    exponent = sum(fits) / len(fits)
    plain = tightness_of(flow.value, exponent, house.shell, house.measured)
    hours, note = _hours(house.source, None)
    if hours is None:
        return plain, note
    year = year_of(
        flow.value, (flow.low, flow.high), plain.setting, exponent=exponent, outdoor=hours.air,
        wind=hours.wind, source=hours.source, volume=house.measured.volume,
        span="95 % of the test", whose="the house as tested",
    )  # fmt: skip
    return replace(plain, year=year), ""


def over_a_year(
    outlook: Outlook,
    source: Source,
    file: Path | None = None,
    *,
    table: LeakTable = DEFAULT_TABLE,
) -> tuple[Outlook, str]:
    """Return the outlook with its infiltration over the hours of a year, and a note.

    The year is that of `file`, else that of the plan, else one generated for the place. Without any
    of them the outlook comes back as it is and the note says why; a file that cannot be used is an
    InputError.
    """
    hours, note = _hours(source, file)
    if hours is None:
        return outlook, note
    told = hours.source if file is None else file.name
    return with_year(outlook, outdoor=hours.air, wind=hours.wind, source=told, table=table), ""


def _hours(source: Source, file: Path | None) -> tuple[HourlyWeather | None, str]:
    """Return the hours of a year for the house, or None and why there are none."""
    site, where = source.plan.site, None if source.file is None else source.file.file
    folder = None if where is None else Path(where).parent
    try:
        return resolve_weather(site, file, folder=folder), ""
    except InputError as error:
        if file is not None or site.weather is not None:
            raise
        return None, f"No year of infiltration: {error.problems[0].sentence}."
