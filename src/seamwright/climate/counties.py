"""Counties of the United States and their climate zones in both editions."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from seamwright.climate.stations import distance_between
from seamwright.climate.sun import Place
from seamwright.climate.zones import Edition, Zone, zone_parts

_KINDS = (
    "county", "parish", "borough", "census area", "municipality", "city and borough", "city",
    "municipio",
)  # fmt: skip


@dataclass(frozen=True, kw_only=True, slots=True)
class County:
    """A county: its five digits, state, name, middle (None where not known) and zones.

    `old_zone` is that of the editions 2004 to 2018, `new_zone` that from 2021; None where the
    table has none. `warm_humid` by the edition of 2018.
    """

    id: str
    state: str
    name: str
    middle: Place | None
    old_zone: str | None
    new_zone: str | None
    warm_humid: bool | None

    def zone(self, edition: Edition) -> Zone | None:
        """Return the zone in an edition, None where the table has none."""
        written = self.new_zone if edition == "2021" else self.old_zone
        parts = None if written is None else zone_parts(written)
        if parts is None:
            return None
        origin = f"county table, {self.name}, {self.state}"
        return Zone(number=parts[0], regime=parts[1], edition=edition, origin=origin)


def find_counties(counties: Sequence[County], state: str, name: str) -> tuple[County, ...]:
    """Return the counties of a state that a name may mean; one where it is clear.

    Words such as County and Parish may be left out, capitals and accents of the name count not.
    """
    inside = [c for c in counties if c.state == state.strip().upper()]
    written = name.casefold().strip().removesuffix(" county")
    exact = [c for c in inside if _plain(c.name) == _plain(written)]
    if exact:
        return tuple(exact)
    return tuple(c for c in inside if _bare(c.name) == _bare(name))


def nearest_county(counties: Sequence[County], place: Place) -> tuple[County, float]:
    """Return the county whose middle is nearest, and how far that is. [m]

    A guess: a house near a border may stand in the next county.
    """
    known = [(distance_between(place, c.middle), c.id, c) for c in counties if c.middle is not None]
    way, _, county = min(known)
    return county, way


def _plain(name: str) -> str:
    lower = name.casefold().replace("saint ", "st. ").replace("st ", "st. ")
    return re.sub(r"[^a-z]", "", lower.translate(str.maketrans("áéíóúñü", "aeiounu")))


def _bare(name: str) -> str:
    words = name.casefold().strip()
    for kind in sorted(_KINDS, key=len, reverse=True):
        words = words.removesuffix(f" {kind}")
    return _plain(words)
