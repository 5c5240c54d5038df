"""Read a product's own limits, from its data sheet, over those of common practice."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Annotated, Literal

from pydantic import PlainValidator, ValidationError, WithJsonSchema

from seamwright.errors import InputError
from seamwright.io.explain import explain, problem_at
from seamwright.io.fields import Fields, Id, PlainWord, Words, Yes, number_field, refuse
from seamwright.io.yaml_text import read_yaml
from seamwright.schedule.tape_limits import PRODUCTS
from seamwright.schedule.tape_types import PrimerRule, ProductKind, TapeProduct
from seamwright.units.weather import format_difference, parse_share, parse_temperature

NOT_STATED = "user's product file, source not stated"

_LIKE: dict[str, str] = {"strip": "acrylic", "sealant": "sealant", "foam": "foam"}


def _read(
    parse: Callable[[str], float], low: float, high: float, what: str
) -> Callable[[object], float]:
    def read(value: object) -> float:
        if not isinstance(value, str):
            raise refuse(f"no {what} stands here", f"write a {what} with its unit")
        try:
            number = parse(value)
        except InputError as error:
            problem = error.problems[0]
            raise refuse(problem.sentence, problem.remedy) from None
        if not low <= number <= high:
            raise refuse(f"‘{value[:30]}’ is no {what} for a seal", "check the value and its unit")
        return number

    return read


def _parse_difference(text: str) -> float:
    """Return a difference of temperatures such as ``3 C`` or ``5 F``. [K]"""
    if text.strip().upper().endswith("F"):
        return (parse_temperature(text) - parse_temperature("0 F")) + 0.0
    return parse_temperature(text)


_TEXT = WithJsonSchema({"type": "string"})
_Temperature = Annotated[
    float, PlainValidator(_read(parse_temperature, -60.0, 120.0, "temperature")), _TEXT
]
_Difference = Annotated[
    float, PlainValidator(_read(_parse_difference, 0.0, 20.0, "difference of temperatures")), _TEXT
]
_Share = Annotated[float, PlainValidator(_read(parse_share, 0.0, 1.0, "share")), _TEXT]
_Days = Annotated[float, number_field(0, 3650, "number of days")]
_Hours = Annotated[float, number_field(0, 2400, "number of hours")]


class ProductFields(Fields):
    """The limits of one product. What is not given comes from the product named by `like`."""

    id: Id
    title: Words | None = None
    kind: Annotated[ProductKind, PlainWord] = "strip"
    like: Annotated[Literal["acrylic", "butyl", "bitumen", "sealant", "foam"], PlainWord] | None = (
        None
    )
    surface_min: _Temperature | None = None
    surface_max: _Temperature | None = None
    air_min: _Temperature | None = None
    air_max: _Temperature | None = None
    dew_margin: _Difference | None = None
    humidity_caution: _Share | None = None
    board_hold: _Share | None = None
    board_stop: _Share | None = None
    primer: Annotated[PrimerRule, PlainWord] | None = None
    primer_below: _Temperature | None = None
    sun_caution: _Days | None = None
    sun_stop: _Days | None = None
    dry_hours: _Hours | None = None
    cure_hours: _Hours | None = None
    wet_ok: Yes | None = None
    source: Words | None = None


def read_product(path_or_text: Path | str | bytes, *, name: str | None = None) -> TapeProduct:
    """Return a product from its file; each limit carries the file's source or its default's own.

    Raises
    ------
    FormatError
        When the file is missing, empty or not YAML.
    InputError
        With every wrong value, its line and a remedy.
    """
    yaml = read_yaml(path_or_text, what="product", name=name)
    if not isinstance(yaml.tree, dict):
        told = "the product is a list or a single word, not limits with names"
        raise InputError([problem_at(yaml, (), told, "start with id: and surface_min:")])
    try:
        fields = ProductFields.model_validate(yaml.tree)
    except ValidationError as error:
        raise InputError(explain(error, yaml, ProductFields)) from None
    product = product_from(fields)
    problems = [
        problem_at(yaml, (least,), told, "check both values and their units")
        for least, told in _crossed(product)
    ]
    if problems:
        raise InputError(problems)
    return product


def product_from(fields: ProductFields) -> TapeProduct:
    """Return checked product fields laid over the defaults of a product like it."""
    base = PRODUCTS[_LIKE[fields.kind] if fields.like is None else fields.like]
    own = {
        word: value
        for word, value in fields.model_dump(exclude={"id", "title", "like", "source"}).items()
        if value is not None and (word != "kind" or fields.like is None)
    }
    source = NOT_STATED if fields.source is None else fields.source
    defaults = {word: base.source_of(word) for word in ProductFields.model_fields}
    return replace(
        base,
        **own,
        id=fields.id,
        title=fields.id if fields.title is None else fields.title,
        source=source,
        sources={**defaults, **dict.fromkeys(own, source)},
    )


def _crossed(product: TapeProduct) -> list[tuple[str, str]]:
    """Return the limits that leave nothing between them."""
    found = []
    for what in ("surface", "air"):
        least, most = getattr(product, f"{what}_min"), getattr(product, f"{what}_max")
        if least is not None and most is not None and least >= most:
            gap = format_difference(least - most, "metric")
            told = f"it lies {gap} above {what}_max, which leaves no temperature to work in"
            found.append((f"{what}_min", told))
    if product.board_hold > product.board_stop:
        found.append(("board_hold", "it is above board_stop"))
    return found
