"""Waits between tasks, over nights and free days, on the axis of working time."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seamwright.schedule.calendar_steps import Gap, Steppings
from seamwright.solve.library import Solver

if TYPE_CHECKING:
    from seamwright.solve.model import Model

Limits = tuple[int, int, int, int]
"""Least and greatest start, least and greatest end. [steps of the wall clock]"""


def done_limits(site: Steppings) -> dict[str, Limits]:
    """Return what tasks already done ask of the starts and ends of those that follow them."""
    found: dict[str, Limits] = {}
    far = 2**40
    for gap in site.gaps:
        before, after = site.jobs[gap.link.before], site.jobs[gap.link.after]
        if not before.done or after.done:
            continue
        here = int(before.ends[0] if gap.from_end else before.starts[0])
        low, high = here + gap.least, far if gap.most is None else here + gap.most
        old = found.get(gap.link.after, (0, far, 0, far))
        if gap.to_end:
            found[gap.link.after] = (old[0], old[1], max(old[2], low), min(old[3], high))
        else:
            found[gap.link.after] = (max(old[0], low), min(old[1], high), old[2], old[3])
    return found


def add_gap(made: Model, gap: Gap) -> None:
    """Add a link between two open tasks to the model."""
    one, other = gap.link.before, gap.link.after
    here = made.ends[one] if gap.from_end else made.starts[one]
    there = made.ends[other] if gap.to_end else made.starts[other]
    name = f"wait:{one}>{other}"
    model, frames = made.model, made.frames
    if frames.is_seamless:
        model.add(there >= here + gap.least)
        if gap.most is not None:
            made.rule(model.add(there <= here + gap.most), name)
        return
    model.add(there >= here)
    if 0 < gap.least <= frames.night:
        _short_wait(made, gap, here, there)
    elif gap.least > 0:
        model.add(_real(made, other, gap.to_end) >= _real(made, one, gap.from_end) + gap.least)
    if gap.most is None or gap.most >= frames.real(made.horizon):
        return
    if gap.most < frames.night:
        made.rule(model.add(there <= here + gap.most), name)
        made.rule(model.add(_day(made, other, gap.to_end) == _day(made, one, gap.from_end)), name)
    else:
        late = _real(made, one, gap.from_end) + gap.most
        made.rule(model.add(_real(made, other, gap.to_end) <= late), name)


def same_day(made: Model, group: tuple[str, ...]) -> None:
    """Let the open tasks of a group begin and end in one day."""
    members = [name for name in group if name in made.starts]
    rule = f"day:{group[0]}"
    for name in members:
        for at_end in (False, True):
            day, first = _day(made, name, at_end), _day(made, members[0], False)
            if day is not first:
                made.rule(made.model.add(day == first), rule)


def _short_wait(made: Model, gap: Gap, here: Solver, there: Solver) -> None:
    """Let a wait shorter than a night be met by the hours of work or by the night."""
    model = made.model
    overnight = model.new_bool_var(f"overnight {gap.link.before}>{gap.link.after}")
    day = _day(made, gap.link.before, gap.from_end)
    next_morning = made.frames.length * (day + 1)
    model.add(there >= here + gap.least).only_enforce_if(~overnight)
    model.add(there >= next_morning).only_enforce_if(overnight)


def _day(made: Model, name: str, at_end: bool) -> Solver:  # noqa: FBT001 which end, in tables
    """Return the number of the working day in which a task starts or does its last step."""
    job, frames = made.site.jobs[name], made.frames
    one_go = name not in made.pieces and job.length <= frames.length and not frames.is_seamless
    in_a_day = one_go and _never_crosses(made, name)
    key = (name, at_end and job.length > 0 and not in_a_day)
    if key not in made.days:
        point = made.ends[name] - 1 if key[1] else made.starts[name]
        day = made.model.new_int_var(0, int(frames.first.size), f"day {key}")
        made.model.add(point >= frames.length * day)
        made.model.add(point <= frames.length * day + frames.length - 1)
        made.days[key] = day
    return made.days[key]


def _never_crosses(made: Model, name: str) -> bool:
    """Return whether a task begins and ends in one frame wherever it may start."""
    job, frames = made.site.jobs[name], made.frames
    if not job.length or not job.starts.size:
        return True
    return bool(
        (
            frames.of(job.starts) // frames.length
            == (frames.of_ends(job.ends) - 1) // frames.length
        ).all()
    )


def _real(made: Model, name: str, at_end: bool) -> Solver:  # noqa: FBT001 which end, in tables
    """Return the step of the wall clock at which a task starts or ends."""
    frames = made.frames
    job = made.site.jobs[name]
    ends = at_end and job.length > 0
    day = _day(made, name, ends)
    offsets = [int(at) - k * frames.length for k, at in enumerate(frames.first)]
    offsets.append(offsets[-1] + frames.night)
    offset = made.model.new_int_var(min(offsets), max(offsets), f"nights before {name} {ends}")
    made.model.add_element(day, offsets, offset)
    point = made.ends[name] if ends else made.starts[name]
    return point + offset
