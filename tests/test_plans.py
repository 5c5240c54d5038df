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
from seamwright.workflow import seal_house

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
