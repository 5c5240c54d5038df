"""What a user writes about the shell itself: site, panel types, storeys, outlines, roof."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from seamwright.io.fields import (
    CrossSection,
    Depth,
    Fields,
    Id,
    Latitude,
    Length,
    Longitude,
    PlainWord,
    Point2,
    Size,
    Slope,
    Words,
    refuse,
)
from seamwright.shell.types import SplineKind
from seamwright.units import INCH

CORNERS_AT_MOST = 200

End = Annotated[Literal["start", "end"], PlainWord]
Corner = Annotated[Literal["through", "butts"], PlainWord]

Corners = Annotated[tuple[Point2, ...], Field(min_length=3, max_length=CORNERS_AT_MOST)]
Walk = Annotated[tuple[Words, ...], Field(min_length=2, max_length=CORNERS_AT_MOST)]


class SiteFields(Fields):
    """Where the house stands."""

    name: Words
    place: Words | None = None
    latitude: Latitude | None = None
    longitude: Longitude | None = None
    elevation: Length = Fraction(0)
    climate_zone: Words | None = None
    zone_edition: Words | None = None
    county: Words | None = None
    state: Words | None = None
    station: Words | None = None
    weather: Words | None = None


class PanelTypeFields(Fields):
    """One kind of panel. Give `core`, or `thickness` of the whole panel, or both if they agree.

    Defaults (skins 7/16 in, largest size 4 ft × 24 ft, surface spline 3 in across, gap 1/8 in, EPS
    core) are common practice, no source.
    """

    id: Id
    core: Size | None = None
    thickness: Size | None = None
    skins: Size | None = None
    skin_inner: Size | None = None
    skin_outer: Size | None = None
    max_width: Size = 48 * INCH
    max_length: Size = 288 * INCH
    spline: Annotated[SplineKind, PlainWord] = "surface"
    spline_width: Size = 3 * INCH
    edge_gap: Depth = INCH / 8
    core_material: Words = "EPS"

    @model_validator(mode="after")
    def _layers_agree(self) -> Self:
        if self.core is None and self.thickness is None:
            raise refuse("neither core nor thickness is given", 'add core: 5-5/8"')
        if self.skins is not None and not {self.skin_inner, self.skin_outer} <= {None}:
            raise refuse("skins is given beside skin_inner or skin_outer", "keep one of them")
        return self


class BaseFields(Fields):
    """What the lowest walls stand on; `top` is the elevation of the face that bears them."""

    kind: Annotated[Literal["slab", "stem_wall", "floor_panels"], PlainWord]
    top: Length = Fraction(0)
    thickness: Size = 4 * INCH
    sill: Depth = Fraction(0)
    panel_type: Id | None = None

    @model_validator(mode="after")
    def _floor_panels_have_a_type(self) -> Self:
        if self.kind == "floor_panels" and self.panel_type is None:
            raise refuse(
                "floor panels have no panel type", "add panel_type: with a panel type's id"
            )
        return self


class StoreyFields(Fields):
    """One storey; `height` is the wall's, on its outer face from bearing to plate."""

    id: Id
    height: Size
    panel_type: Id
    floor: Annotated[Literal["base", "platform", "hanging"], PlainWord] = "base"
    floor_depth: Depth = Fraction(0)
    deck: Depth = Fraction(0)


class OutlineFields(Fields):
    """A closed outline in plan, told in one of three ways."""

    corners: (
        Annotated[tuple[Point2, ...], Field(min_length=3, max_length=CORNERS_AT_MOST)] | None
    ) = None
    rectangle: tuple[Point2, Point2] | None = None
    walk: Annotated[tuple[Words, ...], Field(min_length=2, max_length=CORNERS_AT_MOST)] | None = (
        None
    )
    start: Point2 | None = None


class FootprintFields(OutlineFields):
    """An outline on the outer face of the walls, and the storeys it rises (all when not said)."""

    id: Id
    storeys: Annotated[tuple[Id, ...], Field(min_length=1)] | None = None


class WallFields(Fields):
    """What is fixed for one wall (its letter, with the storey's number from the second up)."""

    wall: Id
    panel_type: Id | None = None
    start_corner: Corner | None = None
    end_corner: Corner | None = None
    layout_from: End | None = None
    widths: Annotated[tuple[Size, ...], Field(min_length=1, max_length=500)] | None = None


class SpacedFields(Fields):
    """Timbers of one size at a regular spacing."""

    size: CrossSection
    spacing: Size


class RoofFields(OutlineFields):
    """One wing of the roof. `over` names a footprint whose outline it covers."""

    id: Id
    kind: Annotated[Literal["gable", "hip", "shed", "gambrel", "saltbox"], PlainWord]
    over: Id | None = None
    eaves: Annotated[tuple[Words, ...], Field(min_length=1)] | None = None
    pitch: Slope
    panel_type: Id
    second_pitch: Slope | None = None
    break_run: Size | None = None
    eave_height: Length | None = None
    eave_plate: Depth = Fraction(0)
    overhang_eave: Depth = Fraction(0)
    overhang_rake: Depth = Fraction(0)
    open_ends: tuple[Words, ...] = ()
    ridge_beam: CrossSection | None = None
    hip_beams: CrossSection | None = None
    valley_beams: CrossSection | None = None
    purlins: SpacedFields | None = None
    rafters: SpacedFields | None = None
    layout_from: End | None = None

    @model_validator(mode="after")
    def _kind_has_its_pitches(self) -> Self:
        if self.kind in {"gambrel", "saltbox"} and self.second_pitch is None:
            raise refuse(f"a {self.kind} roof has two pitches", "add second_pitch: 4/12")
        if self.kind == "gambrel" and self.break_run is None:
            raise refuse("a gambrel roof breaks its slope", "add break_run: 6'")
        if self.kind != "hip" and self.eaves is None:
            remedy = "add eaves: [south, north]"
            raise refuse(f"a {self.kind} roof does not say on which sides its eaves are", remedy)
        return self


class DormerFields(Fields):
    """A dormer on the roof part `part`, above the eave on the side `eave`."""

    id: Id
    part: Id
    eave: Words
    along: Depth
    back: Depth
    width: Size
    eave_height: Length
    kind: Annotated[Literal["gable", "shed"], PlainWord]
    pitch: Slope
    panel_type: Id
    wall_panel_type: Id
    overhang_eave: Depth = Fraction(0)
    overhang_rake: Depth = Fraction(0)
