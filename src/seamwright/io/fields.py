"""The kinds of value a user writes in a plan or a catalog, each read with a sentence when wrong.

Every reader takes text as written. A validation context ``{"units": "ft"}`` gives bare numbers
their unit. Wrong values raise a pydantic error of type ``told`` whose context carries the
`sentence` and the `remedy`; `seamwright.io.explain` turns it into a `Problem`.
"""

from __future__ import annotations

import datetime as dt
import math
import re
from collections.abc import Callable
from fractions import Fraction
from typing import Annotated, Any, TypeAlias

from pydantic import BaseModel, BeforeValidator, ConfigDict, PlainValidator, WithJsonSchema
from pydantic_core import PydanticCustomError
from pydantic_core.core_schema import ValidationInfo

from seamwright.errors import InputError
from seamwright.io.direction import DIRECTION_EXAMPLE, Direction, parse_direction
from seamwright.units import (
    DURATION_EXAMPLE,
    LENGTH_EXAMPLE,
    RATE_EXAMPLE,
    VOLUME_EXAMPLE,
    LengthUnit,
    format_length,
    parse_angle,
    parse_duration,
    parse_length,
    parse_rate,
    parse_volume,
)

LONGEST = Fraction(1000)
"""No single size of a house is longer; a longer one is a slip of units. [m]"""

_FRACTION = re.compile(r"-?[0-9]+(?:/[0-9]+)?")
_ID = re.compile(r"\w[\w.\-]{0,39}")


class Fields(BaseModel):
    """A group of fields: unknown words are errors, nothing changes after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)


def published(model: type[BaseModel], name: str) -> dict[str, Any]:
    """Return a model's JSON Schema (draft 2020-12); default lengths read as a user writes them."""
    schema = model.model_json_schema(by_alias=True)
    for group in (schema, *schema.get("$defs", {}).values()):
        for field in group.get("properties", {}).values():
            default = field.get("default")
            if isinstance(default, str) and _FRACTION.fullmatch(default) is not None:
                field["default"] = format_length(Fraction(default), "us", 64)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": f"urn:seamwright:{name}:1",
        **schema,
        "title": f"Seamwright {name}",
    }


def refuse(sentence: str, remedy: str) -> PydanticCustomError:
    """Return the error to raise for a wrong value."""
    return PydanticCustomError("told", "{sentence}", {"sentence": sentence, "remedy": remedy})


def _text(value: object, what: str, example: str) -> str:
    if isinstance(value, bool) or not isinstance(value, str | int | float | Fraction):
        is_ = "nothing" if value is None else "a group" if isinstance(value, dict) else "a list"
        is_ = "true or false" if isinstance(value, bool) else is_
        raise refuse(f"{is_} stands where a {what} belongs", f"write a {what} such as {example}")
    return str(value)


def _told(error: InputError) -> PydanticCustomError:
    return refuse(error.problems[0].sentence, error.problems[0].remedy)


def _read_length(value: object, info: ValidationInfo) -> Fraction:
    units: LengthUnit | None = None if info.context is None else info.context.get("units")
    text = _text(value, "length", LENGTH_EXAMPLE)
    try:
        length = parse_length(text, units)
    except InputError as error:
        raise _told(error) from None
    if abs(length) > 10 * LONGEST:
        raise refuse(f"‘{text}’ is more than 10 km", "check the unit")
    return length


def _read_size(value: object, info: ValidationInfo) -> Fraction:
    length = _read_length(value, info)
    if length <= 0:
        raise refuse(f"‘{value}’ is not more than zero", "give the size as built")
    return _within(length, value)


def _read_depth(value: object, info: ValidationInfo) -> Fraction:
    length = _read_length(value, info)
    if length < 0:
        raise refuse(f"‘{value}’ is negative", "give zero or more")
    return _within(length, value)


def _within(length: Fraction, value: object) -> Fraction:
    if length > LONGEST:
        raise refuse(f"‘{value}’ is more than {LONGEST} m", "check the unit")
    return length


def _read_slope(value: object) -> Fraction:
    text = _text(value, "slope", "8/12 or 33.7 deg")
    try:
        slope = parse_angle(text)
    except InputError as error:
        raise _told(error) from None
    if not Fraction(1, 100) <= slope <= 10:
        raise refuse(f"‘{text}’ is not a roof slope", "give a pitch from 1/8 in 12 to 120 in 12")
    return slope


def _read_with(
    parse: Callable[[str], Fraction], what: str, example: str
) -> Callable[[object], Fraction]:
    def read(value: object) -> Fraction:
        text = _text(value, what, example)
        try:
            number = parse(text)
        except InputError as error:
            raise _told(error) from None
        if number <= 0:
            raise refuse(f"‘{text}’ is not more than zero", f"write the {what} as {example}")
        return number

    return read


def _read_cross_section(value: object, info: ValidationInfo) -> tuple[Fraction, Fraction]:
    text = _text(value, "timber size", '5-1/2" x 18" (width x depth)')
    parts = re.split(r"\s*[x×X]\s*", text.strip())
    if len(parts) != 2:
        remedy = 'write width x depth, such as 5-1/2" x 18"'
        raise refuse(f"‘{text}’ cannot be read as a timber size", remedy)
    return _read_size(parts[0], info), _read_size(parts[1], info)


def _read_direction(value: object) -> Direction:
    text = " ".join(str(part) for part in value) if isinstance(value, list) else value
    try:
        return parse_direction(_text(text, "direction", DIRECTION_EXAMPLE))
    except InputError as error:
        raise _told(error) from None


def _read_id(value: object) -> str:
    text = _text(value, "name", "W3")
    if _ID.fullmatch(text) is None:
        remedy = "use up to 40 letters, digits, dots, dashes and underscores, as in W3"
        raise refuse(f"‘{text[:40]}’ cannot serve as an id", remedy)
    return text


def _read_words(value: object) -> str:
    return _text(value, "text", "a word or a sentence")


def _read_date(value: object) -> str:
    text = _text(value, "date", "2026-03-14").strip()
    try:
        dt.date.fromisoformat(text)
    except ValueError:
        raise refuse(
            f"‘{text[:40]}’ is not a date", "write it as year-month-day, as in 2026-03-14"
        ) from None
    return text


def _read_yes(value: object) -> bool:
    if isinstance(value, bool):
        return value
    text = _text(value, "yes or no", "yes").strip().lower()
    known = {"yes": True, "true": True, "on": True, "no": False, "false": False, "off": False}
    if text not in known:
        raise refuse(f"‘{text[:40]}’ is neither yes nor no", "write yes or no")
    return known[text]


def _read_number(low: float, high: float, what: str, *, percent: bool) -> Callable[[object], float]:
    def read(value: object) -> float:
        text = _text(value, what, f"{high:g}").strip()
        share = 100.0 if percent and text.endswith("%") else 1.0
        try:
            number = float(text.removesuffix("%") if percent else text) / share
        except ValueError:
            number = math.nan
        if math.isnan(number):
            raise refuse(f"‘{text[:40]}’ is not a number", f"give a {what} as a plain number")
        if not low <= number <= high:
            limits = f"from {low:g} to {high:g}"
            raise refuse(f"‘{text[:40]}’ is outside the range {limits}", f"give a {what} {limits}")
        return number

    return read


def _read_count(least: int) -> Callable[[object], int]:
    def read(value: object) -> int:
        text = _text(value, "count", "12").strip()
        if re.fullmatch(r"[0-9]{1,6}", text) is None or int(text) < least:
            told = f"‘{text[:40]}’ is not a whole number of at least {least}"
            raise refuse(told, "give a count such as 12")
        return int(text)

    return read


def _plain_word(value: object) -> object:
    return (
        value.strip().lower().replace(" ", "_").replace("-", "_")
        if isinstance(value, str)
        else value
    )


def number_field(low: float, high: float, what: str, *, percent: bool = False) -> PlainValidator:
    """Return the reader of a plain number between two limits; `what` names it in messages.

    With `percent` the number may be written ``8 %`` for 0.08.
    """
    return PlainValidator(_read_number(low, high, what, percent=percent))


def number_schema(low: float, high: float) -> WithJsonSchema:
    """Return the published schema of a number between two limits."""
    told = f"A number from {low:g} to {high:g}."
    return WithJsonSchema({"type": ["number", "string"], "description": told})


def _length_schema(told: str) -> WithJsonSchema:
    examples = ["24' 6-1/2\"", "7.5 m", "7500 mm"]
    return WithJsonSchema({"type": ["string", "number"], "description": told, "examples": examples})


def _text_schema(told: str, *examples: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "description": told, "examples": list(examples)})


Length: TypeAlias = Annotated[
    Fraction, PlainValidator(_read_length), _length_schema("A length of either sign.")
]
Size: TypeAlias = Annotated[
    Fraction, PlainValidator(_read_size), _length_schema("A length above zero.")
]
Depth: TypeAlias = Annotated[
    Fraction, PlainValidator(_read_depth), _length_schema("A length of zero or more.")
]
Slope: TypeAlias = Annotated[
    Fraction,
    PlainValidator(_read_slope),
    _text_schema("A pitch (rise/run) or degrees.", "8/12", "33.7 deg"),
]
Volume: TypeAlias = Annotated[
    Fraction,
    PlainValidator(_read_with(parse_volume, "volume", VOLUME_EXAMPLE)),
    _text_schema("A volume as on the label.", "600 ml", "20.3 fl oz"),
]
Rate: TypeAlias = Annotated[
    Fraction,
    PlainValidator(_read_with(parse_rate, "rate", RATE_EXAMPLE)),
    _text_schema("A length of work over a time.", "30 m/h", "100 ft/h"),
]
Duration: TypeAlias = Annotated[
    Fraction,
    PlainValidator(_read_with(parse_duration, "time", DURATION_EXAMPLE)),
    _text_schema("A time.", "6 min", "45 s"),
]
CrossSection: TypeAlias = Annotated[
    tuple[Fraction, Fraction],
    PlainValidator(_read_cross_section),
    _text_schema("Width x depth of a timber.", '5-1/2" x 18"', "140 mm x 450 mm"),
]
Heading: TypeAlias = Annotated[
    Direction,
    PlainValidator(_read_direction),
    WithJsonSchema(
        {
            "type": ["string", "array"],
            "items": {"type": "number"},
            "minItems": 3,
            "maxItems": 3,
            "description": "Three numbers, a compass word, a bearing, or one with a slope.",
            "examples": ["east", "up", "bearing 30", "north at 8/12", [1, 0, 0]],
        }
    ),
]
Id: TypeAlias = Annotated[
    str,
    PlainValidator(_read_id),
    WithJsonSchema({"type": ["string", "integer"], "description": "A short name, unique."}),
]
Words: TypeAlias = Annotated[
    str, PlainValidator(_read_words), WithJsonSchema({"type": ["string", "number"]})
]
Date: TypeAlias = Annotated[
    str, PlainValidator(_read_date), _text_schema("Year-month-day.", "2026-03-14")
]
Yes: TypeAlias = Annotated[
    bool, PlainValidator(_read_yes), WithJsonSchema({"type": ["boolean", "string"]})
]
Latitude: TypeAlias = Annotated[
    float, number_field(-90, 90, "latitude in degrees"), number_schema(-90, 90)
]
Longitude: TypeAlias = Annotated[
    float, number_field(-180, 180, "longitude in degrees"), number_schema(-180, 180)
]
Bevel: TypeAlias = Annotated[
    float, number_field(-89, 89, "bevel in degrees"), number_schema(-89, 89)
]
Share: TypeAlias = Annotated[
    float, number_field(0, 2, "share such as 8 %", percent=True), number_schema(0, 2)
]
Money: TypeAlias = Annotated[float, number_field(0, 1e9, "price"), number_schema(0, 1e9)]
Count: TypeAlias = Annotated[
    int,
    PlainValidator(_read_count(0)),
    WithJsonSchema({"type": ["integer", "string"], "minimum": 0}),
]
Packs: TypeAlias = Annotated[
    int,
    PlainValidator(_read_count(1)),
    WithJsonSchema({"type": ["integer", "string"], "minimum": 1}),
]
Point2: TypeAlias = tuple[Length, Length]
Point3: TypeAlias = tuple[Length, Length, Length]
PlainWord = BeforeValidator(_plain_word)
"""Lets a choice be written with capitals, spaces or dashes (``Stem wall`` for ``stem_wall``)."""
