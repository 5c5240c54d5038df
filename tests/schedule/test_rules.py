"""The rule table and the hold points: complete, worded, and all in use."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from tests.schedule.houses import ALL, network, network_of, plan_of, sealed

from seamwright.joints.reach import ACCESS, RIM
from seamwright.schedule.hold import HOLDS
from seamwright.schedule.rules import HIDERS, RULES
from seamwright.schedule.tasks_kinds import KINDS
from seamwright.seals.catalog import default_catalog
from seamwright.shell.plan import Decision
from seamwright.sources import COMMON_PRACTICE
from seamwright.workflow import seal_house


def test_rules_are_sentences_with_a_source() -> None:
    """Each rule has an id of its own, a reason that reads after a colon, and a source."""
    for key, rule in RULES.items():
        assert key == rule.id
        assert rule.reason[0].islower()
        assert not rule.reason.endswith(".")
        assert rule.source == COMMON_PRACTICE


def test_every_rule_is_used_somewhere() -> None:
    """No rule stands in the table that no sample house, sealed on one face or both, needs."""
    both = Decision(face="both", signed_by="D", role="designer", date="2025-01-01")
    whole = seal_house(replace(plan_of("cypress_house"), decisions=(both,)), default_catalog())
    networks = [*(network(name) for name in ALL), network_of(whole)]
    used = {link.rule for made in networks for link in made.links}
    assert set(RULES) - used == {"user", "set_before_fill"}


def test_all_that_hides_a_face_is_a_task() -> None:
    """Whatever the register says hides a face within reach, a task of the network does it."""
    known = {words for words, _, _ in HIDERS}
    reached = {
        words
        for inner, outer in (*ACCESS.values(), RIM)
        for reach, words in (inner, outer)
        if reach == "until_hidden"
    }
    assert reached <= known


def test_every_hold_point_is_asked_for() -> None:
    """Each hold point belongs to a kind of task, or to strips by their face."""
    asked = {row.hold for row in KINDS.values()} | {"opening", "outside", "inside"}
    assert set(HOLDS) <= asked
    assert all(point.sentence.endswith(".") and point.released_by for point in HOLDS.values())


def test_hold_points_name_somebody() -> None:
    """In a whole house the designer, the manager, the lead and the tester all sign something."""
    signers = Counter(t.released_by for t in network("first_house").tasks)
    assert {"building's designer", "site manager", "sealing lead", "fan tester"} <= set(signers)


def test_each_seal_is_about_something_real() -> None:
    """The refs of tasks are joints, nodes or nothing else."""
    for name in ALL:
        house = sealed(name)
        known = {j.id for j in house.register.joints} | {n.id for n in house.register.nodes}
        assert {ref for t in network(name).tasks for ref in t.refs} <= known
