"""Figures within a finished sentence: SI, as results carry them, in the reader's units."""

from __future__ import annotations

import re
from collections.abc import Callable

from seamwright.units.show import System, format_length, format_width
from seamwright.units.sizes import CUBIC_FOOT, FOOT, INCH, SQUARE_FOOT

_HOUR, _MINUTE, _MILE = 3600.0, 60.0, 1609.344
_FOOT, _INCH = float(FOOT), float(INCH)
_CUBIC, _SQUARE = float(CUBIC_FOOT), float(SQUARE_FOOT)

_US: dict[str, tuple[float, str]] = {
    "m³/(h·m)": (_MINUTE / _HOUR / _CUBIC * _FOOT, "CFM/ft"),
    "m³/(h·m²)": (_MINUTE / _HOUR / _CUBIC * _SQUARE, "CFM/ft²"),
    "m³/h": (_MINUTE / _HOUR / _CUBIC, "CFM"),
    "m³": (1.0 / _CUBIC, "ft³"),
    "m²": (1.0 / _SQUARE, "ft²"),
    "m·K": (1.8 / _FOOT, "ft·°F"),
    "m/s": (1.0 / 0.44704, "mph"),
    "km": (1000.0 / _MILE, "mi"),
}
"""One of each unit as a person in the United States reads it. Mile and foot: NIST SP 811."""

_NUMBER = r"-?\d+(?:\.\d+)?"
_FIGURE = re.compile(
    rf"(?<![\w.‘/-])({_NUMBER})(?:( to | a )({_NUMBER}))? "
    r"(m³/\(h·m²?\)|m³/h|m³|m²|m·K|m/s|km|°C|mm|m)(?![\w²³/·])"
)
_TWICE = re.compile(r"\b(?:in|ft²?) \([^)]*\)|‘[^’]*’")
"""What is told in both systems already, and what the user wrote."""


def convert_figures(text: str, system: System) -> str:
    """Return a text with its quantities in a system; for metric, as it is.

    >>> convert_figures("2.2 m/s, 136 to 510 m³/h, 8.5 °C", "us")
    '4.92 mph, 80 to 300 CFM, 47.3 °F'
    """
    if system == "metric":
        return text
    kept = [match.span() for match in _TWICE.finditer(text)]

    def shown(match: re.Match[str]) -> str:
        if any(low <= match.start() < high for low, high in kept):
            return match[0]
        show, unit = _way(match[4])
        more = "" if match[3] is None else f"{match[2]}{show(float(match[3]))}"
        return f"{show(float(match[1]))}{more}{unit}"

    return _FIGURE.sub(shown, text)


def _way(unit: str) -> tuple[Callable[[float], str], str]:
    """Return how to write a number of a unit, and the unit to write behind it."""
    if unit == "mm":
        return lambda value: format_width(value / 1000.0, "us"), ""
    if unit == "m":
        return _length, ""
    if unit == "°C":
        return lambda value: _three(value * 1.8 + 32.0), " °F"
    size, name = _US[unit]
    return lambda value: _three(value * size), f" {name}"


def _length(metres: float) -> str:
    return format_length(metres, "us") if abs(metres) >= _FOOT else format_width(metres, "us")


def _three(value: float) -> str:
    """Return a number with the figures that count, at most three."""
    return f"{value:.0f}" if abs(value) >= 100 else f"{float(f'{value:.3g}'):g}"
