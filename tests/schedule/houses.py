"""Sealed houses and their networks that the tests of the schedule share, made once each."""

from __future__ import annotations

from functools import cache

from tests.shell.plans import box, two_storeys, with_dormer, with_entry

from seamwright.io.plan import builtin_house, read_plan
from seamwright.report.house import SealedHouse
from seamwright.schedule.network import build_network
from seamwright.schedule.types import Network
from seamwright.seals.catalog import default_catalog
from seamwright.shell.plan import Plan
from seamwright.workflow import seal_house

MADE = {
    "dormer": with_dormer,
    "hanging": lambda: with_entry("hanging"),
    "platform": lambda: two_storeys("platform"),
    "box": box,
}
BUILT_IN = ("first_house", "heron_house", "cypress_house")
ALL = (*BUILT_IN, *MADE)


def plan_of(name: str) -> Plan:
    """Return the plan of a named house."""
    return MADE[name]() if name in MADE else read_plan(builtin_house(name), name=name).plan


@cache
def sealed(name: str) -> SealedHouse:
    """Return a named house, sealed from the default catalog."""
    return seal_house(plan_of(name), default_catalog())


def bearing_walls(plan: Plan) -> tuple[str, ...]:
    """Return the inner walls of a plan that carry something."""
    return tuple(wall.id for wall in plan.inner_walls if wall.bearing)


def network_of(house: SealedHouse) -> Network:
    """Return the network of a sealed house."""
    return build_network(
        house.shell, house.register, house.schedule, bearing=bearing_walls(house.plan)
    )


@cache
def network(name: str) -> Network:
    """Return the network of a named house."""
    return network_of(sealed(name))
