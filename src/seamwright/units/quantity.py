"""Read volumes on labels, work rates and durations."""

from __future__ import annotations

import re
from fractions import Fraction

from seamwright.errors import InputError, Problem
from seamwright.units.parse import parse_length
from seamwright.units.sizes import CUBIC_FOOT, FLUID_OUNCE, INCH

VOLUME_EXAMPLE = "600 ml or 20.3 fl oz"
RATE_EXAMPLE = "30 m/h or 100 ft/h"
DURATION_EXAMPLE = "6 min or 45 s"

_LITRE = Fraction(1, 1000)
_VOLUMES: dict[str, Fraction] = {
    "ml": _LITRE / 1000,
    "cm3": _LITRE / 1000,
    "l": _LITRE,
    "litre": _LITRE,
    "liter": _LITRE,
    "m3": Fraction(1),
    "fl oz": FLUID_OUNCE,
    "in3": INCH**3,
    "ft3": CUBIC_FOOT,
}
_TIMES: dict[str, int] = {"s": 1, "sec": 1, "min": 60, "h": 3600, "hr": 3600, "hour": 3600}
_AMOUNT = re.compile(r"([0-9]+(?:\.[0-9]+)?|\.[0-9]+)\s*([a-z][a-z0-9 .]*)")
_RATE = re.compile(r"(.+?)\s*(?:/|\bper\b)\s*([a-z]+)")
_LONGEST = 64


def parse_volume(text: str) -> Fraction:
    """Return a volume of sealant or foam as on its label, exactly. [m³]

    Raises
    ------
    InputError
        When it has no known unit (ml, l, cm³, m³, fl oz, in³, ft³).
    """
    number, unit = _amount(text, "volume", VOLUME_EXAMPLE)
    size = _VOLUMES.get(unit.removesuffix("s"))
    if size is None:
        raise _refused(text, "has no known unit of volume", "volume", VOLUME_EXAMPLE)
    return number * size


def parse_duration(text: str) -> Fraction:
    """Return a duration in s, min or h, exactly. [s]

    Raises
    ------
    InputError
        When it has no known unit of time.
    """
    number, unit = _amount(text, "time", DURATION_EXAMPLE)
    size = _time_unit(unit)
    if size is None:
        raise _refused(text, "has no known unit of time", "time", DURATION_EXAMPLE)
    return number * size


def parse_rate(text: str) -> Fraction:
    """Return a rate of work along a joint, such as ``30 m/h`` or ``100 ft per hour``. [m/s]

    Raises
    ------
    InputError
        When it is not a length over a time.
    """
    match = _RATE.fullmatch(_plain(text, "rate", RATE_EXAMPLE))
    size = None if match is None else _time_unit(match[2])
    if match is None or size is None:
        raise _refused(text, "is not a length over a time", "rate", RATE_EXAMPLE)
    return parse_length(match[1]) / size


def _time_unit(unit: str) -> int | None:
    plain = unit.removesuffix(".")
    return _TIMES.get(plain, _TIMES.get(plain.removesuffix("s")))


def _amount(text: str, what: str, example: str) -> tuple[Fraction, str]:
    match = _AMOUNT.fullmatch(_plain(text, what, example))
    if match is None:
        raise _refused(text, f"cannot be read as a {what}", what, example)
    return Fraction(match[1]), " ".join(match[2].replace(".", "").split())


def _plain(text: str, what: str, example: str) -> str:
    if len(text) > _LONGEST:
        raise _refused(text, f"is too long for a {what}", what, example)
    return text.strip().casefold().replace("³", "3")


def _refused(text: str, why: str, what: str, example: str) -> InputError:
    shown = "".join(mark if mark.isprintable() else "·" for mark in text[:40])
    remedy = f"write the {what} as {example}"
    return InputError([Problem(subject=shown, sentence=f"‘{shown}’ {why}", remedy=remedy)])
