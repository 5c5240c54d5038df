"""The examples are true: each runs, and its numbers are asserted here."""

from __future__ import annotations

import runpy
from pathlib import Path

import pytest

from seamwright.cli.source import read_source
from seamwright.errors import InputError
from seamwright.workflow import register_joints

EXAMPLES = Path(__file__).parents[1] / "examples"


def test_the_first_house_is_what_the_readme_says() -> None:
    """The twelve lines run, and the smallest house takes three widths of strip."""
    found = runpy.run_path(str(EXAMPLES / "ex01_first_house.py"))
    assert set(found["rolls"]) == {"strip-4", "strip-12", "strip-18"}
    assert "ridge" in found["kinds"]


def test_sixty_listed_panels_make_a_closed_house() -> None:
    """A list rounded to 1/16 in closes; its sill is the outline less the door and the seams.

    Two walls of 43 ft 5-1/2 in and two of 27 ft 5-1/2 in, a door of 3 ft 2 in, 32 seams of 1/8 in.
    """
    source = read_source(
        str(EXAMPLES / "sixty_panels.csv"), types=EXAMPLES / "sixty_panels_types.yaml"
    )
    shell, register = register_joints(source.plan)
    assert len(shell.panels) == 60
    assert register.breaks == ()
    inches = 2 * (521.5 + 329.5) - 38 - 32 / 8
    sill = sum(joint.length for joint in register.joints if joint.kind == "sill")
    assert sill / 0.0254 == pytest.approx(inches, abs=32 / 16)


def test_a_broken_list_is_told_alone(tmp_path: Path) -> None:
    """A list that cannot be read brings no complaints about openings in panels it would name."""
    broken = tmp_path / "list.csv"
    broken.write_text("", encoding="utf-8")
    with pytest.raises(InputError) as caught:
        read_source(str(broken), types=EXAMPLES / "sixty_panels_types.yaml")
    assert len(caught.value.problems) == 1
    assert "the panel list is empty" in str(caught.value)
