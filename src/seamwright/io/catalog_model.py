"""What a user writes about the shelf: strips, sealants, foams, beads, laps, reserves, rates."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field

from seamwright.io.fields import (
    Count,
    Depth,
    Duration,
    Fields,
    Id,
    Money,
    Packs,
    PlainWord,
    Rate,
    Share,
    Size,
    Volume,
    Words,
    published,
)
from seamwright.joints.types import JointKind
from seamwright.seals.types import Stage
from seamwright.shell.types import PenetrationKind, SplineKind
from seamwright.units import LengthUnit

LandKey = Literal[JointKind, "*"]
On = Literal["concrete", "deck", "timber", "bare", PenetrationKind]


class StripFields(Fields):
    """A strip sold in rolls."""

    id: Id
    width: Size
    roll_length: Size
    per_carton: Packs = 1
    source: Words | None = None
    price: Money | None = None


class SealantFields(Fields):
    """A sealant in cartridges or sausages; `volume` as on the label."""

    id: Id
    pack: Annotated[Literal["cartridge", "sausage"], PlainWord]
    volume: Volume
    per_carton: Packs = 1
    source: Words | None = None
    price: Money | None = None


class FoamFields(Fields):
    """A foam can; `volume` is the void it fills, free rise less loss."""

    id: Id
    volume: Volume
    per_carton: Packs = 1
    source: Words | None = None
    price: Money | None = None


class BeadFields(Fields):
    """Beads of one joint kind; `spline` and `on` narrow it."""

    kind: Annotated[JointKind, PlainWord]
    count: Count
    place: Words
    diameter: Size | None = None
    spline: Annotated[SplineKind, PlainWord] | None = None
    on: Annotated[On, PlainWord] | None = None
    stage: Annotated[Stage, PlainWord] = "at_setting"
    source: Words | None = None


class LapsFields(Fields):
    """Laps and allowances; `land` by joint kind, ``*`` for all others."""

    land: dict[LandKey, Size] | None = None
    closed_seam: Depth | None = None
    placement: Depth | None = None
    placement_overhead: Depth | None = None
    handling: Depth | None = None
    end_lap: Depth | None = None
    end_lap_ridge: Depth | None = None
    node_patch: Size | None = None
    fold: Depth | None = None
    source: Words | None = None


class ReserveFields(Fields):
    """What is ordered beyond the need, as a share."""

    strip: Share | None = None
    sealant: Share | None = None
    foam: Share | None = None


class RatesFields(Fields):
    """How fast this crew works, and its wage per hour."""

    strip: Rate | None = None
    strip_overhead: Rate | None = None
    bead: Rate | None = None
    node: Duration | None = None
    wage_per_hour: Money | None = None
    currency: Words | None = None


class CatalogFields(Fields):
    """A catalog file. What is not given keeps its common-practice default."""

    units: Annotated[LengthUnit, PlainWord] | None = None
    source: Words | None = None
    strips: Annotated[tuple[StripFields, ...], Field(min_length=1)] | None = None
    sealants: Annotated[tuple[SealantFields, ...], Field(min_length=1)] | None = None
    foams: Annotated[tuple[FoamFields, ...], Field(min_length=1)] | None = None
    beads: tuple[BeadFields, ...] | None = None
    laps: LapsFields | None = None
    reserve: ReserveFields | None = None
    rates: RatesFields | None = None


def catalog_schema() -> dict[str, Any]:
    """Return the JSON Schema of the catalog file (draft 2020-12)."""
    return published(CatalogFields, "catalog")
