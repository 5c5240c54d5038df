"""Whole houses on paper: what must hold for every sheet."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest
import shapely
from tests.draw.houses import HOUSES, box_parts, drawn, drawn_box, sealed
from tests.draw.textboxes import overlaps, paths, text_boxes
from tests.samples import flush_pair, gable_box

from seamwright.draw.ink import KINDS
from seamwright.draw.sheets import draw_sheets
from seamwright.draw.types import Drawing


def every_sheet() -> list[tuple[str, Drawing]]:
    """Return every sheet of every house, named."""
    sheets = [(f"box/{d.name}", d) for d in drawn_box().values()]
    for house in HOUSES:
        sheets += [(f"{house}/{d.name}", d) for d in drawn(house).values()]
    return sheets


def test_every_sheet_is_xml_at_its_true_size():
    """Each drawing parses as XML and says its size in millimetres."""
    for name, drawing in every_sheet():
        root = ET.fromstring(drawing.svg)
        assert f"{drawing.width_mm:g}mm" == root.attrib["width"], name
        assert f"{drawing.height_mm:g}mm" == root.attrib["height"], name


def test_no_two_texts_overlap():
    """No text on any sheet of any house lies on another."""
    found = {name: overlaps(text_boxes(d.svg)) for name, d in every_sheet()}
    assert {name: pairs for name, pairs in found.items() if pairs} == {}


def test_all_text_lies_inside_the_border():
    """No text leaves the border of its sheet."""
    for name, drawing in every_sheet():
        border = shapely.box(7.9, 7.9, drawing.width_mm - 7.9, drawing.height_mm - 7.9)
        outside = [b.text for b in text_boxes(drawing.svg) if not border.covers(b.box)]
        assert outside == [], name


@pytest.mark.parametrize("house", HOUSES)
def test_every_joint_is_named_on_some_sheet(house):
    """Every joint of the register stands on at least one drawing, label, list or key."""
    shown = {joint_id for d in drawn(house).values() for joint_id in d.shown}
    plans = {
        joint_id
        for d in drawn(house).values()
        if not d.name.startswith("section")
        for joint_id in d.shown
    }
    ids = {joint.id for joint in sealed(house).register.joints}
    assert set() == ids - shown
    assert len(ids - plans) <= 0.02 * len(ids)


@pytest.mark.parametrize("house", HOUSES)
def test_shown_ids_are_written(house):
    """An id that a plan, elevation or roof plan claims to show is really written on it."""
    for drawing in drawn(house).values():
        if drawing.name.startswith(("plan", "elevation", "roof")):
            words = {w for b in text_boxes(drawing.svg) for w in b.text.split()}
            assert set() == set(drawing.shown) - words, drawing.name


def test_legends_list_exactly_the_kinds_drawn():
    """A kind's pen is used if and only if the legend names the kind."""
    for name, drawing in every_sheet():
        if drawing.name.startswith("section"):
            continue
        named = {b.text for b in text_boxes(drawing.svg) if b.role == "legend"}
        used = paths(drawing.svg)
        for style in KINDS.values():
            pen = (
                style.pen.color,
                f"{style.pen.width:g}",
                " ".join(f"{d:g}" for d in style.pen.dash),
            )
            lines = [
                p for p in used
                if (p.get("stroke"), p.get("stroke-width"), p.get("stroke-dasharray", "")) == pen
            ]  # fmt: skip
            if style.name not in named:
                assert len(lines) == 0, (name, style.name)
            else:
                assert len(lines) >= 1, (name, style.name)


def test_kinds_are_told_apart_without_color():
    """No two kinds share both dashes and width, nor a mark."""
    pens = [(s.pen.dash, s.mark) for s in KINDS.values()]
    assert len(pens) == len(set(pens))
    assert len(KINDS) == len({s.mark for s in KINDS.values()})


def test_drawings_are_deterministic():
    """The same house drawn twice gives the same text, letter by letter."""
    shell = gable_box()
    register, sections, schedule = box_parts(shell)
    again = draw_sheets(
        shell, register, schedule, sections, system="metric", paper="a4", title="Sample box"
    )
    assert {n: d.svg for n, d in drawn_box().items()} == {n: d.svg for n, d in again.items()}


def test_the_sheets_of_a_box():
    """A gable box has a plan, four elevations, a roof plan, an axonometric, then sections."""
    names = list(drawn_box())
    first = ["plan-1", "elevation-south", "elevation-east", "elevation-north", "elevation-west",
             "roof-plan", "axonometric"]  # fmt: skip
    assert first == names[: len(first)]
    assert all(name.startswith("section-") for name in names[len(first) :])
    kinds = {name.split("-")[1] for name in names[len(first) :]}
    assert {"wall_spline", "wall_corner", "sill", "ridge", "eave", "rake"} <= kinds


def test_a_shell_without_a_roof_has_no_roof_plan():
    """Two walls side by side are drawn without a roof plan."""
    shell = flush_pair()
    register, sections, schedule = box_parts(shell)
    sheets = draw_sheets(
        shell, register, schedule, sections, system="us", paper="letter", title="Two walls"
    )
    assert "roof-plan" not in sheets
    assert {"plan-1", "elevation-south", "axonometric", "section-wall_spline"} <= set(sheets)


def test_unsigned_is_written_wherever_a_side_is_not_signed():
    """Sections of unsigned joints say UNSIGNED beside the cut; signed ones do not."""
    house = sealed("heron_house")
    signed = {s.joint_id: s.signed for s in house.schedule.sides}
    stripped = {s.joint_id for s in house.schedule.strips}
    for drawing in drawn("heron_house").values():
        if drawing.name.startswith("section") and drawing.shown[0] in signed:
            texts = [b.text for b in text_boxes(drawing.svg) if "UNSIGNED" in b.text]
            beside = [t for t in texts if not t.startswith("Joint ids")]
            assert (not signed[drawing.shown[0]]) == bool(beside), drawing.name
    assert stripped
