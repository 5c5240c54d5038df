"""From the guided form to the plan text a person could have written."""

from __future__ import annotations

from fractions import Fraction

from seamwright.io.desk.form import (
    FootprintForm,
    HouseForm,
    OpeningForm,
    PanelForm,
    RoofForm,
    ServiceForm,
    StoreyForm,
)
from seamwright.io.desk.write import Raw, Written, block, flow, quoted, size
from seamwright.units import System

SECTIONS = (
    "site", "panel_types", "base", "storeys", "footprints", "roof", "openings", "penetrations",
)  # fmt: skip
"""The sections of a plan that the form fills; every other is the user's own."""


def form_sections(form: HouseForm) -> dict[str, str]:
    """Return the text of each section that the form fills, by its name."""
    u = form.units
    storeys = [str(number) for number in range(1, len(form.storeys) + 1)]
    return {
        "site": _site(form),
        "panel_types": block("panel_types", _panel_types(form)),
        "base": _base(form),
        "storeys": block("storeys", [_storey(s, n, u) for n, s in enumerate(form.storeys, 1)]),
        "footprints": block("footprints", [_footprint(f, storeys, u) for f in form.footprints]),
        "roof": block("roof", [_roof(part, u) for part in form.roof]),
        "openings": block("openings", [_opening(one, u) for one in form.openings]),
        "penetrations": block("penetrations", [_service(one, u) for one in form.services]),
    }


def form_text(form: HouseForm) -> str:
    """Return the whole plan text of a form."""
    return "\n".join(form_sections(form).values())


def _site(form: HouseForm) -> str:
    lines = [f"  name: {quoted(form.name)}"]
    for key in ("place", "climate_zone", "zone_edition"):
        text = getattr(form, key).strip()
        lines += [f"  {key}: {quoted(text)}"] if text else []
    for key, value in (("latitude", form.latitude_deg), ("longitude", form.longitude_deg)):
        lines += [f"  {key}: {value:.6f}"] if value is not None else []
    return "site:\n" + "\n".join(lines) + "\n"


def _panel_types(form: HouseForm) -> list[dict[str, Written]]:
    return [
        {"id": "wall", **_panel(form.wall_panel, form.units)},
        {"id": "roof", **_panel(form.roof_panel, form.units)},
    ]


def _panel(panel: PanelForm, units: System) -> dict[str, Written]:
    return {
        "thickness": size(panel.thickness_m, units),
        "skins": size(panel.skin_m, units),
        "max_width": size(panel.max_width_m, units),
        "max_length": size(panel.max_length_m, units),
        "spline": panel.spline,
    }


def _base(form: HouseForm) -> str:
    given: dict[str, Written] = {
        "kind": form.base.kind,
        "top": size(0, form.units),
        "thickness": size(form.base.thickness_m, form.units),
        "sill": size(form.base.sill_m, form.units),
    }
    if form.base.kind == "floor_panels":
        given |= {"panel_type": "wall"}
    return f"base: {flow(given)}\n"


def _storey(storey: StoreyForm, number: int, units: System) -> dict[str, Written]:
    given: dict[str, Written] = {
        "id": Raw(f'"{number}"'),
        "height": size(storey.height_m, units),
        "panel_type": "wall",
    }
    if number > 1:
        given |= {
            "floor": storey.floor,
            "floor_depth": size(storey.floor_depth_m, units),
            "deck": size(storey.deck_m, units),
        }
    return given


def _footprint(one: FootprintForm, storeys: list[str], units: System) -> dict[str, Written]:
    given: dict[str, Written] = {
        "id": quoted_id(one.id),
        "corners": [[size(x, units), size(y, units)] for x, y in one.corners_m],
    }
    if one.storeys is not None and one.storeys < len(storeys):
        given |= {"storeys": [Raw(f'"{number}"') for number in storeys[: one.storeys]]}
    return given


def _roof(part: RoofForm, units: System) -> dict[str, Written]:
    given: dict[str, Written] = {
        "id": quoted_id(part.id),
        "kind": part.kind,
        "over": quoted_id(part.over),
        "pitch": _pitch(part.pitch_rise),
        "panel_type": "roof",
    }
    if part.eaves and part.kind != "hip":
        given |= {"eaves": list(part.eaves)}
    if part.second_pitch_rise is not None:
        given |= {"second_pitch": _pitch(part.second_pitch_rise)}
    if part.break_run_m is not None:
        given |= {"break_run": size(part.break_run_m, units)}
    for key in ("eave_plate", "overhang_eave", "overhang_rake"):
        value = getattr(part, f"{key}_m")
        given |= {key: size(value, units)} if value else {}
    if part.ridge_beam is not None:
        wide, deep = part.ridge_beam.width_m, part.ridge_beam.depth_m
        given |= {"ridge_beam": Raw(f"{size(wide, units)} x {size(deep, units)}")}
    return given


def _pitch(rise: float) -> Raw:
    """Return a pitch in twelfths, as steep as the form says to a ten-thousandth."""
    twelfths = Fraction(rise) * 12
    shown = f"{float(twelfths):.4f}".rstrip("0").rstrip(".")
    return Raw(f"{shown}/12")


def _opening(one: OpeningForm, units: System) -> dict[str, Written]:
    return {
        "id": quoted_id(one.id), "kind": one.kind, "in": quoted_id(one.host),
        "along": size(one.along_m, units), "up": size(one.up_m, units),
        "width": size(one.width_m, units), "height": size(one.height_m, units),
    }  # fmt: skip


def _service(one: ServiceForm, units: System) -> dict[str, Written]:
    return {
        "id": quoted_id(one.id), "kind": one.kind, "in": quoted_id(one.host),
        "along": size(one.along_m, units), "up": size(one.up_m, units),
        "diameter": size(one.diameter_m, units),
    }  # fmt: skip


def quoted_id(name: str) -> Raw:
    """Return an id as YAML text: numbers stay words."""
    return Raw(quoted(name))
