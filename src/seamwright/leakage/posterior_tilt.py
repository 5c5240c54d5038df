"""Many unknown leaks, a few known sums: the saddlepoint that ties each place to the fan tests.

Given the crew's factor, places are independent, and a fan test knows their sum. Tilting every
place's chances by exp(λ·a), a being its part in each test, with λ such that the tilted sums meet
the tests, gives the density of the sums (saddlepoint approximation) and, by the normal law for
all other places together, each place's chances given the tests.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from seamwright.leakage.evidence import Floats
from seamwright.leakage.hunt_grid import Ints

_MOST_STEPS = 40
_NEAR = 1e-5
_AGREEING = 3
"""Solver setting: most Newton steps, the decrement they end at, and rounds of the last tilt."""
_NO_SKEW, _MOST_SKEW, _OUTSIDE = 1e-3, 1.0, 1e-12
"""Skewness below which the normal law stands, and beyond which the gamma law is not trusted;
what the law gives outside its range. Solver setting."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Sums:
    """What the fan tests say about the sums: flows (T,) and covariance of their errors (T, T)."""

    flow: Floats
    error: Floats


@dataclass(frozen=True, kw_only=True, slots=True)
class Block:
    """The rows of the places of one crew, with looks weighed in.

    `leak` (R, G) in m³/s at this crew's factor; `log_mass` (R, G) with the looks; `weights` (R, T).
    """

    place: Ints
    starts: Ints
    leak: Floats
    log_mass: Floats
    weights: Floats


@dataclass(frozen=True, kw_only=True, slots=True)
class Tilted:
    """Places under a tilt: `log_norm` is the sum of ln normalizers; `chance` (R, G) sums to 1 over
    each place; `mean` (N, T) and `square` (N, T, T) are each place's moments of its parts.
    """

    tilt: Floats
    log_norm: float
    chance: Floats
    mean: Floats
    cov: Floats


def tilted(block: Block, tilt: Floats) -> Tilted:
    """Return the places of a block under a tilt λ (T,) [s/m³]."""
    exponent = block.log_mass + (block.weights @ tilt)[:, None] * block.leak
    top = np.maximum.reduceat(exponent.max(axis=1), block.starts)
    exponent -= top[block.place][:, None]
    chance = np.exp(exponent)
    norm = np.add.reduceat(chance.sum(axis=1), block.starts)
    chance /= norm[block.place][:, None]
    first = np.einsum("rg,rg->r", chance, block.leak)
    second = np.einsum("rg,rg,rg->r", chance, block.leak, block.leak)
    w = block.weights
    mean = np.add.reduceat(w * first[:, None], block.starts, axis=0)
    pairs = w[:, :, None] * w[:, None, :] * second[:, None, None]
    square = np.add.reduceat(pairs, block.starts, axis=0)
    return Tilted(
        tilt=tilt,
        log_norm=float(np.sum(np.log(norm) + top)),
        chance=chance,
        mean=mean,
        cov=square - mean[:, :, None] * mean[:, None, :],
    )


def meet(block: Block, sums: Sums, start: Floats, *, near: float = _NEAR) -> tuple[Tilted, float]:
    """Return the tilt that meets the tests and ln density of what the tests said.

    Steps end at a Newton decrement below `near`; half of it is taken off what is left above the
    lowest height.

    λ minimizes K(λ) + ½ λᵀRλ − λᵀy, which is convex; Newton steps are halved until it falls.

    Source: H. E. Daniels, Saddlepoint Approximations in Statistics, 1954 (`from memory`).
    """
    found = tilted(block, start)
    if len(sums.flow) == 0:
        return found, found.log_norm
    value, left = _height(found, sums), 0.0
    for _ in range(_MOST_STEPS):
        slope = found.mean.sum(axis=0) + sums.error @ found.tilt - sums.flow
        curve = found.cov.sum(axis=0) + sums.error
        step = np.linalg.solve(curve, slope)
        left = float(slope @ step)
        if left < near:
            break
        found, value = _descend(block, sums, found, step, value)
    curve = found.cov.sum(axis=0) + sums.error
    _, log_det = np.linalg.slogdet(2.0 * np.pi * curve)
    return found, value - 0.5 * min(left, near) - 0.5 * float(log_det)


def given_tests(block: Block, found: Tilted, sums: Sums) -> Floats:
    """Return every row's chances (R, G) given the tests; they sum to 1 over each place.

    This place is exact; all others together follow, at the tilt, the gamma law of their mean,
    variance and skewness, along the line on which this place moves.
    """
    if len(sums.flow) == 0:
        return found.chance
    rest = found.cov.sum(axis=0) + sums.error - found.cov
    center = sums.flow - sums.error @ found.tilt - (found.mean.sum(axis=0) - found.mean)
    inverse = np.linalg.inv(rest)
    w = block.weights
    toward = np.einsum("rts,rs->rt", inverse[block.place], w)
    bend = np.sqrt(np.maximum(np.einsum("rt,rt->r", w, toward), 1e-300))
    toward /= bend[:, None]
    away = np.einsum("rt,rt->r", toward, center[block.place])[:, None] - bend[:, None] * block.leak
    skew, lean = _skewness(block, found, inverse, toward)
    lean = np.clip(lean - skew, -_MOST_SKEW, _MOST_SKEW)
    skew = np.clip(skew, -_MOST_SKEW, _MOST_SKEW)
    exponent = _log_gamma_law(away, skew[:, None]) - 0.5 * lean[:, None] * away
    exponent += np.log(np.maximum(found.chance, 1e-300))
    top = np.maximum.reduceat(exponent.max(axis=1), block.starts)
    chance = np.exp(exponent - top[block.place][:, None])
    norm = np.add.reduceat(chance.sum(axis=1), block.starts)
    return _agreed(block, chance / norm[block.place][:, None], found.mean.sum(axis=0))


def _agreed(block: Block, chance: Floats, wanted: Floats) -> Floats:
    """Return the chances tilted once more, so that the means add up to the wanted sums (T,).

    One tilt for the mean of all tests: what differs between them rests on few mended places, whose
    own chances hold it already.
    """
    weight = block.weights.mean(axis=1)
    goal = float(wanted.mean())
    tilt = 0.0
    now = chance
    for _ in range(_AGREEING):
        first = np.add.reduceat(weight * np.einsum("rg,rg->r", now, block.leak), block.starts)
        square = weight**2 * np.einsum("rg,rg,rg->r", now, block.leak, block.leak)
        spread = float(square.sum() - first @ first)
        if spread <= 0.0:
            break
        tilt += (goal - float(first.sum())) / spread
        now = chance * np.exp(np.clip((weight * tilt)[:, None] * block.leak, -30.0, 30.0))
        norm = np.add.reduceat(now.sum(axis=1), block.starts)
        now = now / norm[block.place][:, None]
    return np.asarray(now, dtype=float)


def _skewness(
    block: Block, found: Tilted, inverse: Floats, toward: Floats
) -> tuple[Floats, Floats]:
    """Return, per row, the skewness of all other places along `toward` (R, T), and the third
    cumulant contracted with their inverse covariance, which sets the slope at the mean.
    """
    w, chance, leak = block.weights, found.chance, block.leak
    raw = [np.einsum("rg,rg->r", chance, leak**power) for power in (1, 2, 3)]
    one = np.add.reduceat(w * raw[0][:, None], block.starts, axis=0)
    two = np.add.reduceat(w[:, :, None] * w[:, None, :] * raw[1][:, None, None], block.starts)
    cube = w[:, :, None, None] * w[:, None, :, None] * w[:, None, None, :]
    three = np.add.reduceat(cube * raw[2][:, None, None, None], block.starts)
    pairs = np.einsum("ntu,ns->ntsu", two, one) + np.einsum("nsu,nt->ntsu", two, one)
    own = three - pairs - np.einsum("nts,nu->ntsu", two, one)
    own += 2.0 * np.einsum("nt,ns,nu->ntsu", one, one, one)
    rest = (own.sum(axis=0) - own)[block.place]
    slope = np.einsum("rtsu,ru->rts", rest, toward)
    skew = np.einsum("rts,rt,rs->r", slope, toward, toward)
    return skew, np.einsum("rts,rts->r", slope, inverse[block.place])


def _log_gamma_law(away: Floats, skew: Floats) -> Floats:
    """Return ln density, up to a constant, of a gamma law with mean 0, variance 1 and `skew`.

    With no skewness it is the normal law. Source: Pearson's type III curve (`from memory`).
    """
    safe = np.where(np.abs(skew) < _NO_SKEW, 1.0, skew)
    inside = 1.0 + 0.5 * safe * away
    shape = (4.0 / safe**2 - 1.0) * np.log(np.maximum(inside, _OUTSIDE)) - 2.0 * away / safe
    shape = np.where(inside > _OUTSIDE, shape, -1e6)
    return np.asarray(np.where(np.abs(skew) < _NO_SKEW, -0.5 * away**2, shape), dtype=float)


def _height(found: Tilted, sums: Sums) -> float:
    tilt = found.tilt
    return found.log_norm + 0.5 * float(tilt @ sums.error @ tilt) - float(tilt @ sums.flow)


def _descend(
    block: Block, sums: Sums, found: Tilted, step: Floats, value: float
) -> tuple[Tilted, float]:
    """Return the place after a step that lowers the height, as it must since it is convex."""
    share = 1.0
    for _ in range(_MOST_STEPS):
        tried = tilted(block, found.tilt - share * step)
        height = _height(tried, sums)
        if height <= value + 1e-12 * abs(value):
            return tried, height
        share /= 2.0
    return found, value
