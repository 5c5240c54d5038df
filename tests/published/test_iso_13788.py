"""Temperature factor, dew point and saturation of ISO 13788, and Glaser's method against an
independent reckoning.

The pair 20 °C, 50 % against -5 °C is the standard case of surface mold: dew point 9.3 °C, least
surface temperature 12.6 °C, factor 0.70 (DIN 4108-2 prints 12.6 and 0.70, from memory). No worked
yearly example in print was found, so the monthly sums are set against a plain relaxation of the
same rules, written here from the physics: vapor pressure at most saturation, water where it would
be more.
"""

from __future__ import annotations

import numpy as np
import pytest

from seamwright.climate.moist_air import saturation_pressure
from seamwright.moisture.condensation import (
    DAYS,
    MonthlyAir,
    iso_dew_point,
    iso_saturation,
    least_factor,
    monthly_condensation,
)
from seamwright.moisture.layers import RSE, film_of, layer_of, resistance, u_value
from seamwright.moisture.materials import DELTA_AIR, MATERIALS
from seamwright.moisture.types import Layer

COLD = (-8.0, -6.0, -1.0, 5.0, 11.0, 15.0, 18.0, 17.0, 12.0, 6.0, -1.0, -6.0)


def year(outside: tuple[float, ...] = COLD, humid: float = 0.8, room: float = 0.5) -> MonthlyAir:
    """Return a year at 20 °C inside, relative humidities the same all year."""
    return MonthlyAir(
        inside=(20.0,) * 12,
        outside=outside,
        vapor_inside=(room * float(iso_saturation(20.0)),) * 12,
        vapor_outside=tuple(float(v) for v in humid * iso_saturation(np.array(outside))),
    )


def frame_wall() -> list[Layer]:
    """Return gypsum, glass fiber and OSB: a wall that condenses at its sheathing."""
    return [
        layer_of(MATERIALS["gypsum"], 0.0125),
        layer_of(MATERIALS["mineral_wool"], 0.14),
        layer_of(MATERIALS["osb"], 0.011),
    ]


@pytest.mark.source("iso-13788", "temperature factor: 20 °C, 50 %, -5 °C")
def test_the_standard_case_of_surface_mold() -> None:
    """Dew point 9.27 °C, least surface temperature 12.63 °C, factor 0.705."""
    vapor = 0.5 * float(iso_saturation(20.0))
    assert float(iso_dew_point(vapor)) == pytest.approx(9.27, abs=0.01)
    assert float(iso_dew_point(vapor / 0.8)) == pytest.approx(12.63, abs=0.01)
    assert least_factor(20.0, -5.0, vapor) == pytest.approx(0.705, abs=0.001)


@pytest.mark.source("iso-13788", "annex E: saturation")
def test_saturation_stays_as_near_to_the_best_formulas_as_known() -> None:
    """The standard's saturation lies 0 to 0.26 % low from 0 to 50 °C and 1.9 % low at -40 °C."""
    warm = np.linspace(0.0, 50.0, 51)
    share = iso_saturation(warm) / saturation_pressure(warm) - 1.0
    assert share.max() < 0.0
    assert share.min() > -0.0027
    assert float(iso_saturation(-40.0)) == pytest.approx(12.604, rel=1e-4)


@pytest.mark.source("iso-13788", "annex E: inverse")
def test_dew_point_undoes_saturation() -> None:
    """Saturation and dew point are inverse from -30 to 40 °C."""
    t = np.linspace(-30.0, 40.0, 71)
    assert iso_dew_point(iso_saturation(t)) == pytest.approx(t, abs=1e-9)


@pytest.mark.source("iso-6946", "table 7 and 6.7.1.1: sum of resistances")
def test_the_u_value_of_a_panel_is_the_sum_of_its_resistances() -> None:
    """Two skins of 11.1 mm and 142.9 mm of foam between air films give 0.238 W/(m²·K)."""
    osb, eps = MATERIALS["osb"], MATERIALS["eps"]
    panel = [layer_of(osb, 0.0111125), layer_of(eps, 0.142875), layer_of(osb, 0.0111125)]
    by_hand = 0.13 + 0.0111125 / 0.13 + 0.142875 / 0.037 + 0.0111125 / 0.13 + 0.04
    assert resistance(panel, 0.13) == pytest.approx(by_hand)
    assert u_value(panel) == pytest.approx(0.238, abs=0.0005)


@pytest.mark.source("iso-13788", "clause 6: one plane, by hand")
def test_one_plane_condenses_what_arrives_less_what_leaves() -> None:
    """With one plane the January rate is inflow at saturation less outflow."""
    inner = Layer(name="inner", thickness=0.1, resistance=0.25, sd=1.0)
    outer = Layer(name="outer", thickness=0.1, resistance=0.10, sd=10.0)
    air = year()
    result = monthly_condensation([inner, outer], air)
    t = 20.0 + (-8.0 - 20.0) * (0.25 + 0.25) / (0.25 + 0.35 + RSE)
    full = float(iso_saturation(t))
    rate = DELTA_AIR * ((air.vapor_inside[0] - full) / 1.0 - (full - air.vapor_outside[0]) / 10.0)
    assert result.planes[0].rate[0] == pytest.approx(rate * DAYS[0] * 86_400, rel=1e-9)
    assert result.planes[0].between == ("inner", "outer")


@pytest.mark.source("iso-13788", "clause 6: against a relaxation of the same rules")
@pytest.mark.parametrize("barrier", [None, 2.0, 100.0])
@pytest.mark.parametrize("room", [0.4, 0.55])
def test_a_year_agrees_with_an_independent_reckoning(barrier: float | None, room: float) -> None:
    """Water by month agrees with relaxation to 0.1 %, with and without a film on the warm side."""
    layers = frame_wall()
    if barrier is not None:
        layers.insert(1, film_of("film", barrier))
    air = year(room=room)
    result = monthly_condensation(layers, air)
    held = np.zeros(12)
    for plane in result.planes:
        held += plane.held
    first = 9 if result.first_month is None else result.first_month
    assert held == pytest.approx(relaxed_year(layers, air, first), rel=1e-3, abs=1e-5)


def relaxed_year(layers: list[Layer], air: MonthlyAir, first: int) -> np.ndarray:
    """Return the water at each month's end [kg/m²], by relaxing the vapor pressures."""
    parts = [
        (layer.resistance / n, layer.sd / n)
        for layer in layers
        for n in [max(1, int(np.ceil(layer.resistance / 0.25)))]
        for _ in range(n)
    ]
    r, sd = np.array(parts).T
    at = 0.25 + np.cumsum(r)[:-1]
    held, water = np.zeros(12), np.zeros(len(at))
    for month in [(first + k) % 12 for k in range(12)]:
        t = air.inside[month] + (air.outside[month] - air.inside[month]) * at / (
            0.25 + r.sum() + RSE
        )
        full, p = iso_saturation(t), np.zeros(len(at))
        ends = air.vapor_inside[month], air.vapor_outside[month]
        for _ in range(6000):
            for i in range(len(p)):
                left = ends[0] if i == 0 else p[i - 1]
                right = ends[1] if i == len(p) - 1 else p[i + 1]
                free = (left * sd[i + 1] + right * sd[i]) / (sd[i] + sd[i + 1])
                p[i] = full[i] if water[i] > 0 else min(free, full[i])
        line = np.concatenate([[ends[0]], p, [ends[1]]])
        flow = DELTA_AIR * -np.diff(line) / sd
        gain = (flow[:-1] - flow[1:]) * DAYS[month] * 86_400
        gain[(water == 0) & (p < full * (1 - 1e-9))] = 0.0
        water = np.maximum(water + gain, 0.0)
        water[water < 1e-9] = 0.0
        held[month] = water.sum()
    return held
