"""Print SI quantities for people, in US customary or metric units. Rounding happens only here."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Literal, TypeAlias

from seamwright.units.sizes import CUBIC_FOOT, FLUID_OUNCE, INCH, SQUARE_FOOT

System: TypeAlias = Literal["us", "metric"]
Number: TypeAlias = float | Fraction

_FINE_WIDTH = Fraction(20)  # widths below this many millimetres show a tenth


def format_length(metres: Number, system: System, denominator: int = 16) -> str:
    """Return a run: ``24'-6 1/2"`` or ``7.480 m`` (whole ``468 mm`` below one metre).

    US lengths are rounded to the nearest 1/`denominator` inch, metric ones to the millimetre;
    halves go away from zero. Below one foot the feet are left out (``7 7/16"``).
    """
    if system == "metric":
        mm = _nearest(Fraction(metres) * 1000)
        return f"{mm} mm" if abs(mm) < 1000 else f"{_fixed(Fraction(mm, 1000), 3)} m"
    parts = _nearest(Fraction(metres) / INCH * denominator)
    feet, rest = divmod(abs(parts), 12 * denominator)
    sign = "-" if parts < 0 else ""
    inches = _inches(rest, denominator)
    zero = "0 " if 0 < rest < denominator else ""  # 8'-0 1/16": 8'-1/16" reads as a difference
    return f"{sign}{feet}'-{zero}{inches}" if feet else f"{sign}{inches}"


def format_width(metres: Number, system: System, denominator: int = 16) -> str:
    """Return a small length: ``17 1/2"`` or ``102 mm`` (one decimal below 20 mm)."""
    if system == "metric":
        mm = Fraction(metres) * 1000
        fine = abs(mm) < _FINE_WIDTH
        return f"{_trimmed(_fixed(mm, 1)) if fine else _nearest(mm)} mm"
    parts = _nearest(Fraction(metres) / INCH * denominator)
    return ("-" if parts < 0 else "") + _inches(abs(parts), denominator)


def format_area(square_metres: Number, system: System) -> str:
    """Return an area: ``1234.5 ft²`` or ``114.69 m²``."""
    if system == "us":
        return f"{_fixed(Fraction(square_metres) / SQUARE_FOOT, 1)} ft²"
    return f"{_fixed(Fraction(square_metres), 2)} m²"


def format_volume(cubic_metres: Number, system: System) -> str:
    """Return a volume: ``12.3 ft³`` or ``0.348 m³``."""
    if system == "us":
        return f"{_fixed(Fraction(cubic_metres) / CUBIC_FOOT, 1)} ft³"
    return f"{_fixed(Fraction(cubic_metres), 3)} m³"


def format_sealant_volume(cubic_metres: Number, system: System) -> str:
    """Return a volume of sealant or foam as on a label: ``10.1 fl oz`` or ``300 ml``."""
    if system == "us":
        return f"{_fixed(Fraction(cubic_metres) / FLUID_OUNCE, 1)} fl oz"
    return f"{_nearest(Fraction(cubic_metres) * 1_000_000)} ml"


def format_angle(radians: Number) -> str:
    """Return an angle in degrees with one decimal: ``33.7°``."""
    return f"{_fixed(Fraction(math.degrees(radians)), 1)}°"


def format_time(seconds: Number) -> str:
    """Return a duration: ``2 h 15 min``, ``45 min``, or ``30 s`` below one minute."""
    whole = Fraction(seconds)
    if abs(whole) < 60:
        return f"{_nearest(whole)} s"
    minutes = _nearest(whole / 60)
    hours, rest = divmod(abs(minutes), 60)
    parts = [f"{hours} h" if hours else "", f"{rest} min" if rest else ""]
    return ("-" if minutes < 0 else "") + " ".join(part for part in parts if part)


def format_money(amount: Number, currency: str = "") -> str:
    """Return an amount with two decimals, the currency's own word in front: ``USD 1234.50``."""
    shown = _fixed(Fraction(amount), 2)
    return f"{currency} {shown}" if currency else shown


def format_count(value: Number) -> str:
    """Return a number without unit: whole when it is, else with at most two decimals."""
    return _trimmed(_fixed(Fraction(value), 2))


def _inches(parts: int, denominator: int) -> str:
    whole, rest = divmod(parts, denominator)
    if rest == 0:
        return f'{whole}"'
    part = Fraction(rest, denominator)
    fraction = f"{part.numerator}/{part.denominator}"
    return f'{whole} {fraction}"' if whole else f'{fraction}"'


def _nearest(value: Fraction) -> int:
    """Return the nearest whole number, halves away from zero."""
    whole = math.floor(abs(value) + Fraction(1, 2))
    return -whole if value < 0 else whole


def _fixed(value: Fraction, places: int) -> str:
    """Return a decimal with exactly `places` decimals, halves away from zero."""
    scaled = _nearest(value * 10**places)
    whole, rest = divmod(abs(scaled), 10**places)
    sign = "-" if scaled < 0 else ""
    return f"{sign}{whole}.{rest:0{places}d}"


def _trimmed(shown: str) -> str:
    return shown.rstrip("0").rstrip(".")
