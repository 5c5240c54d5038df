"""The settings, read for a route."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, TypeAlias, get_args

from fastapi import Depends, Query, Request

from seamwright.app.contract.setting import Settings, Units
from seamwright.app.desk import TheDesk, desk_of
from seamwright.store.settings import read_settings
from seamwright.words import Language
from seamwright.words.catalog import LANGUAGES

UNITS_HEADER = "Seamwright-Units"
"""The header in which a page says the units of its reader; Accept-Language says the language."""
VARY = "Accept-Encoding, Accept-Language, Seamwright-Units"
"""What the answer to one request may differ by from that to another."""
_SYSTEMS: tuple[Units, ...] = get_args(Units)


@dataclass(frozen=True, kw_only=True, slots=True)
class Reader:
    """Whoever reads an answer: in what language and units."""

    language: Language
    units: Units

    @property
    def as_made(self) -> bool:
        """Return whether answers suit this reader as the rooms make them: English and SI."""
        return self.language == "en" and self.units == "metric"


def settings_of(desk: TheDesk) -> Settings:
    """Return the settings of the desk; what was never set, or is no longer known, by default."""
    held = read_settings(desk.store)
    known = {key: value for key, value in held.items() if key in Settings.model_fields}
    return Settings.model_validate({**Settings().model_dump(), **known})


def units_of(
    request: Request,
    units: Annotated[
        Units | None,
        Query(description="Units of the sentences; default: as the header says, else as set."),
    ] = None,
) -> Units:
    """Return the units to answer in: those asked for, else those of the header, else those set."""
    return units_asked(request) if units is None else units


def units_asked(request: Request) -> Units:
    """Return the units of a request that may be wrong otherwise."""
    told = (request.query_params.get("units"), request.headers.get(UNITS_HEADER))
    found = [one for one in _SYSTEMS for wanted in told if one == wanted]
    return found[0] if found else settings_of(desk_of(request)).units


def language_asked(
    request: Request,
    language: Annotated[
        Language | None,
        Query(description="Language of the words; default: Accept-Language, else as set."),
    ] = None,
) -> Language:
    """Return the language to answer in: that asked for, else the header's, else the one set."""
    return language_of(request) if language is None else language


def language_of(request: Request) -> Language:
    """Return the language of a request that may be wrong otherwise."""
    wanted = request.query_params.get("language", "")
    for word in (wanted, *preferred(request.headers.get("accept-language", ""))):
        for language in LANGUAGES:
            if word.lower().split("-")[0] == language:
                return language
    return settings_of(desk_of(request)).language


def reader_of(request: Request) -> Reader:
    """Return who reads the answer to a request that may be wrong otherwise."""
    return Reader(language=language_of(request), units=units_asked(request))


def preferred(header: str) -> list[str]:
    """Return the languages of an Accept-Language header, the most wanted first.

    >>> preferred("fr;q=0.2, es-MX, en;q=0.8")
    ['es-MX', 'en', 'fr']
    """
    rows = [row.strip().partition(";") for row in header[:400].split(",") if row.strip()]
    return [tag.strip() for tag, _, rest in sorted(rows, key=lambda row: -_weight(row[2]))]


def _weight(told: str) -> float:
    value = told.strip().removeprefix("q=")
    try:
        return float(value) if value else 1.0
    except ValueError:
        return 0.0


TheUnits: TypeAlias = Annotated[Units, Depends(units_of)]
TheLanguage: TypeAlias = Annotated[Language, Depends(language_asked)]
TheSettings: TypeAlias = Annotated[Settings, Depends(settings_of)]
