"""Layered constructions."""

from __future__ import annotations

import pytest

from seamwright.errors import InputError
from seamwright.moisture.layers import (
    RSE,
    RSI,
    cavity_conductivity,
    film_of,
    heat_way,
    layer_of,
    temperatures,
    u_value,
)
from seamwright.moisture.materials import MATERIALS, checked, sd_of_permeance
from seamwright.moisture.types import Material
from seamwright.sources import SOURCES


def test_every_material_has_a_source_in_the_register() -> None:
    """No row without a source, for heat and for vapor, and every figure is possible."""
    for material in MATERIALS.values():
        assert material.source in SOURCES
        assert material.mu_source in SOURCES
        assert checked(material) is material


def test_impossible_figures_are_all_named_at_once() -> None:
    """A material in the wrong units is refused with each figure and its limits."""
    wrong = Material(id="x", name="x", conductivity=900.0, density=0.2, heat_capacity=1000.0,
                     mu_dry=0.5, mu_wet=None, source="iso-10456", flag="from memory")  # fmt: skip
    with pytest.raises(InputError) as caught:
        checked(wrong)
    assert len(caught.value.problems) == 3
    assert "900 W/(m·K) is outside 0.005 to 500" in str(caught.value)


@pytest.mark.parametrize(
    ("rise", "way"), [(0.0, "level"), (0.5, "level"), (0.51, "up"), (-0.9, "down")]
)
def test_the_way_of_heat_turns_at_30_degrees(rise: float, way: str) -> None:
    """Within 30° of the level heat counts as level."""
    assert heat_way(rise) == way


def test_temperatures_fall_with_the_resistance_passed() -> None:
    """Surfaces and interfaces lie on the straight line over the resistances."""
    layers = [layer_of(MATERIALS["osb"], 0.013), film_of("film", 50.0)]
    found = temperatures(layers, 20.0, 0.0, RSI["level"])
    total = 0.13 + 0.1 + RSE
    expected = [20 * (1 - 0.13 / total), 20 * RSE / total, 20 * RSE / total]
    assert found == pytest.approx(expected)


def test_a_film_adds_no_heat_resistance() -> None:
    """A film changes sd and nothing of the U-value."""
    layers = [layer_of(MATERIALS["eps"], 0.1)]
    assert u_value([*layers, film_of("film", 100.0)]) == u_value(layers)


def test_wet_cup_and_dry_cup_differ_as_tabled() -> None:
    """OSB resists vapor 50 times as air by the dry cup, 30 times by the wet one."""
    osb = MATERIALS["osb"]
    assert layer_of(osb, 0.01).sd == pytest.approx(0.5)
    assert layer_of(osb, 0.01, wet=True).sd == pytest.approx(0.3)


def test_layers_that_cannot_be_are_refused() -> None:
    """A thickness of nothing is refused in a sentence."""
    with pytest.raises(InputError, match="thickness 0 m is not above zero"):
        layer_of(MATERIALS["osb"], 0.0)


def test_one_perm_is_three_and_a_half_metres_of_air() -> None:
    """57.2 ng/(s·m²·Pa) in still air of 2e-10 kg/(m·s·Pa) is 3.5 m; twice the perms half of it."""
    assert sd_of_permeance(1.0) == pytest.approx(3.4965, abs=1e-4)
    assert sd_of_permeance(2.0) == pytest.approx(sd_of_permeance(1.0) / 2)


def test_an_air_layer_of_25_mm_resists_as_the_standard_tables() -> None:
    """25 mm of closed air resist 0.18 m²·K/W, 5 mm 0.11 (ISO 6946, table 8, from memory)."""
    assert 0.025 / cavity_conductivity(0.025) == pytest.approx(0.18, abs=0.006)
    assert 0.005 / cavity_conductivity(0.005) == pytest.approx(0.11, abs=0.006)
