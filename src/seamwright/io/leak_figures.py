"""Read a file of one's own limits and leak figures, which go before those carried with the program.

Each carries its source, so that a forecast can say on what it stands.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import Field, ValidationError

from seamwright.errors import InputError, Problem
from seamwright.io.explain import explain, nearest, problem_at
from seamwright.io.fields import Fields, PlainWord, Words, number_field
from seamwright.io.yaml_text import read_yaml
from seamwright.leakage.prior_rows import LeakRow
from seamwright.leakage.priors import DEFAULT_TABLE, LeakTable
from seamwright.leakage.targets import LIMITS, Limit

_CM2 = 1e-4
_Area = Annotated[float, number_field(0.0, 500.0, "leakage area in cm²")]
_SEALS: Mapping[str, str] = {"line": "line_seals", "piece": "piece_seals", "node": "node_seals"}


class LimitFields(Fields):
    """A limit at 50 Pa: air changes in 1/h (`ach50`) or m³/(h·m²) of shell (`q50`)."""

    edition: Words
    measure: Annotated[Literal["ach50", "q50"], PlainWord] = "ach50"
    limit: Annotated[float, number_field(0.01, 100.0, "limit at 50 Pa")]
    zones: tuple[Annotated[int, Field(ge=0, le=8)], ...] = ()
    condition: Words | None = None
    source: Words


class LeakFields(Fields):
    """Effective leakage area at 4 Pa in cm² per metre or each, of a bare `kind` or of a `seal`."""

    kind: Words | None = None
    seal: Words | None = None
    of: Annotated[Literal["line", "piece", "node"], PlainWord] = "line"
    careful: _Area
    ordinary: _Area
    careless: _Area
    source: Words


class FigureFields(Fields):
    """A file of limits and leak figures."""

    targets: tuple[LimitFields, ...] = ()
    leaks: tuple[LeakFields, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Figures:
    """Limits, one's own first, and the leak table with one's own rows in it."""

    limits: tuple[Limit, ...] = LIMITS
    table: LeakTable = DEFAULT_TABLE


def read_figures(path_or_text: Path | str, *, name: str | None = None) -> Figures:
    """Return the limits and the leak table with the file's rows put before or into them.

    Raises
    ------
    FormatError
        When the file is missing, too large, binary, empty or not YAML.
    InputError
        With every wrong value, its line and a remedy.
    """
    yaml = read_yaml(path_or_text, what="figures", name=name)
    if not isinstance(yaml.tree, dict):
        told = "the figures are a list or a single word, not sections with names"
        raise InputError([problem_at(yaml, (), told, "start with targets: or leaks:")])
    try:
        fields = FigureFields.model_validate(yaml.tree)
    except ValidationError as error:
        raise InputError(explain(error, yaml, FigureFields)) from None
    problems: list[Problem] = []
    table = DEFAULT_TABLE
    for i, item in enumerate(fields.leaks):
        fault = _fault(item, table)
        if fault is None:
            table = _with_row(table, item)
        else:
            problems.append(problem_at(yaml, ("leaks", i), *fault))
    if problems:
        raise InputError(problems)
    return Figures(limits=(*_limits(fields.targets), *LIMITS), table=table)


def _limits(items: Sequence[LimitFields]) -> tuple[Limit, ...]:
    return tuple(
        Limit(
            rule=item.edition,
            editions=(item.edition,),
            zones=item.zones,
            measure=item.measure,
            limit=item.limit,
            source=item.source,
            mark="seen",
            condition="" if item.condition is None else item.condition,
        )
        for item in items
    )


def _fault(item: LeakFields, table: LeakTable) -> tuple[str, str] | None:
    """Return what is wrong with a row and what to do, None when it is sound."""
    if (item.kind is None) == (item.seal is None):
        return "a row is of one kind or of one seal", "write kind: ridge, or seal: strip_inner"
    if not item.careful <= item.ordinary <= item.careless:
        return "careful work leaks more than worse work here", "order careful, ordinary, careless"
    seals = getattr(table, _SEALS[item.of])
    known = {*table.bare_lines, *table.bare_pieces} if item.kind is not None else set(seals)
    word = _word(item)
    return None if word in known else (f"there is no row ‘{word[:40]}’", nearest(word, known))


def _with_row(table: LeakTable, item: LeakFields) -> LeakTable:
    """Return the table with one row's areas and source replaced."""
    word = _word(item)
    if item.seal is not None:
        group = _SEALS[item.of]
    else:
        group = "bare_lines" if word in table.bare_lines else "bare_pieces"
    rows: dict[str, LeakRow] = dict(getattr(table, group))
    rows[word] = replace(
        rows[word],
        careful=item.careful * _CM2,
        ordinary=item.ordinary * _CM2,
        careless=item.careless * _CM2,
        source=item.source,
    )
    changed: dict[str, Any] = {group: rows}
    return replace(table, **changed)


def _word(item: LeakFields) -> str:
    name = item.seal if item.kind is None else item.kind
    return str(name).strip().lower().replace(" ", "_")
