"""What a user writes about the parts that meet the shell: openings, services, timbers, panels."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from seamwright.io.fields import (
    Bevel,
    CrossSection,
    Depth,
    Fields,
    Heading,
    Id,
    Length,
    PlainWord,
    Point2,
    Point3,
    Size,
    Yes,
    refuse,
)
from seamwright.io.plan.model_shell import OutlineFields
from seamwright.shell.types import MemberKind, OpeningKind, PanelRole, PenetrationKind


class InnerWallFields(Fields):
    """A wall inside the shell: plan line on its middle."""

    id: Id
    storey: Id
    start: Point2
    end: Point2
    thickness: Size
    bearing: Yes = False

    @model_validator(mode="after")
    def _has_length(self) -> Self:
        if self.start == self.end:
            raise refuse("start and end are the same point", "move one of them")
        return self


class OpeningFields(Fields):
    """A rough opening in the wall, roof plane or panel named by `in`."""

    id: Id
    kind: Annotated[OpeningKind, PlainWord]
    host: Id = Field(alias="in")
    along: Depth
    up: Depth
    width: Size
    height: Size


class PenetrationFields(Fields):
    """A service through the wall, roof plane or panel named by `in`; round or square."""

    id: Id
    kind: Annotated[PenetrationKind, PlainWord]
    host: Id = Field(alias="in")
    along: Depth
    up: Depth
    diameter: Size | None = None
    width: Size | None = None
    height: Size | None = None

    @model_validator(mode="after")
    def _has_one_shape(self) -> Self:
        sides = (self.width is not None, self.height is not None)
        if self.diameter is None and sides != (True, True):
            raise refuse("no size is given", 'add diameter: 4", or width: and height:')
        if self.diameter is not None and any(sides):
            raise refuse("a diameter and a width or height are given", "keep one shape")
        return self


class TimberFields(Fields):
    """A timber of its own, told along the middle of its top face."""

    id: Id
    kind: Annotated[MemberKind, PlainWord]
    start: Point3
    end: Point3
    size: CrossSection

    @model_validator(mode="after")
    def _has_length(self) -> Self:
        if self.start == self.end:
            raise refuse("start and end are the same point", "move one of them")
        return self


class PanelFields(Fields):
    """A panel placed by hand: inner face, lower start corner, directions, size or outline."""

    id: Id
    type: Id
    role: Annotated[PanelRole, PlainWord]
    origin: Point3
    along: Heading
    up: Heading
    length: Size | None = None
    height: Size | None = None
    outline: Annotated[tuple[Point2, ...], Field(min_length=3, max_length=200)] | None = None
    outer_outline: Annotated[tuple[Point2, ...], Field(min_length=3, max_length=200)] | None = None
    bevels: tuple[Bevel, ...] | None = None
    storey: Id | None = None
    plane: Id | None = None
    lay_out: Yes = False

    @model_validator(mode="after")
    def _has_one_shape(self) -> Self:
        sides = (self.length is not None, self.height is not None)
        if self.outline is None and sides != (True, True):
            raise refuse("no size is given", "add length: and height:, or outline:")
        if self.outline is not None and any(sides):
            raise refuse("an outline and a length or height are given", "keep one of them")
        if self.outer_outline is not None and self.bevels is not None:
            raise refuse("an outer outline and bevels are given", "keep one of them")
        if self.outer_outline is not None and len(self.outer_outline) != len(self.outline or ()):
            raise refuse("outline and outer_outline differ in points", "give one for each")
        return self


class SupportFields(OutlineFields):
    """A level face that hand-placed panels stand on."""

    id: Id
    kind: Annotated[Literal["slab", "stem_wall", "deck"], PlainWord]
    top: Length
    thickness: Size
