"""The shell of whole houses: closed, nothing in the same place twice, volumes as they must be."""

from __future__ import annotations

from fractions import Fraction as F  # noqa: N817 (a plan is full of fractions)

import pytest
import shapely
from tests.shell import plans
from tests.shell.solids import overlaps, section, skewed_sides, upward_hits, volume

from seamwright.errors import InputError
from seamwright.shell.build import build_shell
from seamwright.shell.plan import Base, Plan, Preferences

CENTER = (4.0, 3.0, 0.05)
TEE = (6.0, 1.0, 0.05)
HOUSES: dict[str, tuple[Plan, tuple[float, float, float]]] = {
    "gable": (plans.box(), CENTER),
    "hip": (plans.box(roof=(plans.hip(),)), CENTER),
    "shed": (
        plans.box(roof=(plans.gable(kind="shed", eaves=(0,), pitch=F(1, 4)),)),
        CENTER,
    ),
    "saltbox": (plans.box(roof=(plans.gable(kind="saltbox", second_pitch=F(1, 2)),)), CENTER),
    "gambrel": (plans.box(roof=(plans.gambrel(),)), CENTER),
    "eave plate": (plans.box(roof=(plans.gable(eave_plate=F(38, 1000)),)), CENTER),
    "hip on plates": (plans.box(roof=(plans.hip(eave_plate=F(38, 1000)),)), CENTER),
    "alternate corners": (plans.box(preferences=Preferences(corners="alternate")), CENTER),
    "from the end": (
        plans.box(
            roof=(plans.hip(),),
            preferences=Preferences(corners="end_through", layout_from="end"),
        ),
        CENTER,
    ),
    "octagon": (plans.octagon(), CENTER),
    "tee": (plans.tee(), TEE),
    "tee, low wing": (plans.tee(side=plans.wing(pitch=F(1, 2))), TEE),
    "tee, equal ridges": (plans.equal_tee(), TEE),
    "ell of gables": (plans.ell(), (9.0, 1.0, 0.05)),
    "ell of hips": (plans.hipped_ell(), (9.0, 1.0, 0.05)),
    "platform floor": (plans.two_storeys("platform"), CENTER),
    "hanging floor": (plans.two_storeys("hanging"), CENTER),
    "entry beside a platform house": (plans.with_entry("platform"), CENTER),
    "entry beside a hanging floor": (plans.with_entry("hanging"), CENTER),
    "floor panels": (
        plans.box(base=Base(kind="floor_panels", panel_type="R10", top=F(1, 2), sill=F(38, 1000))),
        (4.0, 3.0, 0.55),
    ),
    "gable dormer": (plans.with_dormer(), (4.0, 1.2, 3.9)),
    "shed dormer": (plans.with_dormer(kind="shed", pitch=F(1, 4), width=F(3)), (4.0, 1.2, 3.9)),
}


@pytest.mark.parametrize("name", HOUSES)
def test_no_two_solids_in_one_place(name: str) -> None:
    """No panel reaches into another by more than 1 mm, whatever the roof and the corners."""
    assert overlaps(build_shell(HOUSES[name][0]).panels) == []


@pytest.mark.parametrize("name", HOUSES)
def test_side_faces_are_flat_and_vertices_match(name: str) -> None:
    """Every edge has the same vertices on both faces and a plane between them."""
    for panel in build_shell(HOUSES[name][0]).panels:
        assert len(panel.inner) == len(panel.outer)
        assert skewed_sides(panel) < 1e-6
        assert section(panel, 0.5).is_valid


@pytest.mark.parametrize("name", HOUSES)
def test_shell_is_closed_without_seam_gaps(name: str) -> None:
    """Every ray upward from the room passes through panel, also at stepped corners."""
    plan, inside = HOUSES[name]
    thinnest = float(plans.WALL.skin_inner + plans.WALL.core + plans.WALL.skin_outer)
    hits = upward_hits(build_shell(plans.gapless(plan)).panels, inside, 400, seed=1)
    assert hits.min() > 0.5 * thinnest


def test_ids_follow_edges_planes_and_numbers() -> None:
    """Walls carry their footprint edge's letter, roof planes R1 and R2, panels a number."""
    panels = build_shell(plans.box()).panels
    assert sorted({p.plane_id for p in panels}) == ["A", "B", "C", "D", "R1", "R2"]
    assert [p.id for p in panels if p.plane_id == "B"] == [f"B.{i}" for i in range(1, 6)]


def test_gable_roof_volume_follows_from_its_planes() -> None:
    """A roof's volume is slope length times length times thickness, less the seams' gaps."""
    roof = [p for p in build_shell(plans.box()).panels if p.role == "roof"]
    slope = 3.4 * 2**0.5
    gaps = 7 * 0.003 * slope
    expected = 2 * (8.6 * slope - gaps) * roof[0].thickness
    assert sum(volume(p) for p in roof) == pytest.approx(expected, rel=1e-9)


def test_wall_volume_equals_the_prism_between_slab_and_roof() -> None:
    """Walls of a gable house fill exactly the band under the roof's underside."""
    walls = [p for p in build_shell(plans.gapless(plans.box())).panels if p.role == "wall"]
    t = float(plans.WALL.skin_inner + plans.WALL.core + plans.WALL.skin_outer)
    band = shapely.box(0, 0, 8, 6).difference(shapely.box(t, t, 8 - t, 6 - t))
    expected = band.area * 2.4
    for x0, x1 in ((0, t), (8 - t, 8)):
        expected += (x1 - x0) * 6 * 3 / 2
    for _ in range(2):
        expected += (8 - 2 * t) * t * t / 2
    assert sum(volume(p) for p in walls) == pytest.approx(expected, rel=1e-9)


def test_outward_normals_point_away_from_the_room() -> None:
    """From the middle of the room every wall, roof and floor panel turns its back outward."""
    plan = plans.box(base=Base(kind="floor_panels", panel_type="R10", top=F(0)))
    for panel in build_shell(plan).panels:
        assert panel.frame.local((4.0, 3.0, 1.0))[2] < 0.0
        assert shapely.Polygon(panel.inner).exterior.is_ccw


def test_all_problems_come_together() -> None:
    """Two mistakes in one plan are both reported, each with its subject."""
    plan = plans.box(
        openings=(plans.window("W1", along=F(7), width=F(2)), plans.window("W2", host="Q"))
    )
    with pytest.raises(InputError) as caught:
        build_shell(plan)
    assert [p.subject for p in caught.value.problems] == ["opening W1", "opening W2"]


def test_assumptions_reach_the_shell() -> None:
    """What the plan leaves open is said in sentences."""
    shell = build_shell(plans.box(base=None, roof=()))
    assert len(shell.assumptions) == 2
    assert all(sentence.endswith(".") for sentence in shell.assumptions)
