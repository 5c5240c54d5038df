"""Judge a place of a joint: every criterion's value, limit and margin, and when it was worst."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from seamwright.errors import InputError, NoSolutionError, Problem
from seamwright.moisture.transient.types import Run
from seamwright.moisture.types import Floats
from seamwright.moisture.verdict.decay import wood_decay
from seamwright.moisture.verdict.means import (
    hours_over,
    season_of,
    trend_of,
    warm_humidity,
    worst_mean,
    yearly_change,
)
from seamwright.moisture.verdict.mold import mold_index
from seamwright.moisture.verdict.types import (
    HOURS_OF_YEAR,
    LIMIT_SOURCES,
    OWN_LIMIT,
    STRICT_HUMIDITY,
    Criterion,
    CriterionName,
    Limits,
    Series,
    Verdict,
)

_TITLES: dict[CriterionName, tuple[str, str]] = {
    "mold": ("mold index", "-"),
    "decay": ("activation of decay, plus mass lost in %", "-"),
    "wettest_month": ("moisture of the wood, wettest 30 days", "kg/kg"),
    "wettest_week": ("moisture of the wood, wettest 7 days", "kg/kg"),
    "month_ahead": ("moisture of the wettest 30 days, the yearly rise gone on", "kg/kg"),
    "surface_humidity": ("relative humidity, wettest 30 days at 5 to 40 °C", "-"),
}
_MONTH, _WEEK = 720, 168
_AS_GOOD_AS = 0.005
_DEFAULTS = Limits()
_DEFAULT_OF: dict[CriterionName, float | None] = {
    "mold": _DEFAULTS.mold,
    "decay": _DEFAULTS.decay,
    "wettest_month": _DEFAULTS.month,
    "wettest_week": _DEFAULTS.week,
    "month_ahead": _DEFAULTS.month,
    "surface_humidity": STRICT_HUMIDITY,
}


def judge(series: Series, limits: Limits = _DEFAULTS) -> Verdict:
    """Return the verdict on one place.

    Decay and moisture content are judged where the place is wood; a yearly rise where there are two
    years or more.

    Raises
    ------
    InputError
        When the series differ in length, are empty, or hold what no run can give.
    """
    _check(series)
    _check_limits(series, limits)
    found: list[tuple[CriterionName, float, int, float]] = []
    mold, _ = mold_index(series.temperature, series.humidity, limits.mold_class, limits.decline)
    if limits.mold is not None:
        found.append(("mold", *_peak(mold), limits.mold))
    if limits.surface_humidity is not None:
        humid = warm_humidity(series.temperature, series.humidity)
        found.append(("surface_humidity", *humid, limits.surface_humidity))
    lost = 0.0
    if series.moisture is not None:
        activation, loss, decay = wood_decay(series.temperature, series.humidity)
        lost = decay.loss
        if limits.decay is not None:
            found.append(("decay", *_peak(activation + loss), limits.decay))
        found += _moisture(series, limits)
    if not found:
        raise InputError([_problem(series, "no limit applies to it", "set at least one limit")])
    return _verdict(series, limits, [_criterion(series, *row) for row in found], mold, lost)


def judge_run(
    run: Run,
    places: Sequence[tuple[str, bool]],
    limits: Limits = _DEFAULTS,
    *,
    start: int = 0,
    south: bool = False,
) -> tuple[Verdict, ...]:
    """Return a verdict per probe of a run. `places` are each probe's name and whether it is wood.

    Raises
    ------
    NoSolutionError
        When the run did not converge: its figures must not be used.
    """
    if not run.converged:
        told = "the run did not converge, so nothing can be said of how dry the joint stays"
        raise NoSolutionError(f"{told}; {run.advice}" if run.advice else told)
    return tuple(
        judge(
            Series(
                name=name, start=start, south=south, temperature=run.temperature[:, i],
                humidity=run.humidity[:, i], moisture=run.water[:, i] if wood else None,
            ),
            limits,
        )
        for i, (name, wood) in enumerate(places)
    )  # fmt: skip


def margin_of(value: float, limit: float) -> float:
    """Return how far a value lies below its limit, from -1 to 1 and above zero inside. [-]

    Inside it is the share of the limit still in hand; outside, one less the limit over the value,
    below zero: twice the limit is -0.5. The two meet in value and slope, and no criterion drowns
    the others. A limit above zero.

    >>> margin_of(15.0, 20.0), margin_of(40.0, 20.0)
    (0.25, -0.5)
    """
    return (limit - value) / max(limit, value)


def worst(verdicts: Iterable[Verdict]) -> Verdict:
    """Return the verdict with the least margin; of equal ones the first."""
    return min(verdicts, key=lambda verdict: verdict.margin)


def _moisture(series: Series, limits: Limits) -> list[tuple[CriterionName, float, int, float]]:
    water = series.moisture
    found: list[tuple[CriterionName, float, int, float]] = []
    if water is None:
        return found
    if limits.month is not None:
        found.append(("wettest_month", *worst_mean(water, _MONTH), limits.month))
    if limits.week is not None:
        found.append(("wettest_week", *worst_mean(water, _WEEK), limits.week))
    change = yearly_change(water)
    if limits.month is not None and limits.years_ahead is not None and change is not None:
        last, at = worst_mean(water[-HOURS_OF_YEAR:], _MONTH)
        ahead = last + limits.years_ahead * max(change, 0.0)
        found.append(("month_ahead", ahead, len(water) - HOURS_OF_YEAR + at, limits.month))
    return found


def _peak(values: Floats) -> tuple[float, int]:
    at = int(np.argmax(values))
    return float(values[at]), at


def _criterion(
    series: Series, name: CriterionName, value: float, hour: int, limit: float
) -> Criterion:
    title, unit = _TITLES[name]
    own = limit != _DEFAULT_OF[name]
    return Criterion(
        name=name, title=title, value=value, limit=limit, unit=unit,
        margin=margin_of(value, limit), hour=hour,
        season=season_of(hour, series.start, south=series.south),
        source=OWN_LIMIT if own else LIMIT_SOURCES[name],
    )  # fmt: skip


def _verdict(
    series: Series, limits: Limits, criteria: list[Criterion], mold: Floats, lost: float
) -> Verdict:
    lowest = min(criterion.margin for criterion in criteria)
    least = next(c for c in criteria if c.margin <= lowest + _AS_GOOD_AS)
    water = series.moisture
    change = yearly_change(series.humidity if water is None else water)
    counted = () if water is None else tuple((m, *hours_over(water, m)) for m in limits.count_over)
    return Verdict(
        place=series.name, criteria=tuple(criteria), margin=lowest, binding=least.name,
        trend=trend_of(change), yearly_change=0.0 if change is None else change,
        hours_over=counted, mold_end=float(mold[-1]), mold_rise=_peak_rise(mold), mass_loss=lost,
    )  # fmt: skip


def _peak_rise(mold: Floats) -> float:
    """Return the peak of the last year less that of the year before, 0 under two years."""
    if len(mold) < 2 * HOURS_OF_YEAR:
        return 0.0
    before = mold[-2 * HOURS_OF_YEAR : -HOURS_OF_YEAR]
    return float(mold[-HOURS_OF_YEAR:].max() - before.max())


def _check(series: Series) -> None:
    """Refuse what no run can give."""
    rows = [("temperature", series.temperature, -90.0, 120.0, "°C"),
            ("relative humidity", series.humidity, 0.0, 1.05, "")]  # fmt: skip
    if series.moisture is not None:
        rows.append(("moisture", series.moisture, 0.0, 10.0, "kg/kg"))
    hours = len(series.temperature)
    problems = []
    for what, values, low, high, unit in rows:
        if len(values) != hours or hours == 0:
            told = f"its {what} has {len(values)} hours where its temperature has {hours}"
            problems.append(_problem(series, told, "give each of them once an hour"))
        elif not np.all((values >= low) & (values <= high)):
            told = f"its {what} is not within {low:g} to {high:g} {unit}".rstrip() + " throughout"
            problems.append(_problem(series, told, "check the unit and the run"))
    if problems:
        raise InputError(problems)


def _check_limits(series: Series, limits: Limits) -> None:
    """Refuse limits that leave no way to stay below them."""
    rows = (("mold", limits.mold), ("decay", limits.decay), ("month", limits.month),
            ("week", limits.week), ("surface humidity", limits.surface_humidity))  # fmt: skip
    problems = [
        _problem(
            series, f"the limit of {what}, {value:g}, is not above zero", "raise it or drop it"
        )
        for what, value in rows
        if value is not None and not value > 0.0
    ]
    if not 0.0 <= limits.decline <= 1.0:
        told = f"the decline of mold, {limits.decline:g}, is not within 0 to 1"
        problems.append(_problem(series, told, "take the share of the decline on pine"))
    if problems:
        raise InputError(problems)


def _problem(series: Series, what: str, remedy: str) -> Problem:
    return Problem(subject=series.name, sentence=f"place {series.name}: {what}", remedy=remedy)
