"""The climate of a house as tables, in the units of the user."""

from __future__ import annotations

from collections.abc import Sequence

from seamwright.climate.moist_air import dew_point
from seamwright.climate.monthly import MonthlyClimate, degree_days, extremes
from seamwright.climate.stations import NearStation
from seamwright.climate.weather import HourlyWeather
from seamwright.climate.zones import WARM_HUMID, is_warm_humid, warm_humid_hours
from seamwright.io.site_zone import SiteZones
from seamwright.report.types import Table
from seamwright.shell.plan import Site
from seamwright.units import System

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_CODES = {"2004-2018": "IECC 2004 to 2018", "2021": "IECC 2021 on"}


def zones_table(site: Site, zones: SiteZones | None) -> Table:
    """Return the zone in each edition with its origin, and what the plan says."""
    rows: list[tuple[str, str, str]] = []
    if zones is not None:
        rows = [
            (_CODES[edition], "not in the table" if zone is None else zone.name, zones.origin)
            for edition, zone in zones.zones
        ]
    if site.climate_zone is not None:
        edition = "no edition named" if site.zone_edition is None else site.zone_edition
        rows.append((edition, site.climate_zone, "the plan"))
    return Table(
        columns=("edition", "zone", "from"), rows=tuple(rows), widths=(2, 1, 5),
        caption="Climate zone",
    )  # fmt: skip


def stations_table(near: Sequence[NearStation], units: System) -> Table:
    """Return the stations near by, the one used first."""
    us = units == "us"
    rows = [
        (
            one.station.id,
            f"{one.station.name}, {one.station.state}",
            f"{one.distance / (1609.344 if us else 1000.0):.0f} {'mi' if us else 'km'}",
            "–" if one.rise is None else _height(one.rise, us=us),
            "–" if one.station.zone is None else one.station.zone,
        )
        for one in near
    ]
    return Table(
        columns=("station", "name", "away", "above the house", "zone, 2021 on"), rows=tuple(rows),
        widths=(2, 5, 2, 2, 2), right=(2, 3), caption="Stations near by, the first one used",
    )  # fmt: skip


def months_table(months: MonthlyClimate, units: System) -> Table:
    """Return the twelve months: mean air, dew point, wind, sun, rain."""
    us = units == "us"
    rows = [
        (
            name,
            _air(months.temperature[k], us=us),
            _air(float(dew_point(months.vapor[k])), us=us),
            f"{months.wind[k] * (2.23694 if us else 1.0):.1f} {'mph' if us else 'm/s'}",
            f"{months.sun[k] * 0.024:.1f} kWh/m²",
            _rain(months, k, us=us),
        )
        for k, name in enumerate(MONTHS)
    ]
    return Table(
        columns=("month", "air", "dew point", "wind", "sun a day", "rain"), rows=tuple(rows),
        widths=(1, 2, 2, 2, 2, 2), right=(1, 2, 3, 4, 5), caption="Months of the year used",
    )  # fmt: skip


def figures_table(weather: HourlyWeather, zones: SiteZones | None, units: System) -> Table:
    """Return degree days, design temperatures and the check for warm and humid."""
    us = units == "us"
    heating, cooling = degree_days(weather.air)
    scale, unit = (1.8, "°F·d") if us else (1.0, "K·d")
    ends = extremes(weather.air)
    counts = warm_humid_hours(weather)
    humid = tuple(
        (
            f"hours with a wet bulb of {_air(bulb, us=us)} and more",
            f"{count:,} h in the warm half-year; {needed:,} make it warm and humid",
        )
        for count, (bulb, needed) in zip(counts, WARM_HUMID, strict=True)
    )
    told = "yes" if is_warm_humid(weather) else "no"
    known = None if zones is None else zones.county.warm_humid
    county = "" if known is None else f"; the county table says {'yes' if known else 'no'}"
    warm_base, cool_base = ("64.4 °F", "50 °F") if us else ("18 °C", "10 °C")
    rows = (
        (f"heating degree days below {warm_base}", f"{heating * scale:,.0f} {unit}"),
        (f"cooling degree days above {cool_base}", f"{cooling * scale:,.0f} {unit}"),
        ("colder in 0.4 % of the hours", _air(ends.cold_004, us=us)),
        ("colder in 1 % of the hours", _air(ends.cold_01, us=us)),
        ("warmer in 1 % of the hours", _air(ends.warm_01, us=us)),
        ("warmer in 0.4 % of the hours", _air(ends.warm_004, us=us)),
        ("warm and humid", f"{told}{county}"),
        *humid,
    )
    return Table(columns=("figure", "value"), rows=rows, widths=(3, 4), caption="Figures")


def _air(celsius: float, *, us: bool) -> str:
    return f"{celsius * 1.8 + 32.0:.0f} °F" if us else f"{celsius + 0.0:.1f} °C"


def _rain(months: MonthlyClimate, k: int, *, us: bool) -> str:
    if months.rain is None:
        return "–"
    return f"{months.rain[k] / 25.4:.1f} in" if us else f"{months.rain[k]:.0f} mm"


def _height(rise: float, *, us: bool) -> str:
    value = round(rise / 0.3048) if us else round(rise)
    return f"{value:+d} {'ft' if us else 'm'}" if value else "level"
