"""The world that the hunt's model speaks of, acted out: houses drawn, searched, mended and tested.

`brute_force` weighs many whole houses by how well each explains the diary: slow, and free of every
approximation of the hunt but the number of draws.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from seamwright.leakage.evidence import chance_found, log_chance, spot_share
from seamwright.leakage.hunt_types import Event, FanTest, HuntModel, HuntPrior, Look, Mend
from seamwright.leakage.places import Place, follows_crew
from seamwright.leakage.posterior import crew_covariance, known_sums


@dataclass(kw_only=True, slots=True)
class World:
    """Houses as they are: leak (H, N) [m³/s], defect now (H, N), spot share without a defect."""

    leak: np.ndarray
    defect: np.ndarray
    pointed: np.ndarray
    spot: np.ndarray
    factor: np.ndarray


def made_up(
    count: int, rng: np.random.Generator, *, crews: tuple[str, ...] = ("",)
) -> tuple[HuntPrior, ...]:
    """Return priors of an invented house, sizes like those of a panel house. [m³/s at 50 Pa]"""
    made = []
    for i in range(count):
        length = float(rng.uniform(0.3, 6.0))
        chance = float(1.0 - np.exp(-length * rng.choice([0.02, 0.04, 0.06])))
        odds = chance / (1.0 - chance) * rng.choice([0.5, 1.0, 3.0])
        chance = float(odds / (1.0 + odds))
        mean = 1e-4 * length * float(rng.lognormal(0.0, 0.4))
        place = Place(
            id=f"J{i}", sort="joint", kind="wall_spline", length=length, layers=("strip_inner",),
            height=float(rng.choice([1.0, 2.5, 5.0])), crew=crews[i % len(crews)],
        )  # fmt: skip
        made.append(
            HuntPrior(
                place=place,
                base=0.6 * mean * float(np.exp(-0.2)),
                base_sigma=0.64,
                defect=chance,
                defect_flow=0.4 * mean / chance * float(np.exp(-0.4)),
                defect_sigma=0.9,
            )
        )
    return tuple(made)


def draw(
    priors: Sequence[HuntPrior], model: HuntModel, rng: np.random.Generator, houses: int
) -> World:
    """Return houses drawn from the priors."""
    shape = houses, len(priors)
    names = sorted({p.place.crew for p in priors})
    of = np.array([names.index(p.place.crew) for p in priors])
    own = np.array([follows_crew(p.place) for p in priors])
    values, vectors = np.linalg.eigh(crew_covariance(model, tuple(names)))
    root = vectors * np.sqrt(np.clip(values, 0.0, None))
    factor = rng.standard_normal((houses, len(names))) @ root.T
    base = np.array([p.base for p in priors]) * np.exp(
        np.array([p.base_sigma for p in priors]) * rng.standard_normal(shape)
    )
    extra = np.array([p.defect_flow for p in priors]) * np.exp(
        np.array([p.defect_sigma for p in priors]) * rng.standard_normal(shape)
    )
    defect = rng.random(shape) < np.array([p.defect for p in priors])
    leak = (base + defect * extra) * np.exp(factor[:, of] * own)
    spot = np.array([spot_share(p.place, model) for p in priors])
    return World(leak=leak, defect=defect.copy(), pointed=defect, spot=spot, factor=factor)


def at_spot(world: World, i: int) -> np.ndarray:
    """Return ln of what a searcher can sense at place `i` in each house."""
    return np.log(world.leak[:, i] * np.where(world.pointed[:, i], 1.0, world.spot[i]))


def mend(world: World, i: int, model: HuntModel, rng: np.random.Generator) -> None:
    """Mend a place once in every house."""
    held = rng.random(len(world.leak)) < model.mend_success
    share = np.where(world.pointed[:, i], model.mend_share, model.sound_share)
    world.leak[:, i] *= np.where(held, share, 1.0)
    world.defect[:, i] &= ~held


def fan_test(
    name: str,
    world: World,
    priors: Sequence[HuntPrior],
    model: HuntModel,
    rng: np.random.Generator,
    shared: float,
) -> FanTest:
    """Return a test of the first house with 95 % limits of 5 %.

    `shared` is the error that this fan makes in all its tests, in standard deviations; the share
    of it is the model's.
    """
    true = float(world.leak[0].sum())
    part = model.test_correlation
    off = np.sqrt(part) * shared + np.sqrt(1.0 - part) * rng.standard_normal()
    flow = true * (1.0 + 0.0255 * off)
    return FanTest(id=name, flow=flow, low=flow - 0.05 * true, high=flow + 0.05 * true)


def flow_in(world: World, priors: Sequence[HuntPrior], test: FanTest, model: HuntModel):
    """Return what each house leaks in a test, before the fan errs."""
    weight = np.array([
        0.0 if {p.place.id, p.place.kind} & test.masked
        else model.unsealed_factor if {p.place.id, p.place.kind} & test.unsealed else 1.0
        for p in priors
    ])  # fmt: skip
    return world.leak @ weight


def look(world: World, i: int, place: str, model: HuntModel, rng: np.random.Generator) -> Look:
    """Return what a smoke search sees at a place of the first house, rated."""
    sensed = at_spot(world, i)[0]
    found = bool(rng.random() < chance_found(np.array([sensed]), model.detections["smoke"])[0])
    if not found:
        return Look(place=place, method="smoke", found=False)
    steps = 1.0 + (sensed - np.log(model.whisper)) / np.log(model.strength_step)
    rated = int(np.clip(np.rint(steps + model.strength_spread * rng.standard_normal()), 1, 5))
    return Look(place=place, method="smoke", found=True, strength=rated)


def brute_force(
    priors: Sequence[HuntPrior],
    diary: Sequence[Event],
    model: HuntModel,
    rng: np.random.Generator,
    houses: int = 200_000,
) -> dict[str, np.ndarray | float]:
    """Return posterior means of leak and defect, 5 and 95 % points, and how many houses count."""
    world = draw(priors, model, rng, houses)
    index = {p.place.id: i for i, p in enumerate(priors)}
    log_weight = np.zeros(houses)
    flows = []
    for event in diary:
        if isinstance(event, Look):
            log_weight += log_chance(event, at_spot(world, index[event.place]), model)
        elif isinstance(event, Mend):
            mend(world, index[event.place], model, rng)
        else:
            flows.append(flow_in(world, priors, event, model))
    sums = known_sums(tuple(e for e in diary if isinstance(e, FanTest)), model)
    if flows:
        off = np.column_stack(flows) - sums.flow
        log_weight -= 0.5 * np.einsum("ht,ts,hs->h", off, np.linalg.inv(sums.error), off)
    weight = np.exp(log_weight - log_weight.max())
    weight /= weight.sum()
    return {
        "leak": weight @ world.leak,
        "defect": weight @ world.defect,
        "low": np.array([_point(world.leak[:, i], weight, 0.05) for i in range(len(priors))]),
        "high": np.array([_point(world.leak[:, i], weight, 0.95) for i in range(len(priors))]),
        "total": float(weight @ world.leak.sum(axis=1)),
        "factor": float(weight @ world.factor[:, 0]),
        "counting": float(1.0 / np.sum(weight**2)),
    }


def _point(values: np.ndarray, weight: np.ndarray, share: float) -> float:
    order = np.argsort(values)
    return float(values[order][np.searchsorted(np.cumsum(weight[order]), share)])
