"""Quick ways to fill rolls: each piece where it fits best, and each roll as full as it goes.

Sources: first fit and best fit decreasing, D. S. Johnson et al., SIAM Journal on Computing 3
(1974) 299-325; filling one roll at a time by subset sums, J. N. D. Gupta, J. C. Ho, Production
Planning & Control 10 (1999) 598-603 (both from memory).
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right, insort
from collections.abc import Sequence

from seamwright.takeoff._grid import SAME, Demand, Grid, Pattern


def first_fit_decreasing(demand: Demand) -> list[Pattern]:
    """Return rolls filled longest piece first, each into the first roll that has room."""
    left: list[float] = []
    rolls: list[list[int]] = []
    for i in expand(demand):
        length = demand.lengths[i]
        for r, room in enumerate(left):
            if length <= room + SAME:
                left[r] = room - length
                rolls[r].append(i)
                break
        else:
            left.append(demand.roll - length)
            rolls.append([i])
    return [tuple(roll) for roll in rolls]


def best_fit_decreasing(demand: Demand) -> list[Pattern]:
    """Return rolls filled longest piece first, each into the fullest roll that has room."""
    room: list[tuple[float, int]] = []
    rolls: list[list[int]] = []
    for i in expand(demand):
        length = demand.lengths[i]
        at = bisect_left(room, (length - SAME, -1))
        if at < len(room):
            left, r = room.pop(at)
            rolls[r].append(i)
        else:
            left, r = demand.roll, len(rolls)
            rolls.append([i])
        insort(room, (left - length, r))
    return [tuple(roll) for roll in rolls]


def fullest_rolls(demand: Demand, grid: Grid) -> list[Pattern]:
    """Return rolls each filled as full as it goes around the longest piece still uncut.

    The best filling of a roll is found exactly, as a subset sum over the bits of one long integer
    (bit s is set when the pieces looked at so far can add up to s cells).
    """
    waiting = expand(demand)
    rolls: list[Pattern] = []
    while waiting:
        chosen = _fill_one(waiting, grid.above, grid.capacity)
        rolls.append(tuple(waiting[k] for k in chosen))
        taken = set(chosen)
        waiting = [i for k, i in enumerate(waiting) if k not in taken]
    return rolls


def expand(demand: Demand) -> list[int]:
    """Return the index of each piece's length, longest first, one entry for each piece."""
    return [i for i, n in enumerate(demand.counts) for _ in range(n)]


def _fill_one(waiting: Sequence[int], size: Sequence[int], capacity: int) -> list[int]:
    """Return the positions in `waiting` that fill one roll best, the first one among them.

    A piece that opens no new sum opens none for the next ones of its length either, so these are
    passed over.
    """
    room = capacity - size[waiting[0]]
    mask = (1 << (room + 1)) - 1
    full = 1 << room
    sums, places = [1], [0]
    k = 1
    while k < len(waiting):
        i, last = waiting[k], sums[-1]
        reach = last | (last << size[i]) & mask
        if reach == last:
            k = bisect_right(waiting, i, lo=k)
            continue
        sums.append(reach)
        places.append(k)
        if reach & full:
            break
        k += 1
    best = sums[-1].bit_length() - 1
    chosen = [0]
    for before, k in zip(sums[-2::-1], places[:0:-1], strict=True):
        if not before >> best & 1:
            chosen.append(k)
            best -= size[waiting[k]]
    return sorted(chosen)
