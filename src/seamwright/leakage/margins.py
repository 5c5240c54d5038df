"""What each joint tolerates: how much it may leak before the wood there suffers, by joint.

The figures are results of the moisture room, or of anybody else who can say; this room only takes
them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from seamwright.leakage.places import Place


@dataclass(frozen=True, kw_only=True, slots=True)
class Margin:
    """What one joint tolerates.

    `tolerates` is the largest leakage at 50 Pa with which the joint still passes [m³/(s·m)], 0
    where it fails without any leak. `margin` is how far the joint without a leak stays from its
    limit, as a part of the limit, below 0 where it fails; None where nobody says. [-]
    """

    tolerates: float
    margin: float | None = None


def tolerated(
    places: Sequence[Place], margins: Mapping[str, Margin], meeting: Mapping[str, Sequence[str]]
) -> dict[str, Margin]:
    """Return what each place tolerates, by its id, for those that anything is known of.

    A place without a figure of its own, such as a node, takes the least of the joints that
    `meeting` names for it.
    """
    found = {}
    for place in places:
        own = margins.get(place.id)
        if own is None:
            near = [margins[i] for i in meeting.get(place.id, ()) if i in margins]
            own = min(near, key=lambda margin: margin.tolerates, default=None)
        if own is not None:
            found[place.id] = own
    return found
