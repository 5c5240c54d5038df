"""A good plan becomes exact records with places."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from seamwright.errors import Problem
from seamwright.io.plan import read_plan, with_place
from seamwright.shell.plan import Decision, Override, Spaced, TimberSize
from seamwright.units import parse_length

INCH = Fraction(127, 5000)
HEAD = """
site: {name: Test, elevation: 40'}
panel_types:
  - {id: w, thickness: 6-1/2", skins: 7/16"}
  - {id: r, core: 250 mm, skin_inner: 11 mm, skin_outer: 15 mm, spline: I-joist}
base: {kind: Stem wall, top: 0.3 m, thickness: 200 mm, sill: 1-1/2"}
storeys:
  - {id: 1, height: 9', panel_type: w}
  - {id: up, height: 8', panel_type: w, floor: platform, floor_depth: 11-7/8", deck: 3/4"}
"""
BODY = """
footprints:
  - {id: main, corners: [[0, 0], [24', 0], [24', 7.5 m], [0, 7500 mm]]}
  - {id: porch, rectangle: [[10', 0], [2', -6']], storeys: [1]}
walls:
  - {wall: 2B, panel_type: r, start_corner: butts, widths: [4', 1200 mm]}
roof:
  - id: top
    kind: gable
    over: main
    eaves: [north, side 1]
    pitch: 8/12
    panel_type: r
    ridge_beam: 5-1/2" x 18"
    purlins: {size: 90 mm × 240 mm, spacing: 8'}
dormers:
  - {id: d, part: top, eave: south, along: 6', back: 1', width: 5', eave_height: 22', kind: shed,
     pitch: 15 deg, panel_type: r, wall_panel_type: w}
inner_walls:
  - {id: i, storey: 1, start: [8', 1'], end: [8', 20'], thickness: 5-1/2", bearing: yes}
openings:
  - {id: W1, kind: window, in: 2A, along: 3', up: 3', width: 4', height: 4'}
  - {id: K1, kind: skylight, in: R2, along: 3', up: 3', width: 2', height: 2'}
penetrations:
  - {id: P1, kind: pipe, in: C, along: 3', up: 1', diameter: 4"}
timbers:
  - {id: t, kind: beam, start: [0, 0, 9'], end: [10', 0, 9'], size: 4" x 10"}
layout: {corners: alternate, min_width: 16", break_at_openings: on}
decisions:
  - {face: outer, signed_by: A. Nobody, role: designer, date: 2026-03-14, kinds: [sill]}
overrides:
  - {joint: A.1-A.2, reason: seen on site, strip_width: 6"}
"""


def test_a_full_plan_becomes_exact_records() -> None:
    """Every section arrives, mixed units and all, without rounding."""
    plan = read_plan(HEAD + BODY).plan
    assert plan.site.elevation == 480 * INCH
    wall, roof = plan.panel_types
    assert wall.core == Fraction(45, 8) * INCH
    assert (roof.spline, roof.skin_inner, roof.skin_outer) == (
        "i_joist",
        Fraction(11, 1000),
        Fraction(15, 1000),
    )
    assert plan.base is not None
    assert plan.base.kind == "stem_wall"
    assert [storey.id for storey in plan.storeys] == ["1", "up"]
    assert plan.footprints[0].storeys == ("1", "up")
    assert plan.footprints[0].corners[2] == (288 * INCH, Fraction(15, 2))
    assert plan.wall_rules[0].widths == (48 * INCH, Fraction(6, 5))
    assert plan.inner_walls[0].bearing
    assert plan.openings[1].host == "R2"
    assert plan.penetrations[0].diameter == 4 * INCH
    assert plan.timbers[0].size == TimberSize(width=4 * INCH, depth=10 * INCH)
    assert plan.preferences.break_at_openings
    assert plan.decisions == (
        Decision(
            face="outer",
            signed_by="A. Nobody",
            role="designer",
            date="2026-03-14",
            kinds=("sill",),
        ),
    )
    assert plan.overrides == (
        Override(joint="A.1-A.2", reason="seen on site", strip_width=6 * INCH),
    )


def test_a_roof_part_takes_its_footprint_and_sides() -> None:
    """`over` copies the outline; sides are named by compass or number; pitches stay exact."""
    part = read_plan(HEAD + BODY).plan.roof[0]
    assert part.area == read_plan(HEAD + BODY).plan.footprints[0].corners
    assert part.eaves == (2, 0)
    assert part.pitch == Fraction(2, 3)
    assert part.ridge_beam == TimberSize(width=Fraction(11, 2) * INCH, depth=18 * INCH)
    size = TimberSize(width=Fraction(9, 100), depth=Fraction(24, 100))
    assert part.purlins == Spaced(size=size, spacing=96 * INCH)


def test_a_dormer_names_its_eave_by_compass() -> None:
    """The dormer's eave is the edge of its part's area on that side."""
    assert read_plan(HEAD + BODY).plan.dormers[0].eave == 0


def test_bare_numbers_take_the_stated_unit() -> None:
    """With `units` on top a bare number is a length, and a written unit still outranks it."""
    text = """
units: mm
site: {name: Test}
panel_types: [{id: w, core: 140, skins: 7/16"}]
base: {kind: slab, thickness: 4"}
storeys: [{id: 1, height: 2440, panel_type: w}]
footprints: [{id: a, rectangle: [[0, 0], [6000.5, 4000]]}]
"""
    plan = read_plan(text).plan
    assert plan.panel_types[0].core == Fraction(140, 1000)
    assert plan.footprints[0].corners[1][0] == Fraction(60005, 10000)
    assert plan.base is not None
    assert plan.base.thickness == 4 * INCH


def test_stock_defaults_are_noted_as_common_practice() -> None:
    """What the file does not say about a panel type is assumed in so many words."""
    notes = read_plan(HEAD + BODY).notes
    assert "common practice, no source" in notes[0].text
    assert "max width" in notes[0].text


def test_lines_lead_back_to_the_file() -> None:
    """Every entry, and every wall of every storey, knows its line."""
    planfile = read_plan(HEAD + BODY, name="house.yaml")
    lines = (HEAD + BODY).split("\n")
    assert "W1" in lines[planfile.lines["opening W1"] - 1]
    assert "porch" in lines[planfile.lines["wall F"] - 1]
    assert "main" in lines[planfile.lines["wall 2A"] - 1]
    assert "wall: 2B" in lines[planfile.lines["wall 2B"] - 1]
    assert lines[planfile.lines["roof part top"] - 1].strip().startswith("- id: top")


@pytest.mark.parametrize(
    ("subject", "word"),
    [
        ("opening W1", "W1"),
        ("opening W1 in wall 2A", "W1"),
        ("skylight K1", "K1"),
        ("roof part top, ridge", "id: top"),
    ],
)
def test_problems_of_the_core_get_their_place(subject: str, word: str) -> None:
    """A problem found without a file is led back by its subject."""
    planfile = read_plan(HEAD + BODY, name="house.yaml")
    found = Problem(subject=subject, sentence="it does not fit", remedy="move it")
    (placed,) = with_place([found], planfile)
    assert placed.file == "house.yaml"
    assert placed.line is not None
    assert word in (HEAD + BODY).split("\n")[placed.line - 1]


def test_an_unknown_subject_still_gets_the_file() -> None:
    """A problem about nothing in the file names the file alone."""
    planfile = read_plan(HEAD + BODY, name="house.yaml")
    found = Problem(subject="the moon", sentence="it is far", remedy="wait")
    (placed,) = with_place([found], planfile)
    assert (placed.file, placed.line) == ("house.yaml", None)


def test_panels_can_be_given_one_by_one() -> None:
    """A panel takes its place, directions and outline, turned with its bevels if need be."""
    text = """
site: {name: Test}
panel_types: [{id: w, core: 140 mm}]
supports: [{id: s, kind: slab, rectangle: [[0, 0], [4 m, 4 m]], top: 0, thickness: 100 mm}]
panels:
  - {id: p, type: w, role: wall, origin: [0, 0, 0], along: east, up: up, length: 2 m, height: 8'}
  - id: q
    type: w
    role: roof
    origin: [1 m, 0, 0]
    along: [1, 0, 0]
    up: north at 45 deg
    outline: [[0, 0], [0, 3 m], [2 m, 1 m]]
    bevels: [1, 2, 3]
"""
    first, second = read_plan(text).plan.panels
    assert first.outline[2] == (Fraction(2), 96 * INCH)
    assert first.up == (0.0, 0.0, 1.0)
    assert second.outline == ((0, 0), (2, 1), (0, 3))
    assert second.bevels_deg == (3.0, 2.0, 1.0)
    assert second.up == pytest.approx((0.0, 0.5**0.5, 0.5**0.5))


def test_a_panel_list_is_read_beside_the_plan(tmp_path: Path) -> None:
    """`panels:` and `catalog:` may name files, looked up next to the plan."""
    (tmp_path / "list.csv").write_text(
        "id,type,role,x,y,z,along,up,length,height\np,w,wall,0,0,0,east,up,2 m,2.4 m\n"
    )
    plan = tmp_path / "plan.yaml"
    plan.write_text(
        "site: {name: T}\npanel_types: [{id: w, core: 140 mm}]\npanels: list.csv\n"
        "catalog: shelf.yaml\n"
    )
    planfile = read_plan(plan)
    assert planfile.plan.panels[0].id == "p"
    assert planfile.catalog_path == str(tmp_path / "shelf.yaml")
    assert planfile.file == str(plan)


def test_a_catalog_may_stand_in_the_plan() -> None:
    """An inline catalog is read over the default one."""
    text = HEAD + BODY + 'catalog: {laps: {end_lap: 4"}}\n'
    catalog = read_plan(text).catalog
    assert catalog is not None
    assert catalog.laps.end_lap == float(parse_length('4"'))
    assert len(catalog.strips) == 3
