"""Read the tables of stations and counties that come with the package."""

from __future__ import annotations

import bz2
import csv
import math
from collections.abc import Iterator, Mapping
from functools import lru_cache
from importlib import resources

from seamwright.climate.counties import County
from seamwright.climate.monthly import Extremes, MonthlyClimate
from seamwright.climate.stations import Station
from seamwright.climate.sun import Place
from seamwright.climate.weather import HOUR

STATION_SOURCE = "typical years 1976-2005 (TMY3)"
"""Where the monthly figures come from, in a few words; the data sheet has more."""

COUNTY_SOURCE = "county table of the U.S. Department of Energy"


@lru_cache(maxsize=1)
def stations() -> tuple[Station, ...]:
    """Return the 1,020 stations of the United States with their months."""
    return tuple(_station(row) for row in _rows("stations"))


@lru_cache(maxsize=1)
def counties() -> tuple[County, ...]:
    """Return the counties of the United States with their zones in both editions."""
    return tuple(_county(row) for row in _rows("counties"))


def _rows(name: str) -> Iterator[Mapping[str, str]]:
    file = resources.files("seamwright") / "data" / "climate" / f"{name}.csv.bz2"
    return csv.DictReader(bz2.decompress(file.read_bytes()).decode().splitlines())


def _months(row: Mapping[str, str], key: str) -> tuple[float, ...]:
    return tuple(float(row[f"{key}_{month:02d}"]) for month in range(1, 13))


def _told(cell: str) -> str | None:
    return cell if len(cell) > 0 else None


def _place(row: Mapping[str, str], elevation: float = 0.0) -> Place:
    return Place(
        latitude=math.radians(float(row["latitude_deg"])),
        longitude=math.radians(float(row["longitude_deg"])),
        elevation=elevation,
    )


def _station(row: Mapping[str, str]) -> Station:
    rain = _months(row, "rain_mm")
    months = MonthlyClimate(
        temperature=_months(row, "temperature_c"),
        vapor=_months(row, "vapor_pa"),
        wind=_months(row, "wind_m_s"),
        sun=_months(row, "sun_w_m2"),
        daily_sd=_months(row, "daily_sd_k"),
        rain=rain if any(rain) else None,
        extremes=Extremes(
            cold_004=float(row["cold_004_c"]),
            cold_01=float(row["cold_01_c"]),
            warm_01=float(row["warm_01_c"]),
            warm_004=float(row["warm_004_c"]),
        ),
        source=f"station {row['station']} {row['name']}, {row['state']}, {STATION_SOURCE}",
    )
    return Station(
        id=row["station"],
        name=row["name"],
        state=row["state"],
        place=_place(row, float(row["elevation_m"])),
        utc_offset=HOUR * float(row["utc_offset_h"]),
        months=months,
        heating=float(row["hdd18"]),
        cooling=float(row["cdd10"]),
        zone=_told(row["zone_2021"]),
    )


def _county(row: Mapping[str, str]) -> County:
    humid = row["warm_humid"]
    return County(
        id=row["fips"],
        state=row["state"],
        name=row["county"],
        middle=_place(row) if row["latitude_deg"] else None,
        old_zone=_told(row["zone_2004_2018"]),
        new_zone=_told(row["zone_2021"]),
        warm_humid=None if not humid else humid == "Y",
    )
