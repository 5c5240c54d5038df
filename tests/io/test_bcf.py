"""Questions to the designer, and the archive they travel in."""

from __future__ import annotations

import math
import zipfile
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from tests.ifc_sealed import small_house

from seamwright.errors import InputError
from seamwright.geometry.types import Segment, dot
from seamwright.io.bcf import camera_of, questions_from, write_bcf
from seamwright.io.ifc import global_id

TOPIC_ORDER = (
    "Title", "Priority", "Index", "Labels", "CreationDate", "CreationAuthor", "Description",
)  # fmt: skip
"""Order of a topic's elements in markup.xsd of BCF 2.1, as far as they are written."""


def archive(folder: Path, name: str = "q.bcf", **more: object) -> zipfile.ZipFile:
    """Return the archive of the small house's questions."""
    _, register, schedule = small_house()
    options = {"project_name": "Box", "author": "lead", "timestamp": "2026-01-02T03:04:05"}
    write_bcf(folder / name, questions_from(schedule, register), **{**options, **more})  # type: ignore[arg-type]
    return zipfile.ZipFile(folder / name)


def parts(file: zipfile.ZipFile, name: str) -> list[ET.Element]:
    """Return the root of every file of this name."""
    return [ET.fromstring(file.read(n)) for n in file.namelist() if n.endswith(name)]


def test_what_is_asked() -> None:
    """Unsigned faces by kind, findings that need an answer and open lines are asked; notes not."""
    _, register, schedule = small_house()
    questions = questions_from(schedule, register)
    assert [q.id for q in questions] == [
        "unsigned:ridge:inner",
        "unsigned:sill:inner",
        "unsigned:penetration:inner",
        "finding:F1:R1.1-R2.2",
        "finding:F2:R1.1-R2.2",
        "break:inner:D.1:1",
    ]
    assert all("UNSIGNED" in q.title and "UNSIGNED" in q.labels for q in questions[:3])
    assert questions[3].title == "R1.1-R2.2: no stock strip covers 750 mm"
    assert questions[3].priority == "High"
    assert "give the slab under it" in questions[5].description


def test_lengths_are_asked_in_the_users_units() -> None:
    """Placeholders in a finding are printed in feet and inches when asked for."""
    _, register, schedule = small_house()
    questions = questions_from(schedule, register, system="us")
    assert "750 mm" not in questions[3].title
    assert '"' in questions[3].title


def test_the_same_finding_about_many_joints_is_one_question() -> None:
    """A hundred joints with one trouble make one topic that names them all."""
    _, register, schedule = small_house()
    first, second = schedule.findings[0], schedule.findings[1]
    other = register.joints[1]
    twin = replace(other, id="R1.2-R2.1")
    register = replace(register, joints=(*register.joints, twin))
    schedule = replace(schedule, findings=(first, second, replace(first, subject=twin.id)))
    asked = [q for q in questions_from(schedule, register) if q.id.startswith("finding:F1")]
    assert [q.joints for q in asked] == [(other.id, twin.id)]
    assert asked[0].title.startswith("2 ridge joints: ")


def test_a_break_that_is_only_noted_is_not_asked() -> None:
    """An open line that does not carry the primary seal stays out of the designer's way."""
    _, register, schedule = small_house()
    noted = replace(schedule.findings[2], id="break-1:D.1", subject="D.1")
    schedule = replace(schedule, findings=(noted,))
    assert not [q for q in questions_from(schedule, register) if q.id.startswith("break")]


def test_the_archive_is_built_as_the_standard_says(tmp_path: Path) -> None:
    """Version, project, and for each topic a markup and the viewpoint it names."""
    file = archive(tmp_path, ifc_file="house.ifc")
    assert file.namelist()[:2] == ["bcf.version", "project.bcfp"]
    (version,) = parts(file, "bcf.version")
    assert (version.tag, version.attrib) == ("Version", {"VersionId": "2.1"})
    markups = parts(file, "markup.bcf")
    assert len(markups) == 6
    for markup in markups:
        assert [child.tag for child in markup] == ["Header", "Topic", "Viewpoints"]
        topic = markup[1]
        order = list(dict.fromkeys(child.tag for child in topic))
        assert order == [name for name in TOPIC_ORDER if name in order]
        assert topic.attrib["TopicStatus"] == "Open"
        assert f"{topic.attrib['Guid']}/viewpoint.bcfv" in file.namelist()
    for view in parts(file, "viewpoint.bcfv"):
        assert [child.tag for child in view][:2] == ["Components", "PerspectiveCamera"]
        assert [child.tag for child in view[0]] == ["Selection", "Visibility"]
        assert [child.tag for child in view[1]] == [
            "CameraViewPoint", "CameraDirection", "CameraUpVector", "FieldOfView",
        ]  # fmt: skip


def test_components_are_the_joints_of_the_exported_model(tmp_path: Path) -> None:
    """A topic points to the GlobalIds that the model written for this project carries."""
    views = parts(archive(tmp_path), "viewpoint.bcfv")
    ids = [c.attrib["IfcGuid"] for c in views[3].iter("Component")]
    assert ids == [global_id("Box", "joint", "R1.1-R2.2")]


def test_the_designers_own_elements_are_pointed_to(tmp_path: Path) -> None:
    """GlobalIds of panels or of their planes in the designer's model join a topic's joints."""
    own = "1kmto2xDTIfhKCIxR5wP9G"
    views = parts(archive(tmp_path, global_ids={"R1.1": own, "R2.2": "bad"}), "viewpoint.bcfv")
    assert own in [c.attrib["IfcGuid"] for c in views[3].iter("Component")]
    plane = parts(archive(tmp_path, "p.bcf", global_ids={"R1": own}), "viewpoint.bcfv")
    assert own in [c.attrib["IfcGuid"] for c in plane[3].iter("Component")]
    assert all(len(c.attrib["IfcGuid"]) == 22 for v in views for c in v.iter("Component"))


def test_the_camera_looks_at_the_joint_from_outside() -> None:
    """The middle of the joint lies on the camera's axis, in view, and up is square to it."""
    _, register, schedule = small_house()
    sill = questions_from(schedule, register)[1]
    at, toward, up = camera_of(sill)
    middle = sill.lines[0].middle
    reach = math.dist(at, middle)
    assert at[1] < 0.0  # south of the south wall
    for axis in range(3):
        assert at[axis] + reach * toward[axis] == pytest.approx(middle[axis])
    assert dot(up, toward) == pytest.approx(0.0, abs=1e-12)
    half = sill.lines[0].length / 2
    assert math.degrees(math.atan2(half, reach)) < 30.0


def test_the_camera_follows_a_shifted_model(tmp_path: Path) -> None:
    """Coordinates go back to where the designer's model stands."""
    near = parts(archive(tmp_path), "viewpoint.bcfv")[0]
    far = parts(archive(tmp_path, "far.bcf", shift=(1000.0, 0.0, 0.0)), "viewpoint.bcfv")[0]
    x = [float(v.find("PerspectiveCamera/CameraViewPoint/X").text) for v in (near, far)]
    assert x[1] - x[0] == pytest.approx(1000.0)


def test_the_same_questions_give_the_same_bytes(tmp_path: Path) -> None:
    """Nothing but the questions and the stated time goes into the archive."""
    archive(tmp_path, "a.bcf")
    archive(tmp_path, "b.bcf")
    assert (tmp_path / "a.bcf").read_bytes() == (tmp_path / "b.bcf").read_bytes()


def test_odd_words_do_not_break_the_file(tmp_path: Path) -> None:
    """Markup characters and control characters in names leave the XML readable."""
    _, register, schedule = small_house()
    question = replace(
        questions_from(schedule, register)[0],
        title='a <b> & \x00\x1f "c" ' + "x" * 300,
        lines=(Segment(start=(1.0, 1.0, 1.0), end=(1.0, 1.0, 1.0)),),
        outward=(0.0, 0.0, 1.0),
    )
    write_bcf(
        tmp_path / "odd.bcf", [question], project_name="A & <B>\x01", author="",
        timestamp="2026-01-02T03:04:05",
    )  # fmt: skip
    with zipfile.ZipFile(tmp_path / "odd.bcf") as file:
        (markup,) = parts(file, "markup.bcf")
    title = markup.findtext("Topic/Title")
    assert title.startswith('a <b> &  "c"')
    assert len(title) == 200


def test_a_bad_time_is_refused(tmp_path: Path) -> None:
    """The time of the archive must be a time."""
    with pytest.raises(InputError, match="is not a date and time"):
        write_bcf(tmp_path / "x.bcf", [], project_name="Box", author="a", timestamp="yesterday")
