r"""Lengths, pitches and quantities as people write them, to and from SI.

Reading is exact: one inch is 127/5000 m, and a length is a `fractions.Fraction` of a metre until
it is printed. Rounding happens only in the `format_*` functions.

>>> parse_length('24\' 6-1/2"') == 589 * Fraction(127, 5000) / 2
True
>>> format_length(parse_length('8\'-7 7/16"'), "us")
'8\'-7 7/16"'
>>> format_length(parse_length('8\'-7 7/16"'), "metric")
'2.627 m'
>>> parse_angle("8/12")
Fraction(2, 3)
"""

from __future__ import annotations

from fractions import Fraction

from seamwright.units.fill import fill, format_quantity
from seamwright.units.parse import LENGTH_EXAMPLE, LengthUnit, parse_angle, parse_length
from seamwright.units.quantity import (
    DURATION_EXAMPLE,
    RATE_EXAMPLE,
    VOLUME_EXAMPLE,
    parse_duration,
    parse_rate,
    parse_volume,
)
from seamwright.units.show import (
    System,
    format_angle,
    format_area,
    format_count,
    format_length,
    format_money,
    format_sealant_volume,
    format_time,
    format_volume,
    format_width,
)
from seamwright.units.sizes import CUBIC_FOOT, FLUID_OUNCE, FOOT, INCH, SQUARE_FOOT

__all__ = [
    "CUBIC_FOOT",
    "DURATION_EXAMPLE",
    "FLUID_OUNCE",
    "FOOT",
    "INCH",
    "LENGTH_EXAMPLE",
    "RATE_EXAMPLE",
    "SQUARE_FOOT",
    "VOLUME_EXAMPLE",
    "Fraction",
    "LengthUnit",
    "System",
    "fill",
    "format_angle",
    "format_area",
    "format_count",
    "format_length",
    "format_money",
    "format_quantity",
    "format_sealant_volume",
    "format_time",
    "format_volume",
    "format_width",
    "parse_angle",
    "parse_duration",
    "parse_length",
    "parse_rate",
    "parse_volume",
]
