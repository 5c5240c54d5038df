"""Read a plan file: YAML, then form, then names and outlines, then exact records."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import cast, get_args

from pydantic import ValidationError

from seamwright.errors import InputError, Problem
from seamwright.io.catalog import catalog_from
from seamwright.io.explain import NOUNS, explain, problem_at, subject_of
from seamwright.io.panel_list import read_panel_list
from seamwright.io.plan import convert_parts as parts
from seamwright.io.plan import convert_shell as shell
from seamwright.io.plan.convert_days import days_from
from seamwright.io.plan.model import PlanFields
from seamwright.io.plan.place import PlanFile
from seamwright.io.plan.plausible import check_plausible
from seamwright.io.plan.reading import Reading
from seamwright.io.plan.references import check_hosts, check_names
from seamwright.io.yaml_text import YamlText, read_yaml
from seamwright.schedule.types import DaysGiven
from seamwright.shell.levels import letters, wall_id
from seamwright.shell.plan import Footprint, GivenPanel, Plan, Storey
from seamwright.units import LengthUnit

MOST_PROBLEMS = 40
"""Problems shown at once; more would bury the first one."""


def read_plan(path_or_text: Path | str | bytes, *, name: str | None = None) -> PlanFile:
    """Return the plan a user wrote, exactly, with the line of each of its parts.

    Parameters
    ----------
    path_or_text : Path, str or bytes
        A path, or the text itself (a string with a line break, or bytes).
    name : str or None
        The file name to use in messages; the path when not given.

    Raises
    ------
    FormatError
        When the file is missing, too large, binary, empty or not YAML.
    InputError
        With every problem found: first of form; once that is sound, of names and outlines.
    """
    yaml = read_yaml(path_or_text, what="plan", name=name)
    folder = _folder(path_or_text)
    fields = _fields(yaml)
    reading = Reading(yaml=yaml, units=fields.units)
    check_names(fields, reading)
    plan = _plan(fields, reading, folder)
    _check_whole(plan, reading)
    if reading.problems:
        raise InputError(_in_order(reading.problems))
    named = isinstance(fields.catalog, str)
    inline = None if fields.catalog is None or isinstance(fields.catalog, str) else fields.catalog
    return PlanFile(
        plan=plan,
        lines=_lines(yaml, plan.footprints, plan.storeys),
        file=yaml.file,
        catalog_path=str(folder / str(fields.catalog)) if named else None,
        catalog=None if inline is None else catalog_from(inline),
        notes=tuple(reading.notes),
        days=DaysGiven() if fields.days is None else days_from(fields.days),
    )


def _fields(yaml: YamlText) -> PlanFields:
    if not isinstance(yaml.tree, dict):
        told = "the plan is a list or a single word, not sections with names"
        remedy = "start with site: and panel_types:, as the built-in houses do"
        raise InputError([problem_at(yaml, (), told, remedy)])
    units = yaml.tree.get("units")
    known = units in get_args(LengthUnit)
    context = {"units": cast("LengthUnit", units) if known else None}
    try:
        return PlanFields.model_validate(yaml.tree, context=context)
    except ValidationError as error:
        raise InputError(_in_order(explain(error, yaml, PlanFields))) from None


def _plan(fields: PlanFields, reading: Reading, folder: Path) -> Plan:
    footprints = shell.footprints_of(fields, reading)
    storeys = shell.storeys_of(fields, reading)
    roof = shell.roof_of(fields, reading)
    panels = (*parts.panels_of(fields, reading), *_listed_panels(fields, reading, folder))
    given = {name for panel in panels for name in (panel.id, panel.plane) if name is not None}
    if panels or not isinstance(fields.panels, str):  # a list that cannot be read names no host
        check_hosts(fields, footprints, storeys, sorted(given), reading)
    panel_types = shell.panel_types_of(fields, reading)
    check_plausible(fields, panel_types, footprints, reading)
    return Plan(
        site=shell.site_of(fields),
        panel_types=panel_types,
        base=shell.base_of(fields),
        storeys=storeys,
        footprints=footprints,
        wall_rules=shell.wall_rules_of(fields),
        roof=roof,
        dormers=shell.dormers_of(fields, reading),
        inner_walls=parts.inner_walls_of(fields),
        openings=parts.openings_of(fields),
        penetrations=parts.penetrations_of(fields),
        timbers=parts.timbers_of(fields),
        panels=panels,
        supports=parts.supports_of(fields, reading),
        preferences=parts.preferences_of(fields),
        decisions=parts.decisions_of(fields),
        overrides=parts.overrides_of(fields),
    )


def _listed_panels(fields: PlanFields, reading: Reading, folder: Path) -> tuple[GivenPanel, ...]:
    if not isinstance(fields.panels, str):
        return ()
    try:
        panels = read_panel_list(folder / fields.panels, default_unit=fields.units)
    except InputError as error:
        reading.problems.extend(error.problems)
        return ()
    types = {item.id for item in fields.panel_types}
    for missing in sorted({panel.panel_type for panel in panels} - types):
        told = f"the panel list names the panel type ‘{missing}’, which the plan does not have"
        remedy = "add it to panel_types, or correct the list"
        reading.problems.append(problem_at(reading.yaml, ("panels",), told, remedy))
    return panels


def _check_whole(plan: Plan, reading: Reading) -> None:
    def tell(section: str, sentence: str, remedy: str) -> None:
        reading.problems.append(problem_at(reading.yaml, (section,), sentence, remedy))

    if reading.problems:
        return
    if not plan.footprints and not plan.panels:
        remedy = "add footprints: for the tool to lay out panels, or panels: one by one"
        tell("the plan", "there is nothing to build", remedy)
    if plan.footprints and not plan.storeys:
        tell("footprints", "there are footprints but no storeys", "add storeys: with a wall height")
    if plan.footprints and plan.base is None:
        tell("footprints", "there are footprints but no base", "add base: with kind: slab")
    if plan.roof and not plan.footprints:
        tell("roof", "there is a roof without footprints", "add footprints:")


def _in_order(problems: Iterable[Problem]) -> list[Problem]:
    ordered = sorted(problems, key=lambda problem: (problem.line or 0, problem.column or 0))
    left = len(ordered) - MOST_PROBLEMS
    if left <= 0:
        return ordered
    told = f"{left} more problems are not shown"
    more = Problem(subject="the file", sentence=told, remedy="correct the ones above first")
    return [*ordered[:MOST_PROBLEMS], more]


def _lines(
    yaml: YamlText, footprints: tuple[Footprint, ...], storeys: tuple[Storey, ...]
) -> dict[str, int]:
    lines: dict[str, int] = {}
    for path, place in yaml.places.items():
        short = len(path) == 1 or (len(path) == 2 and isinstance(path[1], int))
        if short and (len(path) == 1 or path[0] in NOUNS):
            lines.setdefault(subject_of(yaml.tree, path), place.line)
    number = 0
    for index, footprint in enumerate(footprints):
        place_of = yaml.place(("footprints", index))
        for _ in footprint.corners:
            for level in range(len(storeys)):
                if place_of is not None:
                    lines.setdefault(f"wall {wall_id(letters(number), level)}", place_of.line)
            number += 1
    return lines


def _folder(source: Path | str | bytes) -> Path:
    is_path = isinstance(source, Path) or (isinstance(source, str) and "\n" not in source)
    return Path(str(source)).parent if is_path else Path()
