"""The hours of each class of work: what tasks ask of the weather, from an hourly record."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import pi, radians

import numpy as np

from seamwright.climate.arrays import Flags
from seamwright.climate.face import Face, face_hours
from seamwright.climate.sun import Place
from seamwright.climate.weather import HourlyWeather
from seamwright.schedule.tape_limits import PRODUCTS
from seamwright.schedule.tape_types import TapeProduct
from seamwright.schedule.window import (
    FORECAST_ERROR,
    LIFT_WIND,
    dry_ahead,
    hours_of,
    lifting_windows,
    usable_hours,
)

FAN_WIND = 6.0
"""Wind above which a fan test is hardly valid. [m/s] ISO 9972:2015 (from memory)."""

COVER_HOURS = 8.0
"""How long a roof may stay open before it is covered the same day. [h] Common practice, no
source."""

STEEP = radians(60.0)
"""A face steeper than this is a wall. [rad] Our own bound; no roof of the plan is steeper."""

ROLES: Mapping[str, str] = {"tape": "acrylic", "bead": "sealant", "foam": "foam"}
"""The default product of each kind of work."""

INSIDE = Face(id="inside", azimuth=0.0, tilt=pi / 2, inner=True)


def class_hours(
    weather: HourlyWeather,
    faces: Sequence[Face],
    place: Place | None = None,
    *,
    products: Mapping[str, TapeProduct] | None = None,
    cover_hours: float = COVER_HOURS,
    lift_wind: float = LIFT_WIND,
    error: float = FORECAST_ERROR,
) -> tuple[tuple[str, tuple[int, ...]], ...]:
    """Return each window class with the hours that suit it, as a calendar takes them.

    `faces` are the outer faces of the house; a class of walls or roofs holds the hours that suit
    **every** such face, and ``tape/outer/roof/ID`` those of one. `products` replaces the default
    by work: ``tape``, ``bead``, ``foam``. Beads are closed by the next panel within the hour, so
    they need no dry hours after. Classes: lift, roof_open, bead, foam, tape/inner,
    tape/outer/wall, tape/outer/roof, fan_test.
    """
    chosen = {work: PRODUCTS[name] for work, name in ROLES.items()} | dict(products or {})
    bead = replace(chosen["bead"], dry_hours=1.0)
    walls = [face for face in faces if face.tilt > STEEP]
    roofs = [face for face in faces if face.tilt <= STEEP]
    each = {
        face.id: _suits(weather, face, place, chosen["tape"], error) for face in (*walls, *roofs)
    }
    calm = np.zeros(weather.hours, dtype=np.bool_)
    calm[list(hours_of(lifting_windows(weather, limit=lift_wind)))] = True
    suits: dict[str, Flags] = {
        "lift": calm,
        "roof_open": dry_ahead(weather, cover_hours) & calm,
        "bead": _all(weather, [_suits(weather, f, place, bead, error) for f in walls]),
        "foam": _suits(weather, INSIDE, place, chosen["foam"], error),
        "tape/inner": _suits(weather, INSIDE, place, chosen["tape"], error),
        "tape/outer/wall": _all(weather, [each[face.id] for face in walls]),
        "tape/outer/roof": _all(weather, [each[face.id] for face in roofs]),
        "fan_test": np.asarray(weather.wind <= FAN_WIND, dtype=np.bool_),
    }
    for kind, group in (("wall", walls), ("roof", roofs)):
        suits |= {f"tape/outer/{kind}/{face.id}": each[face.id] for face in group}
    return tuple((name, tuple(np.flatnonzero(flags).tolist())) for name, flags in suits.items())


def _suits(
    weather: HourlyWeather, face: Face, place: Place | None, product: TapeProduct, error: float
) -> Flags:
    return usable_hours(face_hours(weather, face, place), product, error=error)


def _all(weather: HourlyWeather, flags: Sequence[Flags]) -> Flags:
    """Return the hours that suit every face; with no such face every hour does."""
    suits = np.ones(weather.hours, dtype=np.bool_)
    for one in flags:
        suits &= one
    return suits
