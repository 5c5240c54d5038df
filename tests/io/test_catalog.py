"""A catalog file lies over the default catalog."""

from __future__ import annotations

import pytest

from seamwright.errors import InputError, Problem
from seamwright.io.catalog import read_catalog
from seamwright.seals.catalog import default_catalog

SHELF = """
units: in
source: shelf list of the shop, spring
strips:
  - {id: narrow, width: 6, roll_length: 100', per_carton: 8, price: 41.50}
  - {id: wide, width: 300 mm, roll_length: 25 m, source: its data sheet}
sealants:
  - {id: quart, pack: cartridge, volume: 28 fl oz, per_carton: 12, price: 9}
foams:
  - {id: can, volume: 25 l}
beads:
  - {kind: ridge, count: 8, place: all faces, diameter: 3/8", on: timber, stage: before next panel}
laps:
  land: {"*": 2, ridge: 3-1/2}
  end_lap: 4
reserve: {strip: 12 %, foam: 0.3}
rates: {strip: 30 m/h, bead: 200 ft/h, node: 6 min, wage_per_hour: 54, currency: USD}
"""


def test_what_is_given_replaces_and_the_rest_stays() -> None:
    """Shelves are replaced whole, bead rules by joint kind, laps and rates one by one."""
    base, catalog = default_catalog(), read_catalog(SHELF)
    assert [(strip.id, strip.per_carton) for strip in catalog.strips] == [
        ("narrow", 8),
        ("wide", 1),
    ]
    assert catalog.strips[0].width == pytest.approx(0.1524, abs=0)
    assert catalog.strips[0].source == "shelf list of the shop, spring"
    assert catalog.strips[1].source == "its data sheet"
    assert catalog.sealants[0].volume == pytest.approx(828.06e-6, rel=1e-4)
    assert catalog.foams[0].volume == pytest.approx(0.025, abs=0)
    ridge = [rule for rule in catalog.beads if rule.kind == "ridge"]
    assert [(rule.count, rule.on, rule.stage) for rule in ridge] == [
        (8, "timber", "before_next_panel")
    ]
    others = [rule for rule in base.beads if rule.kind != "ridge"]
    assert [rule for rule in catalog.beads if rule.kind != "ridge"] == others
    assert catalog.laps.land["ridge"] == pytest.approx(3.5 * 0.0254)
    assert catalog.laps.land["hip"] == base.laps.land["hip"]
    assert catalog.laps.handling == base.laps.handling
    assert (catalog.reserve_strip, catalog.reserve_foam) == (0.12, 0.3)
    assert catalog.reserve_sealant == base.reserve_sealant


def test_rates_are_per_second() -> None:
    """Work rates become metres per second, node time its inverse, wages money per second."""
    rates = read_catalog(SHELF).rates
    assert rates.strip == pytest.approx(30 / 3600)
    assert rates.bead == pytest.approx(200 * 0.3048 / 3600)
    assert rates.node == pytest.approx(1 / 360)
    assert rates.wage == pytest.approx(54 / 3600)
    assert (rates.currency, rates.strip_overhead) == ("USD", None)


def test_a_file_with_prices_only_keeps_the_default_rules() -> None:
    """A catalog that says nothing of laps and beads leaves them alone."""
    catalog = read_catalog("rates: {currency: EUR}\n")
    base = default_catalog()
    assert (catalog.strips, catalog.beads, catalog.laps) == (base.strips, base.beads, base.laps)
    assert catalog.source == "user's catalog, source not stated"


def problems(text: str) -> list[Problem]:
    """Return what is wrong with a catalog."""
    with pytest.raises(InputError) as caught:
        read_catalog(text, name="shelf.yaml")
    return list(caught.value.problems)


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ("strips:", "stripes:", "unknown word ‘stripes’"),
        ("width: 6,", "width: -6,", "strip narrow, width: ‘-6’ is not more than zero"),
        ("28 fl oz", "28", "sealant quart, volume: ‘28’ cannot be read as a volume"),
        ("pack: cartridge", "pack: tub", "sealant quart, pack: ‘tub’ is not a known word"),
        ("kind: ridge", "kind: rigde", "‘rigde’ is not a known word"),
        ("count: 8", "count: many", "‘many’ is not a whole number"),
        ("per_carton: 8", "per_carton: 0", "‘0’ is not a whole number of at least 1"),
        ("30 m/h", "30 m", "rates, strip: ‘30 m’ is not a length over a time"),
        ("6 min", "6", "rates, node: ‘6’ cannot be read as a time"),
        ("12 %", "300 %", "reserve, strip: ‘300 %’ is outside the range"),
        ("price: 9", "price: nine", "‘nine’ is not a number"),
        ("id: wide", "id: narrow", "the id ‘narrow’ is used before"),
        ("ridge: 3-1/2", "rige: 3", "‘rige’"),
    ],
)
def test_a_wrong_value_is_told_with_its_line(old: str, new: str, sentence: str) -> None:
    """Each mistake is a sentence at its line with a remedy."""
    assert old in SHELF
    found = problems(SHELF.replace(old, new, 1))
    assert any(sentence in problem.sentence for problem in found), found
    assert all(problem.remedy and problem.line is not None for problem in found)
    assert any(problem.line == SHELF[: SHELF.index(old)].count("\n") + 1 for problem in found)


@pytest.mark.parametrize("text", ["", "- a\n- b\n", "strips: []\n", "strips: 3\n", "laps: [\n"])
def test_a_file_that_is_no_catalog_is_told(text: str) -> None:
    """Empty and misshapen files are refused in sentences."""
    assert all(problem.sentence and problem.remedy for problem in problems(text))
