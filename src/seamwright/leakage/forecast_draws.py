"""Drawing houses: the factors that places share, and the sums over places, group by group."""

from __future__ import annotations

import zlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seamwright.leakage.learn import Knowledge, joint_normal
from seamwright.leakage.places import Place, follows_crew
from seamwright.leakage.prior_rows import Workmanship
from seamwright.leakage.priors import LeakTable, Prior, prior_of

Floats = NDArray[np.float64]
Singles = NDArray[np.float32]

OVERALL = "overall"
_BLOCK = 1 << 19
"""Numbers drawn at a time: 2 MB of single precision, which stays near the processor. Solver
setting."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Group:
    """Places of one kind made by one crew, in the order of their ids, with their priors."""

    sort: str
    kind: str
    crew: str
    places: tuple[Place, ...]
    priors: tuple[Prior, ...]

    @property
    def factors(self) -> tuple[str, ...]:
        """Names of the factors that every place of the group shares.

        A window or door comes as it was made: how the shell's crew works does not move it.
        """
        if not follows_crew(self.places[0]):
            return (kind_factor(self.kind),)
        return (OVERALL, crew_factor(self.crew), kind_factor(self.kind))


@dataclass(frozen=True, kw_only=True, slots=True)
class Draws:
    """Many houses: per group its local sum (groups, draws) [m³/s], per factor its logarithm
    (factors, draws) and the flow exponent (draws,).
    """

    groups: tuple[Group, ...]
    local: Floats
    names: tuple[str, ...]
    factors: Floats
    exponents: Floats


def crew_factor(crew: str) -> str:
    """Return the name of a crew's factor."""
    return f"crew:{crew}" if crew else "crew"


def kind_factor(kind: str) -> str:
    """Return the name of the factor of a kind of place; all nodes are one kind."""
    return f"kind:{kind}"


def kind_of(place: Place) -> str:
    """Return the kind whose places are alike: nodes by how many lines meet."""
    if place.sort != "node":
        return place.kind
    return "node_corner" if place.kind.count("+") >= 2 else "node"


def group_places(
    places: Sequence[Place],
    *,
    workmanship: Workmanship,
    crews: Mapping[str, Workmanship],
    table: LeakTable,
) -> tuple[Group, ...]:
    """Return the places by sort, kind and crew, whatever the order they came in."""
    found: dict[tuple[str, str, str], list[Place]] = {}
    for place in places:
        found.setdefault((place.sort, kind_of(place), place.crew), []).append(place)
    groups = []
    for (sort, kind, crew), members in sorted(found.items()):
        members.sort(key=lambda place: place.id)
        how = crews.get(crew, workmanship)
        groups.append(
            Group(
                sort=sort,
                kind=kind,
                crew=crew,
                places=tuple(members),
                priors=tuple(prior_of(place, how, table) for place in members),
            )
        )
    return tuple(groups)


def draw_houses(
    groups: tuple[Group, ...], knowledge: Knowledge, table: LeakTable, *, draws: int, seed: int
) -> Draws:
    """Return `draws` houses. Each group and each factor has a stream of its own by its name, so
    that a change in one leaves the numbers of the others as they were.
    """
    names = tuple(dict.fromkeys(name for group in groups for name in group.factors))
    mean, root = joint_normal(knowledge, names)
    normals = np.stack([_stream(seed, name).standard_normal(draws) for name in names])
    local = np.stack([_local_sums(group, draws, seed) for group in groups])
    spread = table.spreads.exponent
    exponents = table.exponent + spread * _stream(seed, "exponent").standard_normal(draws)
    return Draws(
        groups=groups,
        local=local,
        names=names,
        factors=mean[:, None] + root @ normals,
        exponents=exponents,
    )


def _local_sums(group: Group, draws: int, seed: int) -> Floats:
    """Return the sum of a group's places in each house, each drawn for itself. [m³/s]

    Places are drawn in single precision, which is finer than any of the figures, and summed in
    double precision from block to block; the work area does not grow with the number of places.
    """
    rng = _stream(seed, f"{group.sort}/{group.kind}/{group.crew}")
    leaking = [prior for prior in group.priors if prior.flow > 0.0]
    sigma = np.array([prior.sigma for prior in leaking])
    center = np.log(np.array([prior.flow for prior in leaking])) - sigma**2 / 2
    width, middle = sigma.astype(np.float32)[:, None], center.astype(np.float32)[:, None]
    total = np.zeros(draws)
    rows = max(1, _BLOCK // draws)
    for start in range(0, len(leaking), rows):
        part = slice(start, start + rows)
        z: Singles = rng.standard_normal((len(width[part]), draws), dtype=np.float32)
        z *= width[part]
        z += middle[part]
        np.exp(z, out=z)
        total += z.sum(axis=0)
    return total


def _stream(seed: int, name: str) -> np.random.Generator:
    return np.random.Generator(np.random.SFC64([seed, zlib.crc32(name.encode())]))
