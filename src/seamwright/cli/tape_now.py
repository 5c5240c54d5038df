"""``seamwright tape-now``: can this seam be taped now?"""

from __future__ import annotations

import datetime as dt
import math
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Literal

import typer

from seamwright.cli.options import Json
from seamwright.cli.say import say, say_json
from seamwright.cli.status import ATTENTION, DONE
from seamwright.climate.face import Face, FaceHours, face_hours
from seamwright.climate.weather import HOUR
from seamwright.errors import InputError, Problem
from seamwright.io.direction import parse_direction
from seamwright.io.explain import nearest
from seamwright.io.product_file import read_product
from seamwright.io.tape_json import tape_document
from seamwright.io.weather_forecast import ForecastFile, read_forecast
from seamwright.schedule.board_ahead import board_ahead
from seamwright.schedule.tape import judge_tape
from seamwright.schedule.tape_checks import SEEN
from seamwright.schedule.tape_limits import PRODUCTS
from seamwright.schedule.tape_types import Reading, TapeAnswer, TapeProduct, TapeReadings
from seamwright.units.air import format_share
from seamwright.units.weather import WeatherMeasure, fill_told, parse_reading

_MARKS = {"pass": "ok", "caution": "mind", "open": "?", "fail": "NO", "unknown": "?"}
_WITHIN = {"surface": 1.0, "air": 1.0, "humidity": 0.03, "board": 0.02}
"""What instruments are taken to be off, either way, where no ± is given: 1 °C, 1 °C, 3 % humidity,
2 % moisture. Common practice, no source; an infrared gun on a shiny face is far worse."""

_HEIGHTS = (
    "Heights: tape from staging, not from a ladder; it takes two hands. Fall protection by the "
    "rules of the place. A skin with dew, frost or rain on it is slick: stay off the roof."
)
_SOLVENTS = (
    "Primers, cleaners and solvents: ventilate, no flames or sparks, gloves and eyes covered, as "
    "the safety data sheet says; some dissolve the foam core. No open flame to warm a skin."
)
_OUTRANKED = (
    "What outranks this answer: the product's data sheet, the panel maker's details, the "
    "building's designer, local code. A test patch, pulled after it has rested, tells more than "
    "any rule."
)
CAUTIONS = (_HEIGHTS, _SOLVENTS, _OUTRANKED)


def _reading_option(flag: str, told: str) -> typer.models.OptionInfo:
    option: typer.models.OptionInfo = typer.Option(flag, help=told, show_default=False)
    return option


def run(
    *,
    surface: Annotated[
        str | None, _reading_option("--surface", "Temperature of the skin: 12C, 54F, '12C ± 2'.")
    ] = None,
    air: Annotated[str | None, _reading_option("--air", "Temperature of the air.")] = None,
    humidity: Annotated[
        str | None, _reading_option("--humidity", "Relative humidity of the air: 70%.")
    ] = None,
    board: Annotated[str | None, _reading_option("--board", "Moisture of the board: 14%.")] = None,
    product: Annotated[
        str,
        typer.Option("--product", metavar="NAME|FILE", help=f"{', '.join(PRODUCTS)} or a file."),
    ] = "acrylic",
    wet: Annotated[bool, typer.Option("--wet", help="Water stands or shows on the skin.")] = False,
    frost: Annotated[bool, typer.Option("--frost", help="Frost, ice or snow on it.")] = False,
    dust: Annotated[bool, typer.Option("--dust", help="Dust or sawdust on it.")] = False,
    rough: Annotated[bool, typer.Option("--rough", help="Rough face or planed edge.")] = False,
    primer: Annotated[bool, typer.Option("--primer", help="It is primed and tacky.")] = False,
    outside: Annotated[
        bool, typer.Option("--outside", help="Rain can reach it before it is covered.")
    ] = False,
    sun_days: Annotated[
        float | None,
        typer.Option("--sun-days", help="Days in the sun so far.", min=0, show_default=False),
    ] = None,
    forecast: Annotated[
        Path | None,
        typer.Option("--forecast", metavar="FILE", help="Hourly CSV or JSON.", show_default=False),
    ] = None,
    facing: Annotated[
        str | None,
        _reading_option("--facing", "Where an outside face looks: north, up, 'south at 8/12'."),
    ] = None,
    at: Annotated[
        str | None,
        _reading_option("--at", "Hour of the readings: 2026-04-18T07:00-07:00; default: now."),
    ] = None,
    units: Annotated[
        Literal["us", "metric"] | None,
        typer.Option("--units", help="Of the answer; default: as the skin was read."),
    ] = None,
    as_json: Json = False,
) -> None:
    """Say GO, WAIT or STOP for taping a seam now, and why."""
    read = _readings({"surface": surface, "air": air, "humidity": humidity, "board": board})
    is_outside = outside or facing is not None
    readings = TapeReadings(
        **read,
        wet=wet,
        frost=frost,
        dust=dust,
        rough=rough,
        primed=primer,
        exposed=is_outside,
        sun_days=sun_days,
    )
    chosen = _product(product)
    notes: tuple[str, ...] = ()
    ahead, water = None, None
    if forecast is not None:
        file = read_forecast(forecast)
        ahead = _ahead(file, facing, at, is_outside=is_outside)
        water, told = board_ahead(readings, ahead, file.place)
        notes = (*file.notes, *told)
    answer = judge_tape(readings, chosen, ahead, board=water)
    if as_json:
        say_json({**tape_document(answer, readings, chosen, ahead), "notes": list(notes)})
    else:
        run_made = water is not None
        _show(_Shown(answer, chosen, ahead, notes, _system(units, surface, air), run_made))
    raise typer.Exit(DONE if answer.answer == "GO" else ATTENTION)


@dataclass(frozen=True, slots=True)
class _Shown:
    answer: TapeAnswer
    product: TapeProduct
    ahead: FaceHours | None
    notes: tuple[str, ...]
    system: str
    board_run: bool


def _show(shown: _Shown) -> None:
    answer, system = shown.answer, shown.system
    word = f"\x1b[1;7m  {answer.answer}  \x1b[0m" if sys.stdout.isatty() else answer.answer
    say(word)
    say()
    binding = answer.binding
    lead = {"GO": "Nearest to its limit", "WAIT": "Waits for", "STOP": "Stopped by"}[answer.answer]
    say(f"{lead}: {fill_told(binding.found, system)}.")
    for check in answer.checks:
        if check.state != "pass" and check.way_out.text:
            say(f"What would change it ({check.id}): {fill_told(check.way_out, system)}.")
    _show_turn(shown)
    if answer.chance is not None:
        chance = format_share(answer.chance)
        say(f"Chance that every measured limit is kept: {chance}, from the instruments' errors "
            "alone.")  # fmt: skip
    say()
    say(f"Every check, for {shown.product.title}:")
    for check in answer.checks:
        say(f"  {_MARKS[check.state]:5}{fill_told(check.found, system)}")
    sources = dict.fromkeys(check.source for check in answer.checks if check.source != SEEN)
    for source in sources:
        say(f"  limits by {source}")
    for note in shown.notes:
        say(f"  note {note}")
    say()
    for caution in CAUTIONS:
        say(f"- {caution}")


def _show_turn(shown: _Shown) -> None:
    answer, ahead = shown.answer, shown.ahead
    if answer.answer == "GO" or ahead is None:
        return
    if shown.board_run and answer.board_dry_at != 0:
        told = "not within the forecast" if answer.board_dry_at is None else (
            f"from {_clock(ahead, answer.board_dry_at)}"
        )  # fmt: skip
        hold = format_share(shown.product.board_hold)
        say(f"The board is likely at {hold} or less: {told} (a run of moisture from your reading).")
    if answer.turns_at is None:
        say("No hour of the forecast suits this product here.")
        return
    say(f"The weather is likely to suit from {_clock(ahead, answer.turns_at)} (forecast; the skin "
        "and its drying are estimates): measure again then.")  # fmt: skip


def _clock(ahead: FaceHours, hour: int) -> str:
    weather = ahead.weather
    zone = dt.timezone(dt.timedelta(seconds=weather.utc_offset))
    when = dt.datetime.fromtimestamp(weather.start + HOUR * hour, tz=zone)
    return f"{when:%a %Y-%m-%d %H:%M}"


def _readings(given: dict[str, str | None]) -> dict[str, Reading | None]:
    """Return the readings given, or raise InputError with every one that cannot be used."""
    found: dict[str, Reading | None] = {}
    problems: list[Problem] = []
    for name, text in given.items():
        try:
            found[name] = None if text is None else _reading(name, text)
        except InputError as error:
            problems += error.problems
    if problems:
        raise InputError(problems)
    return found


def _reading(name: str, text: str) -> Reading:
    measure: WeatherMeasure = "temperature" if name in {"surface", "air"} else "share"
    value, within = parse_reading(text, measure)
    least, most = (-60.0, 90.0) if measure == "temperature" else (0.0, 1.0)
    if not least <= value <= most:
        remedy = "check the value and its unit"
        sentence = f"--{name} {text[:30]} is not possible at a seam"
        raise InputError([Problem(subject=name, sentence=sentence, remedy=remedy)])
    return Reading(value=value, within=_WITHIN[name] if within is None else within)


def _product(word: str) -> TapeProduct:
    if word in PRODUCTS:
        return PRODUCTS[word]
    path = Path(word)
    if path.suffix or path.exists():
        return read_product(path)
    sentence = f"there is no product or file called ‘{word[:40]}’"
    problem = Problem(subject="product", sentence=sentence, remedy=nearest(word, PRODUCTS))
    raise InputError([problem])


def _ahead(
    file: ForecastFile, facing: str | None, at: str | None, *, is_outside: bool
) -> FaceHours:
    """Return the face from the hour of the readings on."""
    weather = file.weather
    instant = dt.datetime.now().astimezone() if at is None else _instant(at)
    first = math.floor((instant.timestamp() - weather.start) / HOUR)
    if not 0 <= first < weather.hours:
        zone = dt.timezone(dt.timedelta(seconds=weather.utc_offset))
        ends = weather.start + HOUR * weather.hours
        begin, end = (
            dt.datetime.fromtimestamp(t, tz=zone).isoformat(timespec="minutes")
            for t in (weather.start, ends)
        )
        sentence = f"the forecast holds from {begin} to {end}, not at {instant:%Y-%m-%d %H:%M}"
        remedy = "give a newer forecast, or --at an hour in it"
        raise InputError([Problem(subject="forecast", sentence=sentence, remedy=remedy)])
    return face_hours(weather.from_hour(first), _face(facing, is_outside=is_outside), file.place)


def _face(facing: str | None, *, is_outside: bool) -> Face:
    """Return the face that is taped; outside without a direction it is a flat deck."""
    if not is_outside:
        return Face(id="inside", azimuth=0.0, tilt=math.pi / 2, covered=True, inner=True)
    text = "up" if facing is None else facing
    direction, at, _ = text.partition(" at ")
    east, north, up = parse_direction(text)
    level = parse_direction(direction) if at else (east, north, up)
    azimuth = math.atan2(level[0], level[1]) % (2 * math.pi)
    level_part = math.hypot(east, north)
    # a roof "north at 8/12" drains to the north: its normal is tilted from up by the pitch
    tilt = math.atan2(up, level_part) if at else math.atan2(level_part, up)
    return Face(id=text, azimuth=azimuth, tilt=tilt)


def _instant(text: str) -> dt.datetime:
    try:
        at = dt.datetime.fromisoformat(text.strip())
    except ValueError:
        at = None
    if at is None:
        remedy = "write it as 2026-04-18T07:00-07:00"
        sentence = f"--at ‘{text[:40]}’ is not a date and hour"
        raise InputError([Problem(subject="--at", sentence=sentence, remedy=remedy)])
    return at if at.tzinfo is not None else at.astimezone()


def _system(units: str | None, *texts: str | None) -> str:
    """Return the units asked for, else those of the first reading."""
    if units is not None:
        return units
    given = next((text for text in texts if text is not None), "C")
    return "us" if "f" in given.casefold() else "metric"
