"""``seamwright fan``: a fan test from its readings to a verdict."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Annotated, Literal, TypeAlias

import typer

from seamwright.cli.fan_files import Manner, write_fan_files
from seamwright.cli.fan_house import House, flow_limit, house_of, target_of
from seamwright.cli.infiltration_year import after_a_test
from seamwright.cli.options import Day, Json, PanelTypes, Paper, Units, day_of
from seamwright.cli.say import say, say_json, show_table
from seamwright.cli.stage import stage
from seamwright.cli.status import ATTENTION, DONE
from seamwright.errors import InputError, Problem, SeamwrightError
from seamwright.io.fan_examples import builtin_fan_test, builtin_fan_test_names
from seamwright.io.fan_json import fan_document
from seamwright.io.fan_readings import FanFile, read_fan_test
from seamwright.io.forecast_json import tightness_document
from seamwright.io.leak_figures import read_figures
from seamwright.leakage.fan import analyze_fan_test
from seamwright.leakage.targets import LIMITS
from seamwright.leakage.types import Accuracy, FanResult, Method, Target
from seamwright.report.fan_cautions import FAN_CAUTIONS
from seamwright.report.fan_sheet import meaning_tables
from seamwright.report.fan_tables import (
    FanSheet,
    broken_rules,
    house_table,
    laws_table,
    result_table,
    rules_table,
)
from seamwright.report.fan_words import METHODS, verdict_line

_METHODS: dict[str, Method] = {
    "iso-9972": "iso_9972",
    "astm-e779": "astm_e779",
    "astm-e1827": "astm_e1827",
}
TestFile: TypeAlias = Annotated[
    Path,
    typer.Argument(
        metavar="FILE",
        help="A .csv of readings, columns as in the docs, or the built-in heron_house_fan_test.",
        show_default=False,
    ),
]
PlanOption: TypeAlias = Annotated[
    str | None,
    typer.Option(
        "--plan", metavar="PLAN", help="Measure volume and area on this house's shell.",
        show_default=False,
    ),
]  # fmt: skip
Volume: TypeAlias = Annotated[
    str | None,
    typer.Option("--volume", metavar="SIZE", help='Such as "17817 ft3".', show_default=False),
]
Area: TypeAlias = Annotated[
    str | None,
    typer.Option("--area", metavar="SIZE", help='Such as "4588 ft2".', show_default=False),
]
Rule: TypeAlias = Annotated[
    str | None,
    typer.Option(
        "--rule", metavar="TEXT", help="How --volume and --area were measured.", show_default=False
    ),
]
Goal: TypeAlias = Annotated[
    str | None,
    typer.Option(
        "--target", metavar="LIMIT or EDITION", help='Such as "3 ACH50".', show_default=False
    ),
]
Zone: TypeAlias = Annotated[
    str | None,
    typer.Option("--zone", metavar="ZONE", help="Climate zone; default: the plan's.",
                 show_default=False),
]  # fmt: skip
Edition: TypeAlias = Annotated[
    str | None,
    typer.Option("--edition", metavar="NAME", help='Such as "IECC 2021".', show_default=False),
]
FiguresFile: TypeAlias = Annotated[
    Path | None,
    typer.Option("--figures", metavar="FILE", show_default=False,
                 help="Your own limits by edition, with their sources, as for the forecast."),
]  # fmt: skip
Standard: TypeAlias = Annotated[
    Literal["iso-9972", "astm-e779", "astm-e1827"],
    typer.Option("--standard", help="Whose rules; E1827 is for one or two pressures."),
]
Out: TypeAlias = Annotated[
    Path | None,
    typer.Option("--out", help="Write test sheet, chart and data here.", show_default=False),
]


def run(
    file: TestFile,
    *,
    plan: PlanOption = None,
    volume: Volume = None,
    area: Area = None,
    rule: Rule = None,
    target: Goal = None,
    zone: Zone = None,
    edition: Edition = None,
    figures: FiguresFile = None,
    standard: Standard = "iso-9972",
    out: Out = None,
    units: Units = "us",
    paper: Paper = "letter",
    date: Day = None,
    types: PanelTypes = None,
    as_json: Json = False,
) -> None:
    """Work out a fan test: tightness, rules of the standard, verdict."""
    stage("1 of 3: reading the test")
    test = _read(file)
    house = house_of(test.envelope, plan=plan, types=types, volume=volume, area=area, rule=rule)
    limits = LIMITS if figures is None else read_figures(figures).limits
    goal = target_of(house, target=target, zone=zone, edition=edition, table=limits)
    stage("2 of 3: working the test out")
    result = _analyzed(file, test, house, method=_METHODS[standard], target=goal)
    meaning, missing = after_a_test(result, house)
    sheet = _sheet(file.stem, test, house, result)
    sheet = replace(sheet, meaning=meaning, notes=(*sheet.notes, *((missing,) if missing else ())))
    data = fan_document(
        result,
        conditions=test.conditions,
        envelope=house.envelope,
        texts=test.texts,
        notes=sheet.notes,
    ) | ({} if meaning is None else tightness_document(meaning))
    title = test.texts.get("house", file.stem)
    stage()
    if as_json:
        say_json(data)
    else:
        _show(sheet, units, title)
    if out is not None:
        stage("3 of 3: printing the sheet")
        heading = f"{title}: {METHODS[result.method]}"
        limit = flow_limit(goal, house.envelope)
        manner = Manner(units=units, paper=paper, date=day_of(date), title=heading, limit=limit)
        for made in write_fan_files(sheet, data, out, manner):
            if not as_json:
                say(f"  {made.path}  {made.what}")
        stage()
    raise typer.Exit(_status(result))


def _read(file: Path) -> FanFile:
    """Return the test in a file or, where no file is, the built-in test of that name."""
    if not file.exists() and str(file) in builtin_fan_test_names():
        return read_fan_test(builtin_fan_test(str(file)), name=str(file))
    return read_fan_test(file)


def _analyzed(
    file: Path, test: FanFile, house: House, *, method: Method, target: Target | None
) -> FanResult:
    """Return the result; readings that no standard can use are told as problems of the file."""
    known = test.accuracy if test.accuracy != Accuracy() else None
    try:
        return analyze_fan_test(
            test.series,
            test.conditions,
            house.envelope,
            method=method,
            target=target,
            devices=test.devices,
            accuracy=known,
        )
    except InputError:
        raise
    except SeamwrightError as error:
        problem = Problem(subject="fan test", sentence=str(error), remedy="", file=str(file))
        raise InputError([problem]) from error


def _sheet(name: str, test: FanFile, house: House, result: FanResult) -> FanSheet:
    texts = {"house": name, **test.texts}
    facts = tuple((word.capitalize(), value) for word, value in texts.items())
    notes = (*test.notes, *(f"{note.rstrip('.')}." for note in house.notes))
    return FanSheet(
        result=result,
        series=test.series,
        conditions=test.conditions,
        envelope=house.envelope,
        facts=facts,
        notes=notes,
    )


def _show(sheet: FanSheet, units: Units, title: str) -> None:
    result = sheet.result
    say(f"{title}: fan test by {METHODS[result.method]}")
    say()
    say(verdict_line(result))
    for where, check in broken_rules(result):
        word = "LOOK " if check.required else "note "
        say(f"{word} {where}: {check.rule}: {check.measured}, limit {check.limit}")
    say()
    show_table(result_table(result), units)
    show_table(laws_table(result), units)
    show_table(rules_table(result), units)
    show_table(house_table(sheet), units)
    for table in () if sheet.meaning is None else meaning_tables(sheet.meaning):
        show_table(table, units)
    for note in sheet.notes:
        say(f"note  {note}")
    say("Before the next test:")
    for text in FAN_CAUTIONS:
        say(f"  {text}")


def _status(result: FanResult) -> int:
    """Return 0 when the rules hold and the target, if there is one, is met."""
    checks = [c for one in result.series for c in one.checks] + list(result.checks)
    sound = all(check.holds for check in checks if check.required)
    return DONE if sound and result.outcome in {None, "passes"} else ATTENTION
