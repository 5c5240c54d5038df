"""The places where a shell can leak, as numbers: no shapes, only lengths, layers and heights."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

Layer: TypeAlias = Literal[
    "strip_inner", "strip_outer", "beads", "foam", "gasket", "patch", "collar"
]


@dataclass(frozen=True, kw_only=True, slots=True)
class Place:
    """One joint, node or penetration that may leak.

    `id` is the joint's or node's id and `kind` its kind. `length` is the line that can leak [m], 0
    for a node. `layers` are the seals planned there. `height` is above the lowest floor [m];
    `reachable` says whether the inside can still be reached; `crew` who made it (one crew's work
    is alike); `consequence` weighs what a leak does to the wood there (1 for an ordinary place).
    """

    id: str
    sort: Literal["joint", "node", "penetration"]
    kind: str
    length: float
    layers: tuple[Layer, ...]
    height: float
    reachable: bool = True
    crew: str = ""
    consequence: float = 1.0


def follows_crew(place: Place) -> bool:
    """Return whether the work of the shell's crew moves a place.

    A window or door comes as it was made and hung, and the leak elsewhere is nobody's work.
    """
    return not place.kind.endswith("_unit") and place.kind != "elsewhere"


def made_by(places: Sequence[Place], crews: Mapping[str, str]) -> tuple[Place, ...]:
    """Return the places with who made each, by id; those not named keep their crew."""
    return tuple(
        replace(place, crew=crews[place.id]) if place.id in crews else place for place in places
    )
