"""Questions to the designer as a BCF 2.1 archive (open standard by buildingSMART).

Each question is a topic with a title, what is asked, the joints it is about and a viewpoint that
looks at them; a designer's viewer opens the archive beside the model.
"""

from __future__ import annotations

import math
import zipfile
from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from pathlib import Path
from xml.etree import ElementTree as ET

from seamwright.errors import InputError, Problem
from seamwright.geometry.types import Vec3, dot
from seamwright.io.ifc.ids import global_id, stable_uuid
from seamwright.io.questions import Question, middle_of, questions_from

__all__ = ["Question", "camera_of", "questions_from", "write_bcf"]

FIELD_OF_VIEW = 60.0
"""Opening angle of the camera; the standard asks viewers for 45 to 60. [deg]"""

NEAREST = 2.0
"""Least distance of the camera from what it looks at. Our own choice. [m]"""

NOWHERE: Vec3 = (0.0, 0.0, 0.0)


def write_bcf(
    path: str | Path,
    questions: Sequence[Question],
    *,
    project_name: str,
    author: str,
    timestamp: str,
    ifc_file: str | None = None,
    global_ids: Mapping[str, str] | None = None,
    shift: Vec3 = NOWHERE,
) -> None:
    """Write the questions as a BCF 2.1 archive; the same questions give the same bytes.

    Joints are pointed to by the GlobalIds that `write_ifc` gives them under `project_name`;
    `global_ids` adds the designer's own elements (`IfcReading.global_ids`), and `shift`
    (`IfcReading.shift`) puts the camera back where the designer's model stands.

    Raises
    ------
    InputError
        If `timestamp` is not a date and time of ISO 8601.
    """
    when = _moment(timestamp)
    stamp = when.isoformat(timespec="seconds")
    known = dict(global_ids) if global_ids is not None else {}
    with zipfile.ZipFile(path, "w") as archive:
        version = ET.Element("Version", VersionId="2.1")
        ET.SubElement(version, "DetailedVersion").text = "2.1"
        _store(archive, "bcf.version", version, when)
        _store(archive, "project.bcfp", _project(project_name), when)
        for index, question in enumerate(questions):
            guid = str(stable_uuid(project_name, "topic", question.id))
            view = str(stable_uuid(project_name, "viewpoint", question.id))
            markup = ET.Element("Markup")
            if ifc_file is not None:
                file = ET.SubElement(ET.SubElement(markup, "Header"), "File", isExternal="true")
                ET.SubElement(file, "Filename").text = _clean(ifc_file)
            _topic(markup, question, guid, index, author=author, stamp=stamp)
            shown = ET.SubElement(markup, "Viewpoints", Guid=view)
            ET.SubElement(shown, "Viewpoint").text = "viewpoint.bcfv"
            _store(archive, f"{guid}/markup.bcf", markup, when)
            selected = _components(question, project_name, known)
            info = _viewpoint(question, view, selected, shift)
            _store(archive, f"{guid}/viewpoint.bcfv", info, when)


def _project(name: str) -> ET.Element:
    root = ET.Element("ProjectExtension")
    project = ET.SubElement(root, "Project", ProjectId=str(stable_uuid(name, "project", name)))
    ET.SubElement(project, "Name").text = _clean(name)
    ET.SubElement(root, "ExtensionSchema")
    return root


def _topic(
    markup: ET.Element, question: Question, guid: str, index: int, *, author: str, stamp: str
) -> None:
    topic = ET.SubElement(markup, "Topic", Guid=guid, TopicType="Question", TopicStatus="Open")
    title = _clean(question.title)
    rows = [
        ("Title", title if len(title) <= 200 else title[:197] + "..."),
        ("Priority", question.priority),
        ("Index", str(index)),
        *(("Labels", _clean(label)) for label in question.labels),
        ("CreationDate", stamp),
        ("CreationAuthor", _clean(author)),
        ("Description", _clean(question.description)),
    ]
    for name, text in rows:
        ET.SubElement(topic, name).text = text


def _components(question: Question, project_name: str, known: Mapping[str, str]) -> list[str]:
    own = [global_id(project_name, "joint", name) for name in question.joints]
    if not own:
        own = [global_id(project_name, "panel", name) for name in question.things]
    given = [_source_id(name, known) for name in question.things]
    given = [name for name in given if len(name) == 22]
    return list(dict.fromkeys([*own, *given]))


def _source_id(name: str, known: Mapping[str, str]) -> str:
    """Return the GlobalId of the element a panel came from: its own, or that of its plane."""
    plane = name.rpartition(".")[0]
    return known.get(name, known.get(plane, ""))


def _viewpoint(question: Question, guid: str, selected: Iterable[str], shift: Vec3) -> ET.Element:
    root = ET.Element("VisualizationInfo", Guid=guid)
    parts = ET.SubElement(root, "Components")
    selection = ET.SubElement(parts, "Selection")
    for name in selected:
        ET.SubElement(selection, "Component", IfcGuid=name)
    ET.SubElement(parts, "Visibility", DefaultVisibility="true")
    camera = ET.SubElement(root, "PerspectiveCamera")
    at, toward, up = camera_of(question)
    for name, value in (
        ("CameraViewPoint", _plus(at, shift)),
        ("CameraDirection", toward),
        ("CameraUpVector", up),
    ):
        _triple(camera, name, value)
    ET.SubElement(camera, "FieldOfView").text = repr(FIELD_OF_VIEW)
    drawn = [line for line in question.lines if line.length > 1e-6]
    if drawn:
        lines = ET.SubElement(root, "Lines")
        for line in drawn:
            row = ET.SubElement(lines, "Line")
            _triple(row, "StartPoint", _plus(line.start, shift))
            _triple(row, "EndPoint", _plus(line.end, shift))
    return root


def camera_of(question: Question) -> tuple[Vec3, Vec3, Vec3]:
    """Return where a camera stands [m], the unit direction it looks in, and its unit up vector.

    It stands off from the middle of the lines on their outer side, a little above, far enough to
    see all of them within `FIELD_OF_VIEW`.
    """
    middle = middle_of(question.lines)
    ends = [p for line in question.lines for p in (line.start, line.end)]
    reach = max((math.dist(p, middle) for p in ends), default=0.0)
    away = max(NEAREST, 1.2 * reach / math.sin(math.radians(FIELD_OF_VIEW / 2)))
    o = question.outward
    stand = _unit((o[0], o[1], o[2] + 0.35 if o[2] > -0.3 else o[2]))
    toward: Vec3 = (-stand[0], -stand[1], -stand[2])
    upright: Vec3 = (0.0, 0.0, 1.0) if abs(toward[2]) < 0.99 else (0.0, 1.0, 0.0)
    lean = dot(upright, toward)
    up = _unit((
        upright[0] - lean * toward[0], upright[1] - lean * toward[1], upright[2] - lean * toward[2],
    ))  # fmt: skip
    at = (middle[0] + away * stand[0], middle[1] + away * stand[1], middle[2] + away * stand[2])
    return at, toward, up


def _triple(parent: ET.Element, name: str, value: Vec3) -> None:
    element = ET.SubElement(parent, name)
    for axis, number in zip("XYZ", value, strict=True):
        ET.SubElement(element, axis).text = f"{number + 0.0:.6f}"


def _store(archive: zipfile.ZipFile, name: str, root: ET.Element, when: datetime) -> None:
    moment = (max(when.year, 1980), when.month, when.day, when.hour, when.minute, when.second)
    entry = zipfile.ZipInfo(name, date_time=moment)
    entry.compress_type = zipfile.ZIP_DEFLATED
    archive.writestr(entry, ET.tostring(root, encoding="utf-8", xml_declaration=True))


def _moment(timestamp: str) -> datetime:
    try:
        return datetime.fromisoformat(timestamp)
    except ValueError as error:
        raise InputError([
            Problem(
                subject="timestamp",
                sentence=f"{timestamp!r} is not a date and time",
                remedy="write it like 2026-03-01T08:00:00",
            )
        ]) from error  # fmt: skip


def _clean(text: str) -> str:
    """Return text without the control characters that XML does not allow."""
    return "".join(c for c in text if c in "\t\n" or (c.isprintable() and ord(c) != 0xFFFE))


def _plus(a: Vec3, b: Vec3) -> Vec3:
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def _unit(v: Vec3) -> Vec3:
    size = math.hypot(*v)
    return (v[0] / size, v[1] / size, v[2] / size)
