"""Monthly condensation: bad input, dry walls and walls that never dry."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from seamwright.errors import InputError
from seamwright.moisture.condensation import (
    MonthlyAir,
    iso_saturation,
    least_factor,
    monthly_condensation,
    vapor_line,
)
from seamwright.moisture.layers import film_of, layer_of
from seamwright.moisture.materials import MATERIALS
from seamwright.moisture.types import Layer

COLD = (-8.0, -6.0, -1.0, 5.0, 11.0, 15.0, 18.0, 17.0, 12.0, 6.0, -1.0, -6.0)


def year(outside: tuple[float, ...] = COLD, room: float = 0.5) -> MonthlyAir:
    """Return a year at 20 °C inside and 80 % outside."""
    return MonthlyAir(
        inside=(20.0,) * 12,
        outside=outside,
        vapor_inside=(room * float(iso_saturation(20.0)),) * 12,
        vapor_outside=tuple(float(v) for v in 0.8 * iso_saturation(np.array(outside))),
    )


def panel() -> list[Layer]:
    """Return OSB, foam, OSB."""
    osb = layer_of(MATERIALS["osb"], 0.0111)
    return [osb, layer_of(MATERIALS["eps"], 0.143), osb]


def frame(brake: float = 1.0) -> list[Layer]:
    """Return glass fiber behind OSB, with a film of so much still air on the warm side. [m]"""
    wool = layer_of(MATERIALS["mineral_wool"], 0.14)
    return [film_of("film", brake), wool, layer_of(MATERIALS["osb"], 0.011)]


def test_a_wall_with_a_weak_vapor_brake_condenses_at_its_sheathing_and_dries() -> None:
    """Water gathers at the sheathing through the cold months and is gone by autumn."""
    result = monthly_condensation(frame(), year())
    assert result.first_month in {9, 10, 11}
    assert result.most > 0.1
    assert result.dries
    wettest = max(result.planes, key=lambda plane: max(plane.held))
    assert wettest.between == ("glass fiber", "oriented strand board")
    assert wettest.depth == pytest.approx(0.14)


def test_a_film_on_the_warm_side_keeps_the_same_wall_dry() -> None:
    """With 50 m of still air inside nothing condenses."""
    result = monthly_condensation(frame(50.0), year())
    assert result.planes == ()
    assert result.first_month is None
    assert result.dries


def test_a_film_on_the_cold_side_traps_water() -> None:
    """In a freezing year behind a tight outer film water stays and the year does not dry."""
    result = monthly_condensation([*frame(), film_of("film", 100.0)], year((-5.0,) * 12))
    assert not result.dries
    assert result.most > 1.0


def test_what_condenses_is_what_is_held() -> None:
    """For each plane the sum of its monthly rates is what is left at the end."""
    result = monthly_condensation(panel(), year(tuple(t - 12.0 for t in COLD), room=0.6))
    assert result.planes
    last = (result.first_month - 1) % 12
    for plane in result.planes:
        assert sum(plane.rate) == pytest.approx(plane.held[last], abs=1e-12)
        assert min(plane.held) >= 0.0


def test_a_wetter_room_never_makes_a_drier_wall() -> None:
    """More vapor inside, more water in the wall."""
    amounts = [monthly_condensation(frame(), year(room=r)).most for r in (0.3, 0.4, 0.5, 0.6)]
    assert amounts == sorted(amounts)
    assert amounts[-1] > amounts[0]


def test_the_vapor_line_never_passes_saturation() -> None:
    """The line is convex, keeps its ends and stays below saturation at every plane."""
    sd = np.array([0.0, 0.5, 2.0, 5.0, 6.0])
    full = np.array([2000.0, 1500.0, 700.0, 500.0, 400.0])
    p = vapor_line(sd, full, 1200.0, 320.0)
    assert (p[1:-1] <= full[1:-1] + 1e-9).all()
    assert (p[0], p[-1]) == (1200.0, 320.0)
    assert (np.diff(np.diff(p) / np.diff(sd)) >= -1e-9).all()


def test_months_and_vapor_that_cannot_be_are_told_with_their_month() -> None:
    """Air above saturation is refused with month, side and values; so is a short year."""
    air = year()
    wet = replace(air, vapor_outside=(900.0, *air.vapor_outside[1:]))
    with pytest.raises(InputError, match=r"month 1 outside: 900 Pa at -8.0 °C"):
        monthly_condensation(frame(), wet)
    with pytest.raises(InputError, match="a year has 12 months"):
        monthly_condensation(frame(), replace(air, inside=(20.0,) * 11))


def test_layers_without_vapor_resistance_are_refused() -> None:
    """A stack through which vapor passes freely has no answer."""
    bare = Layer(name="air", thickness=0.1, resistance=0.2, sd=0.0)
    with pytest.raises(InputError, match="no layer resists vapor"):
        monthly_condensation([bare], year())


def test_no_temperature_difference_asks_for_no_factor() -> None:
    """Without a difference there is no factor to ask for."""
    assert least_factor(20.0, 20.0, 1200.0) == 0.0
