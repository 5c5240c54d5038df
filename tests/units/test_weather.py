"""Readings of instruments and forecasts."""

from __future__ import annotations

import pytest

from seamwright.errors import InputError
from seamwright.schedule.tape_types import Told
from seamwright.units.weather import (
    fill_told,
    format_difference,
    format_temperature,
    parse_reading,
    parse_share,
    parse_speed,
    parse_temperature,
    to_si,
    unit_named,
)


@pytest.mark.parametrize(
    ("text", "celsius"),
    [("12C", 12.0), ("53.6 °F", 12.0), ("-4 c", -4.0), ("−4 C", -4.0), ("285.15 K", 12.0),
     ("12,5 °C", 12.5), ("32F", 0.0), ("+1 degC", 1.0)],
)  # fmt: skip
def test_temperatures_are_read_in_every_spelling(text: str, celsius: float) -> None:
    """A temperature may be written in °C, °F or K, with either minus and either decimal mark."""
    assert parse_temperature(text) == pytest.approx(celsius, abs=1e-12)


def test_an_uncertainty_after_a_reading_is_a_difference() -> None:
    """54 °F ± 1.8 is one kelvin either way, 70 % ± 3 three hundredths."""
    assert parse_reading("54 F ± 1.8", "temperature")[1] == pytest.approx(1.0)
    assert parse_reading("54F +/- 1.8 F", "temperature")[1] == pytest.approx(1.0)
    assert parse_reading("70 % +- 3", "share") == pytest.approx((0.7, 0.03))


@pytest.mark.parametrize(
    "text", ["", "12", "warm", "12 X", "12 C ± 1 F", "1e9 C", "12 C C", "C", "9" * 80, "12\x1b[2J"]
)
def test_what_is_no_temperature_is_refused_in_a_sentence(text: str) -> None:
    """Anything else is refused with an example, and nothing of it can move a cursor."""
    with pytest.raises(InputError) as caught:
        parse_temperature(text)
    assert "12 C or 54 F" in str(caught.value)
    assert "\x1b" not in str(caught.value)


def test_shares_and_speeds() -> None:
    """Shares come back as parts of one, speeds in metres a second."""
    assert parse_share("14%") == pytest.approx(0.14)
    assert parse_speed("20 mph") == pytest.approx(8.9408)
    assert parse_speed("10 knots") == pytest.approx(5.144444, rel=1e-6)
    assert parse_speed("36 km/h") == pytest.approx(10.0)
    with pytest.raises(InputError):
        parse_share("14 % ± 2")


def test_units_are_known_by_measure() -> None:
    """A unit of another measure is not taken."""
    assert unit_named("°F", "temperature") == "f"
    assert unit_named("W/m²", "sun") == "w/m2"
    assert unit_named("in/h", "rain") == "in"
    assert unit_named("mm", "speed") is None
    assert to_si(0.1, "rain", "in") == pytest.approx(2.54)


def test_printing_keeps_the_sign_and_the_size() -> None:
    """Temperatures print to a degree Fahrenheit or a tenth Celsius; no minus zero."""
    assert format_temperature(-0.01, "metric") == "0 °C"
    assert format_temperature(12.25, "metric") == "12.2 °C"
    assert format_temperature(12.0, "us") == "54 °F"
    assert format_difference(3.0, "us") == "5.4 °F"
    told = Told(text="{a}, {b}, {c}", figures={"a": (1.0, "days"), "b": (0.7, "share"),
                                                "c": (2.5, "hours")})  # fmt: skip
    assert fill_told(told, "us") == "1 day, 70 %, 2.5 hours"
