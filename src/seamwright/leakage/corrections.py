"""From what the gauges showed to flow through the envelope, and on to standard air."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import fmean

from seamwright.leakage.air import REFERENCE_DENSITY, density, viscosity
from seamwright.leakage.types import Conditions, Method, Series


@dataclass(frozen=True, kw_only=True, slots=True)
class Corrected:
    """One direction: pressures above the baseline [Pa] and flows through the envelope [m³/s].

    `offset` is the baseline taken off [Pa]; `dropped` counts readings left out because their
    pressure had the wrong sign then; `leak_density` [kg/m³] and `leak_temperature` [°C] are those
    of the air in the leaks.
    """

    pressures: tuple[float, ...]
    flows: tuple[float, ...]
    offset: float
    dropped: int
    leak_density: float
    leak_temperature: float


def corrected(series: Series, conditions: Conditions) -> Corrected:
    """Return the readings of one direction without baseline, as flow through the envelope.

    The baseline is the mean of the means before and after. A fan that draws out moves air of the
    house while outdoor air leaks in: the flow through the leaks is the fan's times the density
    indoors over that outdoors; blowing in, the other way round. Sorted by pressure.

    Source: ISO 9972:2015, 6.1, ASTM E779, 9.1 (both from memory).
    """
    known = [fmean(part) for part in (series.baseline_before, series.baseline_after) if part]
    offset = fmean(known) if known else 0.0
    pressure = conditions.barometric_pressure
    inside = density(conditions.indoor_temperature, pressure, conditions.indoor_humidity)
    outside = density(conditions.outdoor_temperature, pressure, conditions.outdoor_humidity)
    draws_out = series.direction == "depressurize"
    ratio = inside / outside if draws_out else outside / inside
    sign = -1.0 if draws_out else 1.0
    used = [(sign * (r.pressure - offset), r.flow * ratio) for r in series.readings]
    used = sorted((p, q) for p, q in used if p > 0 and q > 0)
    return Corrected(
        pressures=tuple(p for p, _ in used),
        flows=tuple(q for _, q in used),
        offset=offset,
        dropped=len(series.readings) - len(used),
        leak_density=outside if draws_out else inside,
        leak_temperature=(
            conditions.outdoor_temperature if draws_out else conditions.indoor_temperature
        ),
    )


def to_standard(part: Corrected, exponent: float, method: Method) -> float:
    r"""Return the factor from the coefficient as fitted to the one at 20 °C and 101,325 Pa. [-]

    .. math:: C_L = C_{env} (\rho / \rho_0)^{1-n}

    and by ASTM E779 and E1827 also :math:`(\mu / \mu_0)^{2n-1}`. Density and viscosity are those
    of the air in the leaks. Source: ISO 9972:2015, 6.2; ASTM E779, 9.3 (both from memory).
    """
    factor = (part.leak_density / REFERENCE_DENSITY) ** (1.0 - exponent)
    if method != "iso_9972":
        factor *= (viscosity(part.leak_temperature) / viscosity(20.0)) ** (2.0 * exponent - 1.0)
    return float(factor)
