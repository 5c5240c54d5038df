"""How long work takes, learned from what it took."""

from __future__ import annotations

from dataclasses import replace
from math import exp, log

import pytest
from tests.schedule.day_nets import network, task

from seamwright.schedule.learn import (
    Took,
    crew_told,
    learned_crews,
    learned_from,
    learned_told,
    with_crew_pace,
    with_learned,
)
from seamwright.schedule.types import Crew, Network, Span3

WIDE = Span3(low=1800.0, likely=3600.0, high=7200.0)


def beads(count: int = 4) -> Network:
    """Return tasks of one kind with a wide range, and one of another kind."""
    made = [replace(task(f"b{k}", 1, work="lay_beads"), duration=WIDE) for k in range(count)]
    return network([*made, task("other", 2)])


def took(count: int, factor: float, people: int = 1) -> list[Took]:
    """Return records of so many tasks that took `factor` times as long as planned."""
    return [
        Took(task_id=f"b{k % 4}", seconds=3600.0 * factor, people=people, day=f"2027-04-{k + 5:02}")
        for k in range(count)
    ]


def test_no_record_teaches_nothing() -> None:
    """Without records the network stays as it is."""
    net = beads()
    assert with_learned(net, learned_from(net, [])) == net


def test_one_record_moves_little_and_many_move_to_their_mean() -> None:
    """The factor goes from the plan to the records as these grow, and its range narrows."""
    found = [learned_from(beads(), took(n, 2.0))[0] for n in (1, 4, 20)]
    assert 1.0 < found[0].factor < found[1].factor < found[2].factor < 2.0
    assert found[2].factor == pytest.approx(2.0, rel=0.05)
    widths = [row.high / row.low for row in found]
    assert widths == sorted(widths, reverse=True)


def test_the_middle_is_that_of_normal_logarithms() -> None:
    """With one record the logarithm is shared between plan and record by their precisions."""
    prior = log(4.0) / (2 * 1.645)
    weight = (1 / 0.4**2) / (1 / 0.4**2 + 1 / prior**2)
    (row,) = learned_from(beads(), took(1, 2.0))
    assert row.factor == pytest.approx(exp(weight * log(2.0)))


def test_people_count() -> None:
    """Two people in half the time worked as long as was planned for one."""
    (row,) = learned_from(beads(), [Took(task_id="b0", seconds=1800.0, people=2)])
    assert row.factor == pytest.approx(1.0)


def test_only_the_kind_recorded_learns_and_its_range_narrows() -> None:
    """Beads take longer with a narrower range that still leans as before; other work stays."""
    net = beads()
    after = {t.id: t for t in with_learned(net, learned_from(net, took(8, 1.5))).tasks}
    span = after["b0"].duration
    assert span.likely == pytest.approx(3600.0 * learned_from(net, took(8, 1.5))[0].factor)
    assert span.high / span.low < WIDE.high / WIDE.low
    assert span.low < span.likely < span.high
    assert after["other"] == net.tasks[-1]
    assert "8 tasks of the records" in after["b0"].source


def test_history_is_told() -> None:
    """The sentence names how many, from when to when, the factor and its range."""
    told = learned_told(learned_from(beads(), took(3, 1.5))[0])
    assert "3 records of lay beads, 2027-04-05 to 2027-04-07" in told
    assert "times as long as planned (90 % range" in told


def test_strangers_teach_nothing() -> None:
    """A record of a task that the house does not have is left aside."""
    assert learned_from(beads(), [Took(task_id="x", seconds=9.0, people=1)]) == ()


def crew_took(count: int, factor: float, crew: str) -> list[Took]:
    """Return records of beads by a crew, and as many of other work at the same pace."""
    return [replace(row, crew=crew) for row in took(count, factor)]


def test_a_slow_crew_is_told_from_a_slow_kind() -> None:
    """Of two crews at the same work the kind takes the mean and each crew its departure."""
    rows = [*crew_took(20, 1.5, "slow"), *crew_took(20, 1.0, "quick")]
    (kind,) = learned_from(beads(), rows)
    slow, quick = learned_crews(beads(), rows)
    assert 1.0 < kind.factor < 1.5
    assert quick.factor < 1.0 < slow.factor
    assert kind.factor * slow.factor == pytest.approx(1.5, rel=0.05)
    assert kind.factor * quick.factor == pytest.approx(1.0, rel=0.05)


def test_few_records_move_a_crew_little() -> None:
    """The factor of a crew grows from one with its records, and its range narrows."""
    usual = took(20, 1.0)
    found = [learned_crews(beads(), [*usual, *crew_took(n, 1.5, "new")])[0] for n in (1, 4, 20)]
    assert 1.0 < found[0].factor < found[1].factor < found[2].factor < 1.5
    widths = [row.high / row.low for row in found]
    assert widths == sorted(widths, reverse=True)


def test_without_names_nothing_is_learned_of_crews() -> None:
    """Records without a crew teach of kinds as before and of no crew."""
    assert learned_crews(beads(), took(4, 2.0)) == ()
    assert crew_told(learned_crews(beads(), crew_took(4, 2.0, "north"))[0]).startswith(
        "Learned of crew north from 4 records: its work takes 1."
    )


def test_work_takes_the_pace_of_those_who_can_do_it() -> None:
    """One crew gives its own pace, two their mean by people, a stranger none."""
    crews = [Crew(id="a", skills=("work",), size=1), Crew(id="b", skills=("work",), size=3)]
    paces = learned_crews(beads(), crew_took(20, 1.5, "a"))
    factor = paces[0].factor
    alone = with_crew_pace(beads(), crews[:1], paces).tasks[0].duration
    both = with_crew_pace(beads(), crews, paces).tasks[0].duration
    assert alone.likely == pytest.approx(3600.0 * factor)
    assert both.likely == pytest.approx(3600.0 * (factor + 3.0) / 4.0)
    assert with_crew_pace(beads(), crews[1:], paces) == beads()
