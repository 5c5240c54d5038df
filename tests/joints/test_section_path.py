"""Paths over decks, past panel ends and around neighbors."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.hand_joints import joint, spline_joint
from tests.samples import GAP, THICK, UP, flush_pair, rect_panel

from seamwright.geometry.types import Frame
from seamwright.joints.section import cut_section
from seamwright.joints.types import Joint
from seamwright.shell.types import Shell, Support


def deck_between(thickness: float) -> Shell:
    """Return a rim panel, a deck on it flush with its outer face, and a wall on the deck."""
    south = (1.0, 0.0, 0.0)
    deck = Support(
        id="deck",
        kind="deck",
        frame=Frame(origin=(0.0, 0.0, 0.3 + thickness), u=south, v=(0.0, 1.0, 0.0)),
        outline=((0.0, 0.0), (1.2, 0.0), (1.2, 3.0), (0.0, 3.0)),
        thickness=thickness,
    )
    return Shell(
        builds=flush_pair().builds,
        panels=(
            rect_panel("A.rim.1", "rim", (0.0, THICK, 0.0), south, UP, 1.2, 0.3),
            rect_panel("2A.1", "wall", (0.0, THICK, 0.3 + thickness), south, UP, 1.2, 2.4),
        ),
        supports=(deck,),
    )


def deck_joint(panel: str, height: float) -> Joint:
    """Return the line of a panel at the deck."""
    return joint(
        f"{panel}-deck",
        "floor_line",
        (0.0, THICK, height),
        (1.2, THICK, height),
        panels=(panel,),
        others=("deck",),
        contact="edge_support",
    )


def test_over_the_edge_of_a_thin_deck_the_way_goes_on_to_the_panel_beyond() -> None:
    """A deck's edge takes no lap, so the outer way spans it and the lap lies on the rim."""
    section = cut_section(deck_between(0.018), deck_joint("2A.1", 0.318))
    assert section.inner is not None
    assert section.outer is not None
    assert (section.inner.span, section.outer.span) == pytest.approx((0.0, 0.018), abs=1e-9)
    assert section.outer.lands[1] == pytest.approx((0.0, -1.0), abs=1e-9)


def test_a_bearing_met_from_below_takes_the_lap_on_its_underside() -> None:
    """A rim's inner lap lies under the deck, its outer way goes up over the deck's edge."""
    section = cut_section(deck_between(0.018), deck_joint("A.rim.1", 0.3))
    assert section.inner is not None
    assert section.outer is not None
    assert section.inner.span == pytest.approx(0.0, abs=1e-9)
    assert section.outer.lands[1] == pytest.approx((0.0, 1.0), abs=1e-9)


def seamed_roof(turn: float = 0.0) -> Shell:
    """Return a level wall top under a flat roof with a seam 20 mm inside the wall's inner face.

    `turn` tips the inner roof panel up about that seam. [rad]
    """
    south = (1.0, 0.0, 0.0)
    inward = (0.0, math.cos(turn), math.sin(turn))
    return Shell(
        builds=flush_pair().builds,
        panels=(
            rect_panel("A.1", "wall", (0.0, THICK, 0.0), south, UP, 1.2, 2.4),
            rect_panel("R1.1", "roof", (0.0, -0.4, 2.4), south, (0.0, 1.0, 0.0), 1.2, 0.6),
            rect_panel("R1.2", "roof", (0.0, 0.203, 2.4), south, inward, 1.2, 2.0),
        ),
    )


EAVE_LINE = ((0.0, THICK, 2.4), (1.2, THICK, 2.4))


def test_a_neighbor_in_line_takes_the_lap() -> None:
    """Where a seam lies just beyond the wall the lap goes on over it."""
    eave = joint("A.1-R1.1", "eave", *EAVE_LINE, contact="edge_face")
    section = cut_section(seamed_roof(), eave)
    assert section.inner is not None
    assert section.inner.span == pytest.approx(0.0, abs=1e-9)


def test_a_neighbor_at_an_angle_takes_the_lap() -> None:
    """Where the roof folds just beyond the wall the lap lies on the next slope."""
    eave = joint("A.1-R1.1", "eave", *EAVE_LINE, contact="edge_face")
    section = cut_section(seamed_roof(turn=-0.2), eave)
    assert section.inner is not None
    assert section.inner.span == pytest.approx(0.2 - THICK, abs=1e-9)
    assert section.inner.lands[1] == pytest.approx((math.cos(0.2), -math.sin(0.2)))


def test_a_panel_that_blocks_the_end_leaves_no_way_around_it() -> None:
    """Where a wall stands against the roof's end there is no path, not a wrong one."""
    shell = seamed_roof()
    block = rect_panel("B.1", "wall", (0.0, 0.203 + THICK, 2.0), (1.0, 0.0, 0.0), UP, 1.2, 2.0)
    shell = replace(shell, panels=(*shell.panels[:2], block))
    eave = joint("A.1-R1.1", "eave", *EAVE_LINE, contact="edge_face")
    assert cut_section(shell, eave).inner is None


def test_no_strip_runs_through_two_panels_that_face_opposite_ways() -> None:
    """Edge to edge with the room on opposite sides there is no way on one face."""
    shell = flush_pair()
    south, north = (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0)
    turned = rect_panel("A.2", "wall", (2.4, 0.0, 0.0), north, UP, 1.2 - GAP, 2.4)
    first = rect_panel("A.1", "wall", (0.0, THICK, 0.0), south, UP, 1.2, 2.4)
    section = cut_section(replace(shell, panels=(first, turned)), spline_joint())
    assert section.inner is None
