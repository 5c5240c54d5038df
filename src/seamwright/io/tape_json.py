"""The answer to “can we tape now?” as JSON: SI, the unit in the key."""

from __future__ import annotations

import datetime as dt
from typing import Any

from seamwright.climate.face import FaceHours
from seamwright.climate.weather import HOUR
from seamwright.schedule.tape_types import (
    Check,
    Reading,
    TapeAnswer,
    TapeProduct,
    TapeReadings,
)
from seamwright.units.weather import fill_told

_KEYS = {"difference": "k", "share": "share", "days": "days", "hours": "hours"}


def tape_document(
    answer: TapeAnswer,
    readings: TapeReadings,
    product: TapeProduct,
    outlook: FaceHours | None = None,
) -> dict[str, Any]:
    """Return the answer with its checks, readings and product as a JSON document."""
    return {
        "answer": answer.answer,
        "binding": answer.binding.id,
        "chance": answer.chance,
        "turns_at": None if outlook is None else _hour(answer.turns_at, outlook),
        "board_dry_at": None if outlook is None else _hour(answer.board_dry_at, outlook),
        "product": {"id": product.id, "title": product.title, "source": product.source},
        "readings": {
            **_reading("surface_temperature", "c", readings.surface),
            **_reading("air_temperature", "c", readings.air),
            **_reading("humidity", "share", readings.humidity),
            **_reading("board_moisture", "share", readings.board),
            "wet": readings.wet,
            "frost": readings.frost,
            "dust": readings.dust,
            "rough": readings.rough,
            "primed": readings.primed,
            "rain_can_reach": readings.exposed,
            "sun_days": readings.sun_days,
        },
        "checks": [_check(check) for check in answer.checks],
    }


def _check(check: Check) -> dict[str, Any]:
    margin: dict[str, Any] = {}
    if check.measure in _KEYS:
        key = _KEYS[check.measure]
        margin = {f"margin_low_{key}": check.low, f"margin_high_{key}": check.high}
    return {
        "id": check.id,
        "state": check.state,
        "hard": check.hard,
        "weather": check.weather,
        "found": fill_told(check.found, "metric"),
        "way_out": fill_told(check.way_out, "metric"),
        "source": check.source,
        **margin,
    }


def _reading(name: str, unit: str, reading: Reading | None) -> dict[str, Any]:
    return {
        f"{name}_{unit}": None if reading is None else reading.value,
        f"{name}_within_{'k' if unit == 'c' else unit}": (
            None if reading is None else reading.within
        ),
    }


def _hour(hour: int | None, outlook: FaceHours) -> str | None:
    if hour is None:
        return None
    zone = dt.timezone(dt.timedelta(seconds=outlook.weather.utc_offset))
    at = dt.datetime.fromtimestamp(outlook.weather.start + HOUR * hour, tz=zone)
    return at.isoformat(timespec="minutes")
