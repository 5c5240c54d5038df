"""Edges that end under a panel standing across them."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.samples import GAP, THICK, UP, build, gable_box, rect_panel

from seamwright.joints.register import build_register
from seamwright.shell.types import Shell

LONG = 1.2


def _wall_and_end() -> Shell:
    """Return a wall along x, a shorter one upon it, and one along y that stands on its end."""
    x, y = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)
    above = (0.0, THICK, 2.4 + GAP)
    return Shell(
        builds=(build(),),
        panels=(
            rect_panel("A.1", "wall", (0.0, THICK, 0.0), x, UP, LONG, 2.4),
            rect_panel("2A.1", "wall", above, x, UP, LONG - THICK, 2.4),
            rect_panel("2B.1", "wall", (LONG - THICK, 0.0, 2.4 + GAP), y, UP, 2.0, 2.4),
        ),
    )


def test_the_square_under_a_crossing_wall_is_explained() -> None:
    """The last stretch of the lower wall's top is covered by the upper wall that crosses it."""
    ledger = build_register(_wall_and_end()).ledger
    covered = [use for use in ledger if "stands across it" in use.reason]
    assert [(use.panel_id, use.fate) for use in covered] == [("A.1", "explained")]
    assert covered[0].end - covered[0].start == pytest.approx(THICK, abs=1e-3)


def test_without_the_crossing_wall_the_stretch_is_not_explained_so() -> None:
    """Take the crossing wall away and nothing covers the end any more."""
    shell = _wall_and_end()
    shell = replace(shell, panels=shell.panels[:2])
    assert [u for u in build_register(shell).ledger if "stands across it" in u.reason] == []


def test_a_closed_house_needs_no_such_reason() -> None:
    """In the sample house every edge is matched or explained otherwise."""
    assert [u for u in build_register(gable_box()).ledger if "stands across it" in u.reason] == []
