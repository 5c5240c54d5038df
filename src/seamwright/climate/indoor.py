"""The air of the rooms, from the weather outside by a published rule or as a stated value.

>>> choice = indoor_named("iso 13788 class 3")
>>> choice.kind, choice.humidity_class
('iso_13788', 3)
"""

from __future__ import annotations

import difflib
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np

from seamwright.climate.arrays import Floats
from seamwright.climate.moist_air import relative_humidity, saturation_pressure
from seamwright.climate.weather import HourlyWeather
from seamwright.errors import InputError, Problem

Kind: TypeAlias = Literal["iso_13788", "en_15026_normal", "en_15026_high", "ashrae_160", "fixed"]

EXCESS_PER_CLASS = 270.0
"""Upper vapor excess of class 1 at 0 °C and below; class n has n times as much. [Pa]
ISO 13788:2012 annex A, figure A.1 (from memory). Class 5 has no upper bound there; one more step
is taken, our own choice."""

CLASSES = (1, 2, 3, 4, 5)
CLASS_USES = (
    "unoccupied, storage of dry goods",
    "offices, dwellings with normal occupancy and ventilation",
    "buildings with unknown occupancy",
    "sports halls, kitchens, canteens",
    "laundries, breweries, swimming pools",
)
"""What each class is for. ISO 13788:2012 table A.1 (from memory)."""

DAY = 24
"""Hours of the running mean of the outdoor air. EN 15026 annex C and ASHRAE 160 take a day."""


@dataclass(frozen=True, kw_only=True, slots=True)
class IndoorChoice:
    """Which rule gives the air of the rooms.

    `humidity_class` is that of ISO 13788; `temperature` [°C] is the rooms' under ISO 13788 and
    `fixed`; `humidity` a part of one, for `fixed`. The other rules bring their own.
    """

    kind: Kind
    humidity_class: int = 3
    temperature: float = 20.0
    humidity: float = 0.5


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class IndoorHours:
    """The air of the rooms hour by hour: temperature [°C] and vapor pressure [Pa].

    `source` names the rule; `mark` is ``from memory`` where nobody here has seen it in print,
    ``stated`` for a value the user gave. `capped` counts hours in which the rule asked for more
    vapor than air can hold.
    """

    temperature: Floats
    vapor: Floats
    source: str
    mark: str
    capped: int = 0

    @property
    def humidity(self) -> Floats:
        """Relative humidity, as a part of one."""
        return relative_humidity(self.temperature, self.vapor)


def indoor_hours(weather: HourlyWeather, choice: IndoorChoice) -> IndoorHours:
    """Return the air of the rooms for each hour of the weather.

    The rules follow the running mean of the outdoor air over the `DAY` before; the year counts as
    a ring, its first day looks back at its last.
    """
    outside = running_mean(weather.air)
    temperature, vapor, source, mark = _RULES[choice.kind](choice, outside, weather)
    full = saturation_pressure(temperature)
    return IndoorHours(
        temperature=temperature,
        vapor=np.minimum(vapor, full),
        source=source,
        mark=mark,
        capped=int(np.sum(vapor > full)),
    )


def running_mean(hourly: Floats, hours: int = DAY) -> Floats:
    """Return the mean of each hour and those before it, `hours` in all; the series is a ring."""
    count = min(hours, len(hourly))
    longer = np.concatenate([hourly[len(hourly) - count :], hourly])
    total = np.concatenate([[0.0], np.cumsum(longer)])
    means = (total[count:] - total[:-count]) / count
    return np.asarray(means[1:], dtype=np.float64)


def indoor_named(
    name: str, *, temperature: float | None = None, humidity: float | None = None
) -> IndoorChoice:
    """Return the rule that a name asks for, such as ``iso 13788 class 3`` or ``ashrae 160``.

    Capitals, hyphens and underscores do not matter. `fixed` needs `temperature` [°C] and
    `humidity` (a part of one); `temperature` may also be given with ISO 13788.

    Raises
    ------
    InputError
        When there is no such rule, or a value is missing or not possible.
    """
    word = " ".join(name.casefold().replace("-", " ").replace("_", " ").split())
    known = INDOOR_NAMES
    if word not in known:
        close = difflib.get_close_matches(word, known, n=1, cutoff=0.5)
        remedy = f"did you mean {close[0]}?" if close else f"known are: {', '.join(known)}"
        raise _refused(f"there is no indoor climate ‘{name[:40]}’", remedy)
    kind, humidity_class = known[word]
    room = 20.0 if temperature is None else temperature
    if not 5.0 <= room <= 35.0:
        raise _refused(f"rooms of {room:g} °C are outside 5 to 35 °C", "give it in °C")
    if kind != "fixed":
        _refuse_what_the_rule_brings(kind, word, temperature, humidity)
        return IndoorChoice(kind=kind, humidity_class=humidity_class, temperature=room)
    if humidity is None or temperature is None:
        raise _refused("a fixed indoor climate lacks its temperature or humidity",
                       "give both, such as 21 °C and 0.40")  # fmt: skip
    if not 0.0 < humidity <= 0.95:
        raise _refused(f"a relative humidity of {humidity:g} is outside 0 to 0.95",
                       "give it as a part of one, 0.40 for 40 %")  # fmt: skip
    return IndoorChoice(kind="fixed", temperature=room, humidity=humidity)


def _refuse_what_the_rule_brings(
    kind: Kind, word: str, temperature: float | None, humidity: float | None
) -> None:
    if humidity is not None:
        raise _refused(f"{word} brings its own humidity", "leave it out, or ask for fixed")
    if temperature is not None and kind != "iso_13788":
        raise _refused(f"{word} brings its own temperature", "leave it out, or ask for fixed")


def vapor_excess(outside: Floats, humidity_class: int) -> Floats:
    """Return the vapor that rooms of a class of ISO 13788 have above outdoors. [Pa]

    Its upper bound: full at 0 °C and below, none at 20 °C and above, straight between.
    """
    share = np.clip(1.0 - np.asarray(outside, dtype=np.float64) / 20.0, 0.0, 1.0)
    return np.asarray(EXCESS_PER_CLASS * humidity_class * share, dtype=np.float64)


def cold_skin_drive(weather: HourlyWeather, rooms: IndoorHours, share: float = 0.1) -> float:
    """Return by how much room air is too wet for the cold skin, summed over the hours. [Pa·h]

    The skin lies where `share` of the thermal resistance is outside it (0.1: the inner side of an
    outer skin); sun and sky are left out. A measure of a climate, not of a joint.
    """
    skin = weather.air + share * (rooms.temperature - weather.air)
    return float(np.maximum(rooms.vapor - saturation_pressure(skin), 0.0).sum())


def _iso_13788(
    choice: IndoorChoice, outside: Floats, weather: HourlyWeather
) -> tuple[Floats, Floats, str, str]:
    vapor = running_mean(weather.vapor) + vapor_excess(outside, choice.humidity_class)
    use = CLASS_USES[choice.humidity_class - 1]
    source = f"ISO 13788:2012 annex A, humidity class {choice.humidity_class} ({use}), upper bound"
    return np.full(len(outside), choice.temperature), vapor, source, "from memory"


def _en_15026(
    choice: IndoorChoice, outside: Floats, _: HourlyWeather
) -> tuple[Floats, Floats, str, str]:
    room = np.interp(outside, (10.0, 20.0), (20.0, 25.0))
    low = 0.30 if choice.kind == "en_15026_normal" else 0.40
    share = np.interp(outside, (-10.0, 20.0), (low, low + 0.30))
    level = "normal" if choice.kind == "en_15026_normal" else "high"
    source = f"EN 15026:2007 annex C, {level} occupancy"
    return room, share * saturation_pressure(room), source, "from memory"


def _ashrae_160(
    _: IndoorChoice, outside: Floats, __: HourlyWeather
) -> tuple[Floats, Floats, str, str]:
    room = np.interp(outside, (18.3, 21.1), (21.1, 23.9))
    share = np.interp(outside, (-10.0, 20.0), (0.40, 0.70))
    source = "ASHRAE 160, simplified method (temperature seen, humidity from memory)"
    return room, share * saturation_pressure(room), source, "from memory"


def _fixed(
    choice: IndoorChoice, outside: Floats, _: HourlyWeather
) -> tuple[Floats, Floats, str, str]:
    room = np.full(len(outside), choice.temperature)
    source = f"stated: {choice.temperature:g} °C and {100.0 * choice.humidity:g} %"
    return room, choice.humidity * saturation_pressure(room), source, "stated"


def _refused(sentence: str, remedy: str) -> InputError:
    return InputError([Problem(subject="indoor climate", sentence=sentence, remedy=remedy)])


_Rule: TypeAlias = Callable[[IndoorChoice, Floats, HourlyWeather], tuple[Floats, Floats, str, str]]
_RULES: dict[Kind, _Rule] = {
    "iso_13788": _iso_13788,
    "en_15026_normal": _en_15026,
    "en_15026_high": _en_15026,
    "ashrae_160": _ashrae_160,
    "fixed": _fixed,
}
INDOOR_NAMES: dict[str, tuple[Kind, int]] = {
    **{f"iso 13788 class {n}": ("iso_13788", n) for n in CLASSES},
    "en 15026 normal": ("en_15026_normal", 3),
    "en 15026 high": ("en_15026_high", 3),
    "ashrae 160": ("ashrae_160", 3),
    "fixed": ("fixed", 3),
}
"""The indoor climates by name, and what each stands for."""
