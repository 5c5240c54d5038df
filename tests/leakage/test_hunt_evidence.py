"""Chances to find, and ratings."""

from __future__ import annotations

import numpy as np
import pytest

from seamwright.leakage.evidence import chance_found, chance_of_strength, log_chance, spot_share
from seamwright.leakage.hunt_types import Detection, HuntModel, Look
from seamwright.leakage.places import Place

MODEL = HuntModel()
FLOWS = np.log(np.geomspace(1e-6, 1e-1, 60))


@pytest.mark.parametrize("method", MODEL.detections)
def test_a_bigger_leak_is_found_more_often(method: str) -> None:
    """The chance rises with the flow, from the false alarm to the best."""
    detection = MODEL.detections[method]
    chance = chance_found(FLOWS, detection)
    assert np.all(np.diff(chance) > 0.0)
    assert chance[0] == pytest.approx(detection.false_alarm, abs=1e-3)
    assert chance[-1] == pytest.approx(detection.at_best, abs=1e-3)


def test_half_are_found_at_the_flow_named() -> None:
    """At the flow of a detection the chance lies midway between its ends."""
    detection = Detection(flow=2e-4, false_alarm=0.0, at_best=1.0)
    assert chance_found(np.log([2e-4]), detection)[0] == pytest.approx(0.5)


def test_ratings_of_one_leak_add_up_to_one() -> None:
    """Whatever the flow, the chances of the five strengths sum to 1."""
    total = sum(chance_of_strength(FLOWS, k, MODEL) for k in range(1, 6))
    assert total == pytest.approx(np.ones_like(FLOWS))


def test_all_that_can_be_seen_adds_up_to_one() -> None:
    """Nothing, and something at each strength, cover every outcome of a look."""
    seen = [Look(place="a", method="smoke", found=False)]
    seen += [Look(place="a", method="smoke", found=True, strength=k) for k in range(1, 6)]
    total = sum(np.exp(log_chance(look, FLOWS, MODEL)) for look in seen)
    assert total == pytest.approx(np.ones_like(FLOWS), abs=1e-6)


def test_a_weaker_fan_finds_less() -> None:
    """At 20 Pa nothing found says less than at 50 Pa."""
    weak, strong = (
        log_chance(Look(place="a", method="smoke", found=False, pressure=p), FLOWS, MODEL)
        for p in (20.0, 50.0)
    )
    assert np.all(weak >= strong)


def test_only_a_stretch_of_a_spread_leak_is_sensed() -> None:
    """Of three metres a searcher senses a tenth at once, of a node all."""
    line = Place(id="a", sort="joint", kind="sill", length=3.0, layers=(), height=0.0)
    node = Place(id="n", sort="node", kind="eave+rake", length=0.0, layers=(), height=0.0)
    assert spot_share(line, MODEL) == pytest.approx(0.1)
    assert spot_share(node, MODEL) == pytest.approx(1.0)
