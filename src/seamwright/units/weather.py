"""Read and print what instruments and forecasts say: temperatures, humidity, wind, rain, sun.

>>> parse_temperature("54 F")
12.222222222222221
>>> parse_reading("12 °C ± 1", "temperature")
(12.0, 1.0)
"""

from __future__ import annotations

import re
from typing import Literal, TypeAlias

from seamwright.errors import InputError, Problem
from seamwright.schedule.tape_types import Measure, Told

WeatherMeasure: TypeAlias = Literal["temperature", "share", "speed", "rain", "sun", "pressure"]

ABSOLUTE_ZERO = -273.15

SIZES: dict[WeatherMeasure, dict[str, float]] = {
    "temperature": {"c": 1.0, "f": 5.0 / 9.0, "k": 1.0},
    "share": {"%": 0.01, "1": 1.0},
    "speed": {
        "m/s": 1.0,
        "km/h": 1.0 / 3.6,
        "mph": 0.44704,
        "kn": 1852.0 / 3600.0,
        "ft/s": 0.3048,
    },
    "rain": {"mm": 1.0, "cm": 10.0, "in": 25.4},
    "sun": {"w/m2": 1.0, "kw/m2": 1000.0},
    "pressure": {"pa": 1.0, "hpa": 100.0, "kpa": 1000.0, "mbar": 100.0, "inhg": 3386.389},
}
"""One of each unit in °C (or K), parts of one, m/s, kg/m² of water in the hour, W/m² and Pa.

Mile, foot, knot and mercury by NIST Special Publication 811, appendix B.
"""

SHOWN: dict[WeatherMeasure, str] = {
    "temperature": "C or F",
    "share": "%",
    "speed": "m/s, mph, km/h or kn",
    "rain": "mm or in",
    "sun": "W/m2",
    "pressure": "hPa or inHg",
}
EXAMPLES: dict[WeatherMeasure, str] = {
    "temperature": "12 C or 54 F",
    "share": "70 %",
    "speed": "5 m/s or 11 mph",
    "rain": "2 mm or 0.1 in",
    "sun": "400 W/m2",
    "pressure": "1013 hPa",
}
_SPELLINGS = {
    "celsius": "c",
    "degc": "c",
    "fahrenheit": "f",
    "degf": "f",
    "kelvin": "k",
    "percent": "%",
    "ms": "m/s",
    "mps": "m/s",
    "kmh": "km/h",
    "kph": "km/h",
    "knots": "kn",
    "knot": "kn",
    "kt": "kn",
    "kts": "kn",
    "mm/h": "mm",
    "mm/hr": "mm",
    "mmh": "mm",
    "kg/m2": "mm",
    "in/h": "in",
    "in/hr": "in",
    "inch": "in",
    "inches": "in",
    "cm/h": "cm",
    "wm2": "w/m2",
    "mb": "mbar",
}
_WORDS = {
    "temperature": "temperature",
    "share": "share",
    "speed": "wind speed",
    "rain": "rain",
    "sun": "irradiance",
    "pressure": "air pressure",
}
_MARKS = str.maketrans({"²": "2", "°": "", "º": "", "˚": "", "−": "-", "–": "-", "\u00a0": " "})
_AMOUNT = re.compile(
    r"([+-]?(?:\d{1,6}(?:[.,]\d{1,6})?|[.,]\d{1,6}))\s*([a-z%/0-9]*)"
    r"(?:\s*(?:±|\+/?-)\s*(\d{1,4}(?:[.,]\d{1,4})?)\s*([a-z%]*))?"
)
_LONGEST = 48


def unit_named(text: str, measure: WeatherMeasure) -> str | None:
    """Return a unit as this module spells it, or None where the measure has no such unit."""
    plain = re.sub(r"[\s.^]", "", text.translate(_MARKS).casefold())
    plain = _SPELLINGS.get(plain, plain)
    return plain if plain in SIZES[measure] else None


def to_si(value: float, measure: WeatherMeasure, unit: str) -> float:
    """Return a value in °C, parts of one, m/s, kg/m², W/m² or Pa."""
    if measure == "temperature":
        if unit == "f":
            return (value - 32.0) * 5.0 / 9.0
        return value + ABSOLUTE_ZERO if unit == "k" else value
    return value * SIZES[measure][unit]


def parse_reading(text: str, measure: WeatherMeasure) -> tuple[float, float | None]:
    """Return a reading with its unit, and the ± after it if there is one, in SI.

    ``12 C``, ``54°F``, ``70 %``, ``12 C ± 1``, ``54 F +- 2``. The ± has the unit of the reading.

    Raises
    ------
    InputError
        With a sentence and an example when it cannot be read or has no unit.
    """
    found = None
    if len(text) <= _LONGEST:
        found = _AMOUNT.fullmatch(" ".join(text.translate(_MARKS).casefold().split()))
    if found is None:
        raise _refused(text, f"cannot be read as a {_WORDS[measure]}", measure)
    unit = unit_named(found[2], measure) if found[2] else None
    if unit is None:
        why = f"has the unknown unit ‘{found[2]}’" if found[2] else "has no unit"
        raise _refused(text, why, measure)
    value = to_si(float(found[1].replace(",", ".")), measure, unit)
    if found[3] is None:
        return value, None
    if found[4] and unit_named(found[4], measure) != unit:
        raise _refused(text, "has another unit after the ±", measure)
    return value, float(found[3].replace(",", ".")) * SIZES[measure][unit]


def parse_temperature(text: str) -> float:
    """Return a temperature such as ``12 C`` or ``54 F``. [°C] Raises InputError."""
    return _alone(text, "temperature")


def parse_share(text: str) -> float:
    """Return a share such as ``70 %``, as a part of one. Raises InputError."""
    return _alone(text, "share")


def parse_speed(text: str) -> float:
    """Return a wind speed such as ``5 m/s`` or ``11 mph``. [m/s] Raises InputError."""
    return _alone(text, "speed")


def format_temperature(celsius: float, system: str) -> str:
    """Return a temperature to half a degree or better: ``54 °F`` or ``12.2 °C``."""
    if system == "us":
        return f"{celsius * 1.8 + 32.0 + 0.0:.0f} °F"
    return f"{_plain(celsius)} °C"


def format_difference(kelvin: float, system: str) -> str:
    """Return a difference of temperatures: ``5.4 °F`` or ``3 °C``."""
    if system == "us":
        return f"{_plain(kelvin * 1.8)} °F"
    return f"{_plain(kelvin)} °C"


def fill_told(told: Told, system: str) -> str:
    """Return a sentence of the tape answer with its figures in the wanted units."""
    words = {name: _figure(*figure, system) for name, figure in told.figures.items()}
    return told.text.format(**words)


def _figure(value: float, measure: Measure, system: str) -> str:
    if measure == "temperature":
        return format_temperature(value, system)
    if measure == "difference":
        return format_difference(value, system)
    if measure == "share":
        return f"{_plain(value * 100.0)} %"
    unit = {"days": "day", "hours": "hour"}[measure]
    return f"{_plain(value)} {unit}{'' if value == 1 else 's'}"


def _plain(value: float) -> str:
    """Return a number with one decimal, none where it is whole."""
    shown = f"{value + 0.0:.1f}".removesuffix(".0")
    return "0" if shown == "-0" else shown


def _alone(text: str, measure: WeatherMeasure) -> float:
    value, within = parse_reading(text, measure)
    if within is not None:
        raise _refused(text, "has a ± where a plain value belongs", measure)
    return value


def _refused(text: str, why: str, measure: WeatherMeasure) -> InputError:
    shown = "".join(mark if mark.isprintable() else "·" for mark in text[:40])
    remedy = f"write the {_WORDS[measure]} as {EXAMPLES[measure]}"
    return InputError([Problem(subject=shown, sentence=f"‘{shown}’ {why}", remedy=remedy)])
