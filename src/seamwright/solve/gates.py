"""Gates: tasks that nearly all others come before or after, such as the closed shell.

What comes after a gate cannot start before it, so the work of a site falls into stages, each of
which can be looked at on its own.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from seamwright.schedule.calendar_steps import Steppings

NEARLY_ALL = 0.9
"""Part of the other tasks that must come before or after a gate. Our own choice."""
APART = 0.08
"""Part of all tasks by which gates lie apart at least. Our own choice."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Stage:
    """The forerunners of a gate, those of the gate before it among them."""

    gate: str
    before: frozenset[str]
    earlier: frozenset[str]


def gates(site: Steppings) -> tuple[str, ...]:
    """Return tasks that nearly all others come before or after, in order."""
    return tuple(stage.gate for stage in stages_of(site))


def stages_of(site: Steppings) -> list[Stage]:
    """Return the stages of a site, each with a gate at its end, in order."""
    names = list(site.order)
    before = _forerunners(site, names)
    count = max(1, len(names) - 1)
    ancestors, total = before.sum(axis=1), (before.sum(axis=1) + before.sum(axis=0)) / count
    last = int(np.argmax(ancestors))
    chosen: list[int] = []
    for k in sorted(range(len(names)), key=lambda k: (-total[k], k)):
        if total[k] < NEARLY_ALL:
            break
        spaced = all(abs(ancestors[k] - ancestors[c]) >= APART * count for c in chosen)
        if spaced and ancestors[k] >= APART * count and k != last:
            chosen.append(k)
    if len(names) > 1 and total[last] >= NEARLY_ALL:
        chosen.append(last)
    stages: list[Stage] = []
    earlier: frozenset[str] = frozenset()
    for k in sorted(chosen, key=lambda k: ancestors[k]):
        if site.jobs[names[k]].done:
            continue
        own = frozenset(names[j] for j in np.flatnonzero(before[k])) | {names[k]}
        stages.append(Stage(gate=names[k], before=own, earlier=earlier & own))
        earlier |= own
    return stages


def _forerunners(site: Steppings, names: list[str]) -> np.ndarray:
    index = {name: k for k, name in enumerate(names)}
    before = np.zeros((len(names), len(names)), dtype=np.bool_)
    links: list[list[int]] = [[] for _ in names]
    for gap in site.gaps:
        if gap.from_end and not gap.to_end:
            links[index[gap.link.after]].append(index[gap.link.before])
    for k in range(len(names)):
        for other in links[k]:
            before[k] |= before[other]
            before[k, other] = True
    return before
