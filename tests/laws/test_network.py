"""Laws of the order of work: nothing is hidden unsealed, and there is always an order.

What hides a seal is said here once more, from the register and the shell alone, without the rules
that the network was made by.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from tests.laws.test_shell import houses
from tests.schedule.houses import ALL, network, network_of, plan_of, sealed

from seamwright.joints.types import Joint
from seamwright.report.house import SealedHouse
from seamwright.schedule.links_order import reaches, shortest_circle
from seamwright.schedule.rules import RULES
from seamwright.schedule.types import Network
from seamwright.seals.catalog import default_catalog
from seamwright.shell.plan import Decision, Face
from seamwright.workflow import seal_house

FINISHES = ("finish.", "clad.", "soffit.", "window.", "cover.", "cap.")


def check(house: SealedHouse, made: Network) -> None:
    """Hold a network to every law."""
    assert shortest_circle(made.links) == ()
    place = {task.id: number for number, task in enumerate(made.tasks)}
    assert len(place) == len(made.tasks)
    assert all(place[link.before] < place[link.after] for link in made.links)
    assert {link.rule for link in made.links} <= set(RULES)
    assert all(link.reason for link in made.links)
    makers = makers_of(made)
    assert made_once(house, makers)
    after = reaches(made.links)
    for seal, maker in makers.items():
        for hiders in hidden_by(house, made, seal):
            assert any(hider in after[maker] for hider in hiders), (seal, maker, hiders)


def makers_of(made: Network) -> dict[str, str]:
    """Return the task that makes each seal, after checking that there is only one."""
    rows = [(seal, task.id) for task in made.tasks for seal in task.seals]
    assert len(dict(rows)) == len(rows)
    return dict(rows)


def made_once(house: SealedHouse, makers: dict[str, str]) -> bool:
    """Return whether every seal of the schedule is made, and nothing else."""
    whole = {seal.split("@")[0] for seal in makers}
    plan = house.schedule
    counts = {
        "strip": len(plan.strips),
        "bead": len(plan.beads),
        "dam": len(plan.dams),
        "fill": len(plan.fills),
        "gasket": len(plan.gaskets),
        "patch": len(plan.patches),
    }
    return counts == {kind: sum(s.startswith(f"{kind}:") for s in whole) for kind in counts}


def hidden_by(house: SealedHouse, made: Network, seal: str) -> Iterator[list[str]]:
    """Yield groups of tasks, one of each group at least must come after the seal is made."""
    tasks = {task.id for task in made.tasks}
    kind, rest = seal.split(":", 1)
    if kind == "patch":
        yield from patch_hidden_by(house, tasks, rest)
        return
    name, _, part = rest.partition("@")
    joints = {joint.id: joint for joint in house.register.joints}
    joint = joints[name if kind == "fill" else name.rsplit(":" if kind == "strip" else "#", 1)[0]]
    if kind == "strip":
        yield from strip_hidden_by(house, joint, name, part)
    elif kind == "fill":
        yield from fill_hidden_by(house, joint, tasks)
    elif joint.kind == "opening":
        yield [f"buck.{other}" for other in joint.others]
    elif joint.kind == "penetration":
        yield [task for task in tasks if task.startswith(FINISHES)]
    elif part:
        yield [f"set.{part}"]
    else:
        yield [f"set.{i}" for i in (*joint.panels, *joint.others)]


def patch_hidden_by(house: SealedHouse, tasks: set[str], rest: str) -> Iterator[list[str]]:
    """Yield what hides a patch: before the roof every panel there, on the same day the covers."""
    node_id, face = rest.split("#", maxsplit=1)[0].rsplit(":", 1)
    patches = [p for p in house.schedule.patches if (p.node_id, p.face) == (node_id, face)]
    node = next(n for n in house.register.nodes if n.id == node_id)
    joints = [j for j in house.register.joints if j.id in node.joints]
    panels = {panel for joint in joints for panel in joint.panels}
    stages = {patch.stage for patch in patches}
    if stages == {"same_day"}:
        yield [f"cover.{panel}" for panel in panels]
    elif stages == {"before_roof"}:
        draped = {s.joint_id for s in house.schedule.strips if s.wings_open}
        yield from ([f"set.{panel}"] for j in joints if j.id in draped for panel in j.panels)
    else:
        yield [task for task in tasks if task.startswith((*FINISHES, "set."))]


def fill_hidden_by(house: SealedHouse, joint: Joint, tasks: set[str]) -> Iterator[list[str]]:
    """Yield what hides foam: a roof cover over a wedge, else a strip or the lining over the seam.

    A seam whose inner side nobody reaches is filled before it is clad.
    """
    if joint.kind in {"ridge", "hip", "valley"}:
        yield [f"cover.{panel}" for panel in joint.panels]
        return
    strips = [f"tape.{joint.id}.{face}" for face in ("inner", "outer")]
    planes = {p.plane_id for p in house.shell.panels if p.id in joint.panels}
    inside = ["finish.ceiling", *(f"finish.lining.{storey}" for storey in storeys(house))]
    outside = [f"clad.{plane}" for plane in planes]
    taped = [task for task in strips if task in tasks]
    yield taped or (outside if joint.inner.reach == "never" else inside)


def strip_hidden_by(house: SealedHouse, joint: Joint, name: str, part: str) -> Iterator[list[str]]:
    """Yield what hides a strip: panels on a timber, the next panel, a cover or a finish."""
    face = name.rsplit(":", 1)[1].split("#", maxsplit=1)[0]
    number = int(name.rsplit("#", 1)[1]) if "#" in name else 1
    strips = [s for s in house.schedule.strips if (s.joint_id, s.face) == (joint.id, face)]
    strip = strips[number - 1]
    if part == "pressed":
        yield ["finish.ceiling", *(f"finish.lining.{s}" for s in storeys(house))]
    elif strip.wings_open:
        yield from ([f"set.{panel}"] for panel in joint.panels)
    elif strip.stage in {"before_setting", "before_next_panel", "before_roof"} and not (
        joint.kind == "wall_tee" and joint.inner.reach == "until_hidden"
    ):
        yield [f"set.{i}" for i in (*joint.panels, *joint.others, *joint.inner.crossings)] + [
            f"set.{p.id}" for p in house.shell.panels if p.role == "wall"
        ]
    elif joint.kind == "opening":
        yield [f"window.{other}" for other in joint.others]
    elif strip.stage == "same_day":
        yield [f"cover.{panel}" for panel in joint.panels]
    elif face == "inner":
        yield [f"finish.{what}.{s}" for what in ("floor", "lining") for s in storeys(house)] + [
            "finish.ceiling"
        ]
    else:
        yield [f"clad.{p.plane_id}" for p in house.shell.panels if p.id in joint.panels] + [
            f"soffit.{p.plane_id}" for p in house.shell.panels if p.id in joint.panels
        ]


def storeys(house: SealedHouse) -> set[str]:
    """Return the storeys of a house's panels."""
    return {p.storey for p in house.shell.panels if p.storey is not None}


@pytest.mark.parametrize("name", ALL)
def test_nothing_is_hidden_unsealed(name: str) -> None:
    """In every sample house each seal is made once, before the task that hides it."""
    check(sealed(name), network(name))


@pytest.mark.parametrize("face", ["outer", "both"])
@pytest.mark.parametrize("name", ["heron_house", "platform", "dormer"])
def test_nothing_is_hidden_unsealed_on_the_other_face(name: str, face: Face) -> None:
    """The same where the designer signs the outer face, or both."""
    decision = Decision(face=face, signed_by="D", role="designer", date="2025-01-01")
    house = seal_house(replace(plan_of(name), decisions=(decision,)), default_catalog())
    check(house, network_of(house))


@settings(derandomize=True, max_examples=10, deadline=None, phases=(Phase.generate,))
@given(houses(), st.sampled_from(["inner", "outer", "both"]))
def test_nothing_is_hidden_unsealed_in_any_house(plan, face) -> None:
    """The same in boxes of any size and layout, sealed on either face or both."""
    decision = Decision(face=face, signed_by="D", role="designer", date="2025-01-01")
    house = seal_house(replace(plan, decisions=(decision,)), default_catalog())
    check(house, network_of(house))


@pytest.mark.parametrize("name", ALL)
def test_buried_seals_were_made_by_the_task_before(name: str) -> None:
    """A link buries only seals that its first task makes, and its maker has a hold point."""
    tasks = {task.id: task for task in network(name).tasks}
    for link in network(name).links:
        assert set(link.buries) <= set(tasks[link.before].seals)
        assert not link.buries or tasks[link.before].hold_point is not None
        assert bool(link.buries) == RULES[link.rule].buries


@settings(derandomize=True, max_examples=8, deadline=None)
@given(st.randoms(use_true_random=False))
def test_the_network_does_not_lean_on_order(random) -> None:
    """Panels and joints in any order give the same tasks and links."""
    house = sealed("first_house")
    panels, joints = list(house.shell.panels), list(house.register.joints)
    random.shuffle(panels)
    random.shuffle(joints)
    turned = replace(
        house,
        shell=replace(house.shell, panels=tuple(panels)),
        register=replace(house.register, joints=tuple(joints)),
    )
    assert network_of(turned) == network("first_house")


@settings(derandomize=True, max_examples=15, deadline=None)
@given(st.integers(0, 10_000))
def test_every_task_leads_from_the_bearing_to_the_end(pick: int) -> None:
    """Every task waits for the two first checks by some way, and the handover waits for it."""
    made = network("heron_house")
    task = made.tasks[pick % len(made.tasks)]
    after = reaches(made.links)
    assert task.id in {"sides", "delivery"} or task.id in after["sides"]
    assert task.id == "handover" or "handover" in after[task.id]
