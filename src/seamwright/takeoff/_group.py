"""Gather many different lengths into few groups, so that the pattern program stays small."""

from __future__ import annotations

from dataclasses import dataclass

from seamwright.takeoff._grid import Demand, Pattern


@dataclass(frozen=True, kw_only=True, slots=True)
class Groups:
    """A demand with each length raised to the longest of its group, and lowered to the shortest.

    `starts` are the first positions of each group among the demand's distinct lengths. What fits
    with `above` fits in truth; a bound for `below` is a bound in truth.
    """

    above: Demand
    below: Demand
    starts: tuple[int, ...]


def group_lengths(demand: Demand, most: int) -> Groups:
    """Return the demand gathered into at most `most` groups of neighboring lengths.

    Groups hold about equally many pieces. With few enough lengths nothing changes.
    """
    if len(demand.lengths) <= most:
        return Groups(above=demand, below=demand, starts=tuple(range(len(demand.lengths))))
    share = demand.n_pieces / most
    starts: list[int] = []
    counts: list[int] = []
    seen = 0
    for i, n in enumerate(demand.counts):
        if not starts or seen >= share * len(starts):
            starts.append(i)
            counts.append(0)
        counts[-1] += n
        seen += n
    ends = [*starts[1:], len(demand.lengths)]
    longest = tuple(demand.lengths[a] for a in starts)
    shortest = tuple(demand.lengths[b - 1] for b in ends)
    return Groups(
        above=Demand(lengths=longest, counts=tuple(counts), roll=demand.roll),
        below=Demand(lengths=shortest, counts=tuple(counts), roll=demand.roll),
        starts=tuple(starts),
    )


def ungroup(rolls: list[Pattern], groups: Groups, demand: Demand) -> list[Pattern]:
    """Return rolls of groups as rolls of the true lengths, each piece in a place of its group."""
    if groups.above is demand:
        return rolls
    ends = [*groups.starts[1:], len(demand.lengths)]
    waiting = [
        [i for i in range(a, b) for _ in range(demand.counts[i])]
        for a, b in zip(groups.starts, ends, strict=True)
    ]
    return [tuple(waiting[g].pop(0) for g in roll) for roll in rolls]
