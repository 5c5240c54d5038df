"""What the packet says of dryness: from the answers kept, else worked out in full or in short."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from importlib.util import find_spec
from pathlib import Path
from typing import Annotated, Literal, TypeAlias, get_args

import typer

from seamwright.cli.dryness import worked_out
from seamwright.cli.dryness_cache import Answer, cache_folder, keep, key_of, recall
from seamwright.cli.dryness_sheets import SHEETS_FILE, read_sheets
from seamwright.cli.options import Units
from seamwright.cli.source import Source
from seamwright.climate.indoor import indoor_hours, indoor_named
from seamwright.errors import InputError
from seamwright.io.blocks_json import blocks_of
from seamwright.io.json_text import Json
from seamwright.io.weather_source import resolve_climate
from seamwright.moisture.outdoors import RunClimate
from seamwright.report.dry_joints import MAIN_KINDS
from seamwright.report.dryness_marks import DryMark
from seamwright.report.dryness_types import Asked
from seamwright.report.house import SealedHouse
from seamwright.report.types import Block, Heading, Paragraph, Table
from seamwright.seals.types import Sentence

Extent: TypeAlias = Literal["none", "main", "all"]
DrynessOf: TypeAlias = Annotated[
    Extent,
    typer.Option("--dryness", help="Dryness of no joints, of the main ones in short, or of all "
                 "(minutes the first time)."),
]  # fmt: skip

DrynessOrFile: TypeAlias = Annotated[
    str,
    typer.Option("--dryness", metavar="[none|main|all|FILE]",
                 help="Dryness of no joints, of the main ones in short, of all (minutes the first "
                 f"time), or what dryness --out wrote with options of its own ({SHEETS_FILE})."),
]  # fmt: skip

IN_SHORT = Asked(short=True, years=1, fine=0.024, kinds=MAIN_KINDS)
"""What is asked in short: see `dryness_sheet.SHORT`. The coarser grid moves the wettest month
of the ridge of Heron House by up to an eighth (50 to 56 %), and no verdict."""

_ROOMS = "en 15026 normal"


def extent_of(words: str) -> Extent | Path:
    """Return how many joints are asked for, or the file that holds what to print."""
    return next((word for word in get_args(Extent) if word == words), Path(words))


@dataclass(frozen=True, kw_only=True, slots=True)
class Dryness:
    """Sheets and charts, what the schedule says by joint, the table for the workbook, the data."""

    sheet: tuple[Block, ...] = ()
    charts: Mapping[str, str] = field(default_factory=dict)
    marks: Mapping[str, DryMark] = field(default_factory=dict)
    table: Table | None = None
    data: Json | None = None


def packet_dryness(
    source: Source, house: SealedHouse, extent: Extent | Path, units: Units
) -> Dryness:
    """Return what the packet says of dryness.

    A file holds an answer to what its user asked. Else the full answer is taken where it is kept.
    Without the compiler package or a climate a sentence says why there is none; a weather file of
    the plan that cannot be used is an InputError, as is a file about something else.
    """
    if isinstance(extent, Path):
        return _dryness(read_sheets(extent, house, units))
    if extent == "none":
        return Dryness()
    if find_spec("numba") is None:
        return _left_out(
            "Not worked out: the package numba is not installed. Install "
            "'seamwright[dryness]' and print again."
        )
    try:
        climate = _climate(source)
    except InputError as error:
        if source.plan.site.weather is not None:
            raise
        return _left_out(f"Not worked out: {error.problems[0].sentence}.")
    return _dryness(_answer(source, house, climate, extent, units))


def _answer(
    source: Source, house: SealedHouse, climate: RunClimate, extent: Extent, units: Units
) -> Answer:
    folder = cache_folder(None)
    full, short = (key_of(house, climate, asked, units) for asked in (Asked(), IN_SHORT))
    found = recall(folder, full)
    if found is None and extent == "main":
        found = recall(folder, short)
    if found is None:
        asked, key = (Asked(), full) if extent == "all" else (IN_SHORT, short)
        found = worked_out(source, house, climate, asked, units)
        keep(folder, key, found)
    return found


def _climate(source: Source) -> RunClimate:
    where = None if source.file is None else source.file.file
    folder = None if where is None else Path(where).parent
    site = resolve_climate(source.plan.site, None, folder=folder)
    inside = indoor_hours(site.weather, indoor_named(_ROOMS, temperature=None, humidity=None))
    return RunClimate(
        weather=site.weather, temperature=inside.temperature, vapor=inside.vapor,
        room=inside.source, place=site.place,
    )  # fmt: skip


def _dryness(answer: Answer) -> Dryness:
    sheet = blocks_of(answer.sheet)
    return Dryness(
        sheet=sheet,
        charts=answer.sheets,
        marks={
            name: DryMark(verdict=m[0], leak=m[1], bound=m[2]) for name, m in answer.marks.items()
        },
        table=next((block for block in sheet if isinstance(block, Table)), None),
        data=answer.data,
    )


def _left_out(words: str) -> Dryness:
    return Dryness(
        sheet=(
            Heading(text="Dryness: which face, how tight", level=1),
            Paragraph(text=Sentence(text=words)),
        )
    )
