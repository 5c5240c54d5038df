"""Cutting patterns by column generation: the bound they prove, and whole rolls from them.

Source: P. C. Gilmore, R. E. Gomory, Operations Research 9 (1961) 849-859; the bound from prices
that are not yet optimal, A. A. Farley, Operations Research 38 (1990) 922-923 (from memory).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from seamwright.takeoff._grid import Demand, Grid, Pattern
from seamwright.takeoff._master import Master
from seamwright.takeoff._packing import best_fit_decreasing, fullest_rolls

_NEAR = 1e-9


def generate(master: Master, counts: Sequence[int], grid: Grid, rounds: int) -> float:
    """Add patterns until none can lower the number of rolls, and return the bound this proves.

    At most `rounds` patterns are added; the bound holds even when that cuts the search short. [-]
    """
    prices = master.solve()[1]
    for _ in range(rounds):
        value, pattern = best_pattern(prices, counts, grid.above, grid.capacity)
        if value <= 1 + _NEAR or master.add([pattern]) == 0:
            break
        prices = master.solve()[1]
    value = best_pattern(prices, counts, grid.below, grid.capacity)[0]
    return float(prices @ np.asarray(counts)) / max(1.0, value)


def best_pattern(
    prices: NDArray[np.float64], counts: Sequence[int], size: Sequence[int], capacity: int
) -> tuple[float, Pattern]:
    """Return the dearest pattern that fits, and its value: a bounded knapsack, solved exactly.

    Each length is offered in lots of 1, 2, 4 ... up to its count, so that any number of it is a
    choice of lots; the table over all cells of the roll is then filled lot by lot.
    """
    best = np.zeros(capacity + 1)
    lots: list[tuple[int, int, NDArray[np.bool_]]] = []
    for i in range(len(size)):
        if prices[i] <= _NEAR:
            continue
        for lot in _lots(min(counts[i], capacity // size[i])):
            room = lot * size[i]
            offer = best[: capacity + 1 - room] + lot * prices[i]
            better = offer > best[room:] + 1e-12
            np.copyto(best[room:], offer, where=better)
            lots.append((i, lot, better))
    cell, pattern = capacity, []
    for i, lot, better in reversed(lots):
        room = lot * size[i]
        if cell >= room and better[cell - room]:
            pattern += [i] * lot
            cell -= room
    return float(best[capacity]), tuple(sorted(pattern))


def dive(master: Master, demand: Demand, grid: Grid, goal: int, rounds: int) -> list[Pattern]:
    """Return whole rolls found by fixing patterns of the linear program one after another.

    After each fixing the rest is priced anew, and packed outright to see whether that already
    meets the `goal`. Returns the best rolls seen.
    """
    fixed: list[Pattern] = []
    best: list[Pattern] = []
    left = list(demand.counts)
    while sum(left) > 0:
        rest = _pack_rest(demand, left, grid)
        if not best or len(fixed) + len(rest) < len(best):
            best = fixed + rest
        if len(best) <= goal:
            break
        master.demand(left)
        generate(master, left, grid, rounds)
        for pattern in _most_certain(master, left):
            fixed.append(pattern)
            for i in pattern:
                left[i] -= 1
    if sum(left) == 0 and len(fixed) < len(best):
        best = fixed
    master.demand(demand.counts)
    return best


def trimmed(rolls: list[Pattern], demand: Demand) -> list[Pattern]:
    """Return the rolls without the pieces cut beyond the demand, and without empty rolls."""
    left = list(demand.counts)
    kept: list[Pattern] = []
    for roll in rolls:
        wanted = []
        for i in roll:
            if left[i] > 0:
                left[i] -= 1
                wanted.append(i)
        if wanted:
            kept.append(tuple(wanted))
    return kept


def _lots(n: int) -> list[int]:
    """Return 1, 2, 4 ... and a remainder that together make any number up to n."""
    lots, lot = [], 1
    while n > 0:
        lots.append(min(lot, n))
        n -= lot
        lot *= 2
    return lots


def _pack_rest(demand: Demand, left: Sequence[int], grid: Grid) -> list[Pattern]:
    """Return rolls for the pieces still to be cut, the better of two quick ways."""
    rest = Demand(lengths=demand.lengths, counts=tuple(left), roll=demand.roll)
    return min(fullest_rolls(rest, grid), best_fit_decreasing(rest), key=len)


def _most_certain(master: Master, left: Sequence[int]) -> list[Pattern]:
    """Return the whole parts of the linear solution, or the pattern that is nearest to whole."""
    times = master.solve()[0]
    room = Counter({i: n for i, n in enumerate(left) if n > 0})
    chosen: list[Pattern] = []
    for k in np.flatnonzero(times >= 1 - 1e-6):
        for _ in range(int(times[k] + 1e-6)):
            _take(master.patterns[k], room, chosen)
    if not chosen:
        _take(master.patterns[int(np.argmax(times))], room, chosen)
    return chosen


def _take(pattern: Pattern, room: Counter[int], chosen: list[Pattern]) -> None:
    """Cut a pattern once as far as its pieces are still wanted."""
    wanted = []
    for i in pattern:
        if room[i] > 0:
            room[i] -= 1
            wanted.append(i)
    if wanted:
        chosen.append(tuple(wanted))
