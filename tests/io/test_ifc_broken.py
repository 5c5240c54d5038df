"""Models that are broken, or hold single elements that cannot be used."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from tests.ifc_houses import gable_house
from tests.ifc_models import THICK, Author

from seamwright.errors import FormatError, InputError
from seamwright.io.ifc import open as ifc_open
from seamwright.io.ifc import read_ifc

HEAD = (
    "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((''),'2;1');\nFILE_NAME('','',(''),(''),'','','');\n"
    "FILE_SCHEMA(('{schema}'));\nENDSEC;\nDATA;\n"
)
TAIL = "ENDSEC;\nEND-ISO-10303-21;\n"


def refused(folder: Path, content: bytes | str) -> str:
    """Return the sentence a file with this content is refused with."""
    path = folder / "model.ifc"
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    with pytest.raises(FormatError) as caught:
        read_ifc(path)
    return str(caught.value)


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "the file is empty"),
        (b"\0" * 5000, "the file is empty"),
        (bytes(range(256)) * 40, "does not begin with ISO-10303-21"),
        (b"walls: 4\nroof: gable\n", "does not begin with ISO-10303-21"),
        (b"PK\x03\x04rest", "zip archive"),
        (b"<?xml version='1.0'?><ifcXML/>", "XML file"),
        (HEAD.format(schema="IFC4") + "#1=IFCWALL('a", "breaks off"),
        (HEAD.format(schema="IFC99") + TAIL, "'IFC99' is not known"),
        (HEAD.format(schema="AUTOMOTIVE_DESIGN") + TAIL, "is not known"),
        (HEAD.format(schema="IFC4") + TAIL, "holds no entities"),
        (HEAD.format(schema="IFC4") + "#1=IFCFOO($);\n" + TAIL, "IFCFOO is not an entity"),
        (HEAD.format(schema="IFC4") + "#1=IFCMATERIAL('x',$,$);\n" + TAIL, "holds no wall"),
    ],
)
def test_a_file_that_is_no_whole_model_is_refused(
    tmp_path: Path, content: bytes | str, said: str
) -> None:
    """Each way a file can be broken has its sentence, naming the file and what to do."""
    sentence = refused(tmp_path, content)
    assert said in sentence
    assert "model.ifc" in sentence
    assert ";" in sentence


def test_a_reference_to_nothing_names_its_line(tmp_path: Path) -> None:
    """A dangling reference is refused with the line it stands on."""
    content = HEAD.format(schema="IFC4") + "#1=IFCMATERIAL('x',$,$);\n#2=IFCSLAB('a',#77,$);\n"
    assert "model.ifc:9: entity #2 points to #77" in refused(tmp_path, content + TAIL)


def test_a_ring_of_references_is_refused(tmp_path: Path) -> None:
    """Placements that hang on each other in a ring would never end; they are refused."""
    rows = "#1=IFCLOCALPLACEMENT(#2,$);\n#2=IFCLOCALPLACEMENT(\n#1,$);\n"
    sentence = refused(tmp_path, HEAD.format(schema="IFC4") + rows + TAIL)
    assert "points back to itself" in sentence


def test_an_entity_written_twice_is_refused(tmp_path: Path) -> None:
    """The second entity of one number is refused with both lines."""
    rows = "#1=IFCMATERIAL('x;#9',$,$);\n/* #1= \n */\n#1=IFCMATERIAL('y',$,$);\n"
    sentence = refused(tmp_path, HEAD.format(schema="IFC4") + rows + TAIL)
    assert "model.ifc:11: entity #1 stands twice" in sentence
    assert "first on line 8" in sentence


def test_a_reference_to_the_wrong_kind_is_refused(tmp_path: Path) -> None:
    """An element placed by a unit would lead the geometry kernel astray; it is refused."""
    text = gable_house().save(tmp_path / "house.ifc").read_text()
    unit = re.search(r"(#\d+)=IFCSIUNIT", text)
    assert unit is not None
    wrong = re.sub(r"(=IFCWALL\('[^']*',\$,'South',\$,\$,)#\d+", rf"\1{unit.group(1)}", text)
    assert wrong != text
    sentence = refused(tmp_path, wrong)
    assert re.search(
        r"model\.ifc:\d+: .*IFCSIUNIT, as its ObjectPlacement, which the schema does not", sentence
    )


def test_a_statement_that_is_no_entity_is_refused(tmp_path: Path) -> None:
    """A line cut off in the middle is named, with control characters left out."""
    rows = "#1=IFCMATERIAL('x',$,$);\n#2=IFCWALL\x07('a;\n"
    sentence = refused(tmp_path, HEAD.format(schema="IFC4") + rows + TAIL)
    assert "model.ifc:9: this is no entity" in sentence
    assert "\x07" not in sentence


def test_a_missing_file_and_a_huge_file_are_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A path that leads nowhere, and a model above the stated limit, end in a sentence."""
    with pytest.raises(InputError, match="cannot be read"):
        read_ifc(tmp_path / "none.ifc")
    with pytest.raises(InputError, match="cannot be read"):
        read_ifc(tmp_path)
    monkeypatch.setattr(ifc_open, "MOST_BYTES", 1000)
    path = gable_house().save(tmp_path / "house.ifc")
    with pytest.raises(InputError, match="MB, the limit is"):
        read_ifc(path)


def test_without_the_package_the_sentence_says_how_to_get_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The optional package is asked for by its install command."""
    monkeypatch.setitem(__import__("sys").modules, "ifcopenshell", None)
    with pytest.raises(InputError, match=r'pip install "seamwright\[ifc\]"'):
        read_ifc(tmp_path / "house.ifc")


def _curved(a: Author) -> Any:
    place = a.f.createIfcAxis2Placement2D(a.point((0.0, 0.0)), None)
    profile = a.f.createIfcCircleHollowProfileDef("AREA", None, place, 3000.0, THICK * 1000)
    wall = a.root("IfcWall", "Odd")
    wall.ObjectPlacement = a.placement((4, 3, 0), (1, 0, 0), (0, 0, 1), a.storey.ObjectPlacement)
    solid = a._extruded(profile, 2.5)
    shape = a.f.createIfcShapeRepresentation(a.context, "Body", "SweptSolid", [solid])
    wall.Representation = a.f.createIfcProductDefinitionShape(None, None, [shape])
    return wall


def _bare(a: Author) -> Any:
    return a.root("IfcWall", "Odd")


def _flat(a: Author) -> Any:
    wall = a.wall("Odd", (0, 20), (3, 20), 2.5)
    wall.Representation.Representations[0].Items[0].Depth = 0.0
    return wall


def _thin(a: Author) -> Any:
    return a.wall("Odd", (0, 20), (3, 20), 2.5, thick=0.012)


def _thick(a: Author) -> Any:
    return a.wall("Odd", (0, 20), (3, 20), 2.5, thick=0.9)


def _cube(a: Author) -> Any:
    return a.wall("Odd", (0, 20), (0.5, 20), 0.5, thick=0.5)


def _bow_tie(a: Author) -> Any:
    ring = [(0, 0), (3, 2.5), (3, 0), (0, 2.5)]
    return a.wall("Odd", (0, 20), (3, 20), 2.5, ring=ring)


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (_curved, "It is curved"),
        (_bare, "No body that can be used"),
        (_flat, "No body that can be used"),
        (_thin, "12.0 mm thick and a panel is at least 50 mm"),
        (_thick, "900.0 mm thick and a panel is at most 600 mm"),
        (_cube, "not a plate"),
    ],
)
def test_an_element_that_cannot_be_used_is_left_out(tmp_path: Path, make: Any, said: str) -> None:
    """One bad element does not stop the house; it is named with its GlobalId and the reason."""
    a = gable_house()
    odd = make(a)
    reading = read_ifc(a.save(tmp_path / "house.ifc"))
    assert len(reading.plan.panels) == 6
    (sentence,) = [s for s in reading.left_out if "Odd" in s]
    assert said in sentence
    assert odd.GlobalId in sentence


def test_a_crossed_outline_does_not_stop_the_house(tmp_path: Path) -> None:
    """A wall whose outline crosses itself is left out or guessed, but never a crash."""
    a = gable_house()
    _bow_tie(a)
    reading = read_ifc(a.save(tmp_path / "house.ifc"))
    named = [s for s in (*reading.left_out, *reading.guessed) if "Odd" in s]
    assert named


def test_every_cut_of_a_model_ends_in_a_sentence(tmp_path: Path) -> None:
    """A model cut anywhere, or with a line struck out, is read or refused, never a crash."""
    whole = gable_house().save(tmp_path / "house.ifc").read_text()
    lines = whole.splitlines(keepends=True)
    for index in range(9, len(lines) - 3, 23):
        struck = "".join(lines[:index] + lines[index + 1 :])
        (tmp_path / "cut.ifc").write_text(struck)
        try:
            reading = read_ifc(tmp_path / "cut.ifc")
        except InputError as error:
            assert re.search(r"cut\.ifc(:\d+)?: .+; .+", str(error))  # noqa: PT017 - either may hold
        else:
            assert reading.plan.panels
