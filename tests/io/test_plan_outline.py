"""Outlines: corners, rectangles and walks, turned and checked exactly."""

from __future__ import annotations

from fractions import Fraction

import pytest

from seamwright.io.plan.model_shell import OutlineFields
from seamwright.io.plan.outline import Outline, outline_of, side_index

SQUARE = ((0, 0), (4, 0), (4, 4), (0, 4))


def read(told: list[str], **given: object) -> Outline | None:
    """Return the outline of raw fields in metres, gathering what is told."""
    fields = OutlineFields.model_validate(given, context={"units": "m"})
    return outline_of(fields, "m", lambda sentence, _: told.append(sentence))


def test_a_walk_and_its_corners_are_one_outline() -> None:
    """Walking the sides gives the same corners as listing them."""
    walk = read([], walk=["east 4", "n 4 m", "west 2 west 2", "south 4"])
    assert walk is not None
    assert walk.corners == SQUARE


def test_a_walk_may_start_anywhere_and_step_aside() -> None:
    """One leg may go two ways at once, and the walk may start off the origin."""
    walk = read([], walk=["east 3 north 4", "west 3", "close"], start=["1 m", "1 m"])
    assert walk is not None
    assert walk.corners == ((1, 1), (4, 5), (1, 5))


def test_a_walk_that_goes_straight_on_has_no_corner_there() -> None:
    """A start in the middle of a side leaves no corner behind."""
    walk = read([], walk=["east 2", "north 4", "west 4", "south 4", "east 2"])
    assert walk is not None
    assert len(walk.corners) == 4


def test_clockwise_corners_are_turned_and_keep_their_first() -> None:
    """A clockwise outline is turned; its sides keep the numbers they were written with."""
    outline = read([], corners=[[0, 0], [0, 4], [4, 4], [4, 0]])
    assert outline is not None
    assert outline.turned
    assert outline.corners == SQUARE
    assert outline.sides == (4, 3, 2, 1)
    assert side_index(outline, "side 4", lambda *_: None) == 0


def test_a_closing_corner_may_be_repeated() -> None:
    """Repeating the first corner at the end changes nothing."""
    outline = read([], corners=[[0, 0], [4, 0], [4, 4], [0, 4], [0, 0]])
    assert outline is not None
    assert outline.corners == SQUARE


@pytest.mark.parametrize(("word", "edge"), [("south", 0), ("East", 1), ("2", 1), ("side 3", 2)])
def test_sides_are_named_by_compass_or_number(word: str, edge: int) -> None:
    """A side is the one that faces a compass word, or has a number."""
    outline = read([], rectangle=[[0, 0], [4, 4]])
    assert outline is not None
    assert side_index(outline, word, lambda *_: None) == edge


@pytest.mark.parametrize(
    ("word", "reason"),
    [
        ("side 9", "there is no side 9"),
        ("upward", "‘upward’ is not a side"),
        ("northeast", "no side faces northeast"),
    ],
)
def test_a_side_that_is_not_there_is_told(word: str, reason: str) -> None:
    """A side that cannot be meant is refused with its reason."""
    outline, told = read([], rectangle=[[0, 0], [4, 4]]), []
    assert outline is not None
    assert side_index(outline, word, lambda sentence, _: told.append(sentence)) is None
    assert told == [reason]


def test_two_sides_that_face_one_way_need_a_number() -> None:
    """An L has two sides to the north; the compass alone cannot tell them apart."""
    told: list[str] = []
    outline = read([], walk=["east 4", "north 2", "west 2", "north 2", "west 2", "south 4"])
    assert outline is not None
    assert side_index(outline, "north", lambda sentence, _: told.append(sentence)) is None
    assert told == ["2 sides face north"]


@pytest.mark.parametrize(
    ("given", "reason"),
    [
        ({}, "no outline is given"),
        ({"rectangle": [[0, 0], [1, 1]], "walk": ["east 1", "close"]}, "given in two ways"),
        ({"corners": [[0, 0], [4, 4], [4, 0], [0, 4]]}, "side 1 (corners 1 to 2) crosses"),
        ({"corners": [[0, 0], [4, 0], [4, 0], [0, 4]]}, "corners 2 and 3 are the same point"),
        ({"corners": [[0, 0], [2, 0], [4, 0], [0, 4]]}, "corner 2 lies on the line"),
        ({"corners": [[0, 0], [4, 0], [2, 0]]}, "lies on the line"),
        ({"rectangle": [[0, 0], [4, 0]]}, "are the same point"),
        ({"walk": ["east 4", "north 4", "west 3", "south 4"]}, "ends 1.0000 m east of"),
        ({"walk": ["east 4", "norht 4", "close"]}, "leg 2 of the walk, ‘norht 4’, cannot"),
        ({"walk": ["east", "north 4", "close"]}, "leg 1 of the walk, the length is empty"),
        (
            {"corners": [[0, 0], [4, 0], [4, 4], [2, 0], [0, 4]]},
            "side 1 (corners 1 to 2) crosses or touches side 3 (corners 3 to 4)",
        ),
    ],
)
def test_a_bad_outline_says_which_side(given: dict[str, object], reason: str) -> None:
    """A bad outline is refused, and the reason names corners, sides or legs."""
    told: list[str] = []
    assert read(told, **given) is None
    assert any(reason in sentence for sentence in told), told


def test_crossings_are_found_exactly() -> None:
    """A corner one part in 10¹² off a side neither touches nor crosses it."""
    near = Fraction(1, 10**12)
    told: list[str] = []
    corners = [[0, 0], [4, 0], [4, 4], [2, f"{float(near):.12f}"], [0, 4]]
    assert read(told, corners=corners) is not None
    assert told == []
