"""Laws of the shell: layout rules, areas, and what a move of the house must not change."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import replace
from fractions import Fraction as F  # noqa: N817 (a plan is full of fractions)
from itertools import pairwise

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.shell.plans import (
    ROOF,
    WALL,
    box,
    ell,
    gable,
    gapless,
    hip,
    hipped_ell,
    rectangle,
    tee,
    with_entry,
)
from tests.shell.solids import section, volume

from seamwright.shell.build import build_shell
from seamwright.shell.layout import Module, seams
from seamwright.shell.plan import Footprint, OpeningSpec, Plan, Preferences
from seamwright.shell.types import Panel

LAWS = settings(derandomize=True, max_examples=25, deadline=None)


def lengths(low: int, high: int) -> st.SearchStrategy[F]:
    """Return lengths in whole centimetres. [m]"""
    return st.integers(low, high).map(lambda n: F(n, 100))


@st.composite
def houses(draw: st.DrawFn) -> Plan:
    """Return boxes of many sizes under gables and hips, laid out in many ways."""
    x, y = draw(lengths(400, 1500)), draw(lengths(350, 1200))
    make = draw(st.sampled_from([gable, hip]))
    pitch = F(draw(st.integers(3, 18)), 12)
    roof = make(area=rectangle(x, y), pitch=pitch, overhang_eave=draw(lengths(0, 80)))
    kinds = (
        replace(WALL, max_width=draw(lengths(100, 700)), edge_gap=F(draw(st.integers(0, 6)), 1000)),
        replace(ROOF, max_width=draw(lengths(100, 300)), max_length=draw(lengths(240, 900))),
    )
    preferences = Preferences(
        corners=draw(st.sampled_from(["start_through", "end_through", "alternate"])),
        layout_from=draw(st.sampled_from(["start", "end"])),
        break_at_openings=draw(st.booleans()),
    )
    window = OpeningSpec(
        id="W1",
        kind="window",
        host="A",
        along=draw(lengths(30, 200)),
        up=F(8, 10),
        width=draw(lengths(40, 150)),
        height=F(12, 10),
    )
    return box(
        panel_types=kinds,
        footprints=(Footprint(id="house", corners=rectangle(x, y), storeys=("ground",)),),
        roof=(roof,),
        preferences=preferences,
        openings=(window,),
    )


def planes(panels: tuple[Panel, ...]) -> dict[str, list[Panel]]:
    """Return the panels by plane."""
    found: dict[str, list[Panel]] = defaultdict(list)
    for panel in panels:
        found[panel.plane_id].append(panel)
    return found


@LAWS
@given(
    total=st.floats(0.2, 40.0),
    most=st.floats(0.8, 7.0),
    from_end=st.booleans(),
)
def test_layout_keeps_widths(total: float, most: float, from_end: bool) -> None:
    """No panel is wider than allowed, and none is a sliver unless the wall itself is one."""
    at = seams(0.0, total, Module(most=most, least=0.3), from_end=from_end).at
    stops = [0.0, *at, total]
    widths = [b - a for a, b in pairwise(stops)]
    assert math.isclose(sum(widths), total)
    assert max(widths) <= most + 1e-6
    assert min(widths) >= min(0.3, total) - 1e-6


@LAWS
@given(
    total=st.floats(3.0, 20.0),
    start=st.floats(0.5, 15.0),
    wide=st.floats(0.1, 0.8),
)
def test_seams_stay_out_of_openings(total: float, start: float, wide: float) -> None:
    """An opening narrower than a panel is never crossed by a seam."""
    found = seams(0.0, total, Module(most=1.2, least=0.3), blocked=[(start, start + wide)])
    crossed = [x for x in found.at if start + 1e-6 < x < start + wide - 1e-6]
    assert len(crossed) == len(found.hit)


@LAWS
@given(plan=houses())
def test_panels_respect_their_type(plan: Plan) -> None:
    """No panel exceeds its type; headers lie on their side."""
    kinds = {kind.id: kind for kind in plan.panel_types}
    for panel in build_shell(plan).panels:
        kind = kinds[panel.build_id]
        sides = sorted(
            max(p[k] for p in panel.inner + panel.outer)
            - min(p[k] for p in panel.inner + panel.outer)
            for k in (0, 1)
        )
        most = sorted((float(kind.max_width), float(kind.max_length)))
        assert sides[0] <= most[0] + 1e-6
        assert sides[1] <= most[1] + 1e-6


@LAWS
@given(plan=houses())
def test_planes_are_covered_once(plan: Plan) -> None:
    """On both faces the panels of a plane and its gaps make up the plane without seams."""
    whole = planes(build_shell(gapless(plan)).panels)
    for name, panels in planes(build_shell(plan).panels).items():
        for share in (0.0, 1.0):
            parts = [section(p, share) for p in panels]
            together = shapely.union_all(parts)
            assert sum(p.area for p in parts) == pytest.approx(together.area, abs=1e-7)
            full = shapely.union_all([section(p, share) for p in whole[name]], grid_size=1e-9)
            assert together.difference(full.buffer(1e-7)).area < 1e-7
            seam = 0.006 * sum(p.exterior.length for p in parts)
            assert full.area - together.area <= seam


@LAWS
@given(plan=houses(), dx=lengths(-3000, 3000), dy=lengths(-3000, 3000))
def test_moving_the_house_moves_the_panels(plan: Plan, dx: F, dy: F) -> None:
    """A house moved on its site has the same panels, moved."""
    shift = tuple((x + dx, y + dy) for x, y in plan.footprints[0].corners)
    moved = replace(
        plan,
        footprints=(replace(plan.footprints[0], corners=shift),),
        roof=(replace(plan.roof[0], area=shift),),
    )
    here, there = build_shell(plan).panels, build_shell(moved).panels
    assert [p.id for p in here] == [p.id for p in there]
    for one, two in zip(here, there, strict=True):
        assert volume(two) == pytest.approx(volume(one), abs=1e-7)
        a, b = one.frame.point(one.inner[0]), two.frame.point(two.inner[0])
        assert (b[0] - a[0], b[1] - a[1], b[2] - a[2]) == pytest.approx(
            (float(dx), float(dy), 0.0), abs=1e-6
        )


@LAWS
@given(plan=houses())
def test_ridge_vertices_are_shared(plan: Plan) -> None:
    """Every inner corner at the ridge's height agrees with one of another plane to 1e-6 m."""
    roof = [p for p in build_shell(gapless(plan)).panels if p.role == "roof"]
    corners = [(p.plane_id, p.frame.point(v)) for p in roof for v in p.inner]
    top = max(c[1][2] for c in corners)
    for one in {name for name, p in corners if p[2] > top - 1e-6}:
        ends = [p for name, p in corners if name == one and p[2] > top - 1e-6]
        rest = [p for name, p in corners if name != one and p[2] > top - 1e-6]
        outer = (min(ends), max(ends))
        assert all(min(math.dist(p, q) for q in rest) < 1e-6 for p in outer)


@LAWS
@given(
    name=st.sampled_from(["tee", "ell", "hips", "entry"]),
    angle=st.integers(1, 89).filter(lambda degrees: degrees % 45 != 0),
)
def test_turning_the_house_turns_the_panels(name: str, angle: int) -> None:
    """A house turned on its site keeps its panels, their ids and their volumes."""
    plan = {"tee": tee(), "ell": ell(), "hips": hipped_ell(), "entry": with_entry("hanging")}[name]
    c, s = F(math.cos(math.radians(angle))), F(math.sin(math.radians(angle)))

    def turned(corners: tuple) -> tuple:
        return tuple((c * x - s * y, s * x + c * y) for x, y in corners)

    there = build_shell(
        replace(
            plan,
            footprints=tuple(replace(f, corners=turned(f.corners)) for f in plan.footprints),
            roof=tuple(replace(r, area=turned(r.area)) for r in plan.roof),
        )
    ).panels
    here = build_shell(plan).panels
    assert [p.id for p in here] == [p.id for p in there]
    for one, two in zip(here, there, strict=True):
        assert volume(two) == pytest.approx(volume(one), abs=1e-7)
