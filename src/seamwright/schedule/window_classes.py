"""The hours of each class of work: what tasks ask of the weather, from an hourly record."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import radians

import numpy as np

from seamwright.climate.arrays import Flags
from seamwright.climate.face import Face
from seamwright.climate.sun import Place
from seamwright.climate.weather import HourlyWeather
from seamwright.schedule.outlook import INSIDE, TIMBERS, Outlook, outlook_of
from seamwright.schedule.tape_limits import PRODUCTS
from seamwright.schedule.tape_types import TapeProduct
from seamwright.schedule.window import (
    FORECAST_ERROR,
    LIFT_WIND,
    board_dry,
    dry_ahead,
    hours_of,
    kept_limits,
    lifting_windows,
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

BEAD_HOURS = 1.0
"""Hours that must stay dry after a bead: the next panel closes on it. [h] As the time a bead may
lie open in `seamwright.schedule.rates`."""

FRESH = ", fresh"
"""What ends the name of a class for panels set and covered on one day: their boards come dry from
the stack, so that the film of water alone counts."""

Kept = Mapping[str, Flags]


@dataclass(frozen=True, kw_only=True, slots=True)
class ClassHours:
    """A class of work: the hours open to it, and what closes the others, first reason first."""

    name: str
    open: tuple[int, ...]
    closed: tuple[tuple[int, str], ...]


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
    """Return each window class with the hours that suit it, by the film of water alone.

    Arguments and classes as for `classes_of`.
    """
    found = classes_of(
        outlook_of(weather, faces, place, bare=()), products=products, cover_hours=cover_hours,
        lift_wind=lift_wind, error=error,
    )  # fmt: skip
    return tuple((row.name, row.open) for row in found)


def classes_of(
    outlook: Outlook,
    *,
    products: Mapping[str, TapeProduct] | None = None,
    cover_hours: float = COVER_HOURS,
    lift_wind: float = LIFT_WIND,
    error: float = FORECAST_ERROR,
) -> tuple[ClassHours, ...]:
    """Return each window class with its hours, as a calendar takes them.

    A class of walls or roofs holds the hours that suit **every** such face, and
    ``tape/outer/roof/ID`` those of one. Where the outlook has boards, outer strips and beads on
    walls that stand (``bead``, ``bead/ID``) wait for them, and ``tape/outer/roof`` for the timbers
    it is draped over; ``bead, fresh`` and ``tape/outer/roof/ID, fresh`` are for panels fresh from
    the stack. `products` replaces the default by work: ``tape``, ``bead``, ``foam``. Beads are
    closed by the next panel within the hour, so they need no dry hours after. Classes: lift,
    roof_open, bead, foam, tape/inner, tape/outer/wall, tape/outer/roof, fan_test.
    """
    chosen = {work: PRODUCTS[name] for work, name in ROLES.items()} | dict(products or {})
    bead = replace(chosen["bead"], dry_hours=BEAD_HOURS)
    weather = outlook.weather
    calm = np.zeros(weather.hours, dtype=np.bool_)
    calm[list(hours_of(lifting_windows(weather, limit=lift_wind)))] = True
    quiet = np.asarray(weather.wind <= FAN_WIND, dtype=np.bool_)
    covered = {"rain before it is covered": dry_ahead(weather, cover_hours)}

    def kept(face: str, product: TapeProduct, *, bare: bool = True) -> Kept:
        board = outlook.boards.get(face) if bare else None
        return kept_limits(outlook.hours[face], product, board=board, error=error)

    walls = [face.id for face in outlook.faces() if face.tilt > STEEP]
    roofs = [face.id for face in outlook.faces() if face.tilt <= STEEP]
    lying = outlook.boards.get(TIMBERS.id)
    hold = chosen["tape"].board_hold
    timbers = [] if lying is None else [{"board damp": board_dry(lying, hold)}]
    beads = {face: kept(face, bead) for face in walls}
    tape = {face: kept(face, chosen["tape"]) for face in (*walls, *roofs)}
    rows: dict[str, Kept] = {
        "lift": {"wind": calm},
        "roof_open": {**covered, "wind": calm},
        "bead": _all([beads[face] for face in walls]),
        f"bead{FRESH}": _all([kept(face, bead, bare=False) for face in walls]),
        "foam": kept(INSIDE.id, chosen["foam"]),
        "tape/inner": kept(INSIDE.id, chosen["tape"]),
        "tape/outer/wall": _all([tape[face] for face in walls]),
        "tape/outer/roof": _all(
            [*(kept(face, chosen["tape"], bare=False) for face in roofs), *timbers]
        ),
        "fan_test": {"wind": quiet},
    }
    for kind, group in (("wall", walls), ("roof", roofs)):
        rows |= {f"tape/outer/{kind}/{face}": tape[face] for face in group}
    rows |= {f"bead/{face}": beads[face] for face in walls}
    rows |= {
        f"tape/outer/roof/{face}{FRESH}": kept(face, chosen["tape"], bare=False) for face in roofs
    }
    return tuple(_class(name, weather.hours, limits) for name, limits in rows.items())


def _class(name: str, hours: int, kept: Kept) -> ClassHours:
    """Return the hours of a class; a closed one names the first limit it does not keep."""
    suits = np.ones(hours, dtype=np.bool_)
    closed: dict[int, str] = {}
    for reason, flags in kept.items():
        closed |= {int(hour): reason for hour in np.flatnonzero(suits & ~flags)}
        suits &= flags
    return ClassHours(
        name=name, open=tuple(np.flatnonzero(suits).tolist()), closed=tuple(sorted(closed.items()))
    )


def _all(faces: Sequence[Kept]) -> Kept:
    """Return the limits that every face keeps; with no face every hour does."""
    found: dict[str, Flags] = {}
    for kept in faces:
        for reason, flags in kept.items():
            found[reason] = flags if reason not in found else found[reason] & flags
    return found
