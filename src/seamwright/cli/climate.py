"""``seamwright climate``: the climate of a house, and where it is from."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, TypeAlias

import typer

from seamwright.cli.climate_tables import figures_table, months_table, stations_table, zones_table
from seamwright.cli.options import Json, PanelTypes, PlanName, Units
from seamwright.cli.say import say, say_json, show_table
from seamwright.cli.source import read_source
from seamwright.cli.status import ATTENTION, DONE
from seamwright.climate.generated import is_generated
from seamwright.climate.monthly import MonthlyClimate, monthly_of
from seamwright.climate.year import YEAR_HOURS
from seamwright.errors import InputError, Problem
from seamwright.io.climate_json import climate_document
from seamwright.io.site_zone import site_zones, zone_warning
from seamwright.io.weather_source import SiteClimate, resolve_climate
from seamwright.io.weather_write import weather_csv

YearFile: TypeAlias = Annotated[
    Path | None,
    typer.Option(
        "--weather",
        metavar="FILE",
        help="A year of weather: TMY3, EPW or hourly CSV; default: the plan's, else one generated "
        "from the nearest station.",
        show_default=False,
    ),
]
Seed: TypeAlias = Annotated[
    int, typer.Option("--seed", metavar="N", min=0, help="Which generated year.")
]
ColdWinter: TypeAlias = Annotated[
    bool,
    typer.Option("--cold-winter", help="Generate a winter as cold as comes one year in six."),
]
HoursFile: TypeAlias = Annotated[
    Path | None,
    typer.Option(
        "--hours", metavar="FILE", help="Write the hourly year here as CSV.", show_default=False
    ),
]


def run(
    plan: PlanName,
    *,
    weather: YearFile = None,
    seed: Seed = 1,
    cold_winter: ColdWinter = False,
    hours: HoursFile = None,
    units: Units = "us",
    types: PanelTypes = None,
    as_json: Json = False,
) -> None:
    """Tell the climate of a house: zone, stations, months, design figures."""
    source = read_source(plan, types=types)
    site = source.plan.site
    with source.placed(units):
        zones = site_zones(site)
        folder = Path(plan).parent if Path(plan).exists() else None
        climate = resolve_climate(site, weather, seed=seed, folder=folder, cold=cold_winter)
    months = _months(climate)
    warning = zone_warning(site, zones)
    if hours is not None:
        hours.write_text(weather_csv(climate.weather, climate.place), encoding="utf-8")
    if as_json:
        say_json(climate_document(climate, months, zones, warning))
    else:
        say(f"{site.name}: {climate.origin}.")
        for note in climate.notes:
            say(f"  {note}")
        say()
        show_table(zones_table(site, zones), units)
        if warning is not None:
            say(f"LOOK  {warning}")
            say()
        show_table(stations_table(climate.near, units), units)
        show_table(months_table(months, units), units)
        show_table(figures_table(climate.weather, zones, units), units)
        if hours is not None:
            say(f"The hours are in {hours}.")
    raise typer.Exit(DONE if warning is None else ATTENTION)


def _months(climate: SiteClimate) -> MonthlyClimate:
    """Return the months of the year; rain amounts are told only where they were given as such."""
    count = climate.weather.hours
    if count != YEAR_HOURS:
        raise InputError(
            [Problem(subject="weather", sentence=f"the weather has {count} hours, and a climate "
                     f"needs a year of {YEAR_HOURS}", remedy="give a TMY3 or EPW year")]
        )  # fmt: skip
    known = is_generated(climate.weather) and bool(climate.weather.rain.any())
    return monthly_of(climate.weather, rain_known=known)
