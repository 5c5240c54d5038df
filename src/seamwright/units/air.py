"""Print what air does: flows, leak areas, leakage per metre and per area, and the heat it carries.

Leakage figures are estimates or readings of a few per cent: two or three digits are all they hold.
"""

from __future__ import annotations

import math
from fractions import Fraction

from seamwright.units.sizes import CUBIC_FOOT, FOOT, INCH, SQUARE_FOOT

_HOUR = 3600
_MINUTE = 60
_WATT_IN_BTU_H = 3.412141633
"""International table Btu, NIST Special Publication 811, appendix B."""


def format_flow(cubic_metres_a_second: float, system: str) -> str:
    """Return an air flow: ``129 cfm`` or ``219 m³/h``."""
    if system == "us":
        return f"{_three(cubic_metres_a_second * _MINUTE / float(CUBIC_FOOT))} cfm"
    return f"{_three(cubic_metres_a_second * _HOUR)} m³/h"


def format_leak_area(square_metres: float, system: str) -> str:
    """Return a leakage area: ``16.3 in²`` or ``105 cm²``."""
    if system == "us":
        return f"{_three(square_metres / float(INCH) ** 2)} in²"
    return f"{_three(square_metres * 1e4)} cm²"


def format_leak_line(square_metres_a_metre: float, system: str) -> str:
    """Return a leakage area along a line: ``0.019 in²/ft`` or ``0.400 cm²/m``."""
    if system == "us":
        return f"{_three(square_metres_a_metre * float(FOOT) / float(INCH) ** 2)} in²/ft"
    return f"{_three(square_metres_a_metre * 1e4)} cm²/m"


def format_leak_rate(square_metres_a_second: float, system: str) -> str:
    """Return a leakage along a line: ``0.098 cfm/ft`` or ``0.55 m³/(h·m)``."""
    if system == "us":
        return f"{_small(square_metres_a_second * _MINUTE / float(SQUARE_FOOT))} cfm/ft"
    return f"{_small(square_metres_a_second * _HOUR)} m³/(h·m)"


def format_permeability(metres_a_second: float, system: str) -> str:
    """Return a leakage per area of shell: ``0.068 cfm/ft²`` or ``1.24 m³/(h·m²)``."""
    if system == "us":
        return f"{_three(metres_a_second * _MINUTE / float(FOOT))} cfm/ft²"
    return f"{_three(metres_a_second * _HOUR)} m³/(h·m²)"


def format_power(watts: float, system: str) -> str:
    """Return a rate of heat: ``1,710 Btu/h`` or ``502 W``."""
    if system == "us":
        return f"{_three(watts * _WATT_IN_BTU_H)} Btu/h"
    return f"{_three(watts)} W"


def format_air_change(per_hour: float) -> str:
    """Return air changes: ``1.24 1/h``."""
    return f"{_three(per_hour)} 1/h"


def format_share(part: float) -> str:
    """Return a part of a whole: ``12 %``; ends that are nearly reached read ``<1 %``, ``>99 %``."""
    if 0.0 < part < 0.01:
        return "<1 %"
    if 0.99 < part < 1.0:
        return ">99 %"
    return f"{part * 100:.0f} %"


def _small(value: float) -> str:
    """Return a number with three digits; below 0.01 with two, so that a strict limit keeps them."""
    if not 0.0 < abs(value) < 0.01:
        return _three(value)
    places = min(1 - math.floor(math.log10(abs(value))), 6)
    return f"{value:.{places}f}"


def _three(value: float) -> str:
    """Return a number with three digits, never more than three decimals nor an exponent."""
    size = abs(value)
    if size >= 100:
        shown = Fraction(f"{value:.3g}") if size < 1e12 else Fraction(value)
        return f"{int(shown):,}"
    places = 1 if size >= 10 else 2 if size >= 1 else 3
    return f"{value:.{places}f}"
