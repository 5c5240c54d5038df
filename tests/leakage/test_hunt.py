"""The hunt against whole houses weighed one by one, and on small cases with plain answers."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.leakage.hunt_world import brute_force, draw, made_up

from seamwright.errors import SeamwrightError
from seamwright.leakage.hunt import hunt
from seamwright.leakage.hunt_priors import hunt_model, hunt_priors
from seamwright.leakage.hunt_types import ELSEWHERE, Facts, FanTest, HuntModel, Look, Mend
from seamwright.leakage.places import Place
from seamwright.leakage.priors import prior_of

MODEL = HuntModel()


def test(name: str, flow: float, **more) -> FanTest:
    """Return a fan test with limits of 5 %."""
    return FanTest(id=name, flow=flow, low=0.95 * flow, high=1.05 * flow, **more)


test.__test__ = False  # a maker of fan tests, not a check


@pytest.mark.parametrize(
    ("crews", "share", "diary"),
    [
        (("",), 0.6, lambda f: [test("T1", f)]),
        (("",), 1.4, lambda f: [test("T1", f)]),
        (("a", "b"), 1.2, lambda f: [test("T1", f)]),
        (
            ("",),
            1.0,
            lambda f: [
                Look(place="J1", method="smoke", found=False),
                Look(place="J2", method="hand", found=True),
                test("T1", f),
                Mend(place="J2"),
                test("T2", 0.97 * f),
            ],
        ),
    ],
    ids=["tight", "leaky", "two crews", "looks and a mend"],
)
def test_the_hunt_agrees_with_whole_houses_weighed_one_by_one(crews, share, diary) -> None:
    """Means, chances of defects and 90 % limits are those of 150,000 houses drawn and weighed."""
    rng = np.random.default_rng(5)
    priors = made_up(40, rng, crews=crews)
    told = diary(share * float(draw(priors, MODEL, rng, 5000).leak.sum(axis=1).mean()))
    exact = brute_force(priors, told, MODEL, rng, houses=150_000)
    found = hunt(priors, told, MODEL)
    assert exact["counting"] > 500
    assert found.total.value == pytest.approx(exact["total"], rel=0.02)
    leak = np.array([s.leak for s in found.standings])
    assert np.median(np.abs(leak / exact["leak"] - 1.0)) < 0.08
    assert leak.sum() == pytest.approx(np.sum(exact["leak"]), rel=0.03)
    defect = np.array([s.defect for s in found.standings])
    assert np.max(np.abs(defect - exact["defect"])) < 0.06
    low, high = (np.array([getattr(s, w) for s in found.standings]) for w in ("low", "high"))
    assert np.median(np.abs(low / exact["low"] - 1.0)) < 0.1
    assert np.median(np.abs(high / exact["high"] - 1.0)) < 0.1


def test_without_news_the_expected_leak_is_the_forecast() -> None:
    """Before any record the hunt expects of each place what the forecast's table expects, times the
    mean of the crew's factor.
    """
    model = hunt_model()
    places = (
        Place(id="a", sort="joint", kind="ridge", length=4.0, layers=("strip_inner", "beads"),
              height=5.0),
        Place(id="n", sort="node", kind="ridge+roof_spline", length=0.0, layers=("patch",),
              height=5.0),
        Place(id="p", sort="penetration", kind="pipe", length=0.4, layers=("collar",), height=1.0),
    )  # fmt: skip
    found = hunt(hunt_priors(places, model=model), (), model)
    factor = np.exp(model.crew_sigma**2 / 2)
    for place, standing in zip(places, found.standings[:-1], strict=True):
        assert standing.leak == pytest.approx(prior_of(place, "ordinary").flow * factor, rel=0.02)
    assert found.standings[-1].place.id == ELSEWHERE


def test_records_move_the_odds_of_a_defect() -> None:
    """A joint taped wet is likelier, a checked and photographed one less likely to be defective."""
    place = Place(id="a", sort="joint", kind="ridge", length=3.0, layers=("strip_inner",),
                  height=5.0)  # fmt: skip
    chances = [
        hunt_priors([place], {"a": facts})[0].defect
        for facts in (
            Facts(checked=True, photo=True, taped="good"),
            Facts(),
            Facts(taped="wet"),
            Facts(sealed=False),
        )
    ]
    assert chances == sorted(chances)
    assert chances[0] < 0.06
    assert chances[3] > 0.9


def test_what_was_masked_does_not_answer_to_the_test() -> None:
    """A test twice as high as expected raises the others, not the place that was masked in it."""
    priors = made_up(40, np.random.default_rng(3))
    model = replace(MODEL, crew_sigma=0.0)
    flow = 2.0 * float(draw(priors, model, np.random.default_rng(1), 4000).leak.sum(axis=1).mean())
    before = hunt(priors, [], model).standings
    after = hunt(priors, [test("T1", flow, masked=frozenset({"J0"}))], model).standings
    assert after[0].leak == pytest.approx(before[0].leak, rel=1e-6)
    assert all(b.leak > a.leak for a, b in zip(before[1:], after[1:], strict=True))


def test_a_house_found_tight_while_unsealed_is_tighter_still() -> None:
    """The same flow measured before the strips were on speaks for a tighter house than after."""
    priors = made_up(40, np.random.default_rng(3))
    everywhere = frozenset(p.place.id for p in priors)
    sealed = hunt(priors, [test("T1", 0.03)], MODEL)
    bare = hunt(priors, [test("T1", 0.03, unsealed=everywhere)], MODEL)
    assert bare.total.value == pytest.approx(
        sealed.total.value / MODEL.unsealed_factor, rel=0.15
    )  # fmt: skip


def test_each_crew_has_a_factor_of_its_own() -> None:
    """Finds at one crew's places raise that crew's factor above the other's."""
    priors = made_up(20, np.random.default_rng(4), crews=("north", "south"))
    looks = [
        Look(place=p.place.id, method="smoke", found=p.place.crew == "north", strength=None)
        for p in priors
    ]
    found = hunt(priors, looks, MODEL)
    assert found.crews["north"].value > 1.0 > found.crews["south"].value


def test_nobody_can_look_where_there_is_no_place() -> None:
    """An event at an unknown place, and a house without places, are told in a sentence."""
    priors = made_up(3, np.random.default_rng(0))
    with pytest.raises(SeamwrightError, match="no place X9"):
        hunt(priors, [Mend(place="X9")])
    with pytest.raises(SeamwrightError, match="no place to hunt"):
        hunt([], [])
