"""Infiltration over hours, and what cannot be asked of the models."""

from __future__ import annotations

import numpy as np
import pytest

from seamwright.errors import SeamwrightError
from seamwright.leakage.combine import area_of_flow
from seamwright.leakage.infiltration import (
    AIR_HEAT,
    Setting,
    basic_flow,
    enhanced_flow,
    infiltration_year,
    over_hours,
)

ONE = Setting(storeys=1)


def test_hours_go_in_as_arrays() -> None:
    """A year of temperatures and winds gives a flow for each hour."""
    hours = np.arange(8760)
    outdoor = 10.0 - 15.0 * np.cos(2 * np.pi * hours / 8760)
    wind = 4.0 + np.sin(hours)
    flow = basic_flow(0.03, 20.0 - outdoor, wind, ONE)
    assert flow.shape == (8760,)
    assert flow[0] == pytest.approx(float(basic_flow(0.03, 25.0, 4.0, ONE)))
    season = over_hours(flow, 20.0, outdoor)
    assert season.hours == 8760
    assert season.mean == pytest.approx(flow.mean())
    assert season.greatest == flow.max()


def test_heat_and_gain_are_kept_apart() -> None:
    """One cold and one hot hour at 0.1 m³/s carry their own heat, neither takes from the other."""
    season = over_hours([0.1, 0.1], 20.0, [0.0, 30.0])
    assert season.heat == pytest.approx(AIR_HEAT * 0.1 * 20.0 * 3600)
    assert season.gain == pytest.approx(AIR_HEAT * 0.1 * 10.0 * 3600)


def test_heat_and_cold_outside_draw_alike() -> None:
    """The models look at the size of the temperature difference, not its sign."""
    for flow in (
        lambda d: basic_flow(0.03, d, 3.0, ONE),
        lambda d: enhanced_flow(0.05, 0.65, d, 3.0, ONE),
    ):
        assert float(flow(12.0)) == float(flow(-12.0))


def test_a_still_day_without_difference_brings_no_air() -> None:
    """Nothing drives the air then: why leaks are no ventilation."""
    assert float(basic_flow(0.03, 0.0, 0.0, ONE)) == 0.0
    assert float(enhanced_flow(0.05, 0.65, 0.0, 0.0, ONE)) == 0.0


@pytest.mark.parametrize("shelter", [2, 3, 4, 5])
@pytest.mark.parametrize("storeys", [1, 2, 3])
@pytest.mark.parametrize("flue", [False, True])
def test_shelter_holds_the_wind_off(shelter: int, storeys: int, *, flue: bool) -> None:
    """The more sheltered, the less the wind brings in; a higher house draws no less."""
    here = Setting(storeys=storeys, shelter=shelter, flue=flue)
    open_ = Setting(storeys=storeys, shelter=shelter - 1, flue=flue)
    assert basic_flow(0.03, 0.0, 5.0, here) < basic_flow(0.03, 0.0, 5.0, open_)
    assert enhanced_flow(0.05, 0.65, 0.0, 5.0, here) < enhanced_flow(0.05, 0.65, 0.0, 5.0, open_)


@pytest.mark.parametrize(
    ("setting", "words"),
    [(Setting(storeys=4), "4 storeys"), (Setting(storeys=1, shelter=9), "shelter class 9")],
)
def test_what_the_tables_do_not_hold_is_told(setting: Setting, words: str) -> None:
    """Storeys and shelter classes outside the tables are refused."""
    with pytest.raises(SeamwrightError, match=words):
        basic_flow(0.03, 10.0, 1.0, setting)
    with pytest.raises(SeamwrightError, match=words):
        enhanced_flow(0.05, 0.65, 10.0, 1.0, setting)


def test_a_year_is_the_sum_of_its_hours_by_both_models() -> None:
    """A constant year gives each model's flow and its heat for every hour."""
    hours = np.ones(48)
    basic, enhanced = infiltration_year(0.2, ONE, indoor=20.0, outdoor=0 * hours, wind=4 * hours)
    area = area_of_flow(0.2, 50.0)
    assert basic.mean == pytest.approx(float(basic_flow(area, 20.0, 4.0, ONE)))
    steady = float(enhanced_flow(0.2 / 50**0.65, 0.65, 20.0, 4.0, ONE))
    assert enhanced.mean == pytest.approx(steady)
    assert enhanced.heat == pytest.approx(AIR_HEAT * steady * 20.0 * 48 * 3600)


def test_both_models_agree_within_a_half() -> None:
    """Two models of one house on a breezy winter day are of one size."""
    basic, enhanced = infiltration_year(0.2, ONE, indoor=20.0, outdoor=[0.0], wind=[4.0])
    assert basic.mean == pytest.approx(enhanced.mean, rel=0.5)


@pytest.mark.parametrize(
    ("outdoor", "wind", "words"),
    [
        ([1.0, 2.0], [3.0], "2 temperatures and 1 winds"),
        ([1.0, float("nan")], [3.0, 3.0], "no temperature or wind"),
    ],
)
def test_weather_with_holes_is_refused(outdoor, wind, words: str) -> None:
    """Hours that lack something are told, not guessed."""
    with pytest.raises(SeamwrightError, match=words):
        infiltration_year(0.2, ONE, indoor=20.0, outdoor=outdoor, wind=wind)


def test_no_hours_is_no_season() -> None:
    """An empty year is a mistake."""
    with pytest.raises(SeamwrightError, match="no hours"):
        over_hours([], 20.0, [])
