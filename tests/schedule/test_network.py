"""The tasks of the sample houses, and what they wait for."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from tests.samples import corner_pair, flush_pair, gable_box
from tests.schedule.houses import ALL, BUILT_IN, network, network_of, plan_of, sealed

from seamwright.joints.register import build_register
from seamwright.joints.section import cut_sections
from seamwright.schedule.hold import bury_events
from seamwright.schedule.links_order import reaches, shortest_circle
from seamwright.schedule.network import build_network
from seamwright.schedule.rates import DEFAULT_PRODUCTIVITY, HOUR, time_for, with_rates
from seamwright.schedule.tasks_kinds import KINDS, WINDOWS, kind_of
from seamwright.schedule.types import Span3, Task
from seamwright.seals.catalog import default_catalog
from seamwright.seals.schedule import plan_seals
from seamwright.seals.types import Fill, Rates
from seamwright.shell.plan import Decision
from seamwright.shell.types import Shell
from seamwright.workflow import seal_house


def task(house: str, task_id: str) -> Task:
    """Return a task of a house by its id."""
    return next(t for t in network(house).tasks if t.id == task_id)


def waits_for(house: str, later: str, earlier: str) -> bool:
    """Return whether one task comes after another by any way."""
    return later in reaches(network(house).links)[earlier]


@pytest.mark.parametrize("name", ALL)
def test_every_panel_is_set_once(name: str) -> None:
    """Each panel has one task that sets it, and each roof panel one that covers it that day."""
    ids = Counter(t.id for t in network(name).tasks)
    for panel in sealed(name).shell.panels:
        assert ids[f"set.{panel.id}"] == 1
        if panel.role == "roof":
            cover = task(name, f"cover.{panel.id}")
            assert cover.same_day_as == task(name, f"set.{panel.id}").same_day_as
            assert cover.same_day_as is not None


@pytest.mark.parametrize("name", BUILT_IN)
def test_tasks_stay_few(name: str) -> None:
    """A built-in house has no more than nine tasks per panel, a large one no more than seven."""
    panels = len(sealed(name).shell.panels)
    assert len(network(name).tasks) <= (9 if panels < 50 else 7) * panels


@pytest.mark.parametrize("name", ALL)
def test_tasks_are_whole(name: str) -> None:
    """Durations are in order, windows are known classes, every sentence has its signer."""
    for t in network(name).tasks:
        assert 0 <= t.duration.low <= t.duration.likely <= t.duration.high
        assert t.window is None or t.window in WINDOWS
        assert (t.hold_point is None) == (t.released_by is None)
        assert kind_of(t.id) in KINDS
        assert "{" not in t.title
        assert t.source


def test_the_ridge_is_draped_between_beam_and_panels() -> None:
    """The ridge beam, then the strip over it, then every roof panel, then the wings from below."""
    for panel in ("R1.1", "R1.2", "R1.3", "R2.1", "R2.2", "R2.3"):
        assert waits_for("first_house", f"set.{panel}", "drape.main.ridge")
    assert waits_for("first_house", "drape.main.ridge", "set.main.ridge")
    assert waits_for("first_house", "press.main.ridge", "cover.R2.3")
    assert waits_for("first_house", "finish.ceiling", "press.main.ridge")


def test_walls_go_from_a_corner_outward() -> None:
    """Each wall panel but the first of a storey is set against one that stands."""
    house = sealed("heron_house")
    first = {p.id for p in house.shell.panels if p.role == "wall" and p.storey == "1"}
    order = [t.id.removeprefix("set.") for t in network("heron_house").tasks]
    walls = [p for p in order if p in first]
    pairs = [set(j.panels) for j in house.register.joints if len(j.panels) == 2]
    for number, panel in enumerate(walls[1:], start=1):
        assert any({panel, other} in pairs for other in walls[:number]), panel


def test_upper_walls_wait_for_the_deck_and_the_storey_below() -> None:
    """No upper wall before the deck, no deck before the lower walls stand."""
    assert waits_for("cypress_house", "set.2A.1", "set.deck.upper")
    assert waits_for("cypress_house", "set.deck.upper", "stand.ground")
    assert waits_for("cypress_house", "stand.ground", "set.A.1")


def test_dormers_stand_on_a_roof_that_is_set() -> None:
    """A dormer's walls come after the roof under them, its own roof after its walls."""
    assert waits_for("dormer", "set.D1.front.1", "set.R1.3")
    assert waits_for("dormer", "set.R3.2", "set.D1.front.1")
    assert waits_for("dormer", "set.R4.1", "set.D1.right.1")


def test_a_bearing_inner_wall_stands_before_what_it_carries() -> None:
    """Bearing inner walls go up with the storey, the others under the closed roof."""
    assert waits_for("heron_house", "stand.1", "set.bearing")
    assert waits_for("heron_house", "set.partition", "weathered_in")
    assert waits_for("heron_house", "set.partition", "tee.partition")


def test_the_fan_test_stands_between_sealing_and_finish() -> None:
    """Every strip, patch and service before the test; every lining after the second test."""
    after = reaches(network("heron_house").links)
    for t in network("heron_house").tasks:
        if t.work in {"tape", "patch_node", "seal_service", "lay_beads", "drape_strip"}:
            assert "fan_test" in after[t.id], t.id
        if t.id.startswith("finish."):
            assert t.id in after["retest"]


def test_beads_wait_no_longer_than_they_stay_open() -> None:
    """Between beads and the panel that closes on them there is a longest wait."""
    links = [k for k in network("first_house").links if k.rule == "panel_closes"]
    assert {k.most for k in links if k.before.startswith("beads.")} == {
        DEFAULT_PRODUCTIVITY.open_time
    }


def test_roof_and_heavy_panels_need_the_crane() -> None:
    """Roof panels and timbers go up by crane, light wall panels by hand."""
    assert task("first_house", "set.R1.1").crane
    assert task("first_house", "set.main.ridge").crane
    assert task("first_house", "set.R1.1").window == "lift"
    assert not task("first_house", "set.A.2").crane


def test_users_rates_replace_the_likely_ones() -> None:
    """Twice the rate is half the time, the spread in proportion; other times stay."""
    rates = Rates(bead=2 * DEFAULT_PRODUCTIVITY.bead.likely)
    house = sealed("first_house")
    fast = build_network(
        house.shell, house.register, house.schedule, productivity=with_rates(rates)
    )
    mine = next(t for t in fast.tasks if t.id == "gasket.A.sill")
    assert mine.duration.likely < task("first_house", "gasket.A.sill").duration.likely
    assert "rates" in mine.source
    assert with_rates(rates).bead.high == pytest.approx(2 * DEFAULT_PRODUCTIVITY.bead.high)
    assert with_rates(Rates()) is DEFAULT_PRODUCTIVITY


def test_a_slow_rate_gives_the_long_time() -> None:
    """A length over a rate: the low rate gives the high time."""
    rate = Span3(low=10 / HOUR, likely=20 / HOUR, high=40 / HOUR)
    span = time_for(20.0, rate)
    assert (span.low, span.likely, span.high) == pytest.approx((0.5 * HOUR, HOUR, 2 * HOUR))


def test_bury_events_name_seals_and_signers() -> None:
    """The first roof panel buries the draped strip, its beads and the plates, each to be signed."""
    events = {event.task_id: event for event in bury_events(network("first_house"))}
    event = events["set.R1.1"]
    assert "drape.main.ridge" in event.made_by
    assert any(seal.startswith("strip:R1.1-") for seal in event.seals)
    assert all(who for _, who in event.holds)
    assert "finish.ceiling" in events
    assert "weathered_in" not in events


def test_no_sample_house_leaves_a_seal_in_the_open() -> None:
    """Something hides every seal of every sample house, so no such finding is left."""
    found = [told for name in ALL for told in network(name).findings]
    assert [told for told in found if told.startswith("Nothing")] == []


def test_a_line_nobody_reaches_is_a_finding() -> None:
    """Where the designer signs the inner face, the rims of a platform floor cannot be sealed."""
    signed = Decision(face="inner", signed_by="D", role="designer", date="2025-01-01")
    house = seal_house(replace(plan_of("platform"), decisions=(signed,)), default_catalog())
    told = [t for t in network_of(house).findings if t.startswith("No task can seal")]
    stops = [f for f in house.schedule.findings if f.id.startswith("reach-")]
    assert len(told) == len(stops) > 0
    assert stops[0].subject in told[0]


@pytest.mark.parametrize(
    "shell",
    [
        Shell(builds=(), panels=()),
        flush_pair(),
        corner_pair(),
        gable_box(beam=False),
        replace(gable_box(), panels=tuple(p for p in gable_box().panels if p.role == "roof")),
        replace(
            gable_box(),
            panels=tuple(replace(p, storey=None) for p in gable_box().panels),
            supports=(),
        ),
    ],
    ids=["empty", "pair", "corner", "no beam", "roof alone", "no storeys"],
)
def test_odd_shells_have_an_order(shell: Shell) -> None:
    """Nothing at all, two panels, a roof in the air and panels of no storey lead to an end."""
    register = build_register(shell)
    schedule = plan_seals(
        shell,
        register,
        cut_sections(shell, register.joints),
        catalog=default_catalog(),
        decisions=(),
        overrides=(),
        climate_zone=None,
        zone_edition=None,
    )
    made = build_network(shell, register, schedule)
    assert shortest_circle(made.links) == ()
    assert {f"set.{p.id}" for p in shell.panels} <= {t.id for t in made.tasks}
    after = reaches(made.links)
    assert all("handover" in after[t.id] for t in made.tasks if t.id != "handover")


def test_a_wedge_is_filled_and_covered_the_day_its_panel_is_set() -> None:
    """Foam in the ridge comes after both panels and before cover and cap, on the same day."""
    house = sealed("first_house")
    joint = next(j for j in house.register.joints if j.id == "R1.2-R2.2")
    fill = Fill(joint_id=joint.id, area=0.01, length=joint.length, stage="same_day")
    made = build_network(house.shell, house.register, replace(house.schedule, fills=(fill,)))
    mine = next(t for t in made.tasks if t.id == "fill.R2.2")
    assert mine.same_day_as == "set.R2.2"
    after = reaches(made.links)
    assert "fill.R2.2" in after["set.R1.2"] & after["set.R2.2"]
    assert {"cover.R2.2", "cap.ridge/R1+R2"} <= after["fill.R2.2"]


def test_a_plan_without_a_roof_still_has_an_order() -> None:
    """Walls alone, or two panels alone, lead from the bearing to the end without a roof."""
    house = sealed("box")
    walls = tuple(p for p in house.shell.panels if p.role == "wall")
    kept = {p.id for p in walls}
    joints = tuple(j for j in house.register.joints if set(j.panels) <= kept)
    ids = {j.id for j in joints}
    plan = house.schedule
    network_ = build_network(
        type(house.shell)(builds=house.shell.builds, panels=walls, supports=house.shell.supports),
        type(house.register)(joints=joints, nodes=(), ledger=(), breaks=()),
        type(plan)(
            sides=(),
            strips=tuple(s for s in plan.strips if s.joint_id in ids),
            beads=tuple(b for b in plan.beads if b.joint_id in ids),
            fills=(),
            dams=(),
            gaskets=(),
            patches=(),
            findings=(),
        ),
    )
    names = {t.id for t in network_.tasks}
    assert "roof_ready" not in names
    assert "handover" in reaches(network_.links)["sides"]
