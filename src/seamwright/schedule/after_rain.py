"""How long skins take to dry after each rain: by the run of moisture, and by the film of water."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from seamwright.climate.arrays import Flags
from seamwright.schedule.outlook import Outlook
from seamwright.schedule.window import RAIN, board_dry

APART = 6
"""Dry hours between two rains that count as two. [h] Our own choice."""


@dataclass(frozen=True, kw_only=True, slots=True)
class AfterRain:
    """A rain and how long a face then takes to dry, hours after its last.

    `start` and `end` are hours of the record, `end` not counted; `fallen` is what fell on flat
    ground [kg/m²]. `film` by the estimate of the film of water, `board` by the run; None where the
    record or the next rain comes first.
    """

    face: str
    start: int
    end: int
    fallen: float
    film: int | None
    board: int | None


def after_rains(outlook: Outlook, face: str, limit: float) -> tuple[AfterRain, ...]:
    """Return each rain of the record and how long the face takes to dry after it.

    The board counts as dry at or below `limit` [kg/kg]. Showers less than `APART` hours apart are
    one rain.
    """
    wet = np.flatnonzero(outlook.weather.rain >= RAIN)
    if not wet.size:
        return ()
    rains = np.split(wet, np.flatnonzero(np.diff(wet) > APART) + 1)
    ends = [int(rain[-1]) + 1 for rain in rains]
    nexts = [*(int(rain[0]) for rain in rains[1:]), outlook.weather.hours]
    film = outlook.hours[face].dry
    board = board_dry(outlook.boards[face], limit) if face in outlook.boards else None
    return tuple(
        AfterRain(
            face=face, start=int(rain[0]), end=end,
            fallen=float(outlook.weather.rain[rain[0] : end].sum()),
            film=_first(film, end, until),
            board=None if board is None else _first(board & film, end, until),
        )
        for rain, end, until in zip(rains, ends, nexts, strict=True)
    )  # fmt: skip


def _first(suits: Flags, start: int, end: int) -> int | None:
    found = np.flatnonzero(suits[start:end])
    return int(found[0]) if found.size else None


def rains_told(rains: Iterable[AfterRain], clock: Callable[[int], str]) -> tuple[str, ...]:
    """Return a sentence for each rain: how soon each face is dry. `clock` says an hour."""
    groups: dict[tuple[int, int], list[AfterRain]] = {}
    for rain in rains:
        groups.setdefault((rain.start, rain.end), []).append(rain)
    return tuple(_told(rows, clock) for rows in groups.values())


def season_told(rains: Sequence[AfterRain]) -> str:
    """Return how soon boards are dry after the rains of a season, empty without any."""
    if not rains:
        return ""
    known = sorted(rain.board for rain in rains if rain.board is not None)
    films = sorted(rain.film for rain in rains if rain.film is not None)
    lost = len(rains) - len(known)
    if not known or not films:
        return "After none of the rains are the boards dry before the next."
    more = f", and {lost / len(rains):.0%} not before the next rain" if lost else ""
    return (
        f"After a rain boards are dry within {known[len(known) // 2]} h in half of the cases, "
        f"{known[-1]} h at most{more}; the film of water alone would say {films[len(films) // 2]} "
        f"and {films[-1]} h."
    )


def _told(rows: Sequence[AfterRain], clock: Callable[[int], str]) -> str:
    first = rows[0]
    by_hours: dict[int | None, list[str]] = {}
    for row in rows:
        by_hours.setdefault(row.board, []).append(row.face)
    boards = "; ".join(f"{', '.join(faces)} {_after(hours)}" for hours, faces in by_hours.items())
    films = " to ".join(dict.fromkeys(_after(hours) for hours in _ends([r.film for r in rows])))
    return (
        f"Rain of {first.end - first.start} h until {clock(first.end)}; boards dry: {boards}. "
        f"By the film of water alone: {films}."
    )


def _after(hours: int | None) -> str:
    if hours is None:
        return "not before the next rain or the end of the record"
    return f"after {hours} h"


def _ends(values: Sequence[int | None]) -> tuple[int | None, int | None]:
    """Return the least and the greatest; None is the greatest of all."""
    known = [value for value in values if value is not None]
    if not known:
        return None, None
    return min(known), max(known) if len(known) == len(values) else None
