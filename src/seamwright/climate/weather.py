"""An hourly record of the weather, forecast or typical."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from seamwright.climate.arrays import Floats
from seamwright.climate.moist_air import condensation_point, vapor_pressure

HOUR = 3600.0
"""[s]"""


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class HourlyWeather:
    """Weather hour by hour. Entry k holds for the hour that begins at ``start + 3600 k`` [s].

    `start` counts seconds since 1970-01-01T00:00Z, `utc_offset` is local time minus universal time
    [s], for print only. `humidity`, `cloud` parts of one (humidity over water at every
    temperature), `wind` as forecasts give it, 10 m above open ground [m/s], `rain` water fallen
    in the hour [kg/m², which is mm]. `gust` [m/s], `sun` on flat ground [W/m²] and `direction`,
    where the wind comes from, clockwise from north [rad], are None where the source has none.
    Arrays all have one length.
    """

    start: float
    utc_offset: float
    air: Floats
    humidity: Floats
    wind: Floats
    rain: Floats
    cloud: Floats
    gust: Floats | None = None
    sun: Floats | None = None
    direction: Floats | None = None
    source: str = ""

    @property
    def hours(self) -> int:
        """How many hours there are."""
        return len(self.air)

    @property
    def instants(self) -> Floats:
        """The beginning of each hour. [s]"""
        return self.start + HOUR * np.arange(self.hours, dtype=np.float64)

    @property
    def vapor(self) -> Floats:
        """Vapor pressure. [Pa]"""
        return vapor_pressure(self.air, self.humidity, over_water=True)

    @property
    def condensation(self) -> Floats:
        """Temperature of a surface that first grows wet or white. [°C]"""
        return condensation_point(self.vapor)

    def from_hour(self, first: int) -> HourlyWeather:
        """Return the weather from hour `first` on."""
        return HourlyWeather(
            start=self.start + HOUR * first,
            utc_offset=self.utc_offset,
            air=self.air[first:],
            humidity=self.humidity[first:],
            wind=self.wind[first:],
            rain=self.rain[first:],
            cloud=self.cloud[first:],
            gust=None if self.gust is None else self.gust[first:],
            sun=None if self.sun is None else self.sun[first:],
            direction=None if self.direction is None else self.direction[first:],
            source=self.source,
        )
