"""The largest leak within limits."""

from __future__ import annotations

import pytest

from seamwright.errors import InputError
from seamwright.moisture.verdict.leak import largest_leak


def test_a_straight_margin_over_the_logarithm_is_met_exactly() -> None:
    """Where the margin falls evenly per doubling the crossing is exact."""
    limit = largest_leak([1.0, 2.0, 4.0, 8.0], [0.5, 0.25, 0.0001, -0.25])
    assert limit.case == "crosses"
    assert limit.level == pytest.approx(4.0, rel=1e-3)
    assert limit.ranges == ((1.0, limit.level),)


def test_all_within_names_the_top_level_and_says_more() -> None:
    """The limit lies above what was tried."""
    limit = largest_leak([0.1, 1.0], [0.5, 0.2])
    assert (limit.case, limit.level) == ("all within", 1.0)
    assert "lies above" in limit.advice


def test_none_within_gives_no_level() -> None:
    """A tighter seal alone does not keep the joint dry."""
    limit = largest_leak([0.1, 1.0], [-0.1, -0.2])
    assert (limit.case, limit.level, limit.ranges) == ("none within", None, ())
    assert "tighter seal alone" in limit.advice


def test_margins_that_come_back_are_told_and_the_lowest_stretch_counts() -> None:
    """Leakage that dries again at the top is no limit to build to."""
    limit = largest_leak([1.0, 2.0, 4.0], [0.1, -0.1, 0.1])
    assert limit.case == "not monotone"
    assert limit.level == pytest.approx(2**0.5)
    assert len(limit.ranges) == 2
    assert "do not leave a joint leaky" in limit.advice


def test_only_leaky_within_gives_no_level() -> None:
    """Where the tightest fails and leakier ones pass there is no limit."""
    limit = largest_leak([1.0, 2.0], [-0.1, 0.1])
    assert (limit.case, limit.level) == ("not monotone", None)
    assert limit.ranges == ((pytest.approx(2**0.5), 2.0),)


def test_from_no_leak_at_all_the_margin_is_straight() -> None:
    """From a level of zero the crossing is on the leakage itself."""
    assert largest_leak([0.0, 1.0], [0.3, -0.1]).level == pytest.approx(0.75)


@pytest.mark.parametrize(
    ("levels", "margins"),
    [([1.0], [1.0]), ([1.0, 2.0], [1.0]), ([2.0, 1.0], [1.0, 0.0]), ([-1.0, 1.0], [1.0, 0.0]),
     ([1.0, 2.0], [float("nan"), 0.0])],
)  # fmt: skip
def test_what_is_no_curve_is_refused(levels: list[float], margins: list[float]) -> None:
    """One level, missing margins, falling or negative levels and gaps are told."""
    with pytest.raises(InputError, match="do not make a curve"):
        largest_leak(levels, margins)
