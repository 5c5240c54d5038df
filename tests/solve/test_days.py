"""The search for the best plan of days."""

from __future__ import annotations

import itertools
import sys

import pytest
from tests.schedule.day_nets import crew, link, network, task, week

from seamwright.errors import InputError
from seamwright.schedule.types import Fixed
from seamwright.schedule.verify import verify_days
from seamwright.solve.days import solve_days
from seamwright.solve.library import library
from seamwright.solve.search import Progress


def test_the_end_is_as_early_as_can_be() -> None:
    """Six hours of work for one pair and a test that waits a day for them end the next noon."""
    tasks = [task("a", 2), task("b", 2), task("c", 2), task("test", 4, skill="test")]
    made = network(tasks, [link(n, "test", lag=24) for n in "abc"])
    people = [crew(), crew(name="tester", skills=("test",))]
    plan = solve_days(made, people, week(), time_limit=60)
    assert plan.state == "optimal"
    # 13 h on Monday plus a day is 13 h on Tuesday, too late for four hours; Wednesday 7 to 11
    assert plan.end == (2 * 24 + 11) * 4
    assert verify_days(plan, made, people, week()) == ()


def test_two_crews_are_loaded_evenly() -> None:
    """With the end fixed by a long task, four short ones are shared by twin crews."""
    tasks = [task("long", 8, skill="other"), *(task(f"s{k}", 1) for k in range(4))]
    people = [crew(name="one"), crew(name="two"), crew(name="others", skills=("other",))]
    plan = solve_days(network(tasks), people, week(), time_limit=3)
    loads = [sum(s.crew_id == name for s in plan.slots) for name in ("one", "two")]
    assert loads == [2, 2]


def test_work_in_one_place_stays_together() -> None:
    """Tasks of two places for one crew are not mixed when the end allows to keep them apart."""
    tasks = [task(f"{zone}{k}", 1, zone=zone) for k in range(3) for zone in ("A", "B")]
    plan = solve_days(network(tasks), [crew()], week(), time_limit=3)
    order = [slot.task_id[0] for slot in plan.slots]
    assert sum(a != b for a, b in itertools.pairwise(order)) == 1
    assert any("change place 1 times" in note for note in plan.notes)


def test_fixed_starts_are_kept() -> None:
    """A start the user fixed holds although it costs time."""
    made = network([task("a", 1), task("b", 1)], [link("a", "b")])
    fixed = [Fixed(task_id="a", start_hour=24 + 9)]
    plan = solve_days(made, [crew()], week(), fixed, time_limit=2)
    starts = {slot.task_id: slot.start for slot in plan.slots}
    assert starts == {"a": 33 * 4, "b": 34 * 4}
    assert verify_days(plan, made, [crew()], week(), fixed) == ()


def test_an_asked_stop_keeps_the_answer() -> None:
    """Somebody who wants no search gets the plan made at once."""
    made = network([task(f"t{k}", 1) for k in range(30)])
    plan = solve_days(made, [crew()], week(), time_limit=30, stop=lambda: True)
    assert verify_days(plan, made, [crew()], week()) == ()


def test_news_come_from_the_first_answer_on() -> None:
    """The listener hears of the first answer before the search begins."""
    heard: list[Progress] = []
    made = network([task("a", 1), task("b", 2)])
    solve_days(made, [crew()], week(), time_limit=2, on_progress=heard.append)
    assert heard[0].phase == "first answer"
    assert heard[0].end == 10 * 4


def test_a_crew_that_is_missing_is_named() -> None:
    """Work nobody does, and work for more people than a crew has, is said in a sentence."""
    made = network([task("weld", 1, skill="welding")])
    plan = solve_days(made, [crew()], week(), time_limit=2)
    assert plan.state == "contradiction"
    assert "welding, and there is none" in plan.conflict[0]
    heavy = network([task("lift", 1, crew_size=3)])
    told = solve_days(heavy, [crew(2)], week(), time_limit=2).conflict[0]
    assert "needs 3 people" in told
    assert "has 2" in told


def test_hours_that_never_come_are_named() -> None:
    """A task of three hours in windows of two is said to find no hours."""
    hours = week(2, dry=(7, 8, 12, 13))
    plan = solve_days(network([task("a", 3, window="dry")]), [crew()], hours, time_limit=2)
    assert plan.state == "contradiction"
    assert "3 h in one go of the class dry" in plan.conflict[0]


def test_a_date_too_early_is_told_as_a_chain() -> None:
    """A task asked for before its forerunner can be done gives the chain and the date."""
    made = network([task("a", 4), task("b", 1)], [link("a", "b")])
    fixed = [Fixed(task_id="b", not_after=9, reason="the inspector comes")]
    plan = solve_days(made, [crew()], week(), fixed, time_limit=2)
    assert plan.state == "contradiction"
    assert "the inspector comes" in plan.conflict[-1]


def test_too_few_hands_for_a_day_are_found() -> None:
    """Panel and cover of six hours each on one day, for one crew, contradict in few rules."""
    tasks = [task("set", 4, same_day_as="set"), task("top", 4, same_day_as="set"),
             task("cover", 4, same_day_as="set"), task("free", 1)]  # fmt: skip
    plan = solve_days(network(tasks), [crew()], week(), time_limit=3)
    assert plan.state == "contradiction"
    assert any("end on the day it begins" in sentence for sentence in plan.conflict)
    assert any("Crew crew has 1 people" in sentence for sentence in plan.conflict)
    assert not any("crane" in sentence for sentence in plan.conflict)


def test_without_the_solver_a_sentence_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the optional package is missing, the error says how to get it."""
    monkeypatch.setitem(sys.modules, "ortools.sat.python", None)
    with pytest.raises(InputError, match=r'pip install "seamwright\[days\]"'):
        library()


def test_nothing_to_do_is_a_plan() -> None:
    """No tasks make an empty plan."""
    plan = solve_days(network([]), [crew()], week(), time_limit=1)
    assert plan.slots == ()
