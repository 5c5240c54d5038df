"""The exact sizes of customary units in SI.

Source: the international yard and pound agreement of 1959 fixes the inch at 25.4 mm exactly; the
US fluid ounce is 1/128 of the 231 cubic inch gallon (NIST Handbook 44, appendix C, from memory).
"""

from __future__ import annotations

from fractions import Fraction

INCH = Fraction(127, 5000)
"""One inch. [m]"""

FOOT = 12 * INCH
"""One foot. [m]"""

SQUARE_FOOT = FOOT**2
"""One square foot. [m²]"""

CUBIC_FOOT = FOOT**3
"""One cubic foot. [m³]"""

FLUID_OUNCE = 231 * INCH**3 / 128
"""One US fluid ounce. [m³]"""
