"""Hours in which a product may be used, a panel lifted, a roof set: from an hourly record.

Every window lies inside the record. Hours count from the record's first.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from seamwright.climate.arrays import Flags, Floats
from seamwright.climate.face import Face, FaceHours, face_hours
from seamwright.climate.sun import Place
from seamwright.climate.weather import HourlyWeather
from seamwright.schedule.tape_types import TapeProduct

LIFT_WIND = 9.0
"""Wind, gusts counted, above which panels are not lifted. [m/s] (20 mph) Common practice, no
source; the crane operator decides, and the limit on the crane outranks it."""

GUST_FACTOR = 1.5
"""Gust over mean wind where a forecast gives no gusts. [-] Common practice, no source."""

RAIN = 0.1
"""An hour with less is a dry one. [kg/m²] Below what forecasts mean by rain; our own choice."""

FORECAST_ERROR = 1.0
"""How far a forecast skin or air temperature is kept from a limit. [K] Our own choice."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Window:
    """Hours from `start` up to, not with, `end`, counted from the record's first hour."""

    start: int
    end: int


def windows_of(suits: Flags, *, shortest: int = 1) -> tuple[Window, ...]:
    """Return the runs of hours that suit, leaving out those shorter than `shortest`."""
    edges = np.diff(np.concatenate([[0], np.asarray(suits, dtype=np.int8), [0]]))
    starts, ends = np.flatnonzero(edges == 1), np.flatnonzero(edges == -1)
    return tuple(
        Window(start=int(a), end=int(b))
        for a, b in zip(starts, ends, strict=True)
        if b - a >= shortest
    )


def hours_of(windows: Iterable[Window]) -> tuple[int, ...]:
    """Return every hour of the windows, each once, in order."""
    return tuple(sorted({hour for w in windows for hour in range(w.start, w.end)}))


def windows(
    weather: HourlyWeather,
    face: Face,
    product: TapeProduct,
    place: Place | None = None,
    *,
    shortest: int = 1,
    error: float = FORECAST_ERROR,
    board: Floats | None = None,
) -> tuple[Window, ...]:
    """Return when a product may be used on a face, by skin, air, dew point, water and rain.

    `board` is the water of its board at the end of each hour, where a run tells it. [kg/kg]
    """
    suits = usable_hours(face_hours(weather, face, place), product, error=error, board=board)
    return windows_of(suits, shortest=shortest)


def usable_hours(
    hours: FaceHours,
    product: TapeProduct,
    *,
    surface: Floats | None = None,
    air: Floats | None = None,
    condensation: Floats | None = None,
    board: Floats | None = None,
    error: float = FORECAST_ERROR,
) -> Flags:
    """Return for each hour whether the weather lets the product be used on the face.

    Temperatures keep `error` [K] from the product's limits and from its dew-point margin. On a
    face that rain reaches, the product's dry hours after must lie in the record and be dry: where
    the forecast ends, nothing is promised. `board` is the water of the outermost board at the end
    of each hour [kg/kg]; without it the film of water alone says how wet the skin is. Dust and
    primer are not weather. `surface`, `air` and `condensation` replace the record's own.
    """
    kept = kept_limits(
        hours, product, surface=surface, air=air, condensation=condensation, board=board,
        error=error,
    )  # fmt: skip
    return np.asarray(np.all(list(kept.values()), axis=0), dtype=np.bool_)


def kept_limits(
    hours: FaceHours,
    product: TapeProduct,
    *,
    surface: Floats | None = None,
    air: Floats | None = None,
    condensation: Floats | None = None,
    board: Floats | None = None,
    error: float = FORECAST_ERROR,
) -> Mapping[str, Flags]:
    """Return for each limit of the weather, by its words, the hours that keep it.

    In the order in which a closed hour is told. Arguments as for `usable_hours`.
    """
    skin = hours.surface if surface is None else surface
    outside = hours.weather.air if air is None else air
    dew = hours.condensation if condensation is None else condensation
    is_open = not (hours.face.covered or hours.face.inner)
    kept: dict[str, Flags] = {}
    if not product.wet_ok:
        if is_open:
            kept["rain"] = np.asarray(hours.weather.rain < RAIN, dtype=np.bool_)
        kept["skin wet"] = hours.dry
        if board is not None:
            kept["board damp"] = board_dry(board, product.board_hold)
    kept["skin too cold or hot"] = _within(skin, product.surface_min, product.surface_max, error)
    kept["air too cold or hot"] = _within(outside, product.air_min, product.air_max, error)
    kept["near the dew point"] = np.asarray(skin - dew >= product.dew_margin + error, np.bool_)
    if is_open:
        kept["rain too soon after"] = dry_ahead(hours.weather, product.dry_hours)
    return kept


def board_dry(board: Floats, limit: float) -> Flags:
    """Return for each hour whether the board is at or below a limit at both its ends.

    `board` at the end of each hour, `limit` [kg/kg]. Of the first hour only the end is known.
    """
    before = np.concatenate([board[:1], board[:-1]])
    return np.asarray(np.maximum(before, board) <= limit, dtype=np.bool_)


def dry_ahead(weather: HourlyWeather, hours: float) -> Flags:
    """Return for each hour whether it and the `hours` after it are in the record and dry."""
    ahead = 1 + int(np.ceil(hours))
    dry = np.asarray(weather.rain < RAIN, dtype=np.int64)
    runs = np.concatenate([[0], np.cumsum(dry)])
    suits = np.zeros(weather.hours, dtype=np.bool_)
    if weather.hours >= ahead:
        suits[: weather.hours - ahead + 1] = runs[ahead:] - runs[:-ahead] == ahead
    return suits


def lifting_windows(
    weather: HourlyWeather, *, limit: float = LIFT_WIND, shortest: int = 1
) -> tuple[Window, ...]:
    """Return when the wind, with its gusts, stays at or below `limit` [m/s]."""
    gust = GUST_FACTOR * weather.wind if weather.gust is None else weather.gust
    calm = np.maximum(gust, weather.wind) <= limit
    return windows_of(np.asarray(calm, dtype=np.bool_), shortest=shortest)


def roof_windows(
    weather: HourlyWeather, *, cover_hours: float, limit: float = LIFT_WIND, shortest: int = 1
) -> tuple[Window, ...]:
    """Return when roof panels may be set: wind for lifting, and dry until they can be covered.

    `cover_hours` is how long the roof stays open after an hour's setting.
    """
    calm = np.zeros(weather.hours, dtype=np.bool_)
    calm[list(hours_of(lifting_windows(weather, limit=limit)))] = True
    return windows_of(calm & dry_ahead(weather, cover_hours), shortest=shortest)


def _within(values: Floats, least: float | None, most: float | None, error: float) -> Flags:
    suits = np.ones(values.shape, dtype=np.bool_)
    if least is not None:
        suits &= values >= least + error
    if most is not None:
        suits &= values <= most - error
    return suits
