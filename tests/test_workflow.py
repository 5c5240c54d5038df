"""The compositions from plan to sealed house, on the built-in houses."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import pytest

from seamwright.errors import InputError
from seamwright.io.plan import builtin_house, builtin_house_names, read_plan
from seamwright.report.house import SealedHouse
from seamwright.seals.catalog import default_catalog
from seamwright.shell.plan import Decision, Override, Plan
from seamwright.workflow import lay_out, register_joints, seal_house

HOUSES = builtin_house_names()


@cache
def plan(name: str) -> Plan:
    """Return the plan of a built-in house."""
    return read_plan(builtin_house(name), name=name).plan


@cache
def sealed(name: str) -> SealedHouse:
    """Return a built-in house, sealed from the default shelf."""
    return seal_house(plan(name), default_catalog())


@pytest.mark.parametrize("name", HOUSES)
def test_every_joint_of_a_house_is_sealed_or_told(name: str) -> None:
    """Each joint has a strip, a bead, foam or a gasket, or a finding that names it."""
    house = sealed(name)
    held = {
        seal.joint_id
        for seals in (
            house.schedule.strips,
            house.schedule.beads,
            house.schedule.fills,
            house.schedule.gaskets,
        )
        for seal in seals
    }
    held |= {finding.subject for finding in house.schedule.findings}
    assert [j.id for j in house.register.joints if j.id not in held] == []


@pytest.mark.parametrize("name", HOUSES)
def test_ids_lead_from_the_order_back_to_the_register(name: str) -> None:
    """Every joint or node named by a seal, a piece or an order line is in the register."""
    house = sealed(name)
    known = {j.id for j in house.register.joints} | {n.id for n in house.register.nodes}
    named = {ref for line in house.order.lines for ref in line.refs}
    named |= {ref for piece in house.order.pieces for ref in piece.joint_ids}
    named |= {s.joint_id for s in house.schedule.strips}
    named |= {p.node_id for p in house.schedule.patches}
    assert named - known == set()


@pytest.mark.parametrize("name", HOUSES)
def test_strip_lines_are_the_sum_of_the_pieces(name: str) -> None:
    """What each strip line takes is the exact sum of its pieces, and all pieces are cut once."""
    order = sealed(name).order
    for line in order.lines:
        own = [piece.length for piece in order.pieces if piece.stock_id == line.item]
        if own:
            assert math.fsum(own) == line.net
    cut = sorted(p for plan in order.cutting for roll in plan.cuts for p in roll.piece_ids)
    assert cut == sorted(piece.id for piece in order.pieces)


def test_the_same_plan_gives_the_same_house() -> None:
    """Nothing but the plan and the catalog decides the result."""
    assert seal_house(plan("first_house"), default_catalog()) == sealed("first_house")


def test_sections_belong_to_joints() -> None:
    """Each section is keyed by the joint it cuts."""
    house = sealed("first_house")
    ids = {joint.id for joint in house.register.joints}
    assert house.sections
    assert set(house.sections) <= ids
    assert all(section.joint_id == key for key, section in house.sections.items())


def test_a_signature_changes_the_mark_and_not_the_joints() -> None:
    """Signing all faces leaves the register as it was and no joint unsigned."""
    signed = Decision(face="inner", signed_by="J. Hollis", role="designer", date="2026-03-02")
    before = sealed("first_house")
    after = seal_house(replace(before.plan, decisions=(signed,)), default_catalog())
    assert after.register == before.register
    assert not any(side.signed for side in before.schedule.sides)
    assert all(side.signed for side in after.schedule.sides)


def test_a_correction_whose_joint_is_gone_is_told() -> None:
    """A correction of a joint that does not exist is listed, not dropped in silence."""
    lost = Override(joint="Z.1-Z.2", reason="measured on site")
    _, register = register_joints(replace(plan("first_house"), overrides=(lost,)))
    assert register.lost_overrides == ("Z.1-Z.2",)


def test_a_plan_that_cannot_stand_is_refused() -> None:
    """An opening wider than its wall is an input error that names the opening."""
    house = plan("first_house")
    wide = tuple(replace(o, width=o.width * 20) for o in house.openings)
    with pytest.raises(InputError, match=house.openings[0].id):
        lay_out(replace(house, openings=wide))
