"""Laws of the plan of days on random networks: every plan keeps every rule, whoever made it."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.schedule.day_nets import crew, link, network, task, week

from seamwright.schedule.calendar_steps import in_steps
from seamwright.schedule.float_time import floats, latest_starts
from seamwright.schedule.greedy import Place, plan_greedily
from seamwright.schedule.replan import SiteState, fixed_from
from seamwright.schedule.types import Calendar, Crew, DayPlan, Fixed, Network
from seamwright.schedule.verify import verify_days
from seamwright.solve.days import as_plan, solve_days
from seamwright.solve.heads import heads
from seamwright.solve.holes import without_holes
from seamwright.solve.overload import least_end
from seamwright.solve.ranks import fewer_moves
from seamwright.solve.soft import moves

LAW = settings(derandomize=True, max_examples=30, deadline=None)
SEARCH = settings(derandomize=True, max_examples=12, deadline=None)


@st.composite
def sites(draw: st.DrawFn) -> tuple[Network, list[Crew], Calendar]:
    """Return a random network with windows, crane, waits and days, and people and hours for it."""
    count = draw(st.integers(2, 12))
    tasks, links = [], []
    for k in range(count):
        more: dict[str, Any] = {
            "skill": draw(st.sampled_from(("work", "set"))),
            "crew_size": draw(st.integers(1, 2)),
            "window": draw(st.sampled_from((None, None, "dry"))),
            "crane": draw(st.sampled_from((False, False, True))),
        }
        hours = draw(st.sampled_from((0.0, 0.25, 0.4, 1.0, 2.5, 4.0, 6.0, 13.0)))
        tasks.append(task(f"t{k}", hours, **more))
        others = draw(st.lists(st.integers(0, k - 1), max_size=2, unique=True)) if k else []
        links += [
            link(f"t{other}", f"t{k}", lag=draw(st.sampled_from((0.0, 0.0, 1.0, 24.0))),
                 kind=draw(st.sampled_from(("finish_start", "finish_start", "start_start"))))
            for other in others
        ]  # fmt: skip
    pair = draw(st.booleans())
    if pair:
        tasks += [task("bead", 0.5), task("panel", 1.0, skill="set", same_day_as="panel"),
                  task("cover", 0.5, same_day_as="panel")]  # fmt: skip
        links += [link("t0", "bead"), link("bead", "panel", most=1), link("panel", "cover")]
    dry = draw(
        st.sets(st.sampled_from([h for h in range(24 * 28) if 7 <= h % 24 < 16]), max_size=9)
    )
    open_hours = tuple(h for h in range(24 * 28) if h not in dry)
    people = [crew(2), crew(2, "setters", ("set",))]
    people += [crew(2, "helpers", ("work", "set"))] if draw(st.booleans()) else []
    return network(tasks, links), people, week(28, dry=open_hours)


@LAW
@given(sites())
def test_a_plan_at_once_keeps_every_rule(made: tuple[Network, list[Crew], Calendar]) -> None:
    """What lists of ranks place breaks nothing, and no task starts before its bound."""
    net, people, hours = made
    site = in_steps(net, people, hours)
    found = plan_greedily(site)
    if found.stuck:
        return
    plan = as_plan(site, found.places, 0)
    assert verify_days(plan, net, people, hours) == ()
    early = heads(site)
    assert all(place.start >= early[name] for name, place in found.places.items())


@SEARCH
@given(sites())
def test_what_is_proven_never_passes_a_plan(
    made: tuple[Network, list[Crew], Calendar],
) -> None:
    """Plans use no start that was taken out, end at no less than every bound, and tidying them
    keeps end and rules.
    """
    net, people, hours = made
    site = in_steps(net, people, hours)
    plan = solve_days(net, people, hours, time_limit=1.0, tidy=False)
    if not plan.slots:
        return
    cut = without_holes(site, plan.end)
    assert all(s.start in cut.jobs[s.task_id].starts for s in plan.slots)
    assert least_end(cut, 0, plan.end, lambda: True) <= plan.end
    places = {s.task_id: Place(start=s.start, end=s.end, crew=s.crew_id) for s in plan.slots}
    tries = iter(range(40))
    tidy = fewer_moves(site, places, wait=lambda: next(tries, None) is not None)
    assert max(p.end for p in tidy.values()) <= plan.end
    assert moves(site, tidy) <= moves(site, places)
    assert verify_days(as_plan(site, tidy, 0), net, people, hours) == ()


@SEARCH
@given(sites())
def test_a_searched_plan_keeps_every_rule_and_ends_no_later(
    made: tuple[Network, list[Crew], Calendar],
) -> None:
    """The search breaks nothing, ends no later than the plan at once, nor before its bound."""
    net, people, hours = made
    site = in_steps(net, people, hours)
    at_once = plan_greedily(site)
    plan = solve_days(net, people, hours, time_limit=1.5)
    if plan.slots:
        assert verify_days(plan, net, people, hours) == ()
        assert plan.bound <= plan.end
        assert at_once.stuck or plan.end <= at_once.end
    else:
        assert at_once.stuck


@LAW
@given(sites(), st.integers(0, 11))
def test_float_can_be_used(made: tuple[Network, list[Crew], Calendar], which: int) -> None:
    """A task moved to its latest start, with all that follows, leaves the end where it is."""
    net, people, hours = made
    site = in_steps(net, people, hours)
    found = plan_greedily(site)
    if found.stuck:
        return
    late = latest_starts(site, found.places)
    assert all(late[name] >= place.start for name, place in found.places.items())
    slack = floats(site, found.places)
    last = max(found.places, key=lambda n: (found.places[n].end, found.places[n].start))
    assert slack[last] == 0
    name = list(net.tasks)[which % len(net.tasks)].id
    for gap in site.gaps:
        if gap.link.before == name and gap.from_end and not gap.to_end:
            job = site.jobs[name]
            moved = late[name] - found.places[name].start
            end = found.places[name].end if not moved else int(
                job.ends[list(job.starts).index(late[name])]
            )  # fmt: skip
            assert end + gap.least <= late[gap.link.after]


@SEARCH
@given(sites(), st.floats(0.1, 0.9))
def test_planning_again_moves_nothing_that_is_done(
    made: tuple[Network, list[Crew], Calendar], share: float
) -> None:
    """A plan made again on the way keeps what was done or under way, and keeps every rule."""
    net, people, hours = made
    plan = solve_days(net, people, hours, time_limit=1.0, tidy=False)
    if not plan.slots:
        return
    now = int(share * plan.end * plan.step / 3600.0)
    fixed = fixed_from(plan, SiteState(now=now))
    again = solve_days(net, people, hours, fixed, time_limit=1.0, now=now, tidy=False)
    assert again.slots
    assert verify_days(again, net, people, hours, fixed, now=now) == ()
    _kept(plan, again, fixed)


def _kept(old: DayPlan, new: DayPlan, fixed: tuple[Fixed, ...]) -> None:
    before = {slot.task_id: (slot.start, slot.end) for slot in old.slots}
    after = {slot.task_id: (slot.start, slot.end) for slot in new.slots}
    done = [row.task_id for row in fixed if row.done]
    assert [after[name] for name in done] == [before[name] for name in done]
