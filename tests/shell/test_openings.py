"""Rough openings and services: notches, holes, headers, and what does not fit."""

from __future__ import annotations

from fractions import Fraction as F  # noqa: N817 (a plan is full of fractions)

import pytest
import shapely
from tests.shell.plans import JUMBO, box, gapless, window, with_dormer
from tests.shell.solids import overlaps

from seamwright.errors import InputError
from seamwright.shell.build import build_shell
from seamwright.shell.plan import Base, OpeningSpec, PenetrationSpec, Plan, Preferences
from seamwright.shell.split import RIM
from seamwright.shell.types import Panel, Shell


def wall(shell: Shell, plane: str = "A") -> list[Panel]:
    """Return the panels of one plane."""
    return [p for p in shell.panels if p.plane_id == plane]


def free(panels: list[Panel]) -> shapely.Geometry:
    """Return the inner face of panels with their holes out."""
    return shapely.union_all(
        [shapely.Polygon(p.inner, [h.outline for h in p.holes]) for p in panels]
    )


def problems(plan: Plan) -> list[str]:
    """Return what is wrong with a plan, as the user reads it."""
    with pytest.raises(InputError) as caught:
        build_shell(plan)
    return [str(problem) for problem in caught.value.problems]


def test_window_inside_one_panel_is_a_hole() -> None:
    """A window with panel all around becomes a hole in one panel and an opening of the shell."""
    shell = build_shell(box(openings=(window(),)))
    holed = [p for p in wall(shell) if p.holes]
    assert [p.id for p in holed] == ["A.1"]
    assert shapely.Polygon(holed[0].holes[0].outline).equals(shapely.box(0.3, 0.9, 0.9, 1.9))
    assert [o.id for o in shell.openings] == ["W1"]


def test_door_is_a_notch_from_below() -> None:
    """A door standing on the wall's bottom edge is cut into the outline, not a hole."""
    door = OpeningSpec(
        id="D1", kind="door", host="A", along=F(2, 10), up=F(0), width=F(8, 10), height=F(2)
    )
    first = wall(build_shell(box(openings=(door,))))[0]
    assert first.holes == ()
    assert len(first.inner) == 8


def test_seam_moves_to_keep_the_rim() -> None:
    """A seam that would cross a window moves aside and leaves at least the rim."""
    shell = build_shell(box(openings=(window(along=F(9, 10)),)))
    holed = [p for p in wall(shell) if p.holes]
    assert len(holed) == 1
    us = [u for u, _ in holed[0].inner]
    assert 0.9 - min(us) >= RIM - 0.003
    assert max(us) - 1.5 >= RIM - 0.003


def test_opening_wider_than_a_panel_gets_header_and_sill() -> None:
    """A 2 m window between 1.2 m panels breaks them: one header above, one sill below."""
    spec = window(along=F(2), width=F(2))
    panels = wall(build_shell(box(openings=(spec,))))
    assert not any(p.holes for p in panels)
    between = [p for p in panels if all(2.0 < u < 4.0 for u, _ in p.inner)]
    assert [round(min(v for _, v in p.inner), 3) for p in between] == [0.0, 1.9]
    assert [round(max(v for _, v in p.inner), 3) for p in between] == [0.9, 2.562]


def test_break_at_openings_ends_panels_at_the_sides() -> None:
    """With break_at_openings even a small window gets its own header and sill."""
    plan = box(openings=(window(),), preferences=Preferences(break_at_openings=True))
    panels = wall(build_shell(plan))
    assert not any(p.holes for p in panels)
    edges = {round(u, 4) for p in panels for u, _ in p.inner}
    assert {0.3, 0.9} <= edges


@pytest.mark.parametrize("wide", [F(6, 10), F(2), F(3)])
@pytest.mark.parametrize("broken", [False, True])
def test_panels_fill_the_wall_but_for_the_opening(wide: F, broken: bool) -> None:
    """Whatever the layout, panels and opening together are the wall, and never overlap."""
    plan = gapless(
        box(
            openings=(window(along=F(11, 10), width=wide),),
            preferences=Preferences(break_at_openings=broken),
        )
    )
    panels = wall(build_shell(plan))
    whole = free(wall(build_shell(gapless(box()))))
    opening = shapely.box(1.1, 0.9, 1.1 + float(wide), 1.9)
    assert free(panels).symmetric_difference(whole.difference(opening)).area < 1e-9
    assert sum(free([p]).area for p in panels) == pytest.approx(whole.area - opening.area)


def test_jumbo_panels_take_the_opening_whole() -> None:
    """A panel of 24 ft holds windows that break narrow ones."""
    plan = box(openings=(window(along=F(2), width=F(2)),))
    storey = plan.storeys[0]
    jumbo = type(storey)(id=storey.id, height=F(2), panel_type=JUMBO.id)
    shell = build_shell(Plan(**{**_fields(plan), "storeys": (jumbo,)}))
    assert [len(p.holes) for p in wall(shell)] == [1, 0]


def test_skylight_is_a_hole_in_the_roof() -> None:
    """A skylight is placed along the eave and up the slope, and cut square."""
    light = OpeningSpec(
        id="S1", kind="skylight", host="R1", along=F(3, 10), up=F(1), width=F(5, 10), height=F(1)
    )
    shell = build_shell(box(openings=(light,)))
    assert sum(len(p.holes) for p in wall(shell, "R1")) == 1
    assert overlaps(shell.panels) == []


def test_window_in_a_dormer_front() -> None:
    """A dormer's front wall is a host like any other wall."""
    spec = window(host="D1.front", along=F(7, 10), up=F(1, 10), width=F(4, 10), height=F(5, 10))
    shell = build_shell(Plan(**{**_fields(with_dormer()), "openings": (spec,)}))
    assert sum(len(p.holes) for p in wall(shell, "D1.front")) == 1


def test_opening_outside_its_wall_is_told_with_its_place() -> None:
    """The sentence names the opening, its span, the wall and where it is free."""
    told = problems(box(openings=(window(along=F(75, 10)),)))
    assert len(told) == 1
    assert "W1" in told[0]
    assert "7.500 m to 8.100 m along" in told[0]


def test_opening_in_the_corner_of_the_next_wall_is_refused() -> None:
    """An opening may not reach behind the wall that butts at the corner."""
    assert "W1" in problems(box(openings=(window(along=F(1, 10)),)))[0]


def test_overlapping_openings_are_told_once() -> None:
    """The second of two overlapping openings is refused and names the first."""
    told = problems(box(openings=(window(), window("W2", along=F(5, 10)))))
    assert told == [
        "opening W2 overlaps opening W1 on A; move one of them or make it smaller",
    ]


def test_penetration_knows_its_panel_and_points_outward() -> None:
    """A pipe sits on the inner face of the panel it passes through."""
    pipe = PenetrationSpec(id="P1", kind="pipe", host="A", along=F(2), up=F(1), diameter=F(1, 10))
    shell = build_shell(box(penetrations=(pipe,)))
    found = shell.penetrations[0]
    assert found.panel_id == "A.2"
    assert found.axis == pytest.approx((0.0, -1.0, 0.0))
    assert found.at == pytest.approx((2.0, 0.1619, 1.0))


def test_penetration_outside_is_refused() -> None:
    """A pipe beside its wall is a problem."""
    pipe = PenetrationSpec(id="P1", kind="pipe", host="A", along=F(9), up=F(1), diameter=F(1, 10))
    assert "P1" in problems(box(penetrations=(pipe,)))[0]


def _fields(plan: Plan) -> dict[str, object]:
    return {name: getattr(plan, name) for name in plan.__dataclass_fields__}


def test_a_hatch_in_a_floor_is_measured_into_the_house() -> None:
    """On a floor of panels a hatch lies as far in from the first side as the plan says."""
    base = Base(kind="floor_panels", top=F(1), panel_type="R10")
    hatch = OpeningSpec(
        id="H1", kind="hatch", host="floor", along=F(1), up=F(2), width=F(8, 10), height=F(6, 10)
    )
    (found,) = build_shell(box(base=base, openings=(hatch,))).openings
    corners = [found.frame.point(p) for p in found.outline]
    assert min(corners) == pytest.approx((1.0, 2.0, 1.0))
    assert max(corners) == pytest.approx((1.8, 2.6, 1.0))
