"""A whole plan written as text: what a building model says, from then on the user's own."""

from __future__ import annotations

from collections.abc import Sequence

from seamwright.io.desk.panels import exact, outline, panel_row
from seamwright.io.desk.write import Raw, Written, block, quoted
from seamwright.shell.plan import (
    GivenSupport,
    OpeningSpec,
    PanelType,
    PenetrationSpec,
    Plan,
    Point3,
    Site,
    Timber,
)


def listed_text(plan: Plan, notes: Sequence[str] = ()) -> str:
    """Return the text of a plan that lists its panels, sizes exact, `notes` as comments.

    Only what a model can say is written: the site, panel types, panels, supports, timbers, openings
    and services.
    """
    head = "".join(f"# {' '.join(note.split())}\n" for note in notes)
    sections = [
        _site(plan.site),
        block("panel_types", [_panel_type(one) for one in plan.panel_types]),
        block("supports", [_support(one) for one in plan.supports]),
        block("panels", [panel_row(panel) for panel in plan.panels]),
        block("timbers", [_timber(one) for one in plan.timbers]),
        block("openings", [_opening(one) for one in plan.openings]),
        block("penetrations", [_service(one) for one in plan.penetrations]),
    ]
    return "\n".join([*([head] if head else []), *sections])


def _site(site: Site) -> str:
    lines = [f"  name: {quoted(site.name)}"]
    for key in ("place", "climate_zone", "zone_edition", "county", "state", "station"):
        text = getattr(site, key)
        lines += [f"  {key}: {quoted(text)}"] if text is not None else []
    for key, value in (("latitude", site.latitude_deg), ("longitude", site.longitude_deg)):
        lines += [f"  {key}: {value:.8f}"] if value is not None else []
    lines += [f"  elevation: {exact(site.elevation)}"] if site.elevation else []
    return "site:\n" + "\n".join(lines) + "\n"


def _panel_type(one: PanelType) -> dict[str, Written]:
    sizes = ("skin_inner", "core", "skin_outer", "max_width", "max_length")
    return {
        "id": one.id,
        **{key: exact(getattr(one, key)) for key in sizes},
        "spline": one.spline,
        "spline_width": exact(one.spline_width),
        "edge_gap": exact(one.edge_gap),
        "core_material": one.core_material,
    }


def _support(one: GivenSupport) -> dict[str, Written]:
    return {
        "id": one.id,
        "kind": one.kind,
        "corners": outline(one.outline),
        "top": exact(one.top),
        "thickness": exact(one.thickness),
    }


def _timber(one: Timber) -> dict[str, Written]:
    return {
        "id": one.id,
        "kind": one.kind,
        "start": _point(one.start),
        "end": _point(one.end),
        "size": Raw(f"{exact(one.size.width)} x {exact(one.size.depth)}"),
    }


def _opening(one: OpeningSpec) -> dict[str, Written]:
    sizes = ("along", "up", "width", "height")
    given = {key: exact(getattr(one, key)) for key in sizes}
    return {"id": one.id, "kind": one.kind, "in": one.host, **given}


def _service(one: PenetrationSpec) -> dict[str, Written]:
    sizes = ("along", "up", "diameter", "width", "height")
    held = {key: getattr(one, key) for key in sizes}
    given = {key: exact(value) for key, value in held.items() if value is not None}
    return {"id": one.id, "kind": one.kind, "in": one.host, **given}


def _point(p: Point3) -> list[Written]:
    return [exact(x) for x in p]
