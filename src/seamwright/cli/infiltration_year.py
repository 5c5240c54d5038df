"""The year behind the air that comes in by itself: a file of weather, else the place's own."""

from __future__ import annotations

from pathlib import Path

from seamwright.cli.source import Source
from seamwright.errors import InputError
from seamwright.io.weather_source import resolve_weather
from seamwright.leakage.priors import DEFAULT_TABLE, LeakTable
from seamwright.report.outlook import Outlook, with_year


def over_a_year(
    outlook: Outlook,
    source: Source,
    file: Path | None = None,
    *,
    table: LeakTable = DEFAULT_TABLE,
) -> tuple[Outlook, str]:
    """Return the outlook with its infiltration over the hours of a year, and a note.

    The year is that of `file`, else that of the plan, else one generated for the place. Without any
    of them the outlook comes back as it is and the note says why; a file that cannot be used is an
    InputError.
    """
    site, where = source.plan.site, None if source.file is None else source.file.file
    folder = None if where is None else Path(where).parent
    try:
        hours = resolve_weather(site, file, folder=folder)
    except InputError as error:
        if file is not None or site.weather is not None:
            raise
        return outlook, f"No year of infiltration: {error.problems[0].sentence}."
    told = hours.source if file is None else file.name
    return with_year(outlook, outdoor=hours.air, wind=hours.wind, source=told, table=table), ""
