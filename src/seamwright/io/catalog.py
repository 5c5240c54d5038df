"""Read a catalog file: the user's shelf, laps, reserves and rates over the default ones."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import cast, get_args

from pydantic import ValidationError

from seamwright.errors import InputError, Problem
from seamwright.io.catalog_model import CatalogFields, LapsFields, RatesFields
from seamwright.io.explain import explain, problem_at
from seamwright.io.yaml_text import YamlText, read_yaml
from seamwright.seals.catalog import default_catalog
from seamwright.seals.types import (
    BeadRule,
    Catalog,
    FoamStock,
    Laps,
    Rates,
    SealantStock,
    StripStock,
)
from seamwright.units import LengthUnit

SECONDS_PER_HOUR = 3600
NOT_STATED = "user's catalog, source not stated"


def read_catalog(path_or_text: Path | str | bytes, *, name: str | None = None) -> Catalog:
    """Return the catalog of a file over the default one.

    `strips`, `sealants` and `foams` each replace the whole default shelf of their kind; `beads`
    replace the default rules of the joint kinds they name; laps, reserves and rates change one by
    one. A string with a line break, or bytes, is the text itself.

    Raises
    ------
    FormatError
        When the file is missing, too large, binary, empty or not YAML.
    InputError
        With every wrong value, its line and a remedy.
    """
    yaml = read_yaml(path_or_text, what="catalog", name=name)
    if not isinstance(yaml.tree, dict):
        told = "the catalog is a list or a single word, not sections with names"
        raise InputError([problem_at(yaml, (), told, "start with strips: or laps:")])
    units = yaml.tree.get("units")
    context = {"units": cast("LengthUnit", units) if units in get_args(LengthUnit) else None}
    try:
        fields = CatalogFields.model_validate(yaml.tree, context=context)
    except ValidationError as error:
        raise InputError(explain(error, yaml, CatalogFields)) from None
    problems = _used_twice(fields, yaml)
    if problems:
        raise InputError(problems)
    return catalog_from(fields)


def catalog_from(fields: CatalogFields) -> Catalog:
    """Return checked catalog fields laid over the default catalog."""
    base = default_catalog()
    source = NOT_STATED if fields.source is None else fields.source
    reserve = fields.reserve
    return replace(
        base,
        strips=base.strips if fields.strips is None else _strips(fields, source),
        sealants=base.sealants if fields.sealants is None else _sealants(fields, source),
        foams=base.foams if fields.foams is None else _foams(fields, source),
        beads=_beads(fields, base, source),
        laps=base.laps if fields.laps is None else _laps(fields.laps, base.laps, source),
        reserve_strip=_kept(None if reserve is None else reserve.strip, base.reserve_strip),
        reserve_sealant=_kept(None if reserve is None else reserve.sealant, base.reserve_sealant),
        reserve_foam=_kept(None if reserve is None else reserve.foam, base.reserve_foam),
        rates=base.rates if fields.rates is None else _rates(fields.rates, base.rates),
        source=source,
    )


def _strips(fields: CatalogFields, source: str) -> tuple[StripStock, ...]:
    return tuple(
        StripStock(
            id=item.id,
            width=float(item.width),
            roll_length=float(item.roll_length),
            per_carton=item.per_carton,
            source=source if item.source is None else item.source,
            price=item.price,
        )
        for item in (() if fields.strips is None else fields.strips)
    )


def _sealants(fields: CatalogFields, source: str) -> tuple[SealantStock, ...]:
    return tuple(
        SealantStock(
            id=item.id,
            pack=item.pack,
            volume=float(item.volume),
            per_carton=item.per_carton,
            source=source if item.source is None else item.source,
            price=item.price,
        )
        for item in (() if fields.sealants is None else fields.sealants)
    )


def _foams(fields: CatalogFields, source: str) -> tuple[FoamStock, ...]:
    return tuple(
        FoamStock(
            id=item.id,
            volume=float(item.volume),
            per_carton=item.per_carton,
            source=source if item.source is None else item.source,
            price=item.price,
        )
        for item in (() if fields.foams is None else fields.foams)
    )


def _beads(fields: CatalogFields, base: Catalog, source: str) -> tuple[BeadRule, ...]:
    own = () if fields.beads is None else fields.beads
    named = {rule.kind for rule in own}
    kept = tuple(rule for rule in base.beads if rule.kind not in named)
    given = tuple(
        BeadRule(
            kind=rule.kind,
            spline=rule.spline,
            count=rule.count,
            place=rule.place,
            diameter=_metres(rule.diameter),
            source=source if rule.source is None else rule.source,
            on=rule.on,
            stage=rule.stage,
        )
        for rule in own
    )
    return kept + given


def _laps(fields: LapsFields, base: Laps, source: str) -> Laps:
    own = {} if fields.land is None else fields.land
    land: dict[str, float] = {kind: float(lap) for kind, lap in own.items()}
    return Laps(
        land={**base.land, **land},
        closed_seam=_length(fields.closed_seam, base.closed_seam),
        placement=_length(fields.placement, base.placement),
        placement_overhead=_length(fields.placement_overhead, base.placement_overhead),
        handling=_length(fields.handling, base.handling),
        end_lap=_length(fields.end_lap, base.end_lap),
        end_lap_ridge=_length(fields.end_lap_ridge, base.end_lap_ridge),
        node_patch=_length(fields.node_patch, base.node_patch),
        fold=_length(fields.fold, base.fold),
        source=source if fields.source is None else fields.source,
    )


def _rates(fields: RatesFields, base: Rates) -> Rates:
    return Rates(
        strip=_metres(fields.strip),
        strip_overhead=_metres(fields.strip_overhead),
        bead=_metres(fields.bead),
        node=None if fields.node is None else float(1 / fields.node),
        wage=None if fields.wage_per_hour is None else fields.wage_per_hour / SECONDS_PER_HOUR,
        currency=base.currency if fields.currency is None else fields.currency,
    )


def _kept(value: float | None, default: float) -> float:
    return default if value is None else value


def _length(value: Fraction | None, default: float) -> float:
    return default if value is None else float(value)


def _metres(value: Fraction | None) -> float | None:
    return None if value is None else float(value)


def _used_twice(fields: CatalogFields, yaml: YamlText) -> list[Problem]:
    found: list[Problem] = []
    seen: set[str] = set()
    for section in ("strips", "sealants", "foams"):
        items = getattr(fields, section)
        for i, item in enumerate(() if items is None else items):
            if item.id in seen:
                told = f"the id ‘{item.id}’ is used before"
                found.append(problem_at(yaml, (section, i, "id"), told, "give each its own id"))
            seen.add(item.id)
    return found
