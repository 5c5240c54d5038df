"""The leak hunt: how fast one update is, how it grows, and what a general sampler needs for it.

The sampler is Metropolis within Gibbs over every place's two parts and the crew's factor, on many
chains at once: it needs no more than the model's density, as any general sampler. Where the package
emcee is installed its ensemble sampler is tried as well, on few places. Its time is that
at which its means of the places' leaks come as near a long run's as the hunt's are.
"""

from __future__ import annotations

import time
from collections.abc import Sequence
from importlib.util import find_spec

import numpy as np
from scipy.special import ndtri

from seamwright.leakage.evidence import log_chance, spot_share
from seamwright.leakage.hunt import hunt
from seamwright.leakage.hunt_types import Event, FanTest, HuntModel, HuntPrior, Look
from seamwright.leakage.places import Place
from seamwright.leakage.posterior import known_sums

MODEL = HuntModel()
CHAINS = 128
QUICK, FULL = (150, 600), (150, 1_500, 5_000, 20_000)


def run(*, quick: bool = False) -> dict[str, object]:
    """Return seconds by number of places, the exponent of growth, and the ratio to the sampler."""
    rows = [(n, _seconds(n)) for n in (QUICK if quick else FULL)]
    counts, times = np.log(np.array(rows)).T
    places, sweeps = (20, 60) if quick else (60, 3_000)
    priors, diary = _house(places)
    start = time.perf_counter()
    found = np.array([s.leak for s in hunt(priors, diary, MODEL).standings])
    own = time.perf_counter() - start
    reference = sample(priors, diary, np.random.default_rng(1), 4 * sweeps)[0][-1]
    error = _apart(found, reference)
    means, clock = sample(priors, diary, np.random.default_rng(2), sweeps)
    near = [t for mean, t in zip(means, clock, strict=True) if _apart(mean, reference) <= error]
    reached = near[0] if near else clock[-1]
    return {
        "seconds by places": {n: round(t, 3) for n, t in rows},
        "growth exponent": float(np.polyfit(counts, times, 1)[0]),
        "update of 1,500 places < 1 s": dict(rows).get(1_500, 0.0) < 1.0,
        "compared on places": places,
        "hunt_s": own,
        "hunt error (median, relative)": error,
        "sampler_s to the same error": reached,
        "sampler got there": bool(near),
        "ratio sampler / hunt": reached / own,
        **_against_ensemble(quick=quick),
    }


def _against_ensemble(*, quick: bool) -> dict[str, object]:
    """Return what the ensemble sampler of emcee needs for ten places at the hunt's error."""
    if find_spec("emcee") is None:
        return {"ensemble sampler": "emcee is not installed"}
    places, sweeps, steps = (10, 100, 200) if quick else (10, 8_000, 40_000)
    priors, diary = _house(places)
    start = time.perf_counter()
    found = np.array([s.leak for s in hunt(priors, diary, MODEL).standings])
    own = time.perf_counter() - start
    reference = sample(priors, diary, np.random.default_rng(1), sweeps)[0][-1]
    error = _apart(found, reference)
    means, clock = ensemble(priors, diary, steps)
    near = [t for mean, t in zip(means, clock, strict=True) if _apart(mean, reference) <= error]
    reached = near[0] if near else clock[-1]
    return {
        "ensemble: places, hunt_s, error": (places, round(own, 4), round(error, 4)),
        "ensemble_s to the same error": reached,
        "ensemble got there, error at end": (bool(near), round(_apart(means[-1], reference), 4)),
        "ratio ensemble / hunt": reached / own,
    }


def ensemble(
    priors: Sequence[HuntPrior], diary: Sequence[Event], steps: int
) -> tuple[list[np.ndarray], list[float]]:
    """Return running means of every place's leak after each hundredth of the steps of emcee's
    stretch move, and the seconds by then; the first fifth is left out. Unknowns are normal: the two
    parts of each place, its defect by threshold, the crew.
    """
    import emcee  # noqa: PLC0415 - optional, only for this comparison

    count = len(priors)
    tests = tuple(e for e in diary if isinstance(e, FanTest))
    sums = known_sums(tests, MODEL)
    inverse = np.linalg.inv(sums.error)
    spot = np.array([spot_share(p.place, MODEL) for p in priors])
    base, s_base, extra, s_extra, chance = np.array([
        (np.log(p.base), p.base_sigma, np.log(p.defect_flow), p.defect_sigma, p.defect)
        for p in priors
    ]).T  # fmt: skip
    bar = ndtri(chance)
    index = {p.place.id: i for i, p in enumerate(priors)}
    looks = [(index[e.place], e) for e in diary if isinstance(e, Look)]

    def parts(z: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        defect = z[:, 2 * count : 3 * count] < bar
        more = np.exp(extra + s_extra * z[:, count : 2 * count]) * defect
        leak = np.exp(base + s_base * z[:, :count]) + more
        return leak * np.exp(MODEL.crew_sigma * z[:, -1:]), defect

    def density(z: np.ndarray) -> np.ndarray:
        leak, defect = parts(z)
        off = leak.sum(axis=1)[:, None] - sums.flow
        log = -0.5 * np.einsum("ct,ts,cs->c", off, inverse, off) - 0.5 * np.sum(z**2, axis=1)
        for i, look in looks:
            log += log_chance(
                look, np.log(leak[:, i] * np.where(defect[:, i], 1.0, spot[i])), MODEL
            )
        return log

    size = 3 * count + 1
    rng = np.random.default_rng(3)
    state = rng.standard_normal((2 * size, size))
    sampler = emcee.EnsembleSampler(2 * size, size, density, vectorize=True)
    total, kept, means, clock = np.zeros(count), 0, [], []
    start = time.perf_counter()
    for step in range(100):
        state = sampler.run_mcmc(state, steps // 100)
        if step >= 20:
            total += parts(sampler.get_chain(flat=True))[0].mean(axis=0)
            kept += 1
            means.append(total / kept)
            clock.append(time.perf_counter() - start)
        sampler.reset()
    return means, clock


def sample(
    priors: Sequence[HuntPrior], diary: Sequence[Event], rng: np.random.Generator, sweeps: int
) -> tuple[list[np.ndarray], list[float]]:
    """Return running means of every place's leak after each sweep, and the seconds taken by then.

    The first fifth of the sweeps is left out of the means.
    """
    start = time.perf_counter()
    count = len(priors)
    looks = [[e for e in diary if isinstance(e, Look) and e.place == p.place.id] for p in priors]
    tests = tuple(e for e in diary if isinstance(e, FanTest))
    sums = known_sums(tests, MODEL)
    spot = np.array([spot_share(p.place, MODEL) for p in priors])
    factor = np.zeros(CHAINS)
    parts, broken = (
        np.stack(x, axis=1) for x in zip(*(_draw(p, rng) for p in priors), strict=True)
    )

    def fit(total: np.ndarray) -> np.ndarray:
        off = total[:, None] - sums.flow
        return -0.5 * np.einsum("ct,ts,cs->c", off, np.linalg.inv(sums.error), off)

    def seen(i: int, leak: np.ndarray, defect: np.ndarray) -> np.ndarray:
        at = np.log(leak * np.where(defect, 1.0, spot[i]))
        return sum((log_chance(look, at, MODEL) for look in looks[i]), np.zeros(CHAINS))

    total_mean, means, clock, kept = np.zeros(count), [], [], 0
    for sweep in range(sweeps):
        for i, prior in enumerate(priors):
            new, bad = _draw(prior, rng)
            scale = np.exp(factor)
            whole = parts.sum(axis=1)
            gain = fit(scale * (whole - parts[:, i] + new)) - fit(scale * whole)
            if looks[i]:
                gain += seen(i, scale * new, bad) - seen(i, scale * parts[:, i], broken[:, i])
            take = np.log(rng.random(CHAINS)) < gain
            parts[:, i] = np.where(take, new, parts[:, i])
            broken[:, i] = np.where(take, bad, broken[:, i])
        for width in (0.02, 0.1, 0.4):
            moved = factor + width * rng.standard_normal(CHAINS)
            whole = parts.sum(axis=1)
            gain = fit(np.exp(moved) * whole) - fit(np.exp(factor) * whole)
            gain -= (moved**2 - factor**2) / (2.0 * MODEL.crew_sigma**2)
            for i in (k for k in range(count) if looks[k]):
                gain += seen(i, np.exp(moved) * parts[:, i], broken[:, i])
                gain -= seen(i, np.exp(factor) * parts[:, i], broken[:, i])
            factor = np.where(np.log(rng.random(CHAINS)) < gain, moved, factor)
        if sweep >= sweeps // 5:
            kept += 1
            total_mean += (np.exp(factor)[:, None] * parts).mean(axis=0)
            means.append(total_mean / kept)
            clock.append(time.perf_counter() - start)
    return means, clock


def _draw(prior: HuntPrior, rng: np.random.Generator) -> tuple[np.ndarray, np.ndarray]:
    base = prior.base * np.exp(prior.base_sigma * rng.standard_normal(CHAINS))
    extra = prior.defect_flow * np.exp(prior.defect_sigma * rng.standard_normal(CHAINS))
    broken = rng.random(CHAINS) < prior.defect
    return base + broken * extra, broken


def _apart(mean: np.ndarray, reference: np.ndarray) -> float:
    return float(np.median(np.abs(mean / reference - 1.0)))


def _seconds(places: int) -> float:
    priors, diary = _house(places)
    hunt(priors, diary, MODEL)
    start = time.perf_counter()
    hunt(priors, diary, MODEL)
    return time.perf_counter() - start


def _house(places: int) -> tuple[list[HuntPrior], list[Event]]:
    """Return an invented house of joints and a diary: a test above the forecast and two looks."""
    rng = np.random.default_rng(places)
    priors = []
    for i in range(places):
        length = float(rng.uniform(0.5, 6.0))
        chance = float(1.0 - np.exp(-0.04 * length))
        place = Place(
            id=f"J{i}", sort="joint", kind="wall_spline", length=length, layers=(), height=1.0
        )
        prior = HuntPrior(
            place=place, base=5e-5 * length, base_sigma=0.64, defect=chance,
            defect_flow=2.7e-5 * length / chance, defect_sigma=0.9,
        )  # fmt: skip
        priors.append(prior)
    whole = sum(1.23 * p.base + 1.5 * p.defect * p.defect_flow for p in priors)
    diary: list[Event] = [
        FanTest(id="T1", flow=1.3 * whole, low=1.23 * whole, high=1.37 * whole),
        Look(place="J3", method="smoke", found=True, strength=3),
        Look(place="J5", method="smoke", found=False),
    ]
    return priors, diary


if __name__ == "__main__":
    for key, value in run().items():
        print(f"{key:32} {value}")
