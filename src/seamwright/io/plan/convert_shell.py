"""Turn what was written about the shell into records of `seamwright.shell.plan`."""

from __future__ import annotations

from fractions import Fraction

from seamwright.io.plan.model import PlanFields
from seamwright.io.plan.model_shell import DormerFields, PanelTypeFields, RoofFields, SpacedFields
from seamwright.io.plan.outline import Outline, outline_of, side_index
from seamwright.io.plan.reading import Reading
from seamwright.shell.plan import (
    Base,
    Dormer,
    Footprint,
    PanelType,
    RoofPart,
    Site,
    Spaced,
    Storey,
    TimberSize,
    WallRule,
)
from seamwright.units import INCH

SKIN = 7 * INCH / 16
"""Skin where the plan states none: common practice, no source. [m]"""

_EAVES = {"gable": 2, "gambrel": 2, "saltbox": 2, "shed": 1}
_ASSUMED = ("max_width", "max_length", "spline", "spline_width", "edge_gap", "core_material")


def site_of(fields: PlanFields) -> Site:
    """Return the site."""
    site = fields.site
    return Site(
        name=site.name,
        place=site.place,
        latitude_deg=site.latitude,
        longitude_deg=site.longitude,
        elevation=site.elevation,
        climate_zone=site.climate_zone,
        zone_edition=site.zone_edition,
        county=site.county,
        state=site.state,
        station=site.station,
        weather=site.weather,
    )


def panel_types_of(fields: PlanFields, reading: Reading) -> tuple[PanelType, ...]:
    """Return the panel types, telling where skins, core and thickness disagree."""
    made = [_panel_type(item, i, reading) for i, item in enumerate(fields.panel_types)]
    return tuple(item for item in made if item is not None)


def base_of(fields: PlanFields) -> Base | None:
    """Return what the lowest walls stand on."""
    base = fields.base
    if base is None:
        return None
    return Base(
        kind=base.kind,
        top=base.top,
        thickness=base.thickness,
        sill=base.sill,
        panel_type=base.panel_type,
    )


def storeys_of(fields: PlanFields, reading: Reading) -> tuple[Storey, ...]:
    """Return the storeys; only the lowest stands on the base."""
    for i, storey in enumerate(fields.storeys):
        if i == 0 and storey.floor != "base":
            reading.tell(
                "storeys", i, "the lowest storey stands on the base", "drop floor", "floor"
            )
        if i > 0 and storey.floor == "base":
            remedy = "add floor: platform or floor: hanging"
            reading.tell("storeys", i, "an upper storey stands on a floor, not the base", remedy)
        if i > 0 and storey.floor != "base" and storey.floor_depth == 0:
            reading.tell("storeys", i, "the floor has no depth", 'add floor_depth: 11-7/8"')
    return tuple(
        Storey(
            id=storey.id,
            height=storey.height,
            panel_type=storey.panel_type,
            floor=storey.floor,
            floor_depth=storey.floor_depth,
            deck=storey.deck,
        )
        for storey in fields.storeys
    )


def footprints_of(fields: PlanFields, reading: Reading) -> tuple[Footprint, ...]:
    """Return the footprints, counter-clockwise."""
    every = tuple(storey.id for storey in fields.storeys)
    made: list[Footprint] = []
    for i, item in enumerate(fields.footprints):
        outline = outline_of(item, reading.units, reading.teller("footprints", i))
        if outline is None:
            continue
        reading.outlines["footprints", item.id] = outline
        if outline.turned:
            reading.note(
                f"The corners of footprint {item.id} run clockwise; they were turned, so its first "
                "wall starts at the first corner and runs toward the last one written."
            )
        storeys = every if item.storeys is None else item.storeys
        made.append(Footprint(id=item.id, corners=outline.corners, storeys=storeys))
    return tuple(made)


def wall_rules_of(fields: PlanFields) -> tuple[WallRule, ...]:
    """Return what the user fixed for single walls."""
    return tuple(
        WallRule(
            wall=item.wall,
            panel_type=item.panel_type,
            start_corner=item.start_corner,
            end_corner=item.end_corner,
            layout_from=item.layout_from,
            widths=item.widths,
        )
        for item in fields.walls
    )


def roof_of(fields: PlanFields, reading: Reading) -> tuple[RoofPart, ...]:
    """Return the roof parts with their eaves as edges of their areas."""
    made = [_roof_part(item, i, reading) for i, item in enumerate(fields.roof)]
    return tuple(part for part in made if part is not None)


def dormers_of(fields: PlanFields, reading: Reading) -> tuple[Dormer, ...]:
    """Return the dormers with their eave as an edge of their part's area."""
    made = [_dormer(item, i, reading) for i, item in enumerate(fields.dormers)]
    return tuple(dormer for dormer in made if dormer is not None)


def _panel_type(item: PanelTypeFields, index: int, reading: Reading) -> PanelType | None:
    both = SKIN if item.skins is None else item.skins
    inner = both if item.skin_inner is None else item.skin_inner
    outer = both if item.skin_outer is None else item.skin_outer
    left = None if item.thickness is None else item.thickness - inner - outer
    core = left if item.core is None else item.core
    if core is None or core <= 0:
        told = "the skins alone are as thick as the whole panel"
        reading.tell("panel_types", index, told, "check thickness and skins")
        return None
    if left is not None and left != core:
        told = "skins and core do not add up to the thickness"
        reading.tell("panel_types", index, told, "drop thickness, or correct one of them")
        return None
    _note_defaults(item, reading)
    return PanelType(
        id=item.id,
        skin_inner=inner,
        core=core,
        skin_outer=outer,
        max_width=item.max_width,
        max_length=item.max_length,
        spline=item.spline,
        spline_width=item.spline_width,
        edge_gap=item.edge_gap,
        core_material=item.core_material,
    )


def _note_defaults(item: PanelTypeFields, reading: Reading) -> None:
    given = item.model_fields_set
    assumed = [name.replace("_", " ") for name in _ASSUMED if name not in given]
    if not {"skins", "skin_inner", "skin_outer"} & given:
        assumed.insert(0, "skins {skin} thick")
    if assumed:
        told = f"Panel type {item.id}: common practice, no source, for {', '.join(assumed)}."
        reading.note(told, skin=SKIN)


def _roof_part(item: RoofFields, index: int, reading: Reading) -> RoofPart | None:
    outline = _roof_outline(item, index, reading)
    if outline is None:
        return None
    if item.kind != "hip" and len(outline.corners) != 4:
        told = f"a {item.kind} part needs an area of four corners, not {len(outline.corners)}"
        reading.tell("roof", index, told, "split the roof into rectangular parts")
        return None
    eaves = _sides(item.eaves, outline, index, "eaves", reading)
    if item.kind == "hip" and item.eaves is None:
        eaves = tuple(range(len(outline.corners)))
    wanted = _EAVES.get(item.kind)
    if wanted is not None and len(eaves) != wanted and len(eaves) == len(item.eaves or ()):
        told = f"a {item.kind} part has {wanted} eave{'s' if wanted > 1 else ''}, not {len(eaves)}"
        reading.tell("roof", index, told, "correct eaves", "eaves")
    elif wanted == 2 and len(eaves) == 2 and abs(eaves[0] - eaves[1]) != 2:
        reading.tell("roof", index, "the two eaves are not opposite", "correct eaves", "eaves")
    return RoofPart(
        id=item.id,
        kind=item.kind,
        area=outline.corners,
        eaves=eaves,
        pitch=item.pitch,
        panel_type=item.panel_type,
        second_pitch=item.second_pitch,
        break_run=item.break_run,
        eave_height=item.eave_height,
        eave_plate=item.eave_plate,
        overhang_eave=item.overhang_eave,
        overhang_rake=item.overhang_rake,
        open_end=_sides(item.open_ends, outline, index, "open_ends", reading),
        ridge_beam=_timber(item.ridge_beam),
        hip_beams=_timber(item.hip_beams),
        valley_beams=_timber(item.valley_beams),
        purlins=_spaced(item.purlins),
        rafters=_spaced(item.rafters),
        layout_from=item.layout_from,
    )


def _roof_outline(item: RoofFields, index: int, reading: Reading) -> Outline | None:
    own = any(given is not None for given in (item.corners, item.rectangle, item.walk))
    if item.over is not None and own:
        told = "the area is given both by over and by an outline"
        reading.tell("roof", index, told, "keep one of them")
        return None
    if item.over is None:
        tell = reading.teller("roof", index)
        outline = outline_of(item, reading.units, tell)
    else:
        outline = reading.outlines.get(("footprints", item.over))
    if outline is not None:
        reading.outlines["roof", item.id] = outline
    return outline


def _sides(
    words: tuple[str, ...] | None, outline: Outline, index: int, name: str, reading: Reading
) -> tuple[int, ...]:
    tell = reading.teller("roof", index, name)
    found = [side_index(outline, word, tell) for word in (() if words is None else words)]
    return tuple(side for side in found if side is not None)


def _dormer(item: DormerFields, index: int, reading: Reading) -> Dormer | None:
    outline = reading.outlines.get(("roof", item.part))
    if outline is None:
        return None
    eave = side_index(outline, item.eave, reading.teller("dormers", index, "eave"))
    if eave is None:
        return None
    return Dormer(
        id=item.id,
        part=item.part,
        eave=eave,
        along=item.along,
        back=item.back,
        width=item.width,
        eave_height=item.eave_height,
        kind=item.kind,
        pitch=item.pitch,
        panel_type=item.panel_type,
        wall_panel_type=item.wall_panel_type,
        overhang_eave=item.overhang_eave,
        overhang_rake=item.overhang_rake,
    )


def _timber(size: tuple[Fraction, Fraction] | None) -> TimberSize | None:
    return None if size is None else TimberSize(width=size[0], depth=size[1])


def _spaced(spaced: SpacedFields | None) -> Spaced | None:
    if spaced is None:
        return None
    size = TimberSize(width=spaced.size[0], depth=spaced.size[1])
    return Spaced(size=size, spacing=spaced.spacing)
