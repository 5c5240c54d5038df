"""``seamwright hunt``: where to look for the leak next."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Annotated, TypeAlias

import typer

from seamwright.cli.hunt_files import Manner, write_hunt_files
from seamwright.cli.hunt_input import Given, Known, gather
from seamwright.cli.inventory import Made
from seamwright.cli.options import (
    CatalogFile,
    Day,
    Json,
    PanelTypes,
    Paper,
    PlanName,
    Units,
    day_of,
)
from seamwright.cli.say import cell_text, say, say_json, show_table
from seamwright.cli.source import read_source, shelf
from seamwright.cli.stage import stage
from seamwright.cli.status import ATTENTION, DONE
from seamwright.io.hunt_json import hunt_document
from seamwright.leakage.hunt import hunt
from seamwright.leakage.hunt_story import tell
from seamwright.leakage.hunt_types import Hunt, Method
from seamwright.leakage.rank import Advice, Aim, Choice, StopRule, advise, rank
from seamwright.leakage.rounds import standing_at, walk
from seamwright.report.hunt_sheet import (
    SMOKE,
    advice_sentence,
    first_line,
    house_table,
    hunt_sheet,
    neighbors,
    place_words,
    rank_table,
)
from seamwright.report.types import Quantity
from seamwright.workflow import seal_house

OFF = "Turn off and tag every fuel-burning appliance before the fan runs; see docs/hunt.md."

RecordsFile: TypeAlias = Annotated[
    Path | None,
    typer.Option("--records", metavar="FILE", show_default=False,
                 help="What the site wrote down: crews, seals, tests, looks, mends; see the docs."),
]  # fmt: skip
HistoryFile: TypeAlias = Annotated[
    Path | None,
    typer.Option("--history", metavar="FILE", show_default=False,
                 help="Tests of finished houses to start from, as seamwright forecast keeps them."),
]  # fmt: skip
FiguresFile: TypeAlias = Annotated[
    Path | None,
    typer.Option("--figures", metavar="FILE", show_default=False,
                 help="Your own leak figures by kind or seal, as for the forecast."),
]  # fmt: skip
DrynessFile: TypeAlias = Annotated[
    Path | None,
    typer.Option("--dryness", metavar="FILE", show_default=False,
                 help="What each joint tolerates (JSON), for --aim consequence; see the docs."),
]  # fmt: skip


def run(
    plan: PlanName,
    *,
    records: RecordsFile = None,
    history: HistoryFile = None,
    crew: Annotated[
        str, typer.Option("--crew", metavar="NAME", show_default=False,
                          help="Whose work it is where the records do not say.")
    ] = "",
    dryness: DrynessFile = None,
    figures: FiguresFile = None,
    top: Annotated[int, typer.Option("--top", min=1, help="How many places to list.")] = 20,
    by: Annotated[Method, typer.Option("--by", help="How you will search.")] = "smoke",
    aim: Annotated[
        Aim, typer.Option("--aim", help="Order by leak, by what it does to wood, or by defects.")
    ] = "leak",
    out: Annotated[
        Path | None,
        typer.Option("--out", help="Write sheet, charts and data here.", show_default=False),
    ] = None,
    paper: Paper = "letter",
    date: Day = None,
    units: Units = "us",
    catalog: CatalogFile = None,
    types: PanelTypes = None,
    as_json: Json = False,
) -> None:  # fmt: skip
    """Say where to look for the leak next, and when to stop."""
    source = read_source(plan, types=types)
    stage("1 of 4: finding the joints")
    with source.placed():
        house = seal_house(source.plan, shelf(source, catalog))
    given = Given(records=records, history=history, crew=crew, dryness=dryness, figures=figures)
    stage("2 of 4: weighing what is known")
    known = gather(house, given, aim)
    found = hunt(
        known.start.priors, known.diary, known.start.model, method=by, margins=known.margins
    )
    stage("3 of 4: putting the places in order")
    near = neighbors(house.register)
    rounds = walk(rank(found, aim=aim), near, at=standing_at(known.diary))
    choices = tuple(choice for some in rounds for choice in some)
    advice = advise(found, choices, StopRule(target=known.target))
    _, *around = rounds[0]
    data = hunt_document(found, choices, advice, top=top, around=around, notes=known.notes)
    stage()
    if as_json:
        say_json(data)
    else:
        say(f"{source.plan.site.name}: leak hunt")
        say()
        _show(found, (choices[0], *around), advice, known, units)
        show_table(rank_table(choices[:top]), units)
        say(SMOKE)
        say(OFF)
    if out is not None:
        stage("4 of 4: printing the sheet")
        sheet = hunt_sheet(found, choices, advice, top=top, notes=known.notes)
        steps = tell(
            known.start.priors, known.diary, known.start.model, method=by, aim=aim,
            margins=known.margins, neighbors=near,
        )  # fmt: skip
        manner = Manner(
            units=units, paper=paper, date=day_of(date), title=source.plan.site.name,
            target=known.target,
        )  # fmt: skip
        _tell_files(write_hunt_files(sheet, steps, data, out, manner), quiet=as_json)
    raise typer.Exit(ATTENTION if advice.word == "go on" else DONE)


def _tell_files(files: Iterable[Made], *, quiet: bool) -> None:
    stage()
    for made in files:
        if not quiet:
            say(f"  {made.path}  {made.what}")


def _show(
    found: Hunt, choices: tuple[Choice, ...], advice: Advice, known: Known, units: Units
) -> None:
    """Print where to look next, with the neighbors to take along, the advice and the house."""
    for note in known.notes:
        say(f"  {note}")
    if not known.diary:
        say("  No test or look is recorded: this is the forecast alone. Add --records FILE.")
    say(f"Look next: {first_line(choices[0])}")
    gain = cell_text(Quantity(value=choices[0].gain, dimension="flow"), units)
    say(f"  looking and mending there is expected to save {gain}.")
    if choices[1:]:
        say(f"While there: {'; '.join(place_words(choice.standing) for choice in choices[1:])}.")
    say(advice_sentence(found, advice))
    say()
    show_table(house_table(found), units)
