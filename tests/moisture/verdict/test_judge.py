"""Judging one place."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from seamwright.errors import InputError, NoSolutionError
from seamwright.moisture.transient.types import Balance, Run
from seamwright.moisture.verdict.judge import judge, judge_run, margin_of, worst
from seamwright.moisture.verdict.types import Limits, Series

YEAR = 8760


def steady(
    humidity: float, moisture: float | None, years: int = 1, temperature: float = 20.0
) -> Series:
    """Return a place that never changes."""
    hours = years * YEAR
    return Series(
        name="outer skin",
        temperature=np.full(hours, temperature),
        humidity=np.full(hours, humidity),
        moisture=None if moisture is None else np.full(hours, moisture),
    )


def drifting(rise: float, years: int = 3) -> Series:
    """Return a place whose wood gains so much a year, from 14 %."""
    hours = years * YEAR
    moisture = 0.14 + rise * np.arange(hours) / YEAR
    return replace(steady(0.6, 0.1, years), moisture=moisture)


def run_of(series: Series, *, converged: bool = True) -> Run:
    """Return a run with one probe that went as the series."""
    balance = Balance(
        heat_in=0, heat_out=0, heat_stored=0, heat_error=0,
        water_in=0, water_out=0, water_stored=0, water_error=0,
    )  # fmt: skip
    return Run(
        temperature=series.temperature[:, None], humidity=series.humidity[:, None],
        water=series.moisture[:, None], end_temperature=np.zeros(1), end_humidity=np.zeros(1),
        balance=balance, steps=len(series.temperature), converged=converged,
        advice="halve the step",
    )  # fmt: skip


def test_a_dry_place_is_within_and_says_what_comes_nearest() -> None:
    """At 60 % and 11 % nothing grows, and the wettest month binds."""
    verdict = judge(steady(0.6, 0.11))
    assert verdict.within
    assert verdict.binding == "wettest_month"
    assert verdict.margin == pytest.approx((0.20 - 0.11) / 0.20)
    assert verdict.criterion("mold").value == 0.0
    assert verdict.criterion("decay").margin == 1.0


def test_a_wet_place_fails_by_mold_and_decay_and_moisture() -> None:
    """At 98 % and 30 % every criterion is passed over and decay has cost mass."""
    verdict = judge(steady(0.98, 0.30))
    assert not verdict.within
    assert {c.name for c in verdict.criteria if c.margin < 0.0} == {
        "mold", "decay", "wettest_month", "wettest_week",
    }  # fmt: skip
    assert verdict.mass_loss > 10.0
    assert verdict.criterion("decay").value == pytest.approx(1.0 + verdict.mass_loss)


def test_a_margin_is_a_share_inside_and_bounded_outside() -> None:
    """Half the limit is 0.5, twice it -0.5; it never passes -1; at the limit it has one slope."""
    assert [margin_of(v, 2.0) for v in (0.0, 1.0, 2.0, 4.0)] == [1.0, 0.5, 0.0, -0.5]
    assert margin_of(1e9, 2.0) == pytest.approx(-1.0)
    assert margin_of(2.001, 2.0) == pytest.approx(-margin_of(1.999, 2.0), rel=1e-3)


def test_hours_over_each_moisture_content_are_counted() -> None:
    """Hours over 19 and 28 % in all and in the worst year, over a limit and not on it."""
    series = steady(0.6, 0.10, years=2)
    moisture = series.moisture.copy()
    moisture[100:300] = 0.30
    moisture[YEAR + 500 : YEAR + 1000] = 0.195
    counted = {
        limit: (total, year)
        for limit, total, year in judge(replace(series, moisture=moisture)).hours_over
    }
    assert counted[0.28] == (200, 200)
    assert counted[0.19] == (700, 500)


def test_a_short_soaking_counts_by_the_week_and_a_long_one_by_the_month() -> None:
    """A wet day is forgiven, a wet week is not."""
    series = steady(0.6, 0.10)
    for hours, within in ((24, True), (168, False)):
        moisture = series.moisture.copy()
        moisture[4000 : 4000 + hours] = 0.32
        verdict = judge(replace(series, moisture=moisture))
        assert verdict.within is within
        assert verdict.criterion("wettest_week").season == "summer"


def test_a_place_that_gets_wetter_every_year_is_held_to_the_years_ahead() -> None:
    """16 % after three years at 1 % a year fails for what five more would bring."""
    verdict = judge(drifting(0.01))
    assert verdict.trend == "wetting"
    assert verdict.yearly_change == pytest.approx(0.01)
    assert verdict.binding == "month_ahead"
    assert verdict.criterion("wettest_month").margin > 0.0 > verdict.margin
    assert judge(drifting(0.01), Limits(years_ahead=None)).within


def test_a_mold_index_that_climbs_every_year_is_told() -> None:
    """With little decline each damp winter adds to the last; with the decline of pine none does."""
    hours = np.arange(3 * YEAR)
    humidity = 0.70 + 0.26 * np.cos(hours * 2 * np.pi / YEAR)
    series = replace(steady(0.6, None, 3, 8.0), humidity=humidity)
    assert judge(series, Limits(decline=0.1)).mold_rise > 0.3
    assert judge(series, Limits(decline=1.0)).mold_rise == pytest.approx(0.0, abs=1e-6)
    assert judge(steady(0.96, None, 1, 8.0)).mold_rise == 0.0


def test_trends() -> None:
    """A year that repeats, one that dries, and a run too short to say."""
    assert judge(drifting(0.0)).trend == "repeating"
    assert judge(drifting(-0.02)).trend == "drying"
    assert judge(steady(0.6, 0.1)).trend == "unknown"


def test_what_is_not_wood_is_judged_for_mold_alone() -> None:
    """Foam does not rot."""
    verdict = judge(steady(0.98, None))
    assert [c.name for c in verdict.criteria] == ["mold"]
    assert verdict.hours_over == ()


def test_the_criterion_of_2009_is_there_when_asked_for() -> None:
    """A 30-day mean of 85 % at 20 °C breaks it, at 3 °C it does not count."""
    limits = Limits(surface_humidity=0.80)
    warm = judge(steady(0.85, None), limits).criterion("surface_humidity")
    cold = judge(steady(0.85, None, temperature=3.0), limits).criterion("surface_humidity")
    assert warm.value == pytest.approx(0.85)
    assert warm.source == "ashrae-160"
    assert cold.value == 0.0


def test_a_limit_of_the_users_own_says_so() -> None:
    """A changed limit no longer cites the standard."""
    verdict = judge(steady(0.6, 0.11), Limits(month=0.18))
    assert verdict.criterion("wettest_month").source == "set by the user"
    assert verdict.criterion("mold").source == "ashrae-160"


def test_a_run_gives_one_verdict_a_probe_and_the_worst_is_found() -> None:
    """Names go with the probes; a place that is not wood has no moisture judged."""
    run = run_of(steady(0.6, 0.11))
    assert [v.place for v in judge_run(run, [("skin", True)])] == ["skin"]
    assert judge_run(run, [("foam", False)])[0].binding == "mold"
    both = [judge(steady(0.6, 0.11)), judge(steady(0.98, 0.30))]
    assert worst(both) is both[1]


def test_a_run_that_did_not_converge_is_not_judged() -> None:
    """Nothing is said of figures that must not be used; the advice is passed on."""
    with pytest.raises(NoSolutionError, match=r"did not converge.*halve the step"):
        judge_run(run_of(steady(0.6, 0.11), converged=False), [("skin", True)])


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"humidity": np.full(YEAR, 60.0)}, "relative humidity is not within"),
        ({"humidity": np.full(YEAR, np.nan)}, "relative humidity is not within"),
        ({"temperature": np.full(YEAR, 293.15)}, "temperature is not within"),
        ({"moisture": np.full(YEAR, 14.0)}, "moisture is not within"),
        ({"humidity": np.full(10, 0.5)}, "has 10 hours where its temperature has 8760"),
    ],
)
def test_what_no_run_can_give_is_refused(change: dict[str, np.ndarray], told: str) -> None:
    """Percent for parts, kelvin for °C, gaps and unequal lengths are told."""
    with pytest.raises(InputError, match=told):
        judge(replace(steady(0.6, 0.1), **change))


@pytest.mark.parametrize(
    ("limits", "told"),
    [
        (Limits(mold=0.0), "limit of mold, 0, is not above zero"),
        (Limits(month=-0.2, week=0.0), "limit of month"),
        (Limits(decline=10.0), "decline of mold, 10, is not within 0 to 1"),
    ],
)
def test_limits_that_cannot_be_kept_are_refused(limits: Limits, told: str) -> None:
    """A limit of nothing cannot be stayed below, and mold declines at most as on pine."""
    with pytest.raises(InputError, match=told):
        judge(steady(0.6, 0.1), limits)


def test_no_limits_is_no_verdict() -> None:
    """With every limit left out there is nothing to judge by."""
    with pytest.raises(InputError, match="set at least one limit"):
        judge(steady(0.6, None), Limits(mold=None))
