"""What a forecast is made of: shares of kinds and places, drivers, and the budget per metre."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray
from scipy.stats import rankdata

from seamwright.leakage.combine import AREA_PRESSURE, TEST_PRESSURE
from seamwright.leakage.forecast_draws import Draws, Group
from seamwright.leakage.forecast_types import Budget, Driver, KindShare, PlaceShare
from seamwright.leakage.learn import Knowledge, joint_normal
from seamwright.leakage.priors import LeakTable

Floats = NDArray[np.float64]

_DECILE = 1.2815515655446004
"""The 90 % point of the standard normal distribution."""

_TAIL = 1.6448536269514722
"""The 95 % point of the standard normal distribution."""

_STEP = math.log(TEST_PRESSURE / AREA_PRESSURE)
"""How the logarithm of the flow at 50 Pa moves with the exponent, the area at 4 Pa given."""


def kind_shares(groups: tuple[Group, ...], parts: Floats) -> tuple[KindShare, ...]:
    """Return the flow of each kind of place, the largest first. `parts` is (groups, draws)."""
    whole = float(parts.sum(axis=0).mean())
    shares = []
    for sort, kind in dict.fromkeys((group.sort, group.kind) for group in groups):
        rows = [i for i, g in enumerate(groups) if (g.sort, g.kind) == (sort, kind)]
        flow = parts[rows].sum(axis=0)
        places = [place for i in rows for place in groups[i].places]
        low, high = np.quantile(flow, (0.05, 0.95))
        shares.append(
            KindShare(
                kind=kind,
                sort=sort,
                count=len(places),
                length=math.fsum(place.length for place in places),
                flow=float(flow.mean()),
                low=float(low),
                high=float(high),
                share=float(flow.mean()) / whole,
            )
        )
    return tuple(sorted(shares, key=lambda share: (-share.flow, share.kind)))


def place_shares(
    groups: tuple[Group, ...], knowledge: Knowledge, table: LeakTable
) -> tuple[PlaceShare, ...]:
    """Return the flow of each place, the largest first, then by id.

    Nothing is drawn: a product of lognormals is lognormal, so mean and limits are exact.
    """
    found: list[tuple[Group, int, float, float]] = []
    for group in groups:
        mean, root = joint_normal(knowledge, group.factors)
        center = float(mean.sum())
        shared = float(((root.sum(axis=0)) ** 2).sum()) + (_STEP * table.spreads.exponent) ** 2
        for index, prior in enumerate(group.priors):
            own = prior.sigma**2
            log_median = center - own / 2
            found.append((group, index, log_median, own + shared))
    flows = [g.priors[i].flow * math.exp(mid + var / 2) for g, i, mid, var in found]
    whole = math.fsum(flows)
    shares = []
    for (group, index, mid, var), flow in zip(found, flows, strict=True):
        place, median = group.places[index], group.priors[index].flow * math.exp(mid)
        swing = math.exp(_TAIL * math.sqrt(var))
        shares.append(
            PlaceShare(
                id=place.id,
                kind=place.kind,
                sort=place.sort,
                length=place.length,
                flow=flow,
                low=median / swing,
                high=median * swing,
                share=flow / whole,
            )
        )
    return tuple(sorted(shares, key=lambda share: (-share.flow, share.id)))


def drivers_of(
    drawn: Draws, parts: Floats, knowledge: Knowledge, table: LeakTable
) -> tuple[Driver, ...]:
    """Return what the uncertainty hangs on, the widest bar first.

    `parts` is the flow of each group in each draw, before the exponent. Each bar moves one factor
    to its 10 % and 90 % value and leaves the others as drawn; that a factor learned together with
    another would move with it is left out of the bar.
    """
    lift = np.exp(_STEP * (drawn.exponents - table.exponent))
    whole = parts.sum(axis=0)
    ranks = rankdata(whole * lift)
    mean, root = joint_normal(knowledge, drawn.names)
    drivers = []
    for index, name in enumerate(drawn.names):
        mine = parts[[name in group.factors for group in drawn.groups]].sum(axis=0)
        swing = _DECILE * math.sqrt(float((root[index] ** 2).sum()))
        ends = [
            float(np.median((whole - mine + mine * np.exp(end - drawn.factors[index])) * lift))
            for end in (float(mean[index]) - swing, float(mean[index]) + swing)
        ]
        share = _rank_share(drawn.factors[index], ranks)
        drivers.append(Driver(name=name, low=ends[0], high=ends[1], share=share))
    drivers.append(_exponent_driver(drawn, whole, ranks, table))
    drivers.append(_place_driver(drawn, parts, lift, ranks))
    return tuple(sorted(drivers, key=lambda driver: (driver.low - driver.high, driver.name)))


def budget_of(groups: tuple[Group, ...], parts: Floats, limit: float) -> Budget | None:
    """Return what the target leaves per metre of joint, None for a house without joints."""
    lines = np.array([group.sort == "joint" for group in groups])
    length = math.fsum(p.length for g in groups if g.sort == "joint" for p in g.places)
    if length <= 0.0:
        return None
    others = float(np.median(parts[~lines].sum(axis=0)))
    return Budget(
        joint_length=length,
        others=others,
        allowed=(limit - others) / length,
        expected=float(np.median(parts[lines].sum(axis=0))) / length,
    )


def _exponent_driver(drawn: Draws, whole: Floats, ranks: Floats, table: LeakTable) -> Driver:
    """Return the bar of the flow exponent."""
    middle, swing = float(np.median(whole)), _DECILE * _STEP * table.spreads.exponent
    return Driver(
        name="exponent",
        low=middle * math.exp(-swing),
        high=middle * math.exp(swing),
        share=_rank_share(drawn.exponents, ranks),
    )


def _place_driver(drawn: Draws, parts: Floats, lift: Floats, ranks: Floats) -> Driver:
    """Return the bar of chance from place to place, all factors as drawn."""
    even = drawn.local.mean(axis=1)
    flat = np.divide(parts, drawn.local, out=np.zeros_like(parts), where=drawn.local > 0)
    steady = even @ flat
    scatter = parts.sum(axis=0) / steady
    low, high = (float(x) for x in np.quantile(scatter, (0.1, 0.9)))
    middle = float(np.median(steady * lift))
    return Driver(
        name="places",
        low=middle * low,
        high=middle * high,
        share=_rank_share(scatter, ranks),
    )


def _rank_share(values: Floats, ranks: Floats) -> float:
    """Return the squared rank correlation with the flow."""
    if float(np.ptp(values)) == 0.0:
        return 0.0
    return float(np.corrcoef(rankdata(values), ranks)[0, 1] ** 2)
