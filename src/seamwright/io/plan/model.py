"""The plan file as a whole, and its published JSON Schema."""

from __future__ import annotations

from typing import Annotated, Any, Literal, Self

from pydantic import Discriminator, Field, Tag, model_validator

from seamwright.io.catalog_model import CatalogFields
from seamwright.io.fields import Date, Fields, PlainWord, Size, Words, Yes, published, refuse
from seamwright.io.plan.model_days import DaysFields
from seamwright.io.plan.model_parts import (
    InnerWallFields,
    OpeningFields,
    PanelFields,
    PenetrationFields,
    SupportFields,
    TimberFields,
)
from seamwright.io.plan.model_shell import (
    BaseFields,
    DormerFields,
    End,
    FootprintFields,
    PanelTypeFields,
    RoofFields,
    SiteFields,
    StoreyFields,
    WallFields,
)
from seamwright.joints.types import JointKind
from seamwright.units import INCH, LengthUnit

FaceField = Annotated[Literal["inner", "outer", "both"], PlainWord]
KindField = Annotated[JointKind, PlainWord]


def _told_as(value: object) -> str:
    return "file" if isinstance(value, str) else "listed"


class LayoutFields(Fields):
    """How the lead wants the panels laid out. No sliver narrower than `min_width`."""

    corners: Annotated[Literal["start_through", "end_through", "alternate"], PlainWord] = (
        "start_through"
    )
    layout_from: End = "start"
    break_at_openings: Yes = False
    min_width: Size = 12 * INCH


class DecisionFields(Fields):
    """A signed decision: which face carries the air seal, for which joint kinds or joints."""

    face: FaceField
    signed_by: Words
    role: Words
    date: Date
    kinds: tuple[KindField, ...] = ()
    joints: tuple[Words, ...] = ()
    note: Words = ""


class OverrideFields(Fields):
    """A correction to one joint, with its reason."""

    joint: Words
    reason: Words
    kind: KindField | None = None
    face: FaceField | None = None
    strip_width: Size | None = None
    span: Size | None = None
    ignore: Yes = False

    @model_validator(mode="after")
    def _changes_something(self) -> Self:
        given = (self.kind, self.face, self.strip_width, self.span)
        if not self.ignore and all(value is None for value in given):
            raise refuse("nothing is corrected", "add kind, face, strip_width, span or ignore: yes")
        return self


class PlanFields(Fields):
    """A plan file. Lengths are text with a unit, or bare numbers once `units` is set."""

    units: Annotated[LengthUnit, PlainWord] | None = None
    site: SiteFields
    panel_types: Annotated[tuple[PanelTypeFields, ...], Field(min_length=1)]
    base: BaseFields | None = None
    storeys: tuple[StoreyFields, ...] = ()
    footprints: tuple[FootprintFields, ...] = ()
    walls: tuple[WallFields, ...] = ()
    roof: tuple[RoofFields, ...] = ()
    dormers: tuple[DormerFields, ...] = ()
    inner_walls: tuple[InnerWallFields, ...] = ()
    openings: tuple[OpeningFields, ...] = ()
    penetrations: tuple[PenetrationFields, ...] = ()
    timbers: tuple[TimberFields, ...] = ()
    panels: Annotated[
        Annotated[tuple[PanelFields, ...], Tag("listed")] | Annotated[Words, Tag("file")],
        Discriminator(_told_as),
    ] = ()
    supports: tuple[SupportFields, ...] = ()
    layout: LayoutFields = Field(default_factory=LayoutFields)
    decisions: tuple[DecisionFields, ...] = ()
    overrides: tuple[OverrideFields, ...] = ()
    days: DaysFields | None = None
    catalog: (
        Annotated[
            Annotated[CatalogFields, Tag("listed")] | Annotated[Words, Tag("file")],
            Discriminator(_told_as),
        ]
        | None
    ) = None


def plan_schema() -> dict[str, Any]:
    """Return the JSON Schema of the plan file (draft 2020-12)."""
    return published(PlanFields, "plan")
