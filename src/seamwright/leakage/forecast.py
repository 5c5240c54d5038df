"""The forecast: the fan-test result before the test, as a distribution over many drawn houses."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from seamwright.errors import SeamwrightError
from seamwright.leakage.combine import AREA_PRESSURE, TEST_PRESSURE, area_of_flow
from seamwright.leakage.forecast_draws import Draws, Group, draw_houses, group_places
from seamwright.leakage.forecast_parts import budget_of, drivers_of, kind_shares, place_shares
from seamwright.leakage.forecast_types import LEVELS, Anchor, Bar, Forecast, Spread
from seamwright.leakage.learn import Knowledge
from seamwright.leakage.places import Place
from seamwright.leakage.prior_rows import Workmanship
from seamwright.leakage.priors import DEFAULT_TABLE, LeakTable
from seamwright.leakage.types import Target

Floats = NDArray[np.float64]

BARS = 60
"""Steps of the histogram: our own choice."""

FEWEST_DRAWS = 100
"""With fewer, 5 % is less than five draws: our own choice."""


def forecast(
    places: Sequence[Place],
    *,
    workmanship: Workmanship = "ordinary",
    crews: Mapping[str, Workmanship] | None = None,
    volume: float | None = None,
    area: float | None = None,
    target: Target | None = None,
    knowledge: Knowledge | None = None,
    table: LeakTable = DEFAULT_TABLE,
    draws: int = 20_000,
    seed: int = 1,
) -> Forecast:
    r"""Return the fan-test result to expect, with its uncertainty and what it is made of.

    In every draw the flow of place i at 50 Pa is

    .. math:: q_i = m_i\, e_i\, e^{a + b_{crew} + k_{kind}}\, (50/4)^{n - n_0}

    with `m` from the table, `e` lognormal of mean 1 for the place alone, and `a`, `b`, `k` normal,
    shared by the house, a crew's places and a kind's places; `n` is the flow exponent. So places
    that one crew made, or that are built alike, are good or bad together. The flow of the house is
    the sum.

    Parameters
    ----------
    places : sequence of Place
        Every place that may leak. Their order does not matter.
    workmanship : Workmanship
        What is planned for all crews that `crews` does not name.
    crews : mapping
        Workmanship by crew.
    volume, area : float, optional
        Inner volume [m³] and area of the shell [m²]; without them no ACH50 or q50.
    target : Target, optional
        What the house must reach.
    knowledge : Knowledge, optional
        What earlier tests have taught; none: the spreads of the table.
    table : LeakTable
        Leakage by kind, seal and workmanship.
    draws, seed : int
        How many houses; the same seed gives the same forecast.

    Raises
    ------
    SeamwrightError
        Without any place that can leak, with a kind that has no row in the table, with fewer than
        100 draws, or with a volume or area that is not above zero.

    Source
    ------
    Rows: ``prior_rows``, each with its own. Sampling checked against closed-form moments and SciPy
    in ``tests/leakage/test_forecast.py``.
    """
    _check(places, draws=draws, volume=volume, area=area, table=table)
    learned = Knowledge(spreads=table.spreads) if knowledge is None else knowledge
    how = {} if crews is None else crews
    groups = group_places(places, workmanship=workmanship, crews=how, table=table)
    drawn = draw_houses(groups, learned, table, draws=draws, seed=seed)
    parts = drawn.local * np.exp(_factor_sums(drawn))
    at_area = parts.sum(axis=0)
    if not at_area.any():
        raise SeamwrightError("no place of this house has a length or seal that can leak")
    lift = (TEST_PRESSURE / AREA_PRESSURE) ** (drawn.exponents - table.exponent)
    flow = at_area * lift
    limit = target_flow(target, volume=volume, area=area)
    unit_area = area_of_flow(1.0, TEST_PRESSURE, table.exponent)
    return Forecast(
        workmanship=workmanship,
        draws=draws,
        seed=seed,
        flow_50=spread_of(flow),
        ach50=None if volume is None else spread_of(flow * 3600.0 / volume),
        q50=None if area is None else spread_of(flow * 3600.0 / area),
        ela_4=spread_of(at_area * unit_area),
        target=target,
        target_flow=limit,
        chance=None if limit is None else float(np.mean(flow <= limit)),
        by_kind=kind_shares(groups, parts * lift),
        by_place=place_shares(groups, learned, table),
        drivers=drivers_of(drawn, parts, learned, table),
        budget=None if limit is None else budget_of(groups, parts * lift, limit),
        histogram=_histogram(flow),
        anchor=_anchor(groups, drawn, parts, flow),
        crews=tuple((crew, how[crew]) for crew in sorted({p.crew for p in places} & set(how))),
    )


def target_flow(target: Target | None, *, volume: float | None, area: float | None) -> float | None:
    """Return the flow at 50 Pa that just meets a target, None where it cannot be told. [m³/s]"""
    if target is None:
        return None
    if target.measure == "flow_50":
        return target.limit
    size = volume if target.measure == "ach50" else area
    return None if size is None else target.limit * size / 3600.0


def spread_of(values: Floats) -> Spread:
    """Return mean and percentiles of draws."""
    p05, p10, p50, p90, p95 = (float(x) for x in np.quantile(values, LEVELS))
    return Spread(mean=float(values.mean()), p05=p05, p10=p10, p50=p50, p90=p90, p95=p95)


def _factor_sums(drawn: Draws) -> Floats:
    """Return the logarithm of the shared factors of each group in each draw (groups, draws)."""
    shares = np.array([[name in group.factors for name in drawn.names] for group in drawn.groups])
    return np.asarray(np.einsum("gf,fd->gd", shares.astype(float), drawn.factors))


def _histogram(flow: Floats) -> tuple[Bar, ...]:
    """Return the draws in steps of equal width from zero to the 99.5 % value."""
    top = float(np.quantile(flow, 0.995))
    counts, edges = np.histogram(flow, bins=BARS, range=(0.0, top))
    return tuple(
        Bar(low=float(low), high=float(high), part=float(count) / len(flow))
        for low, high, count in zip(edges[:-1], edges[1:], counts, strict=True)
    )


def _anchor(groups: tuple[Group, ...], drawn: Draws, parts: Floats, flow: Floats) -> Anchor:
    """Return the straight line through the logarithms: weights are the parts of the mean flow."""
    means = parts.mean(axis=1)
    weights = dict.fromkeys(drawn.names, 0.0)
    for group, mean in zip(groups, means, strict=True):
        for name in group.factors:
            weights[name] += float(mean / means.sum())
    along = np.array([weights[name] for name in drawn.names]) @ drawn.factors
    rest = np.log(flow) - along
    return Anchor(
        log_flow=float(rest.mean()),
        weights=tuple(sorted(weights.items())),
        scatter=float(rest.std()),
    )


def _check(
    places: Sequence[Place],
    *,
    draws: int,
    volume: float | None,
    area: float | None,
    table: LeakTable,
) -> None:
    if not places:
        raise SeamwrightError("a house without joints has nothing to forecast; check the plan")
    if draws < FEWEST_DRAWS:
        raise SeamwrightError(
            f"{draws} draws are too few for percentiles; take at least {FEWEST_DRAWS}"
        )
    for name, size, unit in (("volume", volume, "m³"), ("area", area, "m²")):
        if size is not None and not size > 0.0:
            raise SeamwrightError(
                f"the {name} of {size:g} {unit} is not above zero; check the plan"
            )
    known = {*table.bare_lines, *table.bare_pieces}
    strange = sorted({p.kind for p in places if p.sort != "node" and p.kind not in known})
    if strange:
        raise SeamwrightError(
            f"the leak table has no row for {', '.join(strange)}; add one, or correct the kind"
        )
