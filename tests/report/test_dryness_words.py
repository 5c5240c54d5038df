"""What a leakage within limits is called, and what a margin is called."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from seamwright.moisture.verdict.leak import largest_leak
from seamwright.moisture.verdict.types import FaceOption
from seamwright.report import joint_dryness
from seamwright.report.dryness_marks import leak_cell, state_word
from seamwright.report.types import Quantity
from seamwright.units import format_quantity

LEVELS = (0.01, 0.1, 1.0)


@pytest.mark.parametrize(
    ("margins", "told"),
    [
        ((0.5, 0.4, 0.3), "over 1.00 m³/(h·m)"),
        ((-0.1, -0.4, -0.9), "not even 0.010 m³/(h·m)"),
        ((0.5, 0.2, -0.2), "0.316 m³/(h·m)"),
        ((-0.5, 0.2, 0.1), "wetter when tighter"),
    ],
)
def test_a_leak_beyond_what_was_tried_is_bounded_in_words(
    margins: tuple[float, ...], told: str
) -> None:
    """A number alone is one that was crossed; else words say on which side the limit lies."""
    cell = leak_cell(FaceOption(face="inner", verdicts=(), leak=largest_leak(LEVELS, margins)))
    shown = format_quantity(cell, "metric") if isinstance(cell, Quantity) else cell
    assert shown == told


def test_a_leak_that_was_not_looked_for_is_left_open() -> None:
    """The short answer has none."""
    assert leak_cell(FaceOption(face="inner", verdicts=())) is None


@pytest.mark.parametrize(
    ("margin", "word"),
    [(0.30, "within"), (0.05, "within"), (0.04, "TOO CLOSE"), (-0.04, "TOO CLOSE"),
     (-0.05, "OUTSIDE"), (-0.9, "OUTSIDE")],
)  # fmt: skip
def test_a_margin_that_a_finer_grid_could_turn_is_not_called_either(
    margin: float, word: str
) -> None:
    """Within 0.05 of the limit it reads too close."""
    assert state_word(margin) == word


@pytest.mark.parametrize(("lowest", "case"), [(-0.02, "crosses"), (-0.2, "not monotone")])
def test_a_hair_at_the_lowest_level_does_not_turn_a_joint(lowest: float, case: str) -> None:
    """Outside at the lowest level by less than what the grid moves, it is not wetter when tighter;
    outside by more it is.
    """
    margins = {0.01: lowest, 0.1: 0.3, 0.4: 0.1, 1.0: -0.4}
    climb = SimpleNamespace(
        usual=("judged",), ladder=SimpleNamespace(face="inner", usual=0.4),
        runs=[SimpleNamespace(leakage=k, verdict=SimpleNamespace(margin=m))
              for k, m in margins.items()],
    )  # fmt: skip
    option = joint_dryness._option(climb)  # type: ignore[arg-type]
    assert option is not None
    assert option.leak is not None
    assert option.leak.case == case
