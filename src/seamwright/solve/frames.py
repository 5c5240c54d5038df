"""Working time as one axis: every working day is a frame of equal length, nights are left out.

On this axis a task has the same length wherever it lies, and crews are never idle for being asleep,
which is what lets the search prove how good a plan is.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seamwright.schedule.calendar_steps import Steppings

Steps = NDArray[np.int64]


@dataclass(frozen=True, kw_only=True, slots=True)
class Frames:
    """`first` is the step of the wall clock at which each working day begins, `length` how many
    steps a frame has; `night` is the shortest time between the end of a frame and the next one.
    """

    first: Steps
    length: int
    night: int

    @property
    def is_seamless(self) -> bool:
        """Whether there are no nights, so that the axis is the wall clock from its first day."""
        return bool(np.all(np.diff(self.first) == self.length))

    @property
    def size(self) -> int:
        """Return the length of the axis."""
        return int(self.first.size) * self.length

    def of(self, steps: Steps) -> Steps:
        """Return where steps of the wall clock lie; a step at night is the next morning's first."""
        day = np.searchsorted(self.first, steps, side="right") - 1
        inside = np.where(day >= 0, steps - self.first[np.maximum(day, 0)], 0)
        return np.where(day >= 0, day, 0) * self.length + np.minimum(inside, self.length)

    def of_ends(self, ends: Steps) -> Steps:
        """Return where ends lie: the end of work in the evening is not the next morning."""
        return self.of(ends - 1) + 1

    def real(self, at: int) -> int:
        """Return the step of the wall clock of a place on the axis."""
        day = min(at // self.length, int(self.first.size) - 1)
        return int(self.first[day]) + at - day * self.length

    def real_end(self, at: int) -> int:
        """Return the step of the wall clock of an end on the axis."""
        return self.real(at - 1) + 1 if at > 0 else self.real(0)


def frames_of(site: Steppings) -> Frames:
    """Return the frames of the working days of a site."""
    steps = np.flatnonzero(site.working).astype(np.int64)
    if not steps.size:
        return Frames(first=np.array([0]), length=1, night=0)
    days = (steps + site.first) // site.per_day
    cuts = np.flatnonzero(np.diff(days)) + 1
    parts = np.split(steps, cuts)
    length = max(int(part[-1] - part[0]) + 1 for part in parts)
    first = np.array([int(part[0]) for part in parts], dtype=np.int64)
    gaps = np.diff(first) - length
    return Frames(first=first, length=length, night=int(gaps.min()) if gaps.size else site.per_day)
