"""Check a plan of days against the weather itself, hour by hour, without the windows made of it.

Nothing is taken over from the making of windows: the limits are stated again and looked up in the
record, the skins and the boards.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from seamwright.climate.arrays import Floats
from seamwright.climate.face import TOUCH_DRY
from seamwright.schedule.outlook import Outlook
from seamwright.schedule.tape_limits import PRODUCTS
from seamwright.schedule.tape_types import TapeProduct
from seamwright.schedule.types import Calendar, DayPlan, Network

_HOUR = 3600.0
_GUST, _LIFT, _FAN, _DROP, _SURE = 1.5, 9.0, 6.0, 0.1, 1.0
_COVER = 8
_WALL = math.radians(60.0)


@dataclass(frozen=True, kw_only=True, slots=True)
class Evidence:
    """A record of weather laid over a calendar: its hour 0 is the calendar's `first`.

    It speaks for the calendar's hours from `begin` up to, not with, `end`.
    """

    outlook: Outlook
    first: int
    begin: int
    end: int


def verify_weather(
    plan: DayPlan,
    network: Network,
    calendar: Calendar,
    evidence: Iterable[Evidence],
    done: frozenset[str] = frozenset(),
) -> tuple[str, ...]:
    """Return every hour of a plan that the weather does not allow, as a sentence.

    Tasks that are `done` are facts. A class that a ban narrowed is checked as the class it was.
    Long work rests in hours that are closed to it; whether it works enough in the others is the
    business of `seamwright.schedule.verify`.
    """
    windows = {task.id: task.window for task in network.tasks}
    working = frozenset(calendar.working_hours)
    claimed = {name: frozenset(hours) for name, hours in calendar.windows}
    rows = tuple(evidence)
    broken = []
    for slot in plan.slots:
        window = windows.get(slot.task_id)
        if window is None or slot.task_id in done:
            continue
        name = window.split(", not ")[0]
        first = math.floor(slot.start * plan.step / _HOUR + 1e-9)
        last = math.ceil(slot.end * plan.step / _HOUR - 1e-9)
        for hour in range(first, last):
            if hour in working and hour in claimed.get(window, working):
                broken += [
                    f"{slot.task_id} is at work in hour {hour}, and {told}."
                    for told in _against(name, hour, rows)
                ]
    return tuple(broken)


def _against(name: str, hour: int, rows: tuple[Evidence, ...]) -> Iterator[str]:
    """Yield what of the weather speaks against work of a class in an hour."""
    for row in rows:
        if not row.begin <= hour < row.end:
            continue
        k = hour - row.first
        if not 0 <= k < row.outlook.weather.hours:
            yield "the record does not tell that hour"
            continue
        if name in {"lift", "roof_open", "fan_test"}:
            yield from _windy(name, k, row.outlook)
        if name == "roof_open" and not _stays_dry(row.outlook, k, _COVER):
            yield "rain falls before the roof can be covered"
        work = re.split(r"[/,]", name, maxsplit=1)[0]
        if work in {"tape", "bead", "foam"}:
            product = PRODUCTS[{"tape": "acrylic", "bead": "sealant", "foam": "foam"}[work]]
            if name == "tape/outer/roof":
                yield from _damp("timbers", (max(0, k - 1), k), row.outlook.boards, product)
            for face in _faces(name, row.outlook):
                yield from _on_face(face, k, row.outlook, product, name)


def _windy(name: str, k: int, outlook: Outlook) -> Iterator[str]:
    wind = float(outlook.weather.wind[k])
    if name == "fan_test":
        if wind > _FAN:
            yield f"the wind is {wind:.1f} m/s"
        return
    told = outlook.weather.gust
    gust = max(wind, _GUST * wind if told is None else float(told[k]))
    if gust > _LIFT:
        yield f"gusts reach {gust:.1f} m/s"


def _faces(name: str, outlook: Outlook) -> list[str]:
    """Return the faces that a class of work lies on."""
    if name in {"foam", "tape/inner"}:
        return ["inside"]
    parts = name.split(", ", maxsplit=1)[0].split("/")
    known = {face.id: face for face in outlook.faces()}
    if parts[-1] in known:
        return [parts[-1]]
    roof = parts[-1] == "roof"
    return [name for name, face in known.items() if (face.tilt <= _WALL) == roof]


def _stays_dry(outlook: Outlook, k: int, hours: int) -> bool:
    """Return whether no rain falls in an hour and the hours after, all of them on record."""
    rain = outlook.weather.rain
    return k + hours < len(rain) and all(float(rain[h]) < _DROP for h in range(k, k + hours + 1))


def _on_face(face: str, k: int, outlook: Outlook, product: TapeProduct, name: str) -> Iterator[str]:
    row = outlook.hours[face]
    skin, air, dew = (float(x[k]) for x in (row.surface, outlook.weather.air, row.condensation))
    for what, value, least, most in (
        ("skin", skin, product.surface_min, product.surface_max),
        ("air", air, product.air_min, product.air_max),
    ):
        if least is not None and value < least + _SURE:
            yield f"{face}: the {what} is {value:.1f} °C cold"
        if most is not None and value > most - _SURE:
            yield f"{face}: the {what} is {value:.1f} °C hot"
    if skin - dew < product.dew_margin + _SURE:
        yield f"{face}: the skin is {skin - dew:.1f} K above the dew point"
    before = max(0, k - 1)
    if not product.wet_ok and max(float(row.water[before]), float(row.water[k])) >= TOUCH_DRY:
        yield f"{face}: the skin is wet"
    if face != "inside":
        after = 1 if name.startswith("bead") else math.ceil(product.dry_hours)
        if not _stays_dry(outlook, k, after):
            yield f"{face}: rain falls too soon"
    if name != "tape/outer/roof" and not name.endswith("fresh"):
        yield from _damp(face, (before, k), outlook.boards, product)


def _damp(
    face: str, hours: tuple[int, int], boards: Mapping[str, Floats], product: TapeProduct
) -> Iterator[str]:
    board = boards.get(face)
    if board is None:
        return
    most = max(float(board[hour]) for hour in hours)
    if most > product.board_hold:
        yield f"{face}: the board holds {100 * most:.1f} %"
