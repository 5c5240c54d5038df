"""``seamwright dryness``: which face, how tight, and does each joint stay dry."""

from __future__ import annotations

import io
import os
import sys
from collections.abc import Callable
from contextlib import redirect_stdout
from pathlib import Path
from typing import Annotated

import typer

from seamwright.cli.dryness_cache import Answer, cache_folder, keep, key_of, recall
from seamwright.cli.dryness_options import (
    CacheFolder,
    ColdWinter,
    FaceOf,
    InnerPerms,
    Kinds,
    Lining,
    LooksTo,
    MaterialsFile,
    NeutralLevel,
    OuterPerms,
    RainShare,
    RoofCover,
    RoofRainShare,
    RoofSun,
    RoomHumidity,
    Rooms,
    RoomTemperature,
    Said,
    WallCover,
    WallSun,
    WeatherFile,
    covered,
    kinds_of,
    refuse_unknown_panels,
)
from seamwright.cli.dryness_sheets import SHEETS_FILE, sheets_text
from seamwright.cli.folder import folder_for
from seamwright.cli.options import CatalogFile, Json, PanelTypes, PlanName, Units
from seamwright.cli.say import say, say_json, show_table
from seamwright.cli.source import Source, read_source, shelf
from seamwright.cli.status import ATTENTION, DONE
from seamwright.climate.indoor import IndoorChoice, indoor_hours, indoor_named
from seamwright.draw.dryness_chart import dryness_charts, dryness_sheets
from seamwright.errors import InputError, Problem
from seamwright.io.blocks_json import blocks_document
from seamwright.io.dryness_json import dryness_document
from seamwright.io.json_text import to_text
from seamwright.io.weather_source import resolve_climate
from seamwright.leakage.prior_rows import Workmanship
from seamwright.moisture.outdoors import RunClimate
from seamwright.report.dryness_marks import dry_marks
from seamwright.report.dryness_sheet import (
    GENERATED_WORDS,
    LIMITS,
    NOT_A_RULE,
    balance_sentence,
    climate_sentence,
    disagreements,
    dryness_sheet,
    dryness_table,
    how_to_read,
    is_outside,
    left_out_table,
    proposals,
)
from seamwright.report.dryness_types import FACES, Asked, HouseDryness
from seamwright.report.house import SealedHouse
from seamwright.report.joint_dryness import house_dryness
from seamwright.report.joint_heat import heat_types, joint_table, panel_heats, panel_table
from seamwright.report.panel_condensation import monthly_air, panel_waters, water_table
from seamwright.report.types import Table
from seamwright.workflow import seal_house


def run(
    plan: PlanName,
    *,
    weather: WeatherFile = None,
    seed: Annotated[int, typer.Option("--seed", min=0, help="Which generated year.")] = 1,
    cold_winter: ColdWinter = False,
    rooms: Rooms = "en 15026 normal",
    room_temperature: RoomTemperature = None,
    room_humidity: RoomHumidity = None,
    face: Annotated[
        FaceOf | None,
        typer.Option("--face", help="Only this face; default: all.", show_default=False),
    ] = None,
    joint: Kinds = None,
    years: Annotated[int, typer.Option("--years", min=1, max=20, help="How long to follow.")] = 2,
    workmanship: Annotated[
        Workmanship, typer.Option("--workmanship", help="How the joints will be made.")
    ] = "ordinary",
    wall_cover: WallCover = "vented",
    roof_cover: RoofCover = "closed",
    vented_roof: Annotated[
        bool, typer.Option("--vented-roof", help="Roofing on battens over a vapor-open underlay; "
                           "the same as --roof-cover vented.")
    ] = False,
    lining: Lining = "painted",
    wall_sun: WallSun = None,
    roof_sun: RoofSun = None,
    rain_share: RainShare = 0.0,
    roof_rain_share: RoofRainShare = 0.0,
    facing: LooksTo = "shaded",
    materials: MaterialsFile = None,
    fan_offset: Annotated[
        float, typer.Option("--fan-offset", min=-50.0, max=50.0,
                            help="Indoors less outdoors by ventilation, in Pa.")
    ] = 0.0,
    neutral_level: NeutralLevel = 0.5,
    inner_perms: InnerPerms = None,
    outer_perms: OuterPerms = None,
    no_dams: Annotated[bool, typer.Option("--no-dams", help="As if the dams were left out.")]
    = False,
    steady: Annotated[
        bool, typer.Option("--steady", help="Print the steady checks too: U-values, psi and fRsi "
                           "of the joints, and monthly condensation in the panels.")
    ] = False,
    out: Annotated[
        Path | None, typer.Option("--out", help="Write charts and data here.", show_default=False)
    ] = None,
    cache: CacheFolder = None,
    units: Units = "us",
    catalog: CatalogFile = None,
    types: PanelTypes = None,
    as_json: Json = False,
) -> None:  # fmt: skip
    """Say which face to seal, how tight, and whether each joint stays dry."""
    source = read_source(plan, types=types)
    folder = Path(plan).parent if Path(plan).exists() else None
    said = Said(
        inner_perms=inner_perms, outer_perms=outer_perms, wall=wall_cover,
        roof="vented" if vented_roof else roof_cover, lining=lining, wall_sun=wall_sun,
        roof_sun=roof_sun, rain_share=rain_share, roof_rain_share=roof_rain_share,
        materials=materials,
    )  # fmt: skip
    asked = covered(
        Asked(
            faces=FACES if face is None else (face,), years=years, kinds=kinds_of(joint),
            fan=fan_offset, dams=not no_dams, neutral=neutral_level, workmanship=workmanship,
            facing=facing,
        ),
        said,
    )  # fmt: skip
    with source.placed(units):
        house = seal_house(source.plan, shelf(source, catalog))
        site = resolve_climate(source.plan.site, weather, seed=seed, folder=folder,
                               cold=cold_winter)  # fmt: skip
    refuse_unknown_panels(asked, house.shell)
    inside = indoor_hours(site.weather, _rooms(rooms, room_temperature, room_humidity))
    climate = RunClimate(
        weather=site.weather, temperature=inside.temperature, vapor=inside.vapor,
        room=inside.source, place=site.place,
    )  # fmt: skip
    answer = _kept(source, house, climate, asked, units, cache)
    _tell(answer, as_json=as_json)
    if steady and not as_json:
        say()
        _steady(house, climate, asked, units)
    if out is not None:
        _write(answer, sheets_text(answer, house, units), out, quiet=as_json)
    raise typer.Exit(answer.status)


def _kept(  # noqa: PLR0917 all that an answer rests on
    source: Source, house: SealedHouse, climate: RunClimate, asked: Asked, units: Units,
    cache: Path | None,
) -> Answer:  # fmt: skip
    """Return the answer kept before, else work it out and keep it."""
    kept = cache_folder(cache)
    key = key_of(house, climate, asked, units)
    answer = recall(kept, key)
    if answer is None:
        answer = worked_out(source, house, climate, asked, units)
        keep(kept, key, answer)
    return answer


def _tell(answer: Answer, *, as_json: bool) -> None:
    if as_json:
        say_json(answer.data)
    else:
        say(answer.text.rstrip())


def _rooms(rule: str, temperature: float | None, humidity: float | None) -> IndoorChoice:
    """Return the air of the rooms; `humidity` in percent."""
    if rule.strip().lower() == "fixed" and (temperature is None or humidity is None):
        told = "--rooms fixed lacks the temperature or the humidity of the rooms"
        remedy = "give both, such as --room-temperature 20 --room-humidity 40"
        raise InputError([Problem(subject="--rooms", sentence=told, remedy=remedy)])
    return indoor_named(
        rule, temperature=temperature, humidity=None if humidity is None else humidity / 100.0
    )


def worked_out(
    source: Source, house: SealedHouse, climate: RunClimate, asked: Asked, units: Units
) -> Answer:
    """Return the answer to what is asked; tells on the error stream how far it is."""
    cores = os.cpu_count()
    found = house_dryness(
        house,
        climate,
        asked,
        workers=1 if cores is None else cores,
        tell=None if asked.short else _teller(),
    )
    if sys.stderr.isatty() and not asked.short:
        sys.stderr.write("\n")
    text = io.StringIO()
    with redirect_stdout(text):
        _show(found, source.plan.site.name, units)
    charts, sheets = dryness_charts(found, units), dryness_sheets(found, units)
    marks = dry_marks(found, house.schedule.sides)
    sheet = dryness_sheet(found, [(chart.name, chart.title) for chart in sheets])
    return Answer(
        text=text.getvalue(),
        data=dryness_document(found),
        status=ATTENTION if is_outside(found) else DONE,
        charts={chart.name: chart.svg for chart in charts},
        sheets={chart.name: chart.svg for chart in sheets},
        sheet=blocks_document((*sheet, *_monthly(house, climate, asked))),
        marks={name: (m.verdict, m.leak, m.bound) for name, m in marks.items()},
    )


def _teller() -> Callable[[int, int], None]:
    """Return what says how far the runs are: on a terminal in place, elsewhere now and then."""
    shown = [0]

    def tell(done: int, total: int) -> None:
        if sys.stderr.isatty():
            sys.stderr.write(f"\r{done} of about {total} runs    ")
            sys.stderr.flush()
        elif done - shown[0] >= total // 4:
            sys.stderr.write(f"{done} of about {total} runs\n")
            shown[0] = done

    return tell


def _show(found: HouseDryness, name: str, units: Units) -> None:
    say(f"{name}: dryness of joints")
    if found.generated:
        say(GENERATED_WORDS)
    say(NOT_A_RULE)
    say(climate_sentence(found))
    say()
    show_table(dryness_table(found), units)
    for words in how_to_read(found):
        say(f"  {words}")
    say()
    for joint, proposal in proposals(found):
        say(f"{joint}: {proposal}")
    say()
    differing = disagreements(found)
    for words in differing:
        say(words)
    if differing:
        say()
    say("What it rests on:")
    for words in (*found.assumed, balance_sentence(found)):
        say(f"  {words}")
    say("What it cannot see:")
    for words in LIMITS:
        say(f"  {words}")
    say()
    if found.left_out:
        show_table(left_out_table(found), units)


def _monthly(house: SealedHouse, climate: RunClimate, asked: Asked) -> tuple[Table, ...]:
    """Return monthly condensation in the panels; nothing where the weather is not a whole year."""
    air = monthly_air(climate)
    return () if air is None else (water_table(panel_waters(house.shell, air, asked.covers)),)


def _steady(house: SealedHouse, climate: RunClimate, asked: Asked, units: Units) -> None:
    show_table(panel_table(panel_heats(house.shell)), units)
    show_table(joint_table(heat_types(house.shell, house.register)), units)
    months = _monthly(house, climate, asked)
    for table in months:
        show_table(table, units)
    if not months:
        say("No monthly condensation: the weather is not a whole year.")


def _write(answer: Answer, sheets: str, out: Path, *, quiet: bool) -> None:
    folder = folder_for(out)
    files = {"dryness.json": to_text(answer.data), SHEETS_FILE: sheets}
    files |= {f"{name}.svg": svg for name, svg in answer.charts.items()}
    for name, content in files.items():
        (folder / name).write_text(content, encoding="utf-8")
        if not quiet:
            say(f"  {folder / name}")
