"""What each place leaks now, given the records, the looks, the mends and the fan tests.

Given the crews' factors every place's looks are weighed exactly on a grid and the fan tests by the
saddlepoint (`posterior_tilt`); the factors are integrated out at points put where they are likely.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.polynomial.hermite_e import hermegauss
from scipy.interpolate import CubicSpline
from scipy.special import ndtri
from scipy.stats.qmc import Sobol

from seamwright.leakage.evidence import Floats
from seamwright.leakage.hunt_grid import Grid, evidence
from seamwright.leakage.hunt_types import FanTest, HuntModel
from seamwright.leakage.posterior_tilt import Block, Sums, Tilted, given_tests, meet

_COARSE, _FINE, _POINTS = 9, 7, 9
_REACH = 4.0
"""Solver setting: tries of one factor for all crews, over so many standard deviations each way,
then finer around the best; points of integration."""
_LOG2_POINTS, _WIDER = 5, 1.2
"""Solver setting: Sobol points, as a power of 2, and how much wider than the peak they lie."""
_PRODUCT = {2: 5, 3: 3}
"""Points along each main direction of two or three crews; more crews take Sobol points. Solver
setting, by the comparison with 512 points in docs/decisions/hunt-model.md."""
_STEP, _FARTHEST, _PEAK_STEPS = 0.1, 0.5, 4
_NARROWEST, _FLATTEST = 0.02, 0.25
"""Solver setting: step of the differences, farthest move and number of moves to the likeliest
factors, all in the logarithm; least width of the factor's law as a part of what it was before, and
least curvature as a part of that before."""
_NEGLIGIBLE = 3e-3
"""Solver setting: points of less weight, as a part of the greatest, are left out."""
_SURELY = 6.0
"""Standard errors beyond a test that no single place can leak, since no other leaks less than 0.
Solver setting."""
_IMPOSSIBLE = -1e3
_LEAST_VARIANCE = 1e-12
"""Solver setting: the logarithm of a chance of nothing; what keeps a covariance invertible."""
_ROUGHLY = 1e-2
"""Newton decrement at which a factor's density is known well enough, corrected to second order.
Solver setting."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Piece:
    """One point of the integration over the crews' factors: its weight (they sum to 1), ln factors
    (K,), ln leak (R, G) and chances (R, G) of each row; mean and variance of the house's leak now
    [m³/s].
    """

    weight: float
    factors: Floats
    size: Floats
    chance: Floats
    mean_now: float
    variance_now: float


def known_sums(tests: tuple[FanTest, ...], model: HuntModel) -> Sums:
    """Return what the tests say of the sums: flows [m³/s] and covariance of their errors.

    A 95 % interval is 2 × 1.96 standard errors wide; errors of two tests share
    `model.test_correlation`.
    """
    flow = np.array([test.flow for test in tests], dtype=float)
    error = np.array([(test.high - test.low) / 3.92 for test in tests], dtype=float)
    error = np.maximum(error, model.least_test_error * flow)
    shared = model.test_correlation
    cov = shared * np.outer(error, error) + (1.0 - shared) * np.diag(error**2)
    return Sums(flow=flow, error=cov)


def weigh(grid: Grid, model: HuntModel) -> tuple[Piece, ...]:
    """Return the house weighed by all that is known, at every point of integration."""
    trial = _Trial(grid, known_sums(grid.tests, model), model)
    made = []
    for weight, factors in _points(trial, len(grid.crews)):
        block = trial.block(factors)
        found, _ = meet(block, trial.sums, trial.tilt_at(factors))
        mean, variance = _now(grid, block, found, trial.sums)
        piece = Piece(
            weight=weight,
            factors=factors,
            size=grid.size + np.append(factors, 0.0)[grid.crew][:, None],
            chance=given_tests(block, found, trial.sums),
            mean_now=mean,
            variance_now=variance,
        )
        made.append(piece)
    return tuple(made)


def crew_covariance(model: HuntModel, crews: tuple[str, ...]) -> Floats:
    """Return the covariance (K, K) of the crews' ln factors before the hunt. [-]"""
    covariance = np.eye(len(crews)) * model.crew_sigma**2
    law = model.crew_law
    if law is not None:
        here = [k for k, crew in enumerate(crews) if crew in law.crews]
        there = [law.crews.index(crews[k]) for k in here]
        known = np.array(law.covariance).reshape(len(law.crews), len(law.crews))
        covariance[np.ix_(here, here)] = known[np.ix_(there, there)]
    return covariance


class _Trial:
    """The density of the crews' factors, with the tilt found at each tried point."""

    def __init__(self, grid: Grid, sums: Sums, model: HuntModel) -> None:
        self.grid, self.sums, self.model = grid, sums, model
        covariance = crew_covariance(model, grid.crews)
        self.sigma = float(np.sqrt(np.diag(covariance).max(initial=0.0)))
        self.precision = np.linalg.inv(covariance + np.eye(len(covariance)) * _LEAST_VARIANCE)
        self.tried: dict[tuple[float, ...], tuple[float, Floats]] = {}
        self.tilt = np.zeros(len(sums.flow))
        self.leak = np.exp(grid.size)
        new = np.concatenate(([True], grid.place[1:] != grid.place[:-1]))
        self.starts = np.flatnonzero(new)
        with np.errstate(divide="ignore"):
            bounds = (sums.flow + _SURELY * np.sqrt(np.diag(sums.error))) / grid.weights
        self.most = bounds.min(axis=1, initial=np.inf)

    def block(self, factors: Floats) -> Block:
        """Return the rows with looks weighed in, at these ln factors (K,)."""
        own = np.append(factors, 0.0)[self.grid.crew]
        leak = self.leak * np.exp(own)[:, None]
        log_mass = self.grid.log_mass + evidence(self.grid, own, self.model)
        for row in np.flatnonzero(leak[:, -1] > self.most):
            first = max(int(np.searchsorted(leak[row], self.most[row], side="right")), 1)
            leak[row, first:] = leak[row, 0]
            log_mass[row, first:] = _IMPOSSIBLE
        return Block(
            place=self.grid.place,
            starts=self.starts,
            leak=leak,
            log_mass=log_mass,
            weights=self.grid.weights,
        )

    def tilt_at(self, factors: Floats) -> Floats:
        """Return the tilt that meets the tests at these factors."""
        self.log_chance(factors)
        return self.tried[tuple(factors.tolist())][1]

    def log_chance(self, factors: Floats) -> float:
        """Return ln density of the factors given everything, up to a constant."""
        key = tuple(factors.tolist())
        if key not in self.tried:
            found, value = meet(self.block(factors), self.sums, self.tilt, near=_ROUGHLY)
            self.tilt = found.tilt
            prior = -0.5 * float(factors @ self.precision @ factors)
            self.tried[key] = (value + prior, found.tilt)
        return self.tried[key][0]


def _points(trial: _Trial, crews: int) -> list[tuple[float, Floats]]:
    """Return points of integration over the factors with weights that sum to 1."""
    if crews == 0 or trial.sigma <= 0.0:
        return [(1.0, np.zeros(crews))]
    center, width = _together(trial, crews, trial.sigma)
    if crews == 1:
        nodes, share = hermegauss(_POINTS)
        places = [np.array([center + width * node]) for node in nodes]
        proposed = np.log(share) + 0.5 * nodes**2
    else:
        middle, spread = _peak(trial, np.full(crews, center))
        normal, proposed = _product(crews) if crews in _PRODUCT else _scattered(crews)
        places = [middle + spread @ draw for draw in normal]
    logs = np.array([trial.log_chance(place) for place in places]) + proposed
    weight = np.exp(logs - logs.max())
    weight[weight < _NEGLIGIBLE] = 0.0
    weight /= weight.sum()
    return [(float(w), place) for w, place in zip(weight, places, strict=True) if w > 0.0]


def _product(crews: int) -> tuple[Floats, Floats]:
    """Return points (P, K) of the product rule of normal laws, and ln weight over density."""
    nodes, share = hermegauss(_PRODUCT[crews])
    logs = np.log(share) + 0.5 * nodes**2
    points = np.stack(np.meshgrid(*(nodes,) * crews), axis=-1).reshape(-1, crews)
    return points, np.stack(np.meshgrid(*(logs,) * crews), axis=-1).reshape(-1, crews).sum(axis=1)


def _scattered(crews: int) -> tuple[Floats, Floats]:
    """Return Sobol points (P, K) of a normal law drawn wider, and minus ln of its density."""
    uniform = Sobol(crews, scramble=False).random_base2(_LOG2_POINTS)
    normal = ndtri(uniform + 0.5 / len(uniform)) * _WIDER
    return normal, 0.5 * np.sum((normal / _WIDER) ** 2, axis=1)


def _together(trial: _Trial, crews: int, sigma: float) -> tuple[float, float]:
    """Return where one factor for all crews is likely: center and width, from two rounds."""

    def log_chance(u: float) -> float:
        return trial.log_chance(np.full(crews, u))

    coarse = [float(u) for u in np.linspace(-_REACH, _REACH, _COARSE) * sigma]
    best = max(coarse, key=log_chance)
    step = coarse[1] - coarse[0]
    fine = [float(best + step * k) for k in np.linspace(-1.0, 1.0, _FINE)]
    known = sorted({*coarse, *fine})
    values = np.array([log_chance(u) for u in known])
    dense = np.linspace(known[0], known[-1], 2001)
    curve = CubicSpline(known, values)(dense)
    chance = np.exp(curve - curve.max())
    chance /= chance.sum()
    center = float(chance @ dense)
    width = float(np.sqrt(chance @ (dense - center) ** 2))
    return center, max(width, _NARROWEST * sigma)


def _peak(trial: _Trial, start: Floats) -> tuple[Floats, Floats]:
    """Return the likeliest factors (K,) and a root (K, K) of their covariance near there.

    A parabola is laid through a star of points around, its top is the next center.
    """
    best = start
    count = len(best)
    least = _FLATTEST / trial.sigma**2
    vectors, values = np.eye(count), np.full(count, least)
    for _ in range(_PEAK_STEPS):
        slope, curve = _parabola(trial, best)
        values, vectors = np.linalg.eigh(curve)
        values = np.maximum(values, least)
        step = vectors @ ((vectors.T @ slope) / values)
        best = best + np.clip(step, -_FARTHEST, _FARTHEST)
        if float(np.max(np.abs(step))) < _STEP / 4:
            break
    return best, vectors / np.sqrt(values)


def _parabola(trial: _Trial, center: Floats) -> tuple[Floats, Floats]:
    """Return slope (K,) and downward curvature (K, K) of ln density by differences."""
    count = len(center)
    unit = np.eye(count) * _STEP
    middle = trial.log_chance(center)
    above = [trial.log_chance(center + unit[i]) for i in range(count)]
    below = [trial.log_chance(center - unit[i]) for i in range(count)]
    slope = (np.array(above) - np.array(below)) / (2.0 * _STEP)
    curve = np.diag(2.0 * middle - np.array(above) - np.array(below))
    for i in range(count):
        for j in range(i):
            corner = trial.log_chance(center + unit[i] + unit[j])
            curve[i, j] = curve[j, i] = above[i] + above[j] - middle - corner
    return slope, curve / _STEP**2


def _now(grid: Grid, block: Block, found: Tilted, sums: Sums) -> tuple[float, float]:
    """Return mean and variance of the sum of what the places leak now."""
    now = grid.now
    first = np.einsum("rg,rg->r", found.chance, block.leak)
    second = np.einsum("rg,rg,rg->r", found.chance, block.leak, block.leak)
    mean = np.add.reduceat(now * first, block.starts)
    variance = float(np.sum(np.add.reduceat(now**2 * second, block.starts) - mean**2))
    if len(sums.flow) == 0:
        return float(mean.sum()), variance
    cross = np.add.reduceat((now * second)[:, None] * block.weights, block.starts, axis=0)
    shared = (cross - mean[:, None] * found.mean).sum(axis=0)
    curve = found.cov.sum(axis=0) + sums.error
    return float(mean.sum()), max(variance - float(shared @ np.linalg.solve(curve, shared)), 0.0)
