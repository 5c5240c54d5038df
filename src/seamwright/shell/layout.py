"""Where the seams of a plane go: pure arithmetic on one axis, no shapes.

Seams are placed from the starting end at the largest module the panel type allows. A seam that
would fall inside a blocked stretch (an opening with its rim, a corner whose two faces differ) moves
back to the near side of it. A last panel narrower than the least width shares its width with the
panel before it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

Stretch: TypeAlias = tuple[float, float]
SNUG = 1e-6
"""Two positions nearer than this are the same. [m]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Module:
    """Largest and least width of one panel, from seam middle to seam middle. [m]"""

    most: float
    least: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Seams:
    """Seam positions between two ends, in order, and the blocked stretches no seam could avoid."""

    at: tuple[float, ...]
    hit: tuple[Stretch, ...] = ()


def seams(
    low: float,
    high: float,
    module: Module,
    *,
    blocked: Sequence[Stretch] = (),
    forced: Sequence[float] = (),
    from_end: bool = False,
) -> Seams:
    """Return seam positions that divide low..high into panels no wider than `module.most`.

    Parameters
    ----------
    low, high : float
        The two ends. [m]
    module : Module
        Largest and least panel width. [m]
    blocked : sequence of (float, float)
        Open stretches in which no seam may fall. [m]
    forced : sequence of float
        Positions that must carry a seam, whatever is blocked. [m]
    from_end : bool
        Lay out from the high end instead of the low end.

    Returns
    -------
    Seams
        `at` increasing, strictly between the ends. `hit` are the blocked stretches that a seam had
        to cross because they leave no room.

    Examples
    --------
    >>> seams(0.0, 6.0, Module(most=2.5, least=0.3)).at
    (2.5, 5.0)
    """
    if from_end:
        mirrored = seams(
            -high,
            -low,
            module,
            blocked=[(-b, -a) for a, b in blocked],
            forced=[-x for x in forced],
        )
        return Seams(
            at=tuple(-x for x in reversed(mirrored.at)),
            hit=tuple((-b, -a) for a, b in mirrored.hit),
        )
    stops = [low, *sorted(x for x in set(forced) if low + SNUG < x < high - SNUG), high]
    at: list[float] = []
    hit: list[Stretch] = []
    joined = merged(blocked)
    for start, end in pairwise(stops):
        found = _between(start, end, module, joined)
        at.extend(found.at)
        hit.extend(found.hit)
        if end != high:
            at.append(end)
    return Seams(at=tuple(at), hit=tuple(hit))


def merged(stretches: Sequence[Stretch]) -> tuple[Stretch, ...]:
    """Return the stretches in order, overlapping ones joined."""
    joined: list[Stretch] = []
    for a, b in sorted(stretches):
        if joined and a < joined[-1][1] - SNUG:
            joined[-1] = (joined[-1][0], max(joined[-1][1], b))
        else:
            joined.append((a, b))
    return tuple(joined)


def _between(start: float, end: float, module: Module, blocked: Sequence[Stretch]) -> Seams:
    at: list[float] = []
    hit: list[Stretch] = []
    here = start
    while end - here > module.most + SNUG:
        nominal = here + module.most
        block = _inside(nominal, blocked)
        if block is not None and block[0] - here >= module.least - SNUG:
            nominal = block[0]
        elif block is not None:
            hit.append(block)
        at.append(nominal)
        here = nominal
    if at and end - here < module.least - SNUG:
        before = at[-2] if len(at) > 1 else start
        at[-1] = _shared(before, end, at[-1], module, blocked)
    return Seams(at=tuple(at), hit=tuple(hit))


def _shared(
    before: float, end: float, now: float, module: Module, blocked: Sequence[Stretch]
) -> float:
    """Return a seam that divides before..end without a sliver, as near the middle as allowed."""
    middle = (before + end) / 2.0
    block = _inside(middle, blocked)
    if block is None:
        return middle
    low = max(before + module.least, end - module.most)
    high = min(end - module.least, before + module.most)
    allowed = [x for x in block if low - SNUG <= x <= high + SNUG and _inside(x, blocked) is None]
    return min(allowed, key=lambda x: abs(x - middle)) if allowed else now


def _inside(x: float, blocked: Sequence[Stretch]) -> Stretch | None:
    for a, b in blocked:
        if a + SNUG < x < b - SNUG:
            return (a, b)
    return None
