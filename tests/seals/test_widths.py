"""Widths of strips: the sum, the stock that covers it, and what common practice expects."""

from __future__ import annotations

from dataclasses import replace

import pytest

from seamwright.seals.catalog import default_catalog, smallest_covering
from seamwright.seals.widths import size_strip

INCH = 0.0254

COMMON_PRACTICE = [
    # what, joint kind, span in inches, overhead, before the panels, expected width in inches
    ("flush spline, 1/8 in gap", "wall_spline", 0.125, False, False, 4),
    ("flush roof seam, 1/8 in gap", "roof_spline", 0.125, True, False, 4),
    ("inside-angle corner", "wall_corner", 0.0, False, False, 4),
    ("flush roof to wall", "eave", 0.0, True, False, 4),
    ("roof on a 1-1/2 in plate", "eave", 1.5, True, False, 12),
    ("roof on a 3-1/2 in plate", "eave", 3.5, True, False, 12),
    ("roof a step above the wall", "roof_step", 2.0, True, False, 12),
    ("ridge beam, two 2x plies", "ridge", 3.0, True, True, 18),
    ("ridge beam, 3-1/2 in", "ridge", 3.5, True, True, 18),
    ("ridge beam, 5-1/8 in", "ridge", 5.125, True, True, 18),
    ("ridge beam, 5-1/4 in", "ridge", 5.25, True, True, 18),
    ("ridge beam, 7 in", "ridge", 7.0, True, True, 18),
]


@pytest.mark.parametrize(
    ("what", "kind", "span", "overhead", "early", "expected"),
    COMMON_PRACTICE,
    ids=[row[0] for row in COMMON_PRACTICE],
)
def test_the_default_catalog_reproduces_common_practice(
    what: str, kind: str, span: float, overhead: bool, early: bool, expected: float
) -> None:
    """Common practice, no source: 4 in flush, 12 in stepped, 18 in over a ridge beam."""
    sizing = size_strip(
        default_catalog(), kind, span * INCH, overhead=overhead, before_panels=early
    )
    assert sizing.stock is not None, what
    assert sizing.stock.width == pytest.approx(expected * INCH)


def test_a_closed_seam_adds_no_span_and_no_placement() -> None:
    """At a closed seam the sum is two laps and nothing else."""
    sizing = size_strip(default_catalog(), "wall_spline", INCH / 8)
    assert sizing.required == pytest.approx(4 * INCH)
    assert sizing.lap == pytest.approx(2 * INCH)
    assert [term.value for term in sizing.terms] == [0.0, 2 * INCH]


def test_the_sum_over_a_ridge_beam_shows_every_allowance() -> None:
    """Span, two laps, placement and handling stand in the sum in that order."""
    sizing = size_strip(default_catalog(), "ridge", 7 * INCH, overhead=True, before_panels=True)
    assert [round(t.value * t.count / INCH, 6) for t in sizing.terms] == [7.0, 6.0, 0.375, 3.0]
    assert sizing.required == pytest.approx(16.375 * INCH)
    assert sizing.lap == pytest.approx(5.5 * INCH)


def test_nothing_covers_a_span_wider_than_the_shelf() -> None:
    """Without a wide enough stock there is none, and the lap is that of the bare sum."""
    sizing = size_strip(default_catalog(), "eave", 0.5)
    assert sizing.stock is None
    assert sizing.lap == pytest.approx((sizing.required - 0.5) / 2)


def test_an_empty_shelf_covers_nothing() -> None:
    """A catalog without strips gives none."""
    assert smallest_covering(replace(default_catalog(), strips=()), 0.1, 1e-6) is None


def test_the_shelf_s_order_does_not_matter() -> None:
    """The narrowest strip that covers is chosen from a shelf in any order."""
    catalog = default_catalog()
    turned = replace(catalog, strips=catalog.strips[::-1])
    assert smallest_covering(turned, 4 * INCH, 1e-6) == smallest_covering(catalog, 4 * INCH, 1e-6)


def test_every_default_says_where_it_comes_from() -> None:
    """No row of the default catalog is without a source."""
    catalog = default_catalog()
    rows = [*catalog.strips, *catalog.sealants, *catalog.foams, *catalog.beads, catalog.laps]
    assert all(row.source for row in rows)
    assert all(stock.source == "common practice, no source" for stock in catalog.strips)


def test_default_beads_stay_within_the_published_upper_end() -> None:
    """No joint takes more than six beads, eight at the ridge."""
    counts: dict[tuple[str, str | None, str | None], int] = {}
    for rule in default_catalog().beads:
        key = (rule.kind, rule.spline, rule.on)
        counts[key] = counts.get(key, 0) + rule.count
    assert max(n for (kind, _, _), n in counts.items() if kind == "ridge") == 8
    assert max(n for (kind, _, _), n in counts.items() if kind != "ridge") == 6
