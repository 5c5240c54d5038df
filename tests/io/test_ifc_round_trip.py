"""From a model to a sealed house, out to a model again, and back."""

from __future__ import annotations

from pathlib import Path

import ifcopenshell
import ifcopenshell.validate
import pytest
from tests.ifc_sealed import small_schedule
from tests.ifc_wren import FILE
from tests.samples import gable_box

from seamwright.io.bcf import questions_from, write_bcf
from seamwright.io.ifc import read_ifc, write_ifc
from seamwright.io.plan import builtin_house, read_plan
from seamwright.joints.register import build_register
from seamwright.report.house import SealedHouse
from seamwright.seals.catalog import default_catalog
from seamwright.shell.build import build_shell
from seamwright.workflow import seal_house

STAMP = "2026-01-01T00:00:00"


@pytest.fixture(scope="module")
def wren() -> SealedHouse:
    """Return the wren house sealed with the common-practice catalog."""
    return seal_house(read_ifc(FILE).plan, default_catalog())


@pytest.fixture(scope="module")
def again(wren: SealedHouse, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the sealed wren house as a model."""
    path = tmp_path_factory.mktemp("ifc") / "again.ifc"
    write_ifc(path, wren.shell, wren.register, wren.schedule, project_name="Wren", timestamp=STAMP)
    return path


def test_the_model_makes_a_house_whose_lines_close(wren: SealedHouse) -> None:
    """Planes, plates, beam and openings from the model close on both faces, with every kind."""
    assert wren.register.breaks == ()
    kinds = {joint.kind for joint in wren.register.joints}
    assert kinds >= {
        "wall_spline", "wall_corner", "wall_tee", "sill", "eave", "rake", "ridge", "roof_spline",
        "opening", "penetration",
    }  # fmt: skip


def test_the_sealed_house_is_a_valid_model(again: Path) -> None:
    """What is written for a whole house follows the schema."""
    log = ifcopenshell.validate.json_logger()
    ifcopenshell.validate.validate(ifcopenshell.open(str(again)), log)
    assert log.statements == []


def test_the_same_joints_come_back(wren: SealedHouse, again: Path) -> None:
    """Read back, laid out and searched anew, the same joints stand with the same lengths."""
    register = build_register(build_shell(read_ifc(again).plan))
    want = {joint.id: joint for joint in wren.register.joints}
    got = {joint.id: joint for joint in register.joints}
    assert set(got) == set(want)
    for name, joint in got.items():
        assert joint.kind == want[name].kind
        assert joint.length == pytest.approx(want[name].length, abs=1e-5)
    assert register.breaks == ()


def test_the_hand_made_house_comes_back_too(tmp_path: Path) -> None:
    """The small sample house keeps its joints over a round trip."""
    shell = gable_box()
    register = build_register(shell)
    path = tmp_path / "box.ifc"
    write_ifc(path, shell, register, small_schedule(), project_name="Box", timestamp=STAMP)
    back = build_register(build_shell(read_ifc(path).plan))
    assert {joint.id for joint in back.joints} == {joint.id for joint in register.joints}


def test_the_model_stands_where_the_designers_stands(wren: SealedHouse, tmp_path: Path) -> None:
    """Given the shift of the reading, the written model lies over the one that was read."""
    reading = read_ifc(FILE)
    x, y, z = (float(c) for c in reading.shift)
    path = tmp_path / "over.ifc"
    write_ifc(
        path, wren.shell, wren.register, wren.schedule, project_name="Wren", timestamp=STAMP,
        shift=(x, y, z),
    )  # fmt: skip
    over = read_ifc(path)
    first = {p.id: p for p in reading.plan.panels}["West.1"]
    same = {p.id: p for p in over.plan.panels}["West.1"]
    for axis in range(3):
        want = float(first.origin[axis] + reading.shift[axis])
        assert float(same.origin[axis] + over.shift[axis]) == pytest.approx(want, abs=1e-5)
    assert abs(float(over.shift[0])) > 1e5


def test_a_house_asks_few_questions(wren: SealedHouse, tmp_path: Path) -> None:
    """A house of a hundred joints asks a dozen questions, not a hundred."""
    reading = read_ifc(FILE)
    questions = questions_from(wren.schedule, wren.register)
    assert 0 < len(questions) < 30
    write_bcf(
        tmp_path / "q.bcf", questions, project_name="Wren", author="lead", timestamp=STAMP,
        global_ids=dict(reading.global_ids),
        shift=(float(reading.shift[0]), float(reading.shift[1]), float(reading.shift[2])),
    )  # fmt: skip
    assert (tmp_path / "q.bcf").stat().st_size > 1000


def test_openings_that_panels_end_at_come_back(tmp_path: Path) -> None:
    """Windows wider than the panels stand between them; read back, the house still closes."""
    house = seal_house(read_plan(builtin_house("cypress_house")).plan, default_catalog())
    path = tmp_path / "cypress.ifc"
    write_ifc(path, house.shell, house.register, house.schedule, project_name="C", timestamp=STAMP)
    plan = read_ifc(path).plan
    assert {o.id for o in plan.openings} == {o.id for o in house.shell.openings}
    assert build_register(build_shell(plan)).breaks == ()
