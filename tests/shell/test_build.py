"""The shell of whole houses: closed, nothing in the same place twice, volumes as they must be."""

from __future__ import annotations

import pytest

from seamwright.shell.build import build_shell
from seamwright.shell.types import Shell
from tests.shell.plans import box, gapless
from tests.shell.solids import outside_hits, overlaps, skewed_sides, volume


@pytest.fixture(scope="module")
def gable_house() -> Shell:
    return build_shell(box())


def test_gable_walls_and_roof_have_the_expected_ids(gable_house: Shell) -> None:
    """Walls carry their footprint edge's letter, roof planes R1 and R2, panels a number."""
    planes = sorted({p.plane_id for p in gable_house.panels})
    assert planes == ["A", "B", "C", "D", "R1", "R2"]
    assert [p.id for p in gable_house.panels if p.plane_id == "B"] == [
        f"B.{i}" for i in range(1, 6)
    ]


def test_gable_house_has_no_two_solids_in_one_place(gable_house: Shell) -> None:
    """No panel reaches into another by more than 1 mm."""
    assert overlaps(gable_house.panels) == []


def test_gable_house_side_faces_are_flat(gable_house: Shell) -> None:
    """Every side face of every panel is a plane."""
    assert max(skewed_sides(p) for p in gable_house.panels) < 1e-6


def test_gable_house_is_closed_above_the_slab() -> None:
    """Without gaps at the seams, every ray from the floor passes through panel."""
    shell = build_shell(gapless(box()))
    assert min(outside_hits(shell.panels, (4.0, 3.0, 0.05), 150, seed=1)) > 0.1


def test_gable_volume_follows_from_plane_areas(gable_house: Shell) -> None:
    """The roof's volume is slope length times length times thickness, less the seams' gaps."""
    roof = [p for p in gable_house.panels if p.role == "roof"]
    thickness = roof[0].thickness
    slope = 3.4 * 2**0.5
    gaps = 7 * 0.003 * slope * thickness
    expected = 2 * (8.6 * slope * thickness - gaps)
    assert sum(volume(p) for p in roof) == pytest.approx(expected, rel=1e-9)
