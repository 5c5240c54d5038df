"""Flows, leak areas and what goes with them, as people read them."""

from __future__ import annotations

from typing import get_args

import pytest

from seamwright.io.tables import to_number
from seamwright.report.types import Dimension, Quantity
from seamwright.units import format_quantity
from seamwright.units.air import format_flow, format_share


def shown(value: float, dimension: Dimension, system: str) -> str:
    """Return a quantity as text."""
    return format_quantity(Quantity(value=value, dimension=dimension), system)


@pytest.mark.parametrize(
    ("value", "dimension", "us", "metric"),
    [
        (0.0609, "flow", "129 cfm", "219 m³/h"),
        (0.01051, "leak_area", "16.3 in²", "105 cm²"),
        (0.4e-4, "leak_line", "0.019 in²/ft", "0.400 cm²/m"),
        (0.000152, "leak_rate", "0.098 cfm/ft", "0.547 m³/(h·m)"),
        (0.0121 / 3600, "leak_rate", "0.0022 cfm/ft", "0.012 m³/(h·m)"),
        (0.00042 / 3600, "leak_rate", "0.000075 cfm/ft", "0.00042 m³/(h·m)"),
        (0.3048 / 60, "permeability", "1.00 cfm/ft²", "18.3 m³/(h·m²)"),
        (1000.0, "power", "3,410 Btu/h", "1,000 W"),
        (1.238, "air_change", "1.24 1/h", "1.24 1/h"),
        (0.124, "share", "12 %", "12 %"),
    ],
)
def test_air_reads_in_either_system(
    value: float, dimension: Dimension, us: str, metric: str
) -> None:
    """Each quantity of air carries its unit, with three digits."""
    assert (shown(value, dimension, "us"), shown(value, dimension, "metric")) == (us, metric)


@pytest.mark.parametrize(
    ("part", "text"),
    [(0.0, "0 %"), (0.002, "<1 %"), (0.5, "50 %"), (0.997, ">99 %"), (1.0, "100 %")],
)
def test_a_chance_is_never_rounded_to_certainty(part: float, text: str) -> None:
    """Only what never or always happened reads 0 or 100 %."""
    assert format_share(part) == text


def test_large_flows_keep_three_digits() -> None:
    """A large flow is not given more digits than a forecast holds."""
    assert format_flow(3.456, "metric") == "12,400 m³/h"


@pytest.mark.parametrize("dimension", get_args(Dimension))
@pytest.mark.parametrize("system", ["us", "metric"])
def test_every_dimension_prints_and_goes_into_a_spreadsheet(
    dimension: Dimension, system: str
) -> None:
    """No dimension of the reports is without a unit at any edge."""
    quantity = Quantity(value=1.0, dimension=dimension)
    assert format_quantity(quantity, system)
    assert to_number(quantity, system)[0] > 0
