"""The places of a sealed house that can leak."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest

from seamwright.io.plan import builtin_house, builtin_house_names, read_plan
from seamwright.leakage.priors import rows_of
from seamwright.report.leak_places import leak_places
from seamwright.seals.catalog import default_catalog
from seamwright.shell.plan import Override
from seamwright.workflow import seal_house


@pytest.fixture(scope="module", params=builtin_house_names())
def house(request):
    """Return each built-in house, sealed."""
    return seal_house(read_plan(builtin_house(request.param)).plan, default_catalog())


def test_each_joint_node_and_opening_is_one_place(house) -> None:
    """Nothing that can leak is left out or counted twice."""
    places = leak_places(house)
    ids = [place.id for place in places]
    assert len(ids) == len(set(ids))
    register = house.register
    ignored = {o.joint for o in house.plan.overrides if o.ignore}
    expected = {joint.id for joint in register.joints} - ignored
    expected |= {node.id for node in register.nodes}
    expected |= {f"{opening.id}/unit" for opening in house.shell.openings}
    assert set(ids) == expected


def test_every_place_has_its_rows(house) -> None:
    """Each place is of a kind that the leak table knows, within the height of the house."""
    for place in leak_places(house, crew="north"):
        assert rows_of(place)
        assert -0.5 <= place.height <= 15.0
        assert place.crew == "north"
        assert 1.0 <= place.consequence <= 5.0


def test_joints_leak_along_their_inner_line(house) -> None:
    """An eave leaks within the air boundary, not out over the overhang."""
    lengths = {place.id: place.length for place in leak_places(house)}
    for joint in house.register.joints:
        if joint.kind != "penetration" and joint.inner.line is not None:
            assert lengths[joint.id] == joint.inner.length


def test_layers_are_those_of_the_schedule(house) -> None:
    """A strip in the schedule is a layer of its joint, a patch one of its node."""
    layers = {place.id: set(place.layers) for place in leak_places(house)}
    for strip in house.schedule.strips:
        if strip.stock_id is not None:
            side = "strip_inner" if strip.face == "inner" else "strip_outer"
            assert side in layers[strip.joint_id]
    assert all("patch" in layers[patch.node_id] for patch in house.schedule.patches)
    assert all("beads" in layers[bead.joint_id] for bead in house.schedule.beads)


def test_a_service_is_known_by_its_kind(house) -> None:
    """A pipe is a pipe, not a joint."""
    kinds = {s.kind for s in house.shell.penetrations}
    services = [p for p in leak_places(house) if p.sort == "penetration" and "/" not in p.id]
    assert {place.kind for place in services} <= kinds
    assert len(services) == len(house.shell.penetrations)


def test_an_ignored_joint_is_no_place(house) -> None:
    """What the plan leaves out is not forecast."""
    first = house.register.joints[0].id
    plan = replace(house.plan, overrides=(Override(joint=first, reason="test", ignore=True),))
    places = leak_places(replace(house, plan=plan))
    assert first not in {place.id for place in places}


def test_a_window_leaks_around_its_whole_edge(house) -> None:
    """The unit's length is the perimeter of its opening, whatever panels it lies in."""
    places = {place.id: place for place in leak_places(house)}
    for opening in house.shell.openings:
        ring = [*opening.outline, opening.outline[0]]
        run = math.fsum(math.dist(a, b) for a, b in pairwise(ring))
        assert places[f"{opening.id}/unit"].length == pytest.approx(run)
