"""Axes of charts: values to places on paper, with round ticks."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class Axis:
    """A straight scale from `start` to `end` (values) between `x0` and `x1` on paper. [mm]"""

    start: float
    end: float
    x0: float
    x1: float
    ticks: tuple[float, ...]

    def at(self, value: float) -> float:
        """Return the place of a value, kept on the axis. [mm]"""
        part = (value - self.start) / (self.end - self.start)
        return self.x0 + min(1.0, max(0.0, part)) * (self.x1 - self.x0)


def nice_axis(low: float, high: float, x0: float, x1: float, *, steps: int = 7) -> Axis:
    """Return an axis that reaches from `low` to `high`, with ticks at 1, 2 or 5 times a power of
    ten, about `steps` of them.
    """
    span = high - low if high > low else max(abs(high), 1.0)
    rough = span / steps
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(m * power for m in (1.0, 2.0, 5.0, 10.0) if m * power >= rough * (1 - 1e-9))
    first = math.floor(low / step + 1e-9)
    last = math.ceil((low + span) / step - 1e-9)
    ticks = tuple(round(k * step, 12) for k in range(first, last + 1))
    return Axis(start=ticks[0], end=ticks[-1], x0=x0, x1=x1, ticks=ticks)
