"""Write an hourly year as the CSV that the forecast reader takes."""

from __future__ import annotations

import datetime as dt
import math

import numpy as np

from seamwright.climate.sun import Place
from seamwright.climate.weather import HOUR, HourlyWeather

_HEADER = "time, temperature [C], humidity [%], wind [m/s], rain [mm], cloud [%], irradiance [W/m2]"


def weather_csv(weather: HourlyWeather, place: Place | None) -> str:
    """Return the hours as CSV with units in the column names; the first line tells the source.

    Wind directions and gusts are left out. A generated year that is read back still says so.
    """
    zone = dt.timezone(dt.timedelta(seconds=weather.utc_offset))
    start = dt.datetime.fromtimestamp(weather.start, tz=dt.UTC).astimezone(zone)
    lines = [f"# {weather.source}"]
    if place is not None:
        lines += [
            f"latitude, {math.degrees(place.latitude):.4f}",
            f"longitude, {math.degrees(place.longitude):.4f}",
            f"elevation, {place.elevation:.1f}",
        ]
    lines.append(_HEADER)
    sun = np.full(weather.hours, np.nan) if weather.sun is None else weather.sun
    if weather.sun is None:
        lines[-1] = _HEADER.rsplit(",", maxsplit=1)[0]
    columns = (weather.air, 100.0 * weather.humidity, weather.wind, weather.rain,
               100.0 * weather.cloud)  # fmt: skip
    for k in range(weather.hours):
        stamp = (start + dt.timedelta(seconds=HOUR * k)).isoformat(timespec="minutes")
        cells = [f"{float(column[k]):.2f}" for column in columns]
        if weather.sun is not None:
            cells.append(f"{float(sun[k]):.1f}")
        lines.append(", ".join([stamp, *cells]))
    return "\n".join(lines) + "\n"
