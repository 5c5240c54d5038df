"""The forecast: time, growth, and what the same accuracy costs in other ways.

Beside it, in one run: a plain Python loop over the same places, and, where the package emcee is
installed (it is no dependency), a general ensemble sampler that draws from the same distribution.
Equal accuracy means equal numbers of independent draws of the house's flow: the sampler's draws are
divided by their autocorrelation time. Learning from tests is compared in the same way.
"""

from __future__ import annotations

import math
import random
import time
from collections.abc import Callable
from importlib.util import find_spec
from typing import Any

import numpy as np

from seamwright.leakage.forecast import forecast
from seamwright.leakage.forecast_draws import group_places
from seamwright.leakage.learn import HouseTest, Knowledge, joint_normal, learn
from seamwright.leakage.places import Place
from seamwright.leakage.priors import DEFAULT_TABLE, prior_of

KINDS = ("sill", "wall_spline", "roof_spline", "eave", "ridge", "opening")
SEED = 11
DRAWS = 20_000


def run(*, quick: bool = False) -> dict[str, Any]:
    """Return the figures, flat; `quick` takes small houses and few draws."""
    sizes = (150, 600) if quick else (1_500, 5_000, 20_000)
    draws = 1_000 if quick else DRAWS
    times = {n: _best(lambda n=n: forecast(house(n), draws=draws)) for n in sizes}
    first, last = sizes[0], sizes[-1]
    growth = math.log(times[last] / times[first]) / math.log(last / first)
    figures: dict[str, Any] = {
        "draws": draws,
        **{f"{n} places time_s": t for n, t in times.items()},
        "growth exponent": growth,
        "times a plain loop": _plain_loop(first, 20 if quick else 200) / (times[first] / draws),
    }
    if find_spec("emcee") is None:
        return {**figures, "general sampler": "emcee is not installed"}
    return {**figures, **_sampler(10 if quick else 20, 300 if quick else 12_000)}


def house(n: int) -> tuple[Place, ...]:
    """Return `n` joints of two crews."""
    rng = random.Random(SEED)
    return tuple(
        Place(
            id=f"J{k}", sort="joint", kind=rng.choice(KINDS), length=rng.uniform(0.3, 6.0),
            layers=("strip_inner", "beads"), height=0.0, crew=rng.choice("ab"),
        )
        for k in range(n)
    )  # fmt: skip


def _plain_loop(n: int, draws: int) -> float:
    """Return the time of one draw of a house, place after place. [s]"""
    rng = random.Random(SEED)
    spreads = DEFAULT_TABLE.spreads
    priors = [(p, prior_of(p, "ordinary")) for p in house(n)]
    rows = [(q.flow, q.sigma, p.crew, p.kind) for p, q in priors]
    start = time.perf_counter()
    for _ in range(draws):
        overall = rng.gauss(0, spreads.overall)
        crews = {crew: rng.gauss(0, spreads.crew) for crew in "ab"}
        kinds = {kind: rng.gauss(0, spreads.kind) for kind in KINDS}
        math.fsum(
            flow * math.exp(rng.gauss(-s * s / 2, s) + overall + crews[crew] + kinds[kind])
            for flow, s, crew, kind in rows
        )
    return (time.perf_counter() - start) / draws


def _sampler(n: int, steps: int) -> dict[str, Any]:
    """Return how much longer the general sampler takes for as many independent draws."""
    places = house(n)
    groups = group_places(places, workmanship="ordinary", crews={}, table=DEFAULT_TABLE)
    names = tuple(dict.fromkeys(name for g in groups for name in g.factors))
    _, root = joint_normal(Knowledge(), names)
    own = [(g, prior) for g in groups for prior in g.priors]
    sigma = np.array([prior.sigma for _, prior in own])
    scale = np.array([prior.flow for _, prior in own]) * np.exp(-(sigma**2) / 2)
    has = np.array([[float(name in g.factors) for name in names] for g, _ in own])
    deviations = np.concatenate([np.diag(root), sigma])

    def density(x: np.ndarray) -> np.ndarray:
        return -0.5 * np.sum((x / deviations) ** 2, axis=1)

    def log_flow(x: np.ndarray) -> np.ndarray:
        shared, local = x[:, : len(names)], x[:, len(names) :]
        return np.log(np.exp(local + shared @ has.T) @ scale)

    per_draw, tau = _ensemble(density, log_flow, deviations, steps)
    draws = 20_000
    ours = _best(lambda: forecast(places, draws=draws)) / draws
    learned, learned_sampler = _learning(places, steps)
    return {
        "sampler places": n,
        "sampler dimensions": len(deviations),
        "sampler autocorrelation": tau,
        "times the sampler, forecast": per_draw / ours,
        "learning time_s": learned,
        "times the sampler, learning to 1 %": learned_sampler / learned,
    }


def _learning(places: tuple[Place, ...], steps: int) -> tuple[float, float]:
    """Return the time to learn from ten tests, by closed form and by the sampler to an error of
    1 % of the spread (10,000 independent draws). [s]
    """
    anchor = forecast(places, draws=2_000).anchor
    flows = [math.exp(anchor.log_flow + 0.1 * (k - 5)) for k in range(10)]
    tests = [
        HouseTest(id=str(k), flow_50=flow, log_error=0.05, anchor=anchor)
        for k, flow in enumerate(flows)
    ]
    closed = _best(lambda: learn(tests))
    knowledge = learn(tests)
    names = knowledge.names
    _, root = joint_normal(Knowledge(), names)
    weights = dict(anchor.weights)
    row = np.array([weights[name] for name in names])
    gaps = np.log(flows) - anchor.log_flow
    noise = anchor.scatter**2 + 0.05**2
    deviations = np.diag(root)

    def density(x: np.ndarray) -> np.ndarray:
        miss = gaps[None, :] - (x @ row)[:, None]
        return -0.5 * (np.sum((x / deviations) ** 2, axis=1) + np.sum(miss**2, axis=1) / noise)

    per_draw, _ = _ensemble(density, lambda x: x @ row, deviations, steps)
    return closed, per_draw * 10_000


def _ensemble(
    density: Callable[[np.ndarray], np.ndarray],
    value: Callable[[np.ndarray], np.ndarray],
    deviations: np.ndarray,
    steps: int,
) -> tuple[float, float]:
    """Return the sampler's time for one independent draw of `value` [s], and its autocorrelation
    time in steps.
    """
    import emcee  # noqa: PLC0415 - optional, only for this comparison

    walkers = 2 * len(deviations) + 2
    rng = np.random.default_rng(SEED)
    start_at = rng.standard_normal((walkers, len(deviations))) * deviations
    sampler = emcee.EnsembleSampler(walkers, len(deviations), density, vectorize=True)
    start = time.perf_counter()
    sampler.run_mcmc(start_at, steps)
    spent = time.perf_counter() - start
    chain = sampler.get_chain()
    series = np.stack([value(step) for step in chain])
    tau = float(emcee.autocorr.integrated_time(series[:, :, None], quiet=True)[0])
    return spent * tau / (steps * walkers), tau


def _best(work: Callable[[], Any]) -> float:
    """Return the shorter of two runs. [s]"""
    spent = []
    for _ in range(2):
        start = time.perf_counter()
        work()
        spent.append(time.perf_counter() - start)
    return min(spent)


if __name__ == "__main__":
    import json
    import sys

    print(json.dumps(run(quick="--quick" in sys.argv), indent=2))
