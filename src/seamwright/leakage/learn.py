"""Learning from real tests: what finished houses say about the table, the crews and the kinds.

The logarithm of a house's flow is, near enough, a constant plus a weighted sum of the factors its
places share (overall, crew, kind) plus scatter. With normal factors that is the linear normal
model, so that what all tests say together has a closed form and does not depend on their order.
Nothing is overwritten: the history holds every test, and taking one out gives back what was known
without it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from seamwright.errors import SeamwrightError
from seamwright.leakage.forecast_types import Anchor
from seamwright.leakage.priors import Spreads

Floats = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True, slots=True)
class HouseTest:
    """One fan test of a finished house, with the anchor of the forecast it is compared with.

    `flow_50` in m³/s; `log_error` is the standard deviation of the logarithm of the measured flow.
    """

    id: str
    flow_50: float
    log_error: float
    anchor: Anchor
    note: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Knowledge:
    """What is known about the factors: normal in logarithms, those not named as `spreads` has it.

    `mean` and `covariance` belong to `names`; `tests` are the ids it was learned from.
    """

    spreads: Spreads = field(default_factory=Spreads)
    names: tuple[str, ...] = ()
    mean: tuple[float, ...] = ()
    covariance: tuple[tuple[float, ...], ...] = ()
    tests: tuple[str, ...] = ()


def with_test(history: Sequence[HouseTest], test: HouseTest) -> tuple[HouseTest, ...]:
    """Return the history with one more test.

    Raises SeamwrightError where a test of that id is there already, or its flow has no logarithm.
    """
    if any(old.id == test.id for old in history):
        raise SeamwrightError(
            f"test {test.id} is in the history already; take it out first or give it another id"
        )
    if not test.flow_50 > 0.0:
        raise SeamwrightError(
            f"test {test.id}: a flow of {test.flow_50 * 3600:g} m³/h at 50 Pa is not above zero; "
            "check the reading"
        )
    return (*history, test)


def without_test(history: Sequence[HouseTest], test_id: str) -> tuple[HouseTest, ...]:
    """Return the history without one test; what it taught goes with it.

    Raises SeamwrightError where no test has that id.
    """
    left = tuple(test for test in history if test.id != test_id)
    if len(left) == len(history):
        raise SeamwrightError(f"there is no test {test_id} in the history; check its id")
    return left


def learn(history: Sequence[HouseTest], spreads: Spreads | None = None) -> Knowledge:
    r"""Return what the tests of a history say together.

    .. math:: \Sigma^{-1} = \Sigma_0^{-1} + H^T R^{-1} H,\quad
       \mu = \Sigma H^T R^{-1} (y - c)

    with a row of `H` per test (the weights of its anchor), `y` the logarithm of the measured flow,
    `c` that of the anchor and `R` the squares of scatter and error. An empty history gives back the
    spreads alone.

    Source: the normal linear model with known variances, as in A. Gelman et al., Bayesian Data
    Analysis, 3rd edition, section 14.8 (``from memory``); checked against drawing and weighting.
    """
    base = Spreads() if spreads is None else spreads
    if not history:
        return Knowledge(spreads=base)
    names = tuple(sorted({name for test in history for name, _ in test.anchor.weights}))
    place = {name: index for index, name in enumerate(names)}
    h = np.zeros((len(history), len(names)))
    for row, test in enumerate(history):
        for name, weight in test.anchor.weights:
            h[row, place[name]] = weight
    gap = np.array([np.log(test.flow_50) - test.anchor.log_flow for test in history])
    noise = np.array([test.anchor.scatter**2 + test.log_error**2 for test in history])
    before = np.diag([base_variance(base, name) for name in names])
    gain = np.linalg.solve(h @ before @ h.T + np.diag(noise), h @ before).T
    after = before - gain @ h @ before
    after = (after + after.T) / 2
    return Knowledge(
        spreads=base,
        names=names,
        mean=tuple(float(m) for m in gain @ gap),
        covariance=tuple(tuple(float(c) for c in row) for row in after),
        tests=tuple(test.id for test in history),
    )


def base_variance(spreads: Spreads, name: str) -> float:
    """Return the variance of a factor that no test has spoken about, by its name."""
    if name == "overall":
        return spreads.overall**2
    if name.startswith("crew"):
        return spreads.crew**2
    return spreads.kind**2


def joint_normal(knowledge: Knowledge, names: Sequence[str]) -> tuple[Floats, Floats]:
    """Return the mean and a root of the covariance (``root @ root.T``) of the named factors."""
    mean = np.zeros(len(names))
    covariance = np.diag([base_variance(knowledge.spreads, name) for name in names])
    known = {name: index for index, name in enumerate(knowledge.names)}
    here = [index for index, name in enumerate(names) if name in known]
    there = [known[names[index]] for index in here]
    if here:
        mean[here] = np.array(knowledge.mean)[there]
        covariance[np.ix_(here, here)] = np.array(knowledge.covariance)[np.ix_(there, there)]
    if not np.any(covariance - np.diag(np.diag(covariance))):
        return mean, np.sqrt(covariance)
    values, vectors = np.linalg.eigh(covariance)
    root = vectors * np.sqrt(np.clip(values, 0.0, None))
    return mean, root @ vectors.T
