"""Does the hunt know how much it knows: intervals and order on hundreds of acted-out houses."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import pytest
from tests.leakage.hunt_world import World, draw, fan_test, look, made_up, mend

from seamwright.io.plan import builtin_house, read_plan
from seamwright.leakage.hunt import hunt
from seamwright.leakage.hunt_priors import hunt_priors
from seamwright.leakage.hunt_types import CrewLaw, Event, Facts, HuntModel, Mend, Taped
from seamwright.leakage.places import Place
from seamwright.leakage.rank import (
    Minutes,
    minutes_to_look,
    minutes_to_mend,
    minutes_to_reach,
    minutes_to_stand,
    rank,
)
from seamwright.leakage.rounds import standing_at, walk
from seamwright.report.hunt_sheet import neighbors
from seamwright.report.leak_places import leak_places
from seamwright.seals.catalog import default_catalog
from seamwright.workflow import seal_house

MODEL = HuntModel()
HOUSES, PLACES, LOOKS = 500, 120, 8
SEARCHED, HOURS, SEED = 60, 3.0, 2027


COMMON = CrewLaw(crews=("north", "south"), covariance=((0.27, 0.16), (0.16, 0.27)))
"""Two crews that share the house and the kinds, about as the forecast has it. [-]"""


@pytest.mark.slow
@pytest.mark.parametrize(
    ("crews", "law"),
    [(("",), None), (("north", "south"), None), (("north", "south"), COMMON)],
    ids=["one crew", "two crews", "two crews of one house"],
)
def test_intervals_hold_what_they_promise(
    crews: tuple[str, ...], law: CrewLaw | None, record_property
) -> None:
    """90 % intervals hold 85 to 95 % of 500 houses: of all places, of those looked at and mended,
    of the whole leak; and among places given a chance of a defect that share has one.
    """
    rng = np.random.default_rng(2026)
    model = replace(MODEL, crew_law=law)
    held: dict[str, list[np.ndarray]] = {"all": [], "looked": [], "mended": [], "whole": []}
    expected, true = [], []
    for _ in range(HOUSES):
        found, world, _ = _one_house(rng, crews, model)
        low = np.array([s.low for s in found.standings])
        high = np.array([s.high for s in found.standings])
        inside = (world.leak[0] >= low) & (world.leak[0] <= high)
        looked = np.array([s.looks > 0 for s in found.standings])
        mended = np.array([s.mended > 0 for s in found.standings])
        whole = found.total.low <= world.leak[0].sum() <= found.total.high
        for name, part in (
            ("all", inside), ("looked", inside[looked]), ("mended", inside[mended]),
            ("whole", np.array([whole])),
        ):  # fmt: skip
            held[name].append(part)
        expected.append([s.defect for s in found.standings])
        true.append(world.defect[0])
    shares = {name: float(np.concatenate(parts).mean()) for name, parts in held.items()}
    record_property("coverage", str(shares))
    assert {k: v for k, v in shares.items() if not 0.85 <= v <= 0.95} == {}, shares
    chance, has = np.concatenate(expected), np.concatenate(true)
    for low, high in ((0.0, 0.05), (0.05, 0.15), (0.15, 0.4), (0.4, 0.7), (0.7, 1.0)):
        group = (chance >= low) & (chance < high)
        error = 3.0 * np.sqrt(max(chance[group].mean() * 0.5, 0.01) / group.sum())
        assert has[group].mean() == pytest.approx(chance[group].mean(), abs=0.03 + error)


WAYS = ("leak", "defects", "length")
"""By leak stopped per minute, by defects found per minute, and the longest first."""


@dataclass(frozen=True, kw_only=True)
class Brought:
    """What an order brought against the longest first: looks that found a leak, places with a
    defect among them, leak stopped.
    """

    finds: float
    defects: float
    leak: float


@pytest.mark.slow
@pytest.mark.parametrize(
    ("world", "least"),
    [
        ("house", {"leak": (2.5, 1.4, 1.3), "defects": (2.4, 1.4, 1.3)}),
        ("joints", {"leak": (1.1, 0.85, 1.1), "defects": (1.3, 1.3, 0.6)}),
    ],
)
def test_the_order_brings_more_an_hour_than_the_longest_first(
    world: str, least: dict[str, tuple[float, float, float]], record_property
) -> None:
    """In three hours each order brings, against the longest first, at least so many times the
    finds (looks that found a leak), the defects among them and the leak stopped.

    `house` has the joints, nodes and services of a built-in house and records as crews keep them;
    `joints` is a list of joints alone, without records, where length says all about the chance of
    a defect and little about its size. Limits were set on three seeds (601 to 603), held on three
    more (604 to 606), and are tested on yet another.
    """
    ratios = race(world, SEED, SEARCHED)
    record_property("finds, defects, leak", str(ratios))
    for way, limits in least.items():
        got = ratios[way]
        assert got.finds >= limits[0], ratios
        assert got.defects >= limits[1], ratios
        assert got.leak >= limits[2], ratios


def race(world: str, seed: int, houses: int) -> dict[str, Brought]:
    """Return what each order brings over so many drawn houses, all of them searched every way."""
    rng = np.random.default_rng(seed)
    places, near = _places() if world == "house" else ((), {})
    sums = {way: np.zeros(3) for way in WAYS}
    for _ in range(houses):
        priors = (
            hunt_priors(places, _records(places, rng), model=MODEL)[:-1]
            if places
            else made_up(PLACES, rng)
        )
        drawn = draw(priors, MODEL, rng, 1)
        first = fan_test("T1", drawn, priors, MODEL, rng, float(rng.standard_normal()))
        dice = int(rng.integers(1 << 31))
        for way in WAYS:
            same = World(
                leak=drawn.leak.copy(), defect=drawn.defect.copy(), pointed=drawn.pointed,
                spot=drawn.spot, factor=drawn.factor,
            )  # fmt: skip
            before = float(same.leak.sum())
            finds = _search(way, priors, same, [first], np.random.default_rng(dice), near)
            sums[way] += [*finds, 1.0 - float(same.leak.sum()) / before]
    return {
        way: Brought(**dict(zip(("finds", "defects", "leak"), got / sums["length"], strict=True)))
        for way, got in sums.items()
    }


def _places() -> tuple[tuple[Place, ...], dict[str, tuple[str, ...]]]:
    """Return the places of the smallest built-in house that its seals can reach, and which of them
    are searched from the same spot.
    """
    plan = read_plan(builtin_house("first_house"), name="first_house").plan
    house = seal_house(plan, default_catalog())
    every = tuple(p for p in leak_places(house) if not p.kind.endswith("_unit"))
    return every, neighbors(house.register)


def _records(places: tuple[Place, ...], rng: np.random.Generator) -> dict[str, Facts]:
    """Return invented records: most places photographed, some checked, some taped badly."""
    states: list[Taped | None] = ["good", "cold", "wet", "dusty", None]
    return {
        p.id: Facts(
            photo=bool(rng.random() < 0.7),
            checked=True if rng.random() < 0.3 else None,
            taped=states[int(rng.choice(5, p=[0.35, 0.1, 0.05, 0.1, 0.4]))],
        )
        for p in places
    }


def _one_house(rng: np.random.Generator, crews: tuple[str, ...], model: HuntModel):
    """Return where the hunt stands after a test, looks, mends of what was found, and a test."""
    priors = made_up(PLACES, rng, crews=crews)
    world = draw(priors, model, rng, 1)
    fan = float(rng.standard_normal())
    diary: list[Event] = [fan_test("T1", world, priors, model, rng, fan)]
    order = rank(hunt(priors, diary, model))
    index = {p.place.id: i for i, p in enumerate(priors)}
    for choice in order[:LOOKS]:
        place = choice.standing.place.id
        seen = look(world, index[place], place, model, rng)
        diary.append(seen)
        if seen.found:
            mend(world, index[place], model, rng)
            diary.append(Mend(place=place))
    diary.append(fan_test("T2", world, priors, model, rng, fan))
    return hunt(priors, diary, model), world, diary


def _search(
    way: str, priors, world: World, diary: list[Event], rng, near: dict[str, tuple[str, ...]]
) -> tuple[int, int]:
    """Search for `HOURS`, mending what is found; return how many looks found a leak, and at how
    many of those places there was a defect.

    Whatever the order, a place that is searched from where one stands needs no ladder.
    """
    times, left, finds, defects, spent = Minutes(), {p.place.id for p in priors}, 0, 0, 0.0
    index = {p.place.id: i for i, p in enumerate(priors)}
    by_length = sorted(priors, key=lambda p: -p.place.length)
    while left:
        here = standing_at(diary)
        if way == "length":
            place = next(p.place for p in by_length if p.place.id in left)
        else:
            order = rank(hunt(priors, diary, MODEL), aim="leak" if way == "leak" else "defects")
            open_still = [c for c in order if c.standing.place.id in left]
            place = walk(open_still, near, at=here)[0][0].standing.place
        left.discard(place.id)
        stands = here is not None and place.id in near.get(here, ())
        spent += minutes_to_look(place, times) + minutes_to_reach(place, times)
        spent -= minutes_to_stand(place, times) if stands else 0.0
        if spent > HOURS * 60.0:
            break
        i = index[place.id]
        seen = look(world, i, place.id, MODEL, rng)
        diary = [*diary, seen]
        if seen.found:
            finds += 1
            defects += int(world.defect[0, i])
            mend(world, i, MODEL, rng)
            diary = [*diary, Mend(place=place.id)]
            spent += minutes_to_mend(place, times)
    return finds, defects
