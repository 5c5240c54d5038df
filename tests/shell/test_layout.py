"""Where seams go: modules, blocked stretches, slivers, both directions."""

from __future__ import annotations

import pytest

from seamwright.shell.layout import Module, Seams, merged, seams

BOARD = Module(most=1.2, least=0.3)


def test_seams_follow_the_module_from_the_start() -> None:
    """Seams stand at multiples of the largest width."""
    assert seams(0.0, 3.0, BOARD).at == pytest.approx((1.2, 2.4))


def test_seams_follow_the_module_from_the_end() -> None:
    """From the end, the narrow panel comes first."""
    assert seams(0.0, 3.0, BOARD, from_end=True).at == pytest.approx((0.6, 1.8))


def test_a_wall_no_wider_than_a_panel_has_no_seam() -> None:
    """An exact fit needs no seam."""
    assert seams(0.0, 1.2, BOARD) == Seams(at=())


def test_a_sliver_shares_with_the_panel_before_it() -> None:
    """A last panel of 0.1 m takes half of the last two widths."""
    assert seams(0.0, 2.5, BOARD).at == pytest.approx((1.2, 1.85))


def test_a_seam_moves_out_of_a_blocked_stretch() -> None:
    """A seam inside an opening goes to the near side of it, and the rest follows."""
    found = seams(0.0, 3.0, BOARD, blocked=[(1.0, 1.9)])
    assert found.at == pytest.approx((1.0, 2.2))
    assert found.hit == ()


def test_a_stretch_too_wide_to_avoid_is_named() -> None:
    """A stretch that starts too near the last seam is crossed, and said so."""
    found = seams(0.0, 3.0, BOARD, blocked=[(0.1, 1.9)])
    assert found.hit == ((0.1, 1.9),)


def test_forced_seams_divide_the_layout() -> None:
    """A forced position carries a seam, and each side is laid out by itself."""
    assert seams(0.0, 3.0, BOARD, forced=[1.0]).at == pytest.approx((1.0, 2.2))


def test_a_sliver_beside_a_blocked_middle_takes_the_nearest_allowed_place() -> None:
    """When the even split is blocked, the seam goes to the side of the block."""
    found = seams(0.0, 2.5, BOARD, blocked=[(1.7, 2.1)])
    assert found.at == pytest.approx((1.2, 1.7))


def test_overlapping_stretches_are_joined() -> None:
    """Two overlapping openings block as one; touching ones leave room between them."""
    assert merged([(2.0, 3.0), (0.0, 1.0), (0.5, 1.5)]) == ((0.0, 1.5), (2.0, 3.0))
