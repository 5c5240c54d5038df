"""What joints tolerate, and the leak beyond it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.leakage.hunt_world import draw, made_up

from seamwright.leakage.hunt import hunt
from seamwright.leakage.hunt_types import HuntModel, Look, Mend
from seamwright.leakage.margins import Margin, tolerated
from seamwright.leakage.rank import WORST, harm, rank

MODEL = HuntModel()
PRIORS = made_up(12, np.random.default_rng(5))
WET = 2e-4 / 6.0
"""A joint of middling leakage is about at this limit. [m³/(s·m)]"""


def margins(tolerates: float) -> dict[str, Margin]:
    """Return the same tolerance for every place."""
    return {p.place.id: Margin(tolerates=tolerates) for p in PRIORS}


def test_a_node_takes_the_least_of_its_joints() -> None:
    """Its own figure where there is one, else the least of the joints there, else none."""
    places = [p.place for p in PRIORS[:3]]
    known = {"J0": Margin(tolerates=3.0), "A": Margin(tolerates=2.0), "B": Margin(tolerates=1.0)}
    found = tolerated(places, known, {"J0": ("A",), "J1": ("A", "B", "C"), "J2": ("C",)})
    assert {at: margin.tolerates for at, margin in found.items()} == {"J0": 3.0, "J1": 1.0}


def test_beyond_is_the_mean_of_drawn_houses() -> None:
    """Expected leak beyond what places tolerate agrees with 200,000 drawn houses within 5 % of the
    leak (sizes of the grid are 10 to 17 % apart): spread out over the joint's length, of a defect
    over the spot where it leaks.
    """
    found = hunt(PRIORS, [], MODEL, margins=margins(WET)).standings
    world = draw(PRIORS, MODEL, np.random.default_rng(3), 200_000)
    for i, standing in enumerate(found):
        length = PRIORS[i].place.length
        spot = min(MODEL.spot, length)
        allowed = WET * np.where(world.defect[:, i], spot, length)
        wanted = float(np.maximum(world.leak[:, i] - allowed, 0.0).mean())
        assert standing.beyond == pytest.approx(wanted, abs=0.05 * standing.leak)


def test_a_joint_that_tolerates_nothing_is_harmed_by_all() -> None:
    """With no tolerance the leak beyond is the leak and its fall is the gain; with plenty, none."""
    for standing in hunt(PRIORS, [], MODEL, margins=margins(0.0)).standings:
        assert standing.beyond == pytest.approx(standing.leak)
        assert standing.relief == pytest.approx(standing.gain)
        assert harm(standing) == standing.relief
    for standing in hunt(PRIORS, [], MODEL, margins=margins(100.0)).standings:
        assert standing.beyond < 1e-6 * standing.leak
        assert standing.relief < 1e-6 * standing.leak


def test_a_mend_takes_the_harm_off() -> None:
    """A find raises the leak beyond tolerance, a mend lowers it."""
    find = Look(place="J3", method="smoke", found=True, strength=5)
    at = [hunt(PRIORS, diary, MODEL, margins=margins(WET)).standings[3].beyond
          for diary in ([], [find], [find, Mend(place="J3")])]  # fmt: skip
    assert at[0] < at[1]
    assert at[2] < 0.6 * at[1]


def test_where_nothing_is_known_the_fixed_weight_stands() -> None:
    """Without a figure the harm is the gain times the kind's weight over the greatest weight."""
    place = replace(PRIORS[0].place, consequence=3.0)
    standing = hunt([replace(PRIORS[0], place=place)], [], MODEL).standings[0]
    assert standing.beyond is None
    assert harm(standing) == pytest.approx(standing.gain * 3.0 / WORST)


def test_the_order_by_consequence_follows_the_margins() -> None:
    """Of two equal joints the one that tolerates less comes first, whatever their fixed weights."""
    base = replace(PRIORS[1], place=replace(PRIORS[1].place, consequence=1.0))
    tender = replace(base, place=replace(base.place, id="tender"))
    sturdy = replace(base, place=replace(base.place, id="sturdy", consequence=5.0))
    known = {"tender": Margin(tolerates=0.0, margin=-0.1), "sturdy": Margin(tolerates=WET)}
    found = hunt([sturdy, tender], [], MODEL, margins=known)
    assert rank(found, aim="consequence")[0].standing.place.id == "tender"
    fixed = rank(hunt([sturdy, tender], [], MODEL), aim="consequence")
    assert fixed[0].standing.place.id == "sturdy"
