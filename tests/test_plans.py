"""Houses of every shape the plan knows: each builds, closes, and is sealed to the last joint."""

from __future__ import annotations

import json
import math
from pathlib import Path

import pytest

from seamwright.io.order_json import order_document
from seamwright.io.plan import read_plan
from seamwright.io.register_json import register_document
from seamwright.io.seals_json import seals_document
from seamwright.report.house import SealedHouse
from seamwright.seals.catalog import default_catalog
from seamwright.workflow import register_joints, seal_house

PLANS = sorted((Path(__file__).parent / "plans").glob("*.yaml"))


@pytest.fixture(scope="module", params=PLANS, ids=lambda path: path.stem)
def house(request: pytest.FixtureRequest) -> SealedHouse:
    """Return the sealed house of one plan."""
    file = read_plan(request.param)
    return seal_house(file.plan, default_catalog() if file.catalog is None else file.catalog)


def test_the_line_closes(house: SealedHouse) -> None:
    """No face of any house has a break, and no inner edge meets nothing."""
    assert [(b.face, b.panel_id, b.reason) for b in house.register.breaks] == []
    assert [use for use in house.register.ledger if use.fate == "free"] == []


def test_every_name_is_given_once(house: SealedHouse) -> None:
    """Panels, joints and nodes each carry an id of their own."""
    for named in (house.shell.panels, house.register.joints, house.register.nodes):
        ids = [item.id for item in named]
        assert len(ids) == len(set(ids))


def test_every_way_between_skins_is_measured(house: SealedHouse) -> None:
    """No joint longer than a lap (3 in) is left without a span between sound skins, or a seal."""
    codes = ("span-inner", "span-outer", "unsealed")
    told = {f.subject for f in house.schedule.findings if f.id.split(":")[0] in codes}
    assert [j.id for j in house.register.joints if j.id in told and j.length > 0.0762] == []


def test_the_order_is_the_sum_of_its_parts(house: SealedHouse) -> None:
    """Each strip line's net length is exactly the sum of its pieces."""
    for line in house.order.lines:
        pieces = [p.length for p in house.order.pieces if p.stock_id == line.item]
        if pieces:
            assert line.net == math.fsum(pieces)


def test_results_can_be_written_as_data(house: SealedHouse) -> None:
    """Register, seals and order hold plain numbers, words and truths only."""
    for document in (
        register_document(house.register),
        seals_document(house.schedule),
        order_document(house.order),
    ):
        assert json.dumps(document, allow_nan=False)


FOOT = 0.3048
HEXAGON_RUN = 3.4641016 + 20 / 12 * FOOT
BY_HAND = {
    # five hips: three of 10 ft and two of 8 ft run, each with 16 in overhang, and the 2 ft by which
    # the wider wing's inner hip stands out of the narrower; a run on two 6/12 slopes is 1.5 long
    ("hip_l", "hip"): 1.5 * (3 * (10 + 4 / 3) + 2 * (8 + 4 / 3) + 2) * FOOT,
    ("hip_l", "valley"): 1.5 * (8 + 4 / 3) * FOOT,
    ("hip_l", "ridge"): (32 - 2 * 10 + 12) * FOOT,
    # five outside corners less one inside corner, where the through wall runs past, and the door
    ("hip_l", "sill"): (2 * (32 + 32) - (5 - 1) * 6.5 / 12 - 38 / 12) * FOOT,
    # six hips over the corners of a hexagon of 4 m sides, 20 in overhang, 5/12
    ("hexagon", "hip"): 6 * HEXAGON_RUN * math.hypot(1 / math.cos(math.pi / 6), 5 / 12),
    ("cross_ridge", "ridge"): (40 + 2 + 36 + 2) * FOOT,
    ("gambrel", "ridge"): 3 * (36 + 2) * FOOT,
    ("dormers", "sill"): (2 * (40 + 26) - 4 * 6.5 / 12) * FOOT,
}
"""Total lengths by plane geometry, before the gaps at seams are taken off. [m]"""


@pytest.mark.parametrize(("name", "kind"), BY_HAND)
def test_lengths_agree_with_a_calculation_by_hand(name: str, kind: str) -> None:
    """Each total is the closed form less a 1/8 in gap, seen askew at worst twofold, per seam."""
    plan = read_plan(Path(__file__).parent / "plans" / f"{name}.yaml").plan
    joints = [j for j in register_joints(plan)[1].joints if j.kind == kind]
    short = BY_HAND[name, kind] - sum(joint.length for joint in joints)
    assert -1e-6 <= short <= len(joints) * 2 * 0.125 / 12 * FOOT


def test_no_strip_doubles_back(house: SealedHouse) -> None:
    """The way from skin to skin never runs back on itself."""
    for section in house.sections.values():
        for way in (section.inner, section.outer):
            corners = (
                ()
                if way is None
                else tuple(zip(way.path, way.path[1:], way.path[2:], strict=False))
            )
            for a, b, c in corners:
                there, back = (b[0] - a[0], b[1] - a[1]), (c[0] - b[0], c[1] - b[1])
                along = there[0] * back[0] + there[1] * back[1]
                assert along > -0.999 * math.hypot(*there) * math.hypot(*back), section.joint_id
