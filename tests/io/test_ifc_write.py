"""Building models written out, and read back."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import ifcopenshell
import ifcopenshell.geom
import ifcopenshell.util.element as element_of
import ifcopenshell.validate
import numpy as np
import pytest
from tests.ifc_sealed import small_house
from tests.samples import THICK, gable_box

from seamwright.io.ifc import global_id, read_ifc, write_ifc
from seamwright.io.ifc.ids import compressed, stable_uuid

STAMP = "2026-01-02T03:04:05"


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the small house as a model."""
    path = tmp_path_factory.mktemp("ifc") / "house.ifc"
    write_ifc(path, *small_house(), project_name="Box", timestamp=STAMP)
    return path


@pytest.fixture(scope="module")
def model(written: Path) -> Any:
    """Return the model opened by the library itself."""
    return ifcopenshell.open(str(written))


# the library's checker leaves its own rule file open
@pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning")
def test_the_model_is_valid(model: Any) -> None:
    """Every attribute and every rule of the schema holds, by the library's own checker."""
    log = ifcopenshell.validate.json_logger()
    ifcopenshell.validate.validate(model, log, express_rules=True)
    assert log.statements == []
    assert model.schema == "IFC4"


def test_the_checker_would_see_a_fault(written: Path) -> None:
    """The check of the schema can fail: a wall without its GlobalId is seen."""
    broken = ifcopenshell.open(str(written))
    broken.by_type("IfcWall")[0].GlobalId = "short"
    log = ifcopenshell.validate.json_logger()
    ifcopenshell.validate.validate(broken, log)
    assert log.statements != []


def test_the_same_house_gives_the_same_file(written: Path, tmp_path: Path) -> None:
    """GlobalIds follow from the ids; two exports are the same line by line."""
    write_ifc(tmp_path / "house.ifc", *small_house(), project_name="Box", timestamp=STAMP)
    assert (tmp_path / "house.ifc").read_text() == written.read_text()


def test_global_ids_are_compressed_as_the_standard_does() -> None:
    """Our 22 characters are those of the library, for many numbers."""
    for index in range(50):
        number = stable_uuid("a", "b", str(index))
        assert compressed(number) == ifcopenshell.guid.compress(number.hex)


def test_no_global_id_stands_twice(model: Any) -> None:
    """Every rooted entity has a GlobalId of its own."""
    ids = [entity.GlobalId for entity in model.by_type("IfcRoot")]
    assert len(ids) == len(set(ids))


def test_panels_come_back_where_they_stood(written: Path) -> None:
    """Read back, every corner of every panel, both faces, lies within 1/100 mm."""
    reading = read_ifc(written)
    panels = {panel.id: panel for panel in reading.plan.panels}
    shell = gable_box()
    assert set(panels) == {panel.id for panel in shell.panels}
    for want in shell.panels:
        got = panels[want.id]
        assert (got.role, got.plane, got.storey) == (want.role, want.plane_id, want.storey)
        assert not got.lay_out
        u, v = np.array(got.along), np.array(got.up)
        assert np.cross(u, v) @ np.array(want.frame.n) == pytest.approx(1.0)
        origin = np.array([float(x) for x in got.origin])
        outer = got.outer_outline if got.outer_outline is not None else got.outline
        n = np.array(want.frame.n)
        for ring, height, mine in ((want.inner, 0.0, got.outline), (want.outer, THICK, outer)):
            a = np.array([want.frame.point(p, height) for p in ring])
            b = np.array([origin + float(p) * u + float(q) * v + height * n for p, q in mine])
            gaps = np.linalg.norm(a[:, None] - b[None], axis=2)
            assert gaps.min(axis=1).max() < 1e-5
            assert len(a) == len(b)


def test_everything_else_comes_back_too(written: Path) -> None:
    """Panel type, beam, slab, window and pipe are read as they were written; nothing is guessed."""
    reading = read_ifc(written)
    plan, build = reading.plan, gable_box().builds[0]
    (kind,) = plan.panel_types
    assert kind.id == build.id
    assert float(kind.core) == pytest.approx(build.core, abs=2e-6)
    assert (kind.spline, float(kind.max_width)) == (build.spline, build.max_width)
    assert [(t.id, t.kind) for t in plan.timbers] == [("ridge-beam", "ridge_beam")]
    assert [(s.id, s.kind, float(s.top)) for s in plan.supports] == [("slab", "slab", 0.0)]
    (window,) = plan.openings
    assert (window.id, window.host, float(window.along)) == ("W1", "A.1", 0.75)
    (pipe,) = plan.penetrations
    assert (pipe.id, pipe.kind, pipe.host) == ("P1", "pipe", "R1.1")
    assert float(pipe.diameter) == pytest.approx(0.11)
    assert reading.guessed == ()
    assert len(reading.left_out) == 1
    assert "earlier export" in reading.left_out[0]


def test_joints_say_what_they_are(model: Any) -> None:
    """A joint carries its kind, length, angle and seal in property sets of our name."""
    joint = model.by_guid(global_id("Box", "joint", "A.1-A.2"))
    sets = element_of.get_psets(joint)
    facts = sets["Seamwright_Joint"]
    assert (facts["Kind"], facts["Panels"]) == ("wall_spline", "A.1, A.2")
    assert facts["DihedralAngle"] == pytest.approx(180.0)
    seal = sets["Seamwright_Seal"]
    assert (seal["Signed"], seal["By"], seal["BeadCount"]) == ("signed", "R. Sample", 4)
    assert seal["InnerStripWidth"] == pytest.approx(0.1016)


def test_an_unsigned_face_reads_unsigned(model: Any) -> None:
    """UNSIGNED stands on the joint and on its strip, which says that no stock covers it."""
    joint = model.by_guid(global_id("Box", "joint", "R1.1-R2.2"))
    assert element_of.get_psets(joint)["Seamwright_Seal"]["Signed"] == "UNSIGNED"
    strip = model.by_guid(global_id("Box", "strip", "R1.1-R2.2 inner"))
    facts = element_of.get_psets(strip)["Seamwright_Strip"]
    assert facts["Signed"] == "UNSIGNED"
    assert facts["Stock"] == "no stock strip covers it"


def test_joints_connect_their_panels(model: Any) -> None:
    """A joint realizes the connection between the two things it joins."""
    found = {r.ConnectionType: r for r in model.by_type("IfcRelConnectsWithRealizingElements")}
    seam = found["wall_spline"]
    assert (seam.RelatingElement.Name, seam.RelatedElement.Name) == ("A.1", "A.2")
    assert found["sill"].RelatedElement.Name == "slab"


def test_strips_lie_on_the_skin_half_on_each_panel(model: Any) -> None:
    """The film of a seam's strip is as wide as the strip, on the room side of the wall."""
    strip = model.by_guid(global_id("Box", "strip", "A.1-A.2 inner"))
    shape = ifcopenshell.geom.create_shape(ifcopenshell.geom.settings(), strip)
    points = np.array(shape.geometry.verts).reshape(-1, 3)
    assert np.ptp(points[:, 0]) == pytest.approx(0.1016)
    assert points[:, 1].min() == pytest.approx(THICK)
    assert points[:, 1].max() == pytest.approx(THICK + 0.001)


def test_a_hole_is_cut_where_the_window_stands(model: Any) -> None:
    """The panel's body with its hole cut is smaller by the window's volume."""
    settings = ifcopenshell.geom.settings()
    panel = model.by_guid(global_id("Box", "panel", "A.1"))
    whole = _volume(ifcopenshell.geom.create_shape(settings, panel))
    settings.set("disable-opening-subtractions", True)
    uncut = _volume(ifcopenshell.geom.create_shape(settings, panel))
    assert uncut - whole == pytest.approx(0.9 * 1.2 * THICK, rel=1e-6)


def _volume(shape: Any) -> float:
    points = np.array(shape.geometry.verts).reshape(-1, 3)
    a, b, c = (points[np.array(shape.geometry.faces).reshape(-1, 3)[:, i]] for i in range(3))
    return float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum()) / 6
