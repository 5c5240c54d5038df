"""The starts left to each task once every link has been followed, forward and back.

The search could find this out itself, hole by hole; following the calendar's own steps is quicker.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from seamwright.schedule.calendar_steps import Gap, Job, Steppings
from seamwright.schedule.greedy_bundles import same_day_groups
from seamwright.solve.heads import heads

ROUNDS = 30
"""How often all links are followed at most. Our own choice."""

Span = tuple[int, int]
"""First and last index into a job's starts; the last below the first says none is left."""


def narrowed(site: Steppings, last: int, early: Mapping[str, int] | None = None) -> dict[str, Span]:
    """Return for each open task the first and last of its starts that can still be used.

    Everything ends by the step `last`; `early` are steps before which no task can start, where
    they are known.
    """
    early = heads(site) if early is None else early
    spans: dict[str, Span] = {}
    for name, job in site.jobs.items():
        first = 0 if job.done else int(np.searchsorted(job.starts, early[name]))
        final = job.starts.size if job.done else int(np.searchsorted(job.ends, last, side="right"))
        spans[name] = (first, final - 1)
    groups = same_day_groups(site)
    changed = set(spans)
    for _ in range(ROUNDS):
        before = dict(spans)
        for gap in (*reversed(site.gaps), *site.gaps):
            if gap.link.before in changed or gap.link.after in changed:
                _follow(site.jobs, spans, gap, changed)
        for group in groups:
            _in_one_day(site, spans, group)
        changed = {name for name, span in spans.items() if span != before[name]}
        if not changed or any(spans[name][0] > spans[name][1] for name in changed):
            break
    return {name: span for name, span in spans.items() if not site.jobs[name].done}


def _follow(jobs: Mapping[str, Job], spans: dict[str, Span], gap: Gap, changed: set[str]) -> None:
    """Follow one link; names of tasks that lose starts are added to `changed`."""
    one, other = gap.link.before, gap.link.after
    if min(spans[one][1] - spans[one][0], spans[other][1] - spans[other][0]) < 0:
        return
    a = jobs[one].ends if gap.from_end else jobs[one].starts
    b = jobs[other].ends if gap.to_end else jobs[other].starts
    (a0, a1), (b0, b1) = spans[one], spans[other]
    b0 = max(b0, int(b.searchsorted(a[a0] + gap.least)))
    a1 = min(a1, int(a.searchsorted(b[b1] - gap.least, side="right")) - 1)
    if gap.most is not None:
        b1 = min(b1, int(b.searchsorted(a[max(a1, 0)] + gap.most, side="right")) - 1)
        if b0 < b.size:
            a0 = max(a0, int(a.searchsorted(b[b0] - gap.most)))
    for name, span in ((one, (a0, a1)), (other, (b0, b1))):
        if not jobs[name].done and spans[name] != span:
            spans[name] = span
            changed.add(name)


def _in_one_day(site: Steppings, spans: dict[str, Span], group: tuple[str, ...]) -> None:
    names = [name for name in group if not site.jobs[name].done]
    if not names or any(spans[name][0] > spans[name][1] for name in names):
        return
    first = max(site.day(int(site.jobs[n].starts[spans[n][0]])) for n in names)
    final = min(site.day(int(site.jobs[n].starts[spans[n][1]])) for n in names)
    begin = first * site.per_day - site.first
    end = (final + 1) * site.per_day - site.first
    for name in names:
        starts = site.jobs[name].starts
        low = max(spans[name][0], int(np.searchsorted(starts, begin)))
        spans[name] = (low, min(spans[name][1], int(np.searchsorted(starts, end)) - 1))
