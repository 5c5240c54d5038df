"""Volumes on labels, rates and durations."""

from __future__ import annotations

from fractions import Fraction

import pytest

from seamwright.errors import InputError
from seamwright.units import FLUID_OUNCE, INCH, parse_duration, parse_rate, parse_volume


@pytest.mark.parametrize(
    ("text", "volume"),
    [
        ("600 ml", Fraction(6, 10000)),
        ("0.6 L", Fraction(6, 10000)),
        ("0.6 litres", Fraction(6, 10000)),
        ("10.1 fl oz", Fraction(101, 10) * FLUID_OUNCE),
        ("10.1 fl. oz.", Fraction(101, 10) * FLUID_OUNCE),
        ("600 cm³", Fraction(6, 10000)),
        ("2 in³", 2 * INCH**3),
    ],
)
def test_a_label_volume_is_read_exactly(text: str, volume: Fraction) -> None:
    """Metric and customary label volumes become exact cubic metres."""
    assert volume == parse_volume(text)


def test_rates_and_durations_become_seconds() -> None:
    """A rate is metres per second, a duration seconds."""
    assert Fraction(30, 3600) == parse_rate("30 m/h")
    assert parse_rate("100 ft per hour") == 100 * 12 * INCH / 3600
    assert Fraction(360) == parse_duration("6 min")
    assert Fraction(5400) == parse_duration("1.5 hours")


@pytest.mark.parametrize(
    ("parse", "text"),
    [
        (parse_volume, "600"),
        (parse_volume, "6 hogsheads"),
        (parse_volume, ""),
        (parse_volume, "1" * 80 + " ml"),
        (parse_rate, "30 m"),
        (parse_rate, "30/h"),
        (parse_rate, "m/h"),
        (parse_duration, "6"),
        (parse_duration, "6 fortnights"),
    ],
)
def test_a_wrong_quantity_shows_a_right_one(parse, text: str) -> None:
    """A refused quantity is one problem with an example."""
    with pytest.raises(InputError) as caught:
        parse(text)
    assert " or " in caught.value.problems[0].remedy
