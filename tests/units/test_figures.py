"""Quantities inside finished sentences, in the reader's units."""

from __future__ import annotations

import pytest

from seamwright.units.figures import convert_figures


@pytest.mark.parametrize(
    ("si", "us"),
    [
        ("Up to 0.107 m³/(h·m) at 50 Pa stays", "Up to 0.0192 CFM/ft at 50 Pa stays"),
        ("136 to 510 m³/h", "80 to 300 CFM"),
        ("de 136 a 510 m³/h", "de 80 a 300 CFM"),
        ("2.2 m/s", "4.92 mph"),
        ("250 m·K", "1476 ft·°F"),
        ("rooms of -5 °C", "rooms of 23 °F"),
        ("the station is 12 km away", "the station is 7.46 mi away"),
        ("storey 1 is 2.7 m high", "storey 1 is 8'-10 5/16\" high"),
        ("a void of 19 mm", 'a void of 3/4"'),
        ("cover the same 3.00 m² on one storey", "cover the same 32.3 ft² on one storey"),
        ("12 Pa, 7 %, 3 W/m², 16 kg/m³", "12 Pa, 7 %, 3 W/m², 16 kg/m³"),
        ("taken as 1-1/2 in (38 mm) off the wall", "taken as 1-1/2 in (38 mm) off the wall"),
        ("‘12 m’ is negative", "‘12 m’ is negative"),
        ("from memory, ISO 10456", "from memory, ISO 10456"),
    ],
)
def test_figures_follow_the_units(si: str, us: str) -> None:
    """Each quantity changes with its unit; what is told twice or quoted stays, metric too."""
    assert convert_figures(si, "us") == us
    assert convert_figures(si, "metric") == si
