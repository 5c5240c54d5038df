"""Where the house stands, from the project, site and building of a model."""

from __future__ import annotations

import math

from seamwright.io.ifc.layers import exact
from seamwright.io.ifc.notes import Notes, plain
from seamwright.io.ifc.types import Entity
from seamwright.shell.plan import ZERO, Site


def read_site(model: Entity, scale: float, notes: Notes) -> Site:
    """Return the site named by the model; elevation in metres above sea level."""
    project = _first(model, "IfcProject")
    site = _first(model, "IfcSite")
    building = _first(model, "IfcBuilding")
    names = [plain(getattr(e, "Name", None)) for e in (project, building, site) if e is not None]
    name = next((n for n in names if n), "House from a building model")
    height = getattr(site, "RefElevation", None) if site is not None else None
    _note_north(model, notes)
    return Site(
        name=name,
        place=_place(site, building),
        latitude_deg=_degrees(getattr(site, "RefLatitude", None)),
        longitude_deg=_degrees(getattr(site, "RefLongitude", None)),
        elevation=exact(float(height) * scale) if height is not None else ZERO,
    )


def _first(model: Entity, name: str) -> Entity:
    found = model.by_type(name)
    return found[0] if found else None


def _place(*owners: Entity) -> str | None:
    for owner in owners:
        for field in ("SiteAddress", "BuildingAddress"):
            address = getattr(owner, field, None)
            if address is not None:
                parts = [plain(getattr(address, f, None)) for f in ("Town", "Region", "Country")]
                text = ", ".join(part for part in parts if part)
                if text:
                    return text
    return None


def _degrees(parts: Entity) -> float | None:
    """Return degrees from degrees, minutes, seconds and millionths of a second."""
    if not parts:
        return None
    units = (1.0, 1 / 60, 1 / 3600, 1 / 3.6e9)
    return math.fsum(float(p) * u for p, u in zip(parts, units, strict=False))


def _note_north(model: Entity, notes: Notes) -> None:
    for context in model.by_type("IfcGeometricRepresentationContext", include_subtypes=False):
        north = context.TrueNorth
        if north is None or len(north.DirectionRatios) < 2:
            continue
        x, y = (float(value) for value in north.DirectionRatios[:2])
        angle = math.degrees(math.atan2(-x, y))
        if abs(angle) > 0.01:
            notes.use(
                f"True north stands {abs(angle):.1f}° {'left' if angle > 0 else 'right'} of the "
                "model's y axis; the plan keeps the model's axes, so its north is the model's north"
            )
        return
