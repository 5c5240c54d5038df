"""The county of a house, its climate zone in both editions, and whether the plan agrees."""

from __future__ import annotations

import math
from dataclasses import dataclass

from seamwright.climate.counties import County, find_counties, nearest_county
from seamwright.climate.sun import Place
from seamwright.climate.zones import EDITIONS, Edition, Zone, edition_named, zone_parts
from seamwright.errors import InputError, Problem
from seamwright.io.climate_tables import counties
from seamwright.io.explain import nearest
from seamwright.shell.plan import Site

NEAR_COUNTY = 150_000.0
"""A county's middle farther than this says nothing of a house. [m] Our own choice; the largest
counties of the West are 300 km across."""

EDITION_WORDS: dict[Edition, str] = {"2004-2018": "of 2004 to 2018", "2021": "from 2021 on"}
"""How an edition reads in a sentence after *the editions*."""


@dataclass(frozen=True, kw_only=True, slots=True)
class SiteZones:
    """The county a house stands in, how sure that is, and its zone in each edition.

    `named` says whether the plan names the county; else it is the one whose middle is nearest,
    `way` off [m], which is a guess. `zones` has None where the table has none.
    """

    county: County
    named: bool
    way: float | None
    zones: tuple[tuple[Edition, Zone | None], ...]

    @property
    def origin(self) -> str:
        """Where the zones are from, in a few words."""
        name = f"{self.county.name}, {self.county.state}"
        if self.named or self.way is None:
            return f"county table, {name}"
        return f"county table, {name} by the nearest middle ({self.way / 1000:.0f} km): confirm"


def site_zones(site: Site) -> SiteZones | None:
    """Return the zones of a house by its county, None where the plan does not lead to one.

    Raises
    ------
    InputError
        When the plan names a county that is not known.
    """
    county, way = site_county(site), None
    named = county is not None
    if county is None:
        if site.latitude_deg is None or site.longitude_deg is None:
            return None
        place = Place(
            latitude=math.radians(site.latitude_deg), longitude=math.radians(site.longitude_deg)
        )
        county, way = nearest_county(counties(), place)
        if way > NEAR_COUNTY:
            return None
    zones = tuple((edition, county.zone(edition)) for edition in EDITIONS)
    return SiteZones(county=county, named=named, way=way, zones=zones)


def zone_warning(site: Site, found: SiteZones | None) -> str | None:
    """Return a sentence where the plan's zone is not that of its county, None where it is.

    The sentence names the edition; a plan that names none is told what each edition says.
    """
    if site.climate_zone is None or found is None:
        return None
    if zone_parts(site.climate_zone) is None:
        return f"The plan's climate zone ‘{site.climate_zone[:20]}’ is none; write it as 4C or 7."
    edition = None if site.zone_edition is None else edition_named(site.zone_edition)
    table = dict(found.zones)
    if edition is None:
        said = ", ".join(f"{_name(z)} {EDITION_WORDS[e]}" for e, z in found.zones)
        if any(zone is not None and _same(site, zone) for zone in table.values()):
            return None if _alike(found) else (
                f"The plan says zone {site.climate_zone} without an edition that is known, and the "
                f"editions differ here ({said}): say which, such as zone_edition: IECC 2021."
            )  # fmt: skip
        return f"The plan says zone {site.climate_zone}; {found.origin} has {said}."
    zone = table[edition]
    if zone is None or _same(site, zone):
        return None
    return (
        f"The plan says zone {site.climate_zone} by {site.zone_edition}; the editions "
        f"{EDITION_WORDS[edition]} have {zone.name} there ({found.origin}). The code adopted where "
        "the house stands decides."
    )


def site_county(site: Site) -> County | None:
    """Return the county that the plan names, None where it names none.

    Raises
    ------
    InputError
        When the state or county is not known, or the name means more than one.
    """
    if site.county is None:
        return None
    table = counties()
    states = sorted({c.state for c in table})
    if site.state is None:
        raise _refused(f"county {site.county[:40]} is named without its state",
                       "add state: as two letters, such as WA")  # fmt: skip
    state = site.state.strip().upper()
    if state not in states:
        raise _refused(f"‘{site.state[:30]}’ is no state of the county table",
                       f"write it as two letters, {states[0]} to {states[-1]}")  # fmt: skip
    found = find_counties(table, state, site.county)
    if not found:
        names = [c.name for c in table if c.state == state]
        raise _refused(f"there is no county ‘{site.county[:40]}’ in {state}",
                       nearest(site.county, names))  # fmt: skip
    if len(found) > 1:
        listed = " or ".join(c.name for c in found)
        raise _refused(f"county ‘{site.county[:40]}’ may mean {listed}", "write out the one meant")
    return found[0]


def _same(site: Site, zone: Zone) -> bool:
    written = zone_parts("" if site.climate_zone is None else site.climate_zone)
    return written is not None and written == (zone.number, zone.regime)


def _alike(found: SiteZones) -> bool:
    return len({_name(zone) for _, zone in found.zones}) == 1


def _name(zone: Zone | None) -> str:
    return "not in the table" if zone is None else zone.name


def _refused(sentence: str, remedy: str) -> InputError:
    return InputError([Problem(subject="site", sentence=sentence, remedy=remedy)])
