"""Bad plans: every mistake becomes a sentence with the name of the thing, never a traceback."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F  # noqa: N817 (a plan is full of fractions)

import pytest
from tests.shell import plans

from seamwright.errors import InputError
from seamwright.shell.build import build_shell
from seamwright.shell.plan import (
    Base,
    Footprint,
    GivenPanel,
    InnerWall,
    PenetrationSpec,
    Plan,
    Site,
    Timber,
    TimberSize,
    WallRule,
)

ROOM = plans.rectangle(8, 6)
CROSSED = (ROOM[0], ROOM[2], ROOM[1], ROOM[3])
ELL = ((F(0), F(0)), (F(8), F(0)), (F(8), F(3)), (F(4), F(3)), (F(4), F(6)), (F(0), F(6)))


def footprint(**changes: object) -> tuple[Footprint, ...]:
    """Return the one footprint of the box, changed."""
    return (replace(plans.box().footprints[0], **changes),)


def storey(**changes: object) -> tuple[object, ...]:
    """Return the one storey of the box, changed."""
    return (replace(plans.box().storeys[0], **changes),)


def roof(**changes: object) -> Plan:
    """Return the box with a changed gable."""
    return plans.box(roof=(plans.gable(**changes),))


def panel(**changes: object) -> GivenPanel:
    """Return a given wall panel of 1.2 by 2.4 m."""
    one = GivenPanel(
        id="P1",
        panel_type="W6",
        role="wall",
        origin=(F(0), F(0), F(0)),
        along=(1.0, 0.0, 0.0),
        up=(0.0, 0.0, 1.0),
        outline=plans.rectangle(F(12, 10), F(24, 10)),
    )
    return replace(one, **changes)


BAD: dict[str, tuple[Plan, str, str]] = {
    "nothing": (Plan(site=Site(name="x"), panel_types=()), "plan", "describes no house"),
    "no storeys": (plans.box(storeys=(), footprints=footprint(storeys=())), "plan", "no storeys"),
    "twice": (plans.box(storeys=plans.box().storeys * 2), "storey ground", "share the id"),
    "narrow": (
        plans.box(panel_types=(replace(plans.WALL, max_width=F(1, 2)), plans.ROOF)),
        "panel type W6",
        "slivers cannot be avoided",
    ),
    "core": (
        plans.box(panel_types=(replace(plans.WALL, core=F(0)), plans.ROOF)),
        "panel type W6",
        "core 0 m",
    ),
    "gap": (
        plans.box(panel_types=(replace(plans.WALL, edge_gap=F(-1, 100)), plans.ROOF)),
        "panel type W6",
        "gap of -0.01 m",
    ),
    "type": (plans.box(storeys=storey(panel_type="X")), "storey ground", "panel type X"),
    "base type": (plans.box(base=Base(kind="floor_panels")), "base", "names no panel type"),
    "base size": (plans.box(base=Base(kind="slab", thickness=F(0))), "base", "0 m thick"),
    "height": (plans.box(storeys=storey(height=F(0))), "storey ground", "0 m high"),
    "first floor": (plans.box(storeys=storey(floor="platform")), "storey ground", "platform"),
    "floor depth": (
        plans.two_storeys(
            "platform",
            storeys=(
                plans.two_storeys("platform").storeys[0],
                replace(plans.two_storeys("platform").storeys[1], floor_depth=F(1, 100)),
            ),
        ),
        "storey upper",
        "0.01 m deep",
    ),
    "crossed": (plans.box(footprints=footprint(corners=CROSSED)), "footprint house", "crosses"),
    "clockwise": (
        plans.box(footprints=footprint(corners=tuple(reversed(ROOM)))),
        "footprint house",
        "clockwise",
    ),
    "overlap": (
        plans.box(
            footprints=(
                *footprint(),
                Footprint(id="two", corners=plans.rectangle(2, 2), storeys=("ground",)),
            )
        ),
        "footprint two",
        "4.00 m²",
    ),
    "unknown wall": (plans.box(wall_rules=(WallRule(wall="Z"),)), "wall Z", "there is none"),
    "corner conflict": (
        plans.box(
            wall_rules=(
                WallRule(wall="A", end_corner="through"),
                WallRule(wall="B", start_corner="through"),
            )
        ),
        "wall B",
        "opposite things",
    ),
    "widths": (
        plans.box(wall_rules=(WallRule(wall="A", widths=(F(1), F(2))),)),
        "wall A",
        "a panel of 2.000 m is wanted",
    ),
    "too many widths": (
        plans.box(wall_rules=(WallRule(wall="A", widths=(F(1),) * 9),)),
        "wall A",
        "add up to 9.000 m",
    ),
    "stub": (
        plans.tee(
            side=plans.wing(area=plans.rectangle(4, 3, F(1, 10), -3)),
            footprints=(
                Footprint(id="main", corners=plans.rectangle(12, 6), storeys=("ground",)),
                Footprint(
                    id="wing", corners=plans.rectangle(4, 3, F(1, 10), -3), storeys=("ground",)
                ),
            ),
        ),
        "wall A",
        "stretch of 0.100 m",
    ),
    "flat roof": (roof(pitch=F(0)), "roof part main", "pitch of 0"),
    "eaves side by side": (roof(eaves=(0, 1)), "roof part main", "not opposite"),
    "one eave": (roof(eaves=(0,)), "roof part main", "1 eaves"),
    "edge": (roof(eaves=(0, 7)), "roof part main", "edge 7"),
    "both": (roof(open_end=(0,)), "roof part main", "twice"),
    "no rectangle": (
        roof(area=(*ROOM[:3], (F(1), F(6)))),
        "roof part main",
        "no rectangle",
    ),
    "dented hip": (
        roof(kind="hip", area=ELL, eaves=tuple(range(6))),
        "roof part main",
        "inside corner",
    ),
    "saltbox": (roof(kind="saltbox"), "roof part main", "second pitch"),
    "gambrel break": (
        roof(kind="gambrel", pitch=F(2), second_pitch=F(1, 2), break_run=F(5)),
        "roof part main",
        "break of gambrel",
    ),
    "gambrel turned over": (
        roof(kind="gambrel", pitch=F(1, 2), second_pitch=F(2), break_run=F(1)),
        "roof part main",
        "not flatter",
    ),
    "short roof": (roof(area=plans.rectangle(6, 6)), "wall A", "no roof covers"),
    "low roof": (roof(eave_height=F(-5)), "wall A", "below the bottom"),
    "wing too high": (
        plans.tee(side=plans.wing(pitch=F(3))),
        "roof part wing",
        "without ever meeting",
    ),
    "eaves of two heights": (
        plans.tee(side=plans.wing(eave_height=F(1))),
        "roof part main",
        "does not close",
    ),
    "dormer part": (plans.with_dormer(part="x"), "dormer D1", "there is none"),
    "dormer eave": (plans.with_dormer(eave=1), "dormer D1", "carries no eave"),
    "dormer aside": (plans.with_dormer(along=F(7)), "dormer D1", "ends 9.000 m"),
    "dormer sunk": (plans.with_dormer(eave_height=F(3)), "dormer D1", "upper face"),
    "dormer too high": (plans.with_dormer(eave_height=F(7)), "dormer D1", "beyond the roof plane"),
    "dormer shed too steep": (
        plans.with_dormer(kind="shed", pitch=F(2)),
        "dormer D1",
        "never meet",
    ),
    "inner wall outside": (
        plans.box(
            inner_walls=(
                InnerWall(
                    id="I1",
                    storey="ground",
                    start=(F(9), F(1)),
                    end=(F(9), F(2)),
                    thickness=F(1, 10),
                ),
            )
        ),
        "inner wall I1",
        "outside the rooms",
    ),
    "opening size": (
        plans.box(openings=(plans.window(width=F(0)),)),
        "opening W1",
        "0 m wide",
    ),
    "penetration": (
        plans.box(
            penetrations=(PenetrationSpec(id="P1", kind="pipe", host="A", along=F(1), up=F(1)),)
        ),
        "penetration P1",
        "needs a diameter",
    ),
    "timber": (
        plans.box(
            timbers=(
                Timber(
                    id="T1",
                    kind="beam",
                    start=(F(0), F(0), F(0)),
                    end=(F(0), F(0), F(0)),
                    size=TimberSize(width=F(1, 10), depth=F(1, 10)),
                ),
            )
        ),
        "timber T1",
        "no length",
    ),
    "directions": (plans.box(panels=(panel(up=(2.0, 0.0, 0.0)),)), "panel P1", "in one line"),
    "outline": (plans.box(panels=(panel(outline=CROSSED),)), "panel P1", "crosses itself"),
    "bevels": (plans.box(panels=(panel(bevels_deg=(0.0,)),)), "panel P1", "1 bevel angles"),
}


@pytest.mark.parametrize("name", BAD)
def test_bad_plan_is_told_in_a_sentence(name: str) -> None:
    """The first problem names its subject, says what is wrong with a value, and what to do."""
    plan, subject, words = BAD[name]
    with pytest.raises(InputError) as caught:
        build_shell(plan)
    first = caught.value.problems[0]
    assert first.subject == subject
    assert words in str(first)
    assert first.remedy


def test_good_plans_have_no_problem() -> None:
    """A sound plan passes every check."""
    assert build_shell(plans.box()).panels


def test_a_given_panel_may_not_take_the_name_of_another() -> None:
    """Joints are named after panels, so a second A.1 is refused."""
    with pytest.raises(InputError, match=r"two panels are called A\.1"):
        build_shell(plans.box(panels=(panel(id="A.1"),)))


def test_lengths_in_a_problem_are_printed_as_its_reader_wants_them() -> None:
    """A problem keeps its lengths as numbers until somebody says in which units."""
    with pytest.raises(InputError) as caught:
        build_shell(plans.box(wall_rules=(WallRule(wall="A", widths=(F(1),) * 9),)))
    told = caught.value.problems[0].filled(lambda value: f"{1000 * value:.0f} mm").sentence
    assert told.startswith("the widths given for wall A add up to 9000 mm")


def test_a_plate_too_high_to_bridge_is_said() -> None:
    """On a 12/12 roof a plate on a 6-1/2 in wall stands 8 in high inside; the cover says so."""
    steep = replace(plans.gable(), pitch=F(1), eave_plate=F(38, 1000))
    told = build_shell(plans.box(roof=(steep,))).assumptions
    assert any("eave_plate: 0" in sentence for sentence in told)
    assert not any("eave_plate: 0" in s for s in build_shell(plans.box()).assumptions)
