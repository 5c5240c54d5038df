"""What a user writes about materials and films of their own, from the data sheets of the job."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from itertools import pairwise
from typing import Annotated, Any, Literal

from pydantic import Field, PlainValidator, WithJsonSchema

from seamwright.io.fields import (
    Fields,
    Id,
    PlainWord,
    Size,
    Words,
    number_field,
    published,
    refuse,
)
from seamwright.moisture.films import STRIPS
from seamwright.moisture.transient.materials import HYGRO
from seamwright.report.joint_cut import PARTS

R_PER_INCH = 0.0254 / 0.17611
"""Conductivity of a board of R 1 per inch. [W/(m·K)]"""

_QUANTITY = re.compile(r"([-+]?[0-9.]+(?:[eE][-+]?[0-9]+)?)\s*(.*)")
_CONDUCTIVITY = {"W/mK": 1.0, "W/m.K": 1.0, "Btuin/hft2F": 0.1442279}
_DENSITY = {"kg/m3": 1.0, "lb/ft3": 16.018463, "pcf": 16.018463}
_HEAT = {"J/kgK": 1.0, "Btu/lbF": 4186.8}


def _plain_unit(unit: str) -> str:
    """Return a unit without spaces, brackets, degree signs and dots between factors."""
    return re.sub(r"[\s()·*°\-]", "", unit.replace("²", "2").replace("³", "3"))


def _quantity(
    what: str, units: Mapping[str, float], low: float, high: float, example: str
) -> Callable[[object], float]:
    known = {_plain_unit(unit).lower(): factor for unit, factor in units.items()}

    def read(value: object) -> float:
        text = value if isinstance(value, str) else ""
        found = _QUANTITY.fullmatch(text.strip())
        factor = None if found is None else known.get(_plain_unit(found[2]).lower())
        if found is None or factor is None:
            told = f"‘{text[:40]}’ is not a {what} with its unit"
            raise refuse(told, f"write it as {example}")
        number = float(found[1]) * factor
        if not low <= number <= high:
            told = f"{what} ‘{text[:40]}’ is outside {low:g} to {high:g} {next(iter(units))}"
            raise refuse(told, "check the unit on the data sheet")
        return number

    return read


def _read_points(value: object) -> tuple[tuple[float, float], ...]:
    """Return pairs of a relative humidity and a figure, humidities rising."""
    pairs = value if isinstance(value, list | tuple) else []
    points: list[tuple[float, float]] = []
    for pair in pairs:
        if not isinstance(pair, list | tuple) or len(pair) != 2:
            points = []
            break
        points.append((_share(pair[0]), _share(pair[1])))
    if not points:
        raise refuse("no points stand here", "write pairs such as [[30 %, 5 %], [65 %, 10 %]]")
    humidities = [humidity for humidity, _ in points]
    if not all(0.0 <= h <= 1.0 for h in humidities):
        raise refuse("a relative humidity is not within 0 to 100 %", "write it as 65 % or 0.65")
    if any(low >= high for low, high in pairwise(humidities)):
        raise refuse("the humidities of the points do not rise", "put the driest point first")
    return tuple(points)


def _share(value: object) -> float:
    text = str(value).strip()
    part = 100.0 if text.endswith("%") else 1.0
    try:
        return float(text.removesuffix("%")) / part
    except ValueError:
        raise refuse(f"‘{text[:40]}’ is not a number", "write a number such as 65 %") from None


def _number(what: str, low: float, high: float) -> PlainValidator:
    return number_field(low, high, what)


def _text(told: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "description": told})


def _read_uses(value: object) -> tuple[tuple[str, str], ...]:
    """Return parts of the house with the panel type, empty for all: ``skins of roof10``."""
    words = [value] if isinstance(value, str) else value if isinstance(value, list | tuple) else []
    found = []
    for word in words:
        part, _, build = str(word).strip().partition(" of ")
        part = part.strip().lower()
        if part not in PARTS or (build and part not in {"skins", "cores"}):
            told = f"‘{str(word)[:40]}’ is no part that can be of another material"
            raise refuse(told, f"write {', '.join(PARTS)}, or skins of and cores of a panel type")
        found.append((part, build.strip()))
    if not found:
        raise refuse("no part stands here", "write use: [skins] or use: [cores of wall6]")
    return tuple(found)


Conductivity = Annotated[
    float,
    PlainValidator(
        _quantity("conductivity", _CONDUCTIVITY, 0.005, 500.0, "0.13 W/(m K) or 0.9 Btu in/h ft2 F")
    ),
    _text("A conductivity with its unit."),
]
Density = Annotated[
    float,
    PlainValidator(_quantity("density", _DENSITY, 1.0, 12_000.0, "620 kg/m3 or 38.7 lb/ft3")),
    _text("A density with its unit."),
]
HeatCapacity = Annotated[
    float,
    PlainValidator(
        _quantity("heat capacity", _HEAT, 100.0, 5000.0, "1700 J/(kg K) or 0.4 Btu/(lb F)")
    ),
    _text("A heat capacity with its unit."),
]
Points = Annotated[
    tuple[tuple[float, float], ...],
    PlainValidator(_read_points),
    WithJsonSchema({"type": "array", "items": {"type": "array", "minItems": 2, "maxItems": 2}}),
]
VaporUnit = Annotated[Literal["mu", "perms", "perm_inch", "sd"], PlainWord]
Uses = Annotated[
    tuple[tuple[str, str], ...],
    PlainValidator(_read_uses),
    WithJsonSchema(
        {
            "type": ["array", "string"],
            "items": {"type": "string"},
            "description": "Where it is in the house, for dryness.",
            "examples": [["skins", "splines"], ["cores of wall6"]],
        }
    ),
]
FilmUse = Annotated[
    Literal["inner_strip", "outer_strip", "wall_cover", "roof_cover", "lining", "floor_finish"],
    PlainWord,
]
Like = Annotated[Literal[tuple(HYGRO)], PlainWord]  # type: ignore[valid-type]
StripLike = Annotated[Literal[tuple(STRIPS)], PlainWord]  # type: ignore[valid-type]


class VaporFields(Fields):
    """Resistance to vapor as the sheet has it: dry and wet cup, or points over humidity."""

    unit: VaporUnit = "mu"
    dry: Annotated[float, _number("dry-cup value", 1e-4, 1e7)] | None = None
    wet: Annotated[float, _number("wet-cup value", 1e-4, 1e7)] | None = None
    points: Points | None = None
    thickness: Size | None = None


class SorptionFields(Fields):
    """What the material holds over humidity, by mass or by volume, and when full [kg/m³]."""

    points: Points
    per: Annotated[Literal["mass", "volume"], PlainWord] = "mass"
    saturation: Annotated[float, _number("saturation in kg/m³", 0.1, 1000.0)] | None = None


class MaterialFields(Fields):
    """One material. What is not given comes from the built-in one named by `like`."""

    id: Id
    title: Words | None = None
    like: Like  # type: ignore[valid-type]
    density: Density | None = None
    heat_capacity: HeatCapacity | None = None
    conductivity: Conductivity | None = None
    r_per_inch: Annotated[float, _number("R per inch", 0.01, 20.0)] | None = None
    vapor: VaporFields | None = None
    sorption: SorptionFields | None = None
    absorption: Annotated[float, _number("water absorption in kg/(m²·s^0.5)", 0.0, 10.0)] | None = (
        None
    )
    use: Uses | None = None
    source: Words | None = None


class FilmFields(Fields):
    """One film, membrane or strip, by its permeance in US perms or its sd."""

    id: Id
    title: Words | None = None
    perms: Annotated[float, _number("permeance in US perms", 1e-4, 1e3)] | None = None
    sd: Size | None = None
    use: Annotated[tuple[FilmUse, ...], Field(min_length=1)] | None = None
    source: Words | None = None


class MaterialsFields(Fields):
    """A materials file."""

    source: Words | None = None
    materials: Annotated[tuple[MaterialFields, ...], Field(min_length=1)] | None = None
    films: Annotated[tuple[FilmFields, ...], Field(min_length=1)] | None = None


def materials_schema() -> dict[str, Any]:
    """Return the JSON Schema of the materials file (draft 2020-12)."""
    return published(MaterialsFields, "materials")
