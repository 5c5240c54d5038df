"""Houses of any size on any sheet: labels apart, text on the sheet, every joint named."""

from __future__ import annotations

from fractions import Fraction
from xml.etree import ElementTree as ET

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.draw.houses import box_parts
from tests.draw.textboxes import overlaps, text_boxes
from tests.shell.plans import box, gable, hip, rectangle

from seamwright.draw.sheets import draw_sheets
from seamwright.draw.types import Paper
from seamwright.shell.build import build_shell
from seamwright.shell.plan import Footprint, OpeningSpec, Plan
from seamwright.units import System


@st.composite
def plans(draw, longest: int) -> Plan:
    """Return a house up to `longest` by half that [m], gable or hip roof, with a window."""
    x = Fraction(draw(st.integers(80, 20 * longest)), 20)
    y = Fraction(draw(st.integers(80, 10 * longest)), 20)
    roof = draw(st.sampled_from((gable, hip)))
    pitch = Fraction(draw(st.integers(3, 14)), 12)
    along = Fraction(draw(st.integers(6, 12)), 10)
    window = OpeningSpec(
        id="W1",
        kind="window",
        host="A",
        along=along,
        up=Fraction(9, 10),
        width=Fraction(12, 10),
        height=Fraction(1),
    )
    return box(
        footprints=(Footprint(id="house", corners=rectangle(x, y), storeys=("ground",)),),
        roof=(roof(area=rectangle(x, y), pitch=pitch),),
        openings=(window,),
    )


@settings(derandomize=True, max_examples=5, deadline=None)
@given(plans(12), st.sampled_from(("us", "metric")), st.sampled_from(("letter", "a4")))
def test_any_house_is_drawn_cleanly(plan, system, paper):
    """Whatever its size, no text overlaps another or leaves its sheet, and no joint is lost."""
    check(plan, system, paper)


@pytest.mark.slow
@settings(derandomize=True, max_examples=25, deadline=None)
@given(plans(30), st.sampled_from(("us", "metric")), st.sampled_from(("letter", "a4")))
def test_large_houses_are_drawn_cleanly(plan, system, paper):
    """The same for houses as long as 30 m."""
    check(plan, system, paper)


def check(plan: Plan, system: System, paper: Paper) -> None:
    """Draw a house and hold every sheet to the laws."""
    shell = build_shell(plan)
    register, sections, schedule = box_parts(shell)
    sheets = draw_sheets(
        shell, register, schedule, sections, system=system, paper=paper, title="Any house"
    )
    for drawing in sheets.values():
        ET.fromstring(drawing.svg)
        boxes = text_boxes(drawing.svg)
        assert overlaps(boxes) == [], drawing.name
        border = shapely.box(7.9, 7.9, drawing.width_mm - 7.9, drawing.height_mm - 7.9)
        assert [b.text for b in boxes if not border.covers(b.box)] == [], drawing.name
    shown = {joint_id for d in sheets.values() for joint_id in d.shown}
    assert {joint.id for joint in register.joints} <= shown
