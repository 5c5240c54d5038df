"""The three hourly years that pvlib carries: a cold coast, a mixed and a hot humid place."""

from __future__ import annotations

from functools import cache
from importlib.util import find_spec
from pathlib import Path

import numpy as np
import pandas as pd
import pvlib

from seamwright.climate.sun import Place
from seamwright.climate.weather import HourlyWeather
from seamwright.io.weather_year import read_weather

_SPEC = find_spec("pvlib")
assert _SPEC is not None
assert _SPEC.origin is not None
FOLDER = Path(_SPEC.origin).parent / "data"
YEARS = {
    "Sand Point, AK": "703165TY.csv",
    "Greensboro, NC": "723170TYA.CSV",
    "Miami, FL": "12839.tm2",
}


@cache
def real_year(name: str) -> tuple[HourlyWeather, Place]:
    """Return a measured typical year and its place."""
    file = FOLDER / YEARS[name]
    if file.suffix == ".tm2":
        return _tm2(file)
    read = read_weather(file)
    assert read.place is not None
    return read.weather, read.place


def _tm2(file: Path) -> tuple[HourlyWeather, Place]:
    """Read a year of the second collection, whose columns count tenths."""
    table, meta = pvlib.iotools.read_tmy2(file)

    def column(title: str) -> np.ndarray:
        return pd.Series(table[title]).to_numpy(dtype=float)

    weather = HourlyWeather(
        start=978_307_200.0 + 5 * 3600.0,
        utc_offset=-5 * 3600.0,
        air=column("DryBulb") / 10.0,
        humidity=np.minimum(column("RHum") / 100.0, 1.0),
        wind=column("Wspd") / 10.0,
        rain=np.zeros(8760),
        cloud=column("OpqCld") / 10.0,
        sun=column("GHI"),
        source=file.name,
    )
    place = Place(
        latitude=np.radians(meta["latitude"]),
        longitude=np.radians(meta["longitude"]),
        elevation=float(meta["altitude"]),
    )
    return weather, place
