"""What the site writes down: who made what, how it was sealed, and a diary of tests and looks."""

from __future__ import annotations

import re
from typing import Annotated, Any, Literal, TypeAlias

from pydantic import BeforeValidator, Field, PlainValidator, WithJsonSchema

from seamwright.io.fan_units import to_si, unit_named
from seamwright.io.fields import (
    Date,
    Duration,
    Fields,
    PlainWord,
    Words,
    Yes,
    number_field,
    published,
    refuse,
)

_FLOW = re.compile(r"([0-9][0-9,]*(?:\.[0-9]+)?)\s*([^\d\s.,].*)")
_FLOW_REMEDY = "write it as 640 m3/h, 375 cfm or 178 l/s, at 50 Pa"


def _read_flow(value: object) -> float:
    """Return a flow as written. [m³/s]"""
    text = str(value).strip()
    found = _FLOW.fullmatch(text)
    if found is None:
        raise refuse(f"‘{text[:40]}’ cannot be read as a flow", _FLOW_REMEDY)
    unit = unit_named(found[2].lower().removesuffix("50"), "flow")
    if unit is None:
        raise refuse(f"‘{found[2][:20]}’ is not a unit of flow", _FLOW_REMEDY)
    flow = to_si(float(found[1].replace(",", "")), "flow", unit)
    if not 1e-4 <= flow <= 100.0:
        raise refuse(f"‘{text[:40]}’ is no house's leakage", "check the unit")
    return flow


def _read_sight(value: object) -> int | None:
    """Return 0 for nothing, 1 to 5 for a strength, None for something nobody rated."""
    text = str(value).strip().lower()
    if text in {"nothing", "something"}:
        return 0 if text == "nothing" else None
    if text in {"1", "2", "3", "4", "5"}:
        return int(text)
    remedy = "write nothing, something, or a strength from 1 (a whisper) to 5 (a gale)"
    raise refuse(f"‘{text[:40]}’ says not what was seen", remedy)


def _as_list(value: object) -> object:
    return [value] if isinstance(value, str) else value


Flow: TypeAlias = Annotated[
    float,
    PlainValidator(_read_flow),
    WithJsonSchema({"type": "string", "examples": ["640 m3/h", "375 cfm"]}),
]
Sight: TypeAlias = Annotated[
    int | None,
    PlainValidator(_read_sight),
    WithJsonSchema({"enum": ["nothing", "something", 1, 2, 3, 4, 5]}),
]
Names: TypeAlias = Annotated[tuple[Words, ...], BeforeValidator(_as_list), Field(min_length=1)]


class CrewFields(Fields):
    """A crew: its `name`, how it works where that differs from the rest, and what it made."""

    name: Words
    work: Annotated[Literal["careful", "ordinary", "careless"], PlainWord] | None = None
    made: Names | None = None
    note: Words | None = None


class SealFields(Fields):
    """How places were sealed: `at` is an id, a kind, or a list of them; what is known of it."""

    at: Names
    sealed: Yes | None = None
    checked: Yes | None = None
    photo: Yes | None = None
    taped: Annotated[Literal["good", "cold", "wet", "dusty"], PlainWord] | None = None
    crew: Words | None = None
    note: Words | None = None


class LogFields(Fields):
    """One entry of the diary: a `test`, a `look` or a `mend`, with what belongs to it."""

    test: Words | None = None
    look: Words | None = None
    mend: Words | None = None
    day: Date | None = None
    note: Words | None = None
    flow: Flow | None = None
    low: Flow | None = None
    high: Flow | None = None
    readings: Words | None = None
    masked: Names | None = None
    unsealed: Names | None = None
    by: Annotated[Literal["smoke", "infrared", "hand"], PlainWord] | None = None
    saw: Sight = None
    pressure: Annotated[float, number_field(5.0, 120.0, "pressure in Pa")] = 50.0


class WorkFields(Fields):
    """What a `task` of the plan of days `took` without breaks, and how many `people` of which
    `crew` were at it.
    """

    task: Words
    took: Duration
    people: Annotated[int, Field(ge=1, le=50)]
    crew: Words | None = None
    day: Date | None = None
    note: Words | None = None


class RecordsFields(Fields):
    """A records file."""

    house: Words | None = None
    workmanship: Annotated[Literal["careful", "ordinary", "careless"], PlainWord] = "ordinary"
    target: Flow | None = None
    crews: tuple[CrewFields, ...] = ()
    seals: tuple[SealFields, ...] = ()
    log: tuple[LogFields, ...] = ()
    work: tuple[WorkFields, ...] = ()


def records_schema() -> dict[str, Any]:
    """Return the JSON Schema of the records file (draft 2020-12)."""
    return published(RecordsFields, "records")
