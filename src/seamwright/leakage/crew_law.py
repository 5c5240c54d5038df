"""How far the crews of a house may lie from the table, after all that earlier tests have taught.

The forecast shares factors among places: one for the house, one for each crew, one for each kind.
The hunt keeps one factor for each crew; it stands for those that the crew's places share.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence

import numpy as np

from seamwright.leakage.forecast_draws import OVERALL, crew_factor, kind_factor, kind_of
from seamwright.leakage.hunt_types import CrewLaw
from seamwright.leakage.learn import Knowledge, joint_normal
from seamwright.leakage.places import Place, follows_crew


def crew_law(places: Sequence[Place], flows: Sequence[float], knowledge: Knowledge) -> CrewLaw:
    r"""Return the covariance of the crews' factors, as logarithms, around what the tests taught.

    .. math:: u_c = a + b_c + \sum_k w_{ck} k_k

    with `w` the part of the kind in the crew's expected leak: the factors of kinds move the sum of
    a crew's places by as much. Crews share the house's factor and the kinds', so they are
    correlated; tests of a crew narrow its own.

    Parameters
    ----------
    places : sequence of Place
        All places with their crews; those that follow none are passed over.
    flows : sequence of float
        What each place is expected to leak. [m³/s]
    knowledge : Knowledge
        What earlier tests have taught; without tests, the spreads of the table.
    """
    parts: defaultdict[str, defaultdict[str, float]] = defaultdict(lambda: defaultdict(float))
    for place, flow in zip(places, flows, strict=True):
        if follows_crew(place):
            parts[place.crew][kind_factor(kind_of(place))] += flow
    crews = tuple(sorted(parts))
    kinds = tuple(sorted({kind for by_kind in parts.values() for kind in by_kind}))
    names = (OVERALL, *(crew_factor(crew) for crew in crews), *kinds)
    mixed = np.zeros((len(crews), len(names)))
    mixed[:, 0] = 1.0
    for row, crew in enumerate(crews):
        mixed[row, 1 + row] = 1.0
        whole = sum(parts[crew].values())
        for kind, flow in parts[crew].items():
            mixed[row, names.index(kind)] = flow / whole if whole > 0.0 else 0.0
    _, root = joint_normal(knowledge, names)
    spread = mixed @ root
    covariance = spread @ spread.T
    return CrewLaw(
        crews=crews, covariance=tuple(tuple(float(x) for x in row) for row in covariance)
    )


def learned_shifts(places: Sequence[Place], knowledge: Knowledge) -> dict[str, float]:
    """Return, by place id, how far earlier tests have moved its leak: a logarithm, 0 for none."""
    mean: Mapping[str, float] = dict(zip(knowledge.names, knowledge.mean, strict=True))
    return {place.id: sum(mean.get(name, 0.0) for name in factors_of(place)) for place in places}


def kind_sigma(place: Place, knowledge: Knowledge) -> float:
    """Return the standard deviation left in the factor of a place's kind, as a logarithm. [-]"""
    _, root = joint_normal(knowledge, (kind_factor(kind_of(place)),))
    return float(abs(root[0, 0]))


def factors_of(place: Place) -> tuple[str, ...]:
    """Return the names of the factors that move a place: house, crew and kind, or kind alone."""
    kind = kind_factor(kind_of(place))
    return (OVERALL, crew_factor(place.crew), kind) if follows_crew(place) else (kind,)
