"""Sections: the strip is as long as it is wide, its arithmetic is printed, types cover all."""

from __future__ import annotations

import itertools
import math
from fractions import Fraction

import pytest
from tests.draw.houses import HOUSES, box_parts, drawn, drawn_box, sealed
from tests.draw.textboxes import path_length, paths, text_boxes
from tests.samples import flush_pair, gable_box

from seamwright.draw.beads import bead_spots, find_contacts
from seamwright.draw.cutparts import cropped_parts
from seamwright.draw.ink import STRIP, STRIP_SECOND
from seamwright.draw.scale import DETAIL, Scale
from seamwright.draw.sectiontypes import section_types
from seamwright.draw.strips import strip_track
from seamwright.draw.types import Rect
from seamwright.draw.view import View
from seamwright.joints.types import SkinPath

PENS = {(f"{p.width:g}", p.color) for p in (STRIP, STRIP_SECOND)}


def strip_lines(svg):
    """Return the lengths of the strips drawn. [mm]"""
    return [
        path_length(p["d"]) for p in paths(svg)
        if (p.get("stroke-width"), p.get("stroke")) in PENS and p.get("fill") == "none"
    ]  # fmt: skip


def test_the_track_of_a_strip_is_its_width():
    """Lap, span, lap: the track is as long as the strip is wide."""
    path = SkinPath(path=((0.0, 0.0), (0.03, 0.0)), lands=((-1.0, 0.0), (1.0, 0.0)))
    track = strip_track(path, 0.05)
    steps = [math.dist(a, b) for a, b in itertools.pairwise(track)]
    assert pytest.approx(steps) == [0.05, 0.03, 0.05]


def test_a_flush_seam_shows_four_inches_of_strip_to_scale():
    """The strip over the spline of two flush walls is 4 in long at the drawing's scale."""
    drawing = drawn_box()["section-wall_spline"]
    scale = next(s for s in DETAIL["metric"] if s.text == drawing.scale)
    lengths = strip_lines(drawing.svg)
    assert lengths
    for length in lengths:
        assert 0.1016 * scale.mm_per_m == pytest.approx(length, abs=0.2)


def test_the_arithmetic_of_the_width_is_printed():
    """The side column shows laps, sum and the stock chosen."""
    texts = [b.text for b in text_boxes(drawn("heron_house")["section-wall_spline-1"].svg)]
    assert any(t.startswith('+ 2 × 2"') for t in texts)
    assert '= 4" needed' in texts
    assert '→ stock 4"' in texts


def test_both_laps_are_dimensioned():
    """A flush seam carries two equal lap figures."""
    boxes = text_boxes(drawn_box()["section-wall_spline"].svg)
    figures = [b.text for b in boxes if b.role == "dimension"]
    assert figures[0::2] == figures[1::2]
    assert figures


@pytest.mark.parametrize("house", HOUSES)
def test_types_share_out_all_joints_with_a_section(house):
    """Every joint that has a section belongs to exactly one type, the drawn one among them."""
    parts = sealed(house)
    types = section_types(parts.register, parts.sections, parts.schedule)
    shared = [joint_id for kind in types for joint_id in kind.joint_ids]
    assert sorted(parts.sections) == sorted(shared)
    assert all(kind.joint_id in kind.joint_ids for kind in types)
    assert len(types) == len({kind.name for kind in types})


def test_the_drawn_joint_is_the_longest():
    """A type is drawn on its longest joint."""
    register, sections, schedule = box_parts(gable_box())
    lengths = {joint.id: joint.length for joint in register.joints}
    for kind in section_types(register, sections, schedule):
        assert lengths[kind.joint_id] == max(lengths[i] for i in kind.joint_ids)


@pytest.mark.parametrize("spline", ["surface", "block", "lumber", "i_joist", "cam_lock"])
def test_every_bead_of_a_seam_finds_a_place(spline):
    """As many dots as the schedule has beads, for every kind of spline."""
    shell = flush_pair(spline=spline)
    register, sections, schedule = box_parts(shell)
    from_schedule = sum(b.count for b in schedule.beads)

    section = sections[register.joints[0].id]
    view = View(right=section.frame.u, up=section.frame.v,
                scale=Scale(ratio=Fraction(4), text="1:4"), middle=(0.0, 0.0),
                paper=(100.0, 100.0))  # fmt: skip
    parts = cropped_parts(section, view, Rect(x0=0.0, y0=0.0, x1=200.0, y1=200.0))
    contacts = find_contacts(parts, view.scale.mm_per_m, view.on_paper((0.0, 0.0)))
    spots = bead_spots(schedule.beads, contacts, (), view.scale.mm_per_m)
    assert from_schedule == len(spots)
