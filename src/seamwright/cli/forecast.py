"""``seamwright forecast``: how tight the house will be, before anybody has tested it."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Annotated, TypeAlias

import typer

from seamwright.cli.forecast_target import parse_flow, parse_target, plan_target
from seamwright.cli.infiltration_year import over_a_year
from seamwright.cli.options import CatalogFile, FiguresFile, Json, PanelTypes, PlanName, Units
from seamwright.cli.say import cell_text, say, say_json, show_table
from seamwright.cli.source import Source, read_source, shelf
from seamwright.cli.stage import stage
from seamwright.cli.status import ATTENTION, DONE
from seamwright.errors import InputError, Problem
from seamwright.io.forecast_json import forecast_document, read_history, write_history
from seamwright.io.leak_figures import Figures, read_figures
from seamwright.io.records import Records, read_records
from seamwright.leakage.learn import HouseTest, learn, with_test, without_test
from seamwright.leakage.prior_rows import Workmanship
from seamwright.report.forecast_sheet import (
    answer,
    budget_table,
    day_table,
    driver_table,
    fresh_air_table,
    kind_table,
    place_table,
    result_table,
    work_table,
    year_tables,
)
from seamwright.report.house import SealedHouse
from seamwright.report.leak_places import leak_places
from seamwright.report.outlook import Outlook, look_ahead
from seamwright.workflow import seal_house

ENOUGH = 0.8
"""A chance to pass below this asks for attention: our own choice, four in five."""

TEST_ERROR = 0.05
"""Standard deviation of the logarithm of a measured flow at 50 Pa; 10 % at 95 % confidence for a
test by the standards in calm weather: `common practice, no source`."""

Work: TypeAlias = Annotated[
    Workmanship | None,
    typer.Option("--workmanship", show_default=False,
                 help="How the joints will be made; default: the records', else ordinary."),
]  # fmt: skip
RecordsFile: TypeAlias = Annotated[
    Path | None,
    typer.Option("--records", metavar="FILE", show_default=False,
                 help="Who made which joints, and how each crew works; as for the hunt."),
]  # fmt: skip
Goal: TypeAlias = Annotated[
    str | None,
    typer.Option(
        "--target",
        metavar="EDITION or LIMIT",
        help='Such as "IECC 2024", "1.5 ACH50", "2.5 m3/(h m2)" or "900 cfm50"; default: the '
        "edition and zone of the plan.",
        show_default=False,
    ),
]
HistoryFile: TypeAlias = Annotated[
    Path | None,
    typer.Option(
        "--history",
        metavar="FILE",
        help="Tests of finished houses to learn from; written by --measured and --forget.",
        show_default=False,
    ),
]
WeatherFile: TypeAlias = Annotated[
    Path | None,
    typer.Option(
        "--weather", metavar="FILE", show_default=False,
        help="Hours of weather (EPW, TMY3 or our CSV) for the year; default: the place's.",
    ),
]  # fmt: skip
Measured: TypeAlias = Annotated[
    str | None,
    typer.Option(
        "--measured",
        metavar="FLOW",
        help='The flow at 50 Pa this house was tested at ("640 cfm50"): kept in the history.',
        show_default=False,
    ),
]
TestName: TypeAlias = Annotated[
    str | None,
    typer.Option(
        "--as",
        metavar="ID",
        help="Name of the test kept; default: the project.",
        show_default=False,
    ),
]
Forget: TypeAlias = Annotated[
    str | None,
    typer.Option(
        "--forget", metavar="ID", help="Take a test out of the history.", show_default=False
    ),
]
Crew: TypeAlias = Annotated[
    str,
    typer.Option("--crew", metavar="NAME", help="Whose work it is where the records do not say.",
                 show_default=False),
]  # fmt: skip
Seed: TypeAlias = Annotated[int, typer.Option("--seed", min=0, help="Another set of draws.")]


def run(
    plan: PlanName,
    *,
    workmanship: Work = None,
    crew: Crew = "",
    records: RecordsFile = None,
    target: Goal = None,
    history: HistoryFile = None,
    measured: Measured = None,
    name: TestName = None,
    forget: Forget = None,
    seed: Seed = 1,
    figures: FiguresFile = None,
    weather: WeatherFile = None,
    units: Units = "us",
    catalog: CatalogFile = None,
    types: PanelTypes = None,
    as_json: Json = False,
) -> None:
    """Forecast the fan test, with its uncertainty and the chance to pass."""
    source = read_source(plan, types=types)
    site = source.plan.site
    own = Figures() if figures is None else read_figures(figures)
    if target is None:
        goal, note = plan_target(site.climate_zone, site.zone_edition, own.limits)
    else:
        goal, note = parse_target(target, site.climate_zone, own.limits), ""
    stage("1 of 3: finding the joints")
    with source.placed():
        house = seal_house(source.plan, shelf(source, catalog))
    stage("2 of 3: forecasting the fan test")
    known = _records(records, house)
    look = partial(
        look_ahead, house, crew=crew, crews=known.crews, made=known.made_by, table=own.table,
        workmanship=known.workmanship if workmanship is None else workmanship, seed=seed,
    )  # fmt: skip
    tests = _kept_tests(
        look,
        history=history,
        measured=measured,
        name=site.name if name is None else name,
        forget=forget,
    )
    learned = look(target=goal, knowledge=learn(tests, own.table.spreads))
    stage("3 of 3: following the air over a year")
    outlook, missing = over_a_year(learned, source, weather, table=own.table)
    stage()
    if as_json:
        say_json(forecast_document(outlook))
    else:
        _show(source, outlook, units, (note, missing))
    chance = outlook.forecast.chance
    low = chance is not None and chance < ENOUGH
    raise typer.Exit(ATTENTION if low or outlook.enclosure.warnings else DONE)


def _records(file: Path | None, house: SealedHouse) -> Records:
    """Return what the site wrote down, nothing where no file is named."""
    return Records(facts={}, diary=()) if file is None else read_records(file, leak_places(house))


def _kept_tests(
    look: Callable[[], Outlook],
    *,
    history: Path | None,
    measured: str | None,
    name: str,
    forget: str | None,
) -> tuple[HouseTest, ...]:
    """Return the history, changed and written as asked."""
    if history is None:
        if measured is not None or forget is not None:
            problem = Problem(
                subject="history",
                sentence="--measured and --forget change a history, and none is named",
                remedy="add --history FILE",
            )
            raise InputError([problem])
        return ()
    tests = read_history(history)
    if forget is not None:
        tests = without_test(tests, forget)
    if measured is not None:
        flow = parse_flow(measured)
        test = HouseTest(id=name, flow_50=flow, log_error=TEST_ERROR, anchor=look().forecast.anchor)
        tests = with_test(tests, test)
    if measured is not None or forget is not None:
        write_history(history, tests)
    return tests


def _show(source: Source, outlook: Outlook, units: Units, notes: tuple[str, ...]) -> None:
    result = outlook.forecast
    say(f"{source.plan.site.name}: forecast of the fan test")
    say()
    for text in (*answer(outlook), *(note for note in notes if note)):
        say(cell_text(text, units))
    say()
    for table in (
        result_table(result),
        work_table(outlook),
        *((budget_table(result),) if result.budget is not None else ()),
        kind_table(result),
        place_table(result),
        driver_table(result),
        day_table(outlook),
        *year_tables(outlook),
        fresh_air_table(outlook),
    ):
        show_table(table, units)
    if result.chance is not None and result.chance < ENOUGH:
        say(f"LOOK  The chance to pass is below {ENOUGH * 100:.0f} %: look at the work, the places "
            "expected to leak most, or the target.")  # fmt: skip
    say("A house this tight needs mechanical ventilation; have it designed and commissioned.")
