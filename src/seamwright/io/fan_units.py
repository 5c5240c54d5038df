"""Units as testers write them in the headers of a fan-test file, and what one of each is in SI."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Literal, TypeAlias

Measure: TypeAlias = Literal[
    "pressure", "flow", "temperature", "air pressure", "length", "speed", "volume", "area", "share"
]

_FOOT = 0.3048
_MINUTE = 60.0
_INCH_OF_WATER = 249.0889
"""Conventional inch of water. [Pa] NIST SP 811, appendix B."""

_PRESSURE = {
    "pa": 1.0,
    "hpa": 100.0,
    "mbar": 100.0,
    "kpa": 1000.0,
    "inwc": _INCH_OF_WATER,
    "inwg": _INCH_OF_WATER,
    "inh2o": _INCH_OF_WATER,
    "inwater": _INCH_OF_WATER,
    "mmh2o": 9.80665,
    "psf": 47.88026,
}
_AIR = {
    "inhg": 3386.389,
    "mmhg": 133.3224,
    "psi": 6894.757,
    "bar": 1e5,
    "atm": 101325.0,
}

UNITS: Mapping[Measure, Mapping[str, float]] = {
    "pressure": _PRESSURE,
    "flow": {
        "m3/s": 1.0,
        "m3/h": 1.0 / 3600.0,
        "m3/min": 1.0 / _MINUTE,
        "l/s": 1e-3,
        "cfm": _FOOT**3 / _MINUTE,
        "ft3/min": _FOOT**3 / _MINUTE,
        "cfs": _FOOT**3,
    },
    "temperature": {"c": 1.0, "f": 5.0 / 9.0, "k": 1.0},
    "air pressure": {**_PRESSURE, **_AIR},
    "length": {"m": 1.0, "ft": _FOOT, "in": _FOOT / 12.0, "cm": 0.01, "mm": 0.001},
    "speed": {
        "m/s": 1.0,
        "km/h": 1.0 / 3.6,
        "mph": 0.44704,
        "kn": 1852.0 / 3600.0,
        "ft/min": _FOOT / _MINUTE,
        "ft/s": _FOOT,
    },
    "volume": {"m3": 1.0, "ft3": _FOOT**3, "l": 1e-3},
    "area": {"m2": 1.0, "ft2": _FOOT**2},
    "share": {"%": 0.01},
}
"""Size of each unit in SI: Pa, m³/s, K, m, m/s, m³, m², and parts of one.

Inch, foot, pound and mercury units by NIST SP 811, appendix B.
"""

SHOWN: Mapping[Measure, str] = {
    "pressure": "Pa or in H2O",
    "flow": "cfm, l/s, m3/h or m3/s",
    "temperature": "C or F",
    "air pressure": "Pa, hPa, kPa or inHg",
    "length": "ft or m",
    "speed": "mph, m/s or km/h",
    "volume": "ft3 or m3",
    "area": "ft2 or m2",
    "share": "%",
}
"""The units to suggest for each measure."""

_SPELLINGS = {
    "cmh": "m3/h",
    "m3/hr": "m3/h",
    "m3h": "m3/h",
    "cms": "m3/s",
    "m3s": "m3/s",
    "ls": "l/s",
    "lps": "l/s",
    "scfm": "cfm",
    "feet": "ft",
    "foot": "ft",
    "inches": "in",
    "meters": "m",
    "metres": "m",
    "kmh": "km/h",
    "kph": "km/h",
    "knots": "kn",
    "kt": "kn",
    "fpm": "ft/min",
    "celsius": "c",
    "degc": "c",
    "fahrenheit": "f",
    "degf": "f",
    "kelvin": "k",
    "cuft": "ft3",
    "cf": "ft3",
    "sqft": "ft2",
    "sf": "ft2",
    "sqm": "m2",
    "percent": "%",
    "inchwc": "inwc",
    "inchesh2o": "inh2o",
    "inchesofwater": "inwater",
    "incheswater": "inwater",
    "inchwater": "inwater",
    "iwc": "inwc",
    "mb": "mbar",
}
_MARKS = str.maketrans({"²": "2", "³": "3", "₂": "2", "^": "", "°": "", ".": "", " ": "", "·": ""})


def unit_named(text: str, measure: Measure) -> str | None:
    """Return the unit as this table spells it, or None where the measure has no such unit."""
    plain = re.sub(r"\s", "", text.strip().lower().translate(_MARKS))
    plain = _SPELLINGS.get(plain, plain)
    return plain if plain in UNITS[measure] else None


def to_si(value: float, measure: Measure, unit: str) -> float:
    """Return a value in SI; temperatures in °C."""
    if measure == "temperature":
        if unit == "f":
            return (value - 32.0) / 1.8
        return value - 273.15 if unit == "k" else value
    return value * UNITS[measure][unit]
