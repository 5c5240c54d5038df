"""What each place may leak before the hunt: the forecast's mean, split into sound and defective.

The forecast gives the mean leak of a place in a house as its table has it. The hunt splits it: most
of the mean is the leak of a well-made place, `DEFECT_SHARE` of it comes from places that carry a
defect, so that the expected leak of the whole house is the forecast's.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from seamwright.leakage.crew_law import crew_law, kind_sigma, learned_shifts
from seamwright.leakage.hunt_types import ELSEWHERE, CrewLaw, Facts, HuntModel, HuntPrior
from seamwright.leakage.learn import Knowledge
from seamwright.leakage.places import Place, made_by
from seamwright.leakage.prior_rows import Workmanship
from seamwright.leakage.priors import DEFAULT_TABLE, LeakTable, is_line, prior_of

DEFECT_PER_METRE: Mapping[str, float] = MappingProxyType(
    {
        "wall_spline": 0.02,
        "roof_spline": 0.03,
        "floor_spline": 0.02,
        "end_joint": 0.04,
        "wall_corner": 0.03,
        "wall_tee": 0.05,
        "sill": 0.05,
        "floor_line": 0.04,
        "eave": 0.05,
        "rake": 0.05,
        "roof_step": 0.06,
        "ridge": 0.06,
        "hip": 0.06,
        "valley": 0.06,
        "opening": 0.03,
        "window_unit": 0.01,
        "door_unit": 0.02,
    }
)
"""Defects per metre of line [1/m]: `common practice, no source`; the order of kinds follows where
crews say they find leaks first: ridge, eave and rake corners, valleys, sills, rough openings."""

DEFECT_PER_NODE, DEFECT_PER_CORNER, DEFECT_PER_SERVICE = 0.04, 0.08, 0.15
"""Chances of a defect at a node of two lines, of three or more, and at a service through the
shell: `common practice, no source`."""

CREW_FACTOR: Mapping[Workmanship, float] = MappingProxyType(
    {"careful": 0.5, "ordinary": 1.0, "careless": 2.0}
)
"""How workmanship moves the chances of a defect: `common practice, no source`."""

DEFECT_SHARE = 0.4
BASE_SIGMA, DEFECT_SIGMA = 0.5, 0.9
ELSEWHERE_SHARE, ELSEWHERE_SIGMA = 0.05, 0.8
"""Share of the expected leak that comes from defects; spreads of ln leak; expected leak at no place
of the register, as a share of the rest: all `common practice, no source`."""

_MOST, _LEAST = 0.97, 1e-4
"""Chances of a defect that no record goes beyond [-]: `common practice, no source`."""

_SHORTEST = 0.1
"""A shorter line is taken as long: its two ends are as often made badly. [m] Common practice, no
source."""

_LEAST_FLOW = 1e-8
"""So that every leak has a logarithm: 0.04 l/h, far below what a search senses. [m³/s] Solver
setting."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Start:
    """Where a hunt starts: the priors of its places, and its constants with the crews' law."""

    priors: tuple[HuntPrior, ...]
    model: HuntModel


def hunt_start(
    places: Sequence[Place],
    facts: Mapping[str, Facts] | None = None,
    workmanship: Workmanship = "ordinary",
    *,
    crews: Mapping[str, Workmanship] | None = None,
    table: LeakTable = DEFAULT_TABLE,
    knowledge: Knowledge | None = None,
) -> Start:
    """Return where the hunt starts: the forecast of every place, as far as tests have taught it.

    Who made a place is in its record, else in the place; `crews` says how each works where that is
    not `workmanship`. What the tests of `knowledge` say of house, crew and kind moves every place,
    and what they leave open stays in the spreads, so that an empty history changes nothing.
    """
    known = {} if facts is None else facts
    named = {at: fact.crew for at, fact in known.items() if fact.crew is not None}
    whose = made_by(places, named)
    learned = Knowledge(spreads=table.spreads) if knowledge is None else knowledge
    how = {} if crews is None else crews
    flows = [prior_of(p, how.get(p.crew, workmanship), table).flow for p in whose]
    shifts = learned_shifts(whose, learned)
    law = crew_law(whose, [f * math.exp(shifts[p.id]) for p, f in zip(whose, flows, strict=True)],
                   learned)  # fmt: skip
    model = hunt_model(table, law)
    return Start(
        priors=hunt_priors(whose, known, workmanship, table, model, crews=how, knowledge=learned),
        model=model,
    )


def hunt_priors(
    places: Sequence[Place],
    facts: Mapping[str, Facts] | None = None,
    workmanship: Workmanship = "ordinary",
    table: LeakTable = DEFAULT_TABLE,
    model: HuntModel | None = None,
    *,
    crews: Mapping[str, Workmanship] | None = None,
    knowledge: Knowledge | None = None,
) -> tuple[HuntPrior, ...]:
    """Return the prior of every place, in order, and last that of the leak elsewhere.

    The spread that is left to kinds of places goes to each place by itself.
    """
    known = {} if facts is None else facts
    used = hunt_model(table) if model is None else model
    learned = Knowledge(spreads=table.spreads) if knowledge is None else knowledge
    how = {} if crews is None else crews
    shifts = learned_shifts(places, learned)
    made = tuple(
        _prior(
            place,
            known.get(place.id, Facts()),
            how.get(place.crew, workmanship),
            table,
            used,
            shift=shifts[place.id],
            kind=kind_sigma(place, learned),
        )
        for place in places
    )
    return (*made, _elsewhere(made))


def hunt_model(table: LeakTable = DEFAULT_TABLE, law: CrewLaw | None = None) -> HuntModel:
    """Return the constants of the hunt with a crew's spread as wide as the forecast has it.

    `law` is that of the crews of this house. For others the spread holds the table's for all
    houses, for the crew, and for kinds where about a sixth of the variance of kinds stays in the
    sum of a whole house.
    """
    spreads = table.spreads
    whole = spreads.overall**2 + spreads.crew**2 + spreads.kind**2 / 6.0
    return replace(HuntModel(), crew_sigma=math.sqrt(whole), crew_law=law)


def defect_chance(place: Place, workmanship: Workmanship) -> float:
    """Return the chance of a defect at a place before anything is recorded of it. [-]"""
    factor = CREW_FACTOR[workmanship]
    if is_line(place):
        rate = DEFECT_PER_METRE[place.kind] * factor * _planned(place)
        return 1.0 - math.exp(-rate * max(place.length, _SHORTEST))
    if place.sort == "node":
        corner = place.kind.count("+") >= 2
        return 1.0 - math.exp(-(DEFECT_PER_CORNER if corner else DEFECT_PER_NODE) * factor)
    return 1.0 - math.exp(-DEFECT_PER_SERVICE * factor)


def _planned(place: Place) -> float:
    """Return how the planned layers move the chance: a strip over beads forgives more.

    Both factors are `common practice, no source`.
    """
    if place.kind.endswith("_unit"):
        return 1.0
    strip = "strip_inner" in place.layers or "strip_outer" in place.layers
    if not strip:
        return 1.5
    return 0.8 if "beads" in place.layers else 1.0


def _prior(
    place: Place,
    facts: Facts,
    workmanship: Workmanship,
    table: LeakTable,
    model: HuntModel,
    *,
    shift: float,
    kind: float,
) -> HuntPrior:
    """Return one prior; tests have moved the place by `shift` and left `kind` open."""
    mean = max(prior_of(place, workmanship, table).flow, _LEAST_FLOW) * math.exp(shift)
    chance = defect_chance(place, workmanship)
    sigma = math.hypot(BASE_SIGMA, kind)
    return HuntPrior(
        place=place,
        base=(1.0 - DEFECT_SHARE) * mean * math.exp(-(sigma**2) / 2.0),
        base_sigma=sigma,
        defect=_with_facts(chance, facts, model),
        defect_flow=DEFECT_SHARE * mean / chance * math.exp(-(DEFECT_SIGMA**2) / 2.0),
        defect_sigma=DEFECT_SIGMA,
        facts=facts,
    )


def _with_facts(chance: float, facts: Facts, model: HuntModel) -> float:
    """Return the chance of a defect after what the records say; each fact moves the odds."""
    told = {
        "checked": facts.checked is True,
        "photo": facts.photo is True,
        "no photo": facts.photo is False,
        "unsealed": facts.sealed is False,
    }
    odds = chance / (1.0 - chance)
    for word, holds in told.items():
        odds *= model.odds[word] if holds else 1.0
    if facts.taped is not None:
        odds *= model.odds[facts.taped]
    return min(max(odds / (1.0 + odds), _LEAST), _MOST)


def _elsewhere(priors: Sequence[HuntPrior]) -> HuntPrior:
    """Return what may leak where the register has no place: the rest of a house nobody drew."""
    whole = sum(
        p.base * math.exp(p.base_sigma**2 / 2)
        + p.defect * p.defect_flow * math.exp(p.defect_sigma**2 / 2)
        for p in priors
    )
    place = Place(
        id=ELSEWHERE, sort="penetration", kind="elsewhere", length=0.0, layers=(), height=0.0,
        reachable=False,
    )  # fmt: skip
    typical = ELSEWHERE_SHARE * whole * math.exp(-(ELSEWHERE_SIGMA**2) / 2)
    return HuntPrior(
        place=place, base=typical, base_sigma=ELSEWHERE_SIGMA, defect=_LEAST,
        defect_flow=typical, defect_sigma=ELSEWHERE_SIGMA,
    )  # fmt: skip
