"""The air that a tight house must have."""

from __future__ import annotations

import pytest

from seamwright.errors import SeamwrightError
from seamwright.leakage.ventilation import infiltration_credit, required_rate, ventilation_need


def test_a_house_without_a_bedroom_counts_as_having_one() -> None:
    """Somebody sleeps in a studio too."""
    assert required_rate(40.0, 0) == required_rate(40.0, 1)


def test_without_weather_no_credit_is_taken() -> None:
    """Leaks count for nothing unless leak area, height and weather factor are all known."""
    for facts in ({}, {"leak_area": 0.05}, {"leak_area": 0.05, "height": 5.0}):
        need = ventilation_need(150.0, 3, **facts)
        assert (need.credit, need.fan) == (0.0, need.total)


def test_credit_follows_the_formula() -> None:
    """0.05 m², 150 m², 2.5 m and a factor of 0.6: NL = 0.3333 and Q = 20.8 L/s."""
    assert infiltration_credit(0.05, 150.0, 2.5, 0.6) * 1e3 == pytest.approx(
        1000 * 0.05 / 150 * 0.6 * 150 / 1.44
    )


def test_the_formula_is_the_same_in_feet() -> None:
    """NL·wsf·A/7.3 in cfm and ft² is the same flow within the rounding of its constants."""
    flow = infiltration_credit(0.05, 150.0, 2.5, 0.6)
    cfm = 1000 * 0.05 / 150 * 0.6 * (150 / 0.3048**2) / 7.3
    assert flow / (0.3048**3 / 60) == pytest.approx(cfm, rel=4e-3)


def test_a_fan_that_only_pulls_gets_less_credit() -> None:
    """Balanced fans add to the leaks; a fan that pulls takes the leaks over."""
    facts = {"leak_area": 0.03, "height": 5.0, "weather_factor": 0.6}
    pulling = ventilation_need(150.0, 3, **facts)
    balanced = ventilation_need(150.0, 3, balanced=True, **facts)
    assert 0 < pulling.credit < balanced.credit
    assert balanced.fan + balanced.credit == pytest.approx(balanced.total)


def test_leaks_never_make_the_fan_needless() -> None:
    """However leaky, a third of the rate stays for machines."""
    need = ventilation_need(150.0, 3, leak_area=1.0, height=8.0, weather_factor=1.0, balanced=True)
    assert need.fan == pytest.approx(need.total / 3)


def test_the_caution_stands_with_every_result() -> None:
    """No rate comes without the word that a tight house needs ventilation."""
    assert "needs mechanical ventilation" in ventilation_need(150.0, 3).caution


@pytest.mark.parametrize(("area", "bedrooms"), [(0.0, 2), (-5.0, 2), (100.0, -1)])
def test_houses_that_cannot_be_are_refused(area: float, bedrooms: int) -> None:
    """No floor or fewer than no bedrooms is a mistake."""
    with pytest.raises(SeamwrightError):
        required_rate(area, bedrooms)
