"""The largest leak that keeps a joint within limits, from margins at a few levels of leakage."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from seamwright.errors import InputError, Problem
from seamwright.moisture.verdict.types import LeakCase, LeakLimit


def largest_leak(
    levels: Sequence[float], margins: Sequence[float], unit: str = "L/(s·m) at 50 Pa"
) -> LeakLimit:
    """Return the largest leakage whose margin, and that of every lower level, is above zero.

    Between two levels the margin is taken to be straight over the logarithm of the leakage (over
    the leakage itself down to a level of zero). `levels` rise; `unit` is for the sentence.

    Raises
    ------
    InputError
        When there are not two levels or more, one margin each, rising from zero or above.

    >>> limit = largest_leak([0.01, 0.1, 1.0], [0.5, 0.1, -0.1])
    >>> limit.case, round(limit.level, 3)
    ('crosses', 0.316)
    """
    _check(levels, margins)
    ranges = _within(levels, margins)
    case = _case(margins, ranges)
    level = ranges[0][1] if margins[0] > 0.0 else None
    return LeakLimit(
        case=case, level=level, ranges=ranges, advice=_advice(case, levels, level, ranges, unit),
        lowest=levels[0],
    )  # fmt: skip


def _within(levels: Sequence[float], margins: Sequence[float]) -> tuple[tuple[float, float], ...]:
    """Return the stretches of levels whose margin is above zero."""
    found: list[tuple[float, float]] = []
    begin = levels[0] if margins[0] > 0.0 else None
    for (low, before), (high, after) in pairwise(zip(levels, margins, strict=True)):
        if before > 0.0 >= after and begin is not None:
            found.append((begin, _crossing(low, before, high, after)))
            begin = None
        elif before <= 0.0 < after:
            begin = _crossing(low, before, high, after)
    if begin is not None:
        found.append((begin, levels[-1]))
    return tuple(found)


def _crossing(low: float, before: float, high: float, after: float) -> float:
    share = before / (before - after)
    if low <= 0.0:
        return low + share * (high - low)
    return low * math.exp(share * math.log(high / low))


def _case(margins: Sequence[float], ranges: tuple[tuple[float, float], ...]) -> LeakCase:
    if not ranges:
        return "none within"
    if min(margins) > 0.0:
        return "all within"
    return "crosses" if len(ranges) == 1 and margins[0] > 0.0 else "not monotone"


def _advice(
    case: LeakCase,
    levels: Sequence[float],
    level: float | None,
    ranges: tuple[tuple[float, float], ...],
    unit: str,
) -> str:
    if case == "all within":
        return (f"Every leakage tried, up to {levels[-1]:.3g} {unit}, stays within limits; the "
                "true limit lies above.")  # fmt: skip
    if case == "none within":
        return (f"Even {levels[0]:.3g} {unit} does not stay within limits: a tighter seal alone "
                "does not keep this joint dry; look at humidity, vapor and drying.")  # fmt: skip
    if case == "crosses":
        return f"Up to {level:.3g} {unit} stays within limits."
    told = ", ".join(f"{low:.3g} to {high:.3g}" for low, high in ranges)
    start = (
        f"Only the lowest stretch counts, up to {level:.3g} {unit}"
        if level is not None
        else "None counts as a limit, for the tightest level tried does not stay within"
    )
    return (f"More leakage is not always worse here: {told} {unit} stay within limits. {start}; "
            "do not leave a joint leaky to dry it.")  # fmt: skip


def _check(levels: Sequence[float], margins: Sequence[float]) -> None:
    rising = all(low < high for low, high in pairwise(levels))
    if len(levels) == len(margins) >= 2 and rising and levels[0] >= 0.0 and not any(
        math.isnan(value) for value in (*levels, *margins)
    ):  # fmt: skip
        return
    told = f"{len(levels)} levels of leakage and {len(margins)} margins do not make a curve"
    remedy = "give two or more rising levels, zero or above, and one margin for each"
    raise InputError([Problem(subject="leakage", sentence=told, remedy=remedy)])
