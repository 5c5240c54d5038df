"""The guided form: a house told in a few fields, sizes in metres whatever units are shown."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import BaseModel, ConfigDict, Field

from seamwright.shell.types import OpeningKind, PenetrationKind, SplineKind

Metres: TypeAlias = Annotated[float, Field(allow_inf_nan=False, ge=-1e5, le=1e5)]
Words: TypeAlias = Annotated[str, Field(max_length=120)]
Name: TypeAlias = Annotated[str, Field(min_length=1, max_length=40)]
Point: TypeAlias = tuple[Metres, Metres]
Side: TypeAlias = Literal["south", "east", "north", "west"]


class FormPart(BaseModel):
    """A part of the form: words it does not know are refused."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class PanelForm(FormPart):
    """A panel type: overall thickness, both skins alike, the largest piece, and the spline."""

    thickness_m: Metres
    skin_m: Metres = 0.0111125
    max_width_m: Metres = 1.2192
    max_length_m: Metres = 7.3152
    spline: SplineKind = "surface"


class BaseForm(FormPart):
    """What the walls stand on."""

    kind: Literal["slab", "stem_wall", "floor_panels"] = "slab"
    thickness_m: Metres = 0.1016
    sill_m: Metres = 0.0381


class StoreyForm(FormPart):
    """A storey, its wall height on the outer face; the lowest needs no floor of its own."""

    height_m: Metres
    floor: Literal["platform", "hanging"] = "platform"
    floor_depth_m: Metres = 0.3016
    deck_m: Metres = 0.01905


class FootprintForm(FormPart):
    """An outline on the outer face of the walls, and how many storeys it rises from the lowest."""

    id: Name
    corners_m: Annotated[list[Point], Field(min_length=3, max_length=60)]
    storeys: Annotated[int, Field(ge=1, le=9)] | None = None


class BeamForm(FormPart):
    """A timber's section."""

    width_m: Metres
    depth_m: Metres


class RoofForm(FormPart):
    """One wing of the roof. `pitch_rise` is the rise for a run of one."""

    id: Name
    kind: Literal["gable", "hip", "shed", "gambrel", "saltbox"] = "gable"
    over: Name
    eaves: Annotated[list[Side], Field(max_length=4)] = []
    pitch_rise: Annotated[float, Field(allow_inf_nan=False, ge=0, le=10)]
    second_pitch_rise: Annotated[float, Field(allow_inf_nan=False, ge=0, le=10)] | None = None
    break_run_m: Metres | None = None
    eave_plate_m: Metres = 0.0
    overhang_eave_m: Metres = 0.0
    overhang_rake_m: Metres = 0.0
    ridge_beam: BeamForm | None = None


class OpeningForm(FormPart):
    """A rough opening in a wall (A, B, ... around the outline) or roof plane (R1 ...)."""

    id: Name
    kind: OpeningKind
    host: Name
    along_m: Metres
    up_m: Metres
    width_m: Metres
    height_m: Metres


class ServiceForm(FormPart):
    """A round service through the shell, placed by its middle."""

    id: Name
    kind: PenetrationKind = "pipe"
    host: Name
    along_m: Metres
    up_m: Metres
    diameter_m: Metres


class HouseForm(FormPart):
    """A house as the guided form tells it; `units` are those the plan will be written in."""

    units: Literal["us", "metric"] = "us"
    name: Annotated[str, Field(min_length=1, max_length=80)]
    place: Words = ""
    latitude_deg: Annotated[float, Field(ge=-90, le=90, allow_inf_nan=False)] | None = None
    longitude_deg: Annotated[float, Field(ge=-180, le=180, allow_inf_nan=False)] | None = None
    climate_zone: Words = ""
    zone_edition: Words = ""
    wall_panel: PanelForm
    roof_panel: PanelForm
    base: BaseForm = BaseForm()
    storeys: Annotated[list[StoreyForm], Field(min_length=1, max_length=9)]
    footprints: Annotated[list[FootprintForm], Field(min_length=1, max_length=20)]
    roof: Annotated[list[RoofForm], Field(max_length=20)] = []
    openings: Annotated[list[OpeningForm], Field(max_length=200)] = []
    services: Annotated[list[ServiceForm], Field(max_length=200)] = []
