"""The check of a plan finds every kind of fault."""

from __future__ import annotations

import pytest
from tests.schedule.day_nets import crew, link, network, task, week

from seamwright.schedule.types import DayPlan, Fixed, Network, Slot
from seamwright.schedule.verify import verify_days

SMALL = network(
    [task("a", 1), task("b", 1, window="dry", crane=True), task("c", 1, same_day_as="b")],
    [link("a", "b", lag=1, most=3)],
)
HOURS = week(dry=tuple(range(24 * 14)))
RIGHT = {"a": (28, 32), "b": (36, 40), "c": (40, 44)}


def plan(places: dict[str, tuple[int, int]], crew_id: str = "crew") -> DayPlan:
    """Return a plan in quarter hours."""
    slots = tuple(
        Slot(task_id=n, start=a, end=b, crew_id=crew_id, float_hours=0, critical=False)
        for n, (a, b) in places.items()
    )
    end = max((s.end for s in slots), default=0)
    return DayPlan(state="feasible", slots=slots, end=end, bound=0, gap=1.0, step=900.0)


def test_a_sound_plan_breaks_nothing() -> None:
    """A plan that keeps all rules gives no sentence."""
    assert verify_days(plan(RIGHT), SMALL, [crew()], HOURS) == ()


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"b": (32, 36)}, "must wait"),
        ({"b": (48, 52)}, "at the latest"),
        ({"c": (36, 40)}, "at work elsewhere"),
        ({"c": (124, 128)}, "does not end on the day"),
        ({"c": (64, 68)}, "allowed hours"),
        ({"c": (62, 126)}, "one go"),
        ({"d": (44, 48)}, "is no task"),
    ],
)
def test_each_fault_is_told(change: dict[str, tuple[int, int]], word: str) -> None:
    """A plan with one fault is told that fault."""
    found = verify_days(plan({**RIGHT, **change}), SMALL, [crew()], HOURS)
    assert any(word in sentence for sentence in found), found


def test_missing_tasks_hands_windows_and_crane_are_told() -> None:
    """A task left out, the wrong crew, a shut window and a day without crane are told."""
    without = plan({n: RIGHT[n] for n in ("a", "b")})
    assert "c has no place" in verify_days(without, SMALL, [crew()], HOURS)[0]
    strangers = verify_days(plan(RIGHT), SMALL, [crew(skills=("other",))], HOURS)
    assert sum("does not do that" in s for s in strangers) == 3
    shut = verify_days(plan(RIGHT), SMALL, [crew()], week(dry=(7,)))
    assert any(s.startswith("b needs") for s in shut)


def test_what_was_fixed_is_checked() -> None:
    """A start, an end and a crew the user fixed are compared, and nothing open lies before now."""
    fixed = [
        Fixed(task_id="a", start_hour=8),
        Fixed(task_id="b", not_before=10, not_after=9, crew_id="others"),
    ]
    found = verify_days(plan(RIGHT), SMALL, [crew()], HOURS, fixed, now=8)
    for word in ("fixed to 8", "before hour 10", "after hour 9", "given to others", "which is now"):
        assert any(word in sentence for sentence in found), word


def test_done_tasks_are_facts() -> None:
    """A task done on a Sunday with other hands is no fault, and binds what follows."""
    done = [Fixed(task_id="a", start_hour=2, end_hour=3, done=True)]
    moved = plan({**RIGHT, "a": (8, 12)})
    found = verify_days(moved, SMALL, [crew()], HOURS, done)
    assert len(found) == 1
    assert "at the latest" in found[0]


def test_an_empty_plan_of_nothing_is_sound() -> None:
    """No tasks, no plan, no fault."""
    assert verify_days(plan({}), Network(tasks=(), links=()), [], HOURS) == ()
