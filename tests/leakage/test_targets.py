"""Limits by edition and climate zone."""

from __future__ import annotations

import pytest

from seamwright.errors import InputError
from seamwright.leakage.targets import LIMITS, Limit, editions, target_for, with_limit, zone_number


@pytest.mark.parametrize(
    ("zone", "edition", "limit"),
    [
        ("2A", "IECC 2012", 5.0),
        ("5B", "iecc  2018", 3.0),
        ("0", "IECC 2021", 5.0),
        ("4 marine", "IECC 2021", 3.0),
        ("2", "IECC 2024", 4.0),
        ("5", "IECC 2024", 3.0),
        ("7", "IECC 2024", 2.5),
        (None, "passive house", 0.6),
        (None, "R-2000", 1.5),
    ],
)
def test_limits_follow_edition_and_zone(zone: str | None, edition: str, limit: float) -> None:
    """Each edition has its own limit by zone."""
    target = target_for(zone, edition)
    assert (target.measure, target.limit) == ("ach50", limit)


@pytest.mark.parametrize("edition", editions())
def test_the_edition_always_shows(edition: str) -> None:
    """No limit comes without the edition it belongs to, its zone and how sure its figure is."""
    target = target_for("5", edition)
    assert edition in target.source
    row = next(row for row in LIMITS if edition in row.editions)
    assert ("from memory" in target.source) == (row.mark == "from memory")
    assert ("climate zone 5" in target.source) == bool(row.zones)


def test_a_limit_at_another_pressure_is_brought_to_fifty_pascals() -> None:
    """A limit at 75 Pa falls by (50/75)^0.65, and says so."""
    target = target_for(None, "USACE")
    assert target.limit == pytest.approx(0.25 * 18.288 * (50 / 75) ** 0.65)
    assert "75 Pa" in target.source


def test_an_exception_is_taken_only_when_asked_for() -> None:
    """The limit per area for small dwellings does not stand in for the one by zone."""
    assert target_for("5", "IECC 2021", "q50").limit == pytest.approx(5.4864)
    with pytest.raises(InputError, match="no climate zone is given"):
        target_for(None, "IECC 2021")


def test_an_unknown_edition_lists_those_known() -> None:
    """A wrong edition is answered with the right ones."""
    with pytest.raises(InputError, match="IECC 2024"):
        target_for("5", "IECC 1812")


def test_a_zone_the_edition_does_not_have_is_told() -> None:
    """Zone 0 came in with later editions."""
    with pytest.raises(InputError, match="no zone 0"):
        target_for("0A", "IECC 2018")


def test_a_measure_that_is_not_limited_is_told() -> None:
    """An edition without a limit per area says so."""
    with pytest.raises(InputError, match="no limit on q50"):
        target_for("5", "IECC 2018", "q50")


def test_a_limit_of_the_users_own_comes_first() -> None:
    """A row put in front replaces the one behind it."""
    own = Limit(
        rule="IECC", editions=("IECC 2021",), zones=(5,), measure="ach50", limit=2.0,
        source="amended by the county", mark="seen",
    )  # fmt: skip
    assert target_for("5", "IECC 2021", table=with_limit(own)).limit == 2.0
    assert target_for("6", "IECC 2021", table=with_limit(own)).limit == 3.0


@pytest.mark.parametrize(
    ("zone", "number"),
    [("5B", 5), (" 8", 8), ("4 marine", 4), (None, None), ("12", None), ("X", None)],
)
def test_zone_numbers(zone: str | None, number: int | None) -> None:
    """A zone is known by its number, with or without its moisture letter."""
    assert zone_number(zone) == number
