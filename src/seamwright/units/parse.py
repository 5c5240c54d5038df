"""Read lengths and pitches as the trade writes them, exactly."""

from __future__ import annotations

import math
import re
import unicodedata
from fractions import Fraction
from typing import Literal, NoReturn, TypeAlias

from seamwright.errors import InputError, Problem
from seamwright.units.sizes import FOOT, INCH

LengthUnit: TypeAlias = Literal["m", "cm", "mm", "in", "ft"]

LENGTH_EXAMPLE = "24' 6-1/2\" or 7.5 m or 7500 mm"
ANGLE_EXAMPLE = "8/12 or 33.7 deg"

_LONGEST = 64  # characters; no length a person writes is longer
_UNITS: dict[str, Fraction] = {
    "m": Fraction(1),
    "cm": Fraction(1, 100),
    "mm": Fraction(1, 1000),
    "in": INCH,
    "ft": FOOT,
}
_SPELLINGS: dict[str, str] = {
    "'": "ft", "ft": "ft", "foot": "ft", "feet": "ft",
    '"': "in", "in": "in", "inch": "in", "inches": "in",
    "m": "m", "meter": "m", "meters": "m", "metre": "m", "metres": "m",
    "cm": "cm", "centimeter": "cm", "centimeters": "cm", "centimetre": "cm", "centimetres": "cm",
    "mm": "mm", "millimeter": "mm", "millimeters": "mm", "millimetre": "mm", "millimetres": "mm",
}  # fmt: skip
_PRIMES = {ord(mark): "'" for mark in "′’‘‛`´ʹʼ＇"} | {ord(mark): '"' for mark in "″”“„‟ʺ＂〃"}
_DASHES = {ord(mark): "-" for mark in "‐‑‒–—―−﹘﹣－"}

_DIGITS = r"[0-9]+(?:[.,][0-9]+)?|[.][0-9]+"
_NUMBER = rf"(?:[0-9]+\s*[-\s]\s*[0-9]+/[0-9]+|[0-9]+/[0-9]+|{_DIGITS})"
_FEET = re.compile(
    rf"(?P<feet>{_NUMBER})\s*(?:'|(?:ft|feet|foot)\b\.?)\s*"
    rf"(?:[-,]?\s*(?P<inches>{_NUMBER})\s*(?:\"|(?:inches|inch|in)\b\.?)?)?"
)
_FEET_GLUED = re.compile(r"(?<=[a-z])(?=[0-9])")
_ONE = re.compile(rf"(?P<number>{_NUMBER})\s*(?P<unit>[a-z]+\.?|['\"])?")
_MIXED = re.compile(r"([0-9]+)\s*[-\s]\s*([0-9]+)/([0-9]+)")
_RATIO = re.compile(rf"({_DIGITS})\s*(?:/|:|-?\s*in\s*-?)\s*({_DIGITS})")
_DEGREES = re.compile(rf"({_DIGITS})\s*(?:°|deg\.?|degrees?)")
_PERCENT = re.compile(rf"({_DIGITS})\s*(?:%|percent)")


def parse_length(text: str, default_unit: LengthUnit | None = None) -> Fraction:
    """Return a written length as an exact fraction. [m]

    Reads feet and inches with fractions in every spelling of the trade (``24' 6-1/2"``,
    ``8'-7 7/16"``, ``103.4375"``, ``5 ft 3 in``, ``8' 7-7/16`` without the inch mark, typographic
    primes, quotes, dashes and fractions, two single quotes for inches) and ``m``, ``cm``, ``mm``.
    A leading minus makes the whole length negative. A comma may stand for the decimal point
    (``7,5 m``) but not where it could also part thousands (``7,500 mm``).

    Parameters
    ----------
    text : str
        The length as written.
    default_unit : str or None
        The unit of a bare number; without it a bare number other than 0 is refused.

    Raises
    ------
    InputError
        With one sentence saying what is wrong and showing a right example.
    """
    plain = _plain(text, "length", LENGTH_EXAMPLE)
    sign, body = _signed(plain)
    feet = _FEET.fullmatch(_FEET_GLUED.sub(" ", body))
    if feet is not None:
        return sign * _feet_and_inches(text, feet["feet"], feet["inches"])
    one = _ONE.fullmatch(body)
    if one is None:
        _refuse_length(text, body)
    number = _number(text, one["number"])
    return sign * number * _unit_size(text, number, one["unit"], default_unit)


def parse_angle(text: str) -> Fraction:
    """Return a roof slope as rise over run, exact when written as a ratio. [-]

    Reads pitches (``8/12``, ``8:12``, ``8 in 12``), degrees (``33.7 deg``, ``33.7°``) and percent.
    Degrees become the exact value of the double nearest to their tangent; 45° is exactly 1.

    Raises
    ------
    InputError
        When the text is none of these, or the slope is negative, or stands at 90° or beyond.
    """
    plain = _plain(text, "slope", ANGLE_EXAMPLE)
    ratio = _RATIO.fullmatch(plain)
    if ratio is not None:
        run = _number(text, ratio[2])
        if run == 0:
            _refuse(text, f"{_quoted(text)} has a run of zero", ANGLE_EXAMPLE, "slope")
        return _number(text, ratio[1]) / run
    percent = _PERCENT.fullmatch(plain)
    if percent is not None:
        return _number(text, percent[1]) / 100
    degrees = _DEGREES.fullmatch(plain)
    if degrees is None:
        bare = re.fullmatch(_DIGITS, plain) is not None
        why = "is a bare number" if bare else "cannot be read as a slope"
        _refuse(text, f"{_quoted(text)} {why}", ANGLE_EXAMPLE, "slope")
    return _tangent(text, _number(text, degrees[1]))


def _tangent(text: str, degrees: Fraction) -> Fraction:
    if degrees >= 90:
        _refuse(text, f"{_quoted(text)} is not below 90°", ANGLE_EXAMPLE, "slope")
    if degrees in {0, 45}:
        return degrees / 45
    return Fraction(math.tan(math.radians(degrees)))


def _feet_and_inches(text: str, feet: str, inches: str | None) -> Fraction:
    whole = _number(text, feet)
    if inches is None:
        return whole * FOOT
    if whole.denominator != 1:
        _refuse_example(text, f"{_quoted(text)} has a part of a foot and inches after it")
    rest = _number(text, inches)
    if rest >= 12:
        _refuse_example(text, f"{_quoted(text)} has 12 inches or more after the feet")
    return whole * FOOT + rest * INCH


def _number(text: str, written: str) -> Fraction:
    """Return a written number: whole, decimal, fraction, or whole and fraction."""
    mixed = _MIXED.fullmatch(written)
    if mixed is not None:
        part = _quotient(text, mixed[2], mixed[3])
        if part >= 1:
            _refuse_example(text, f"{_quoted(text)} has a fraction of one or more")
        return Fraction(mixed[1]) + part
    if "/" in written:
        over, under = written.split("/")
        return _quotient(text, over, under)
    if "," in written:
        before, after = written.split(",")
        if len(after) == 3 and not before.startswith("0"):
            told = f"{_quoted(text)} has a comma that may mean thousands or a decimal"
            plain = f"{before}{after} or {before}.{after}"
            _refuse(text, told, plain, "length")
        written = f"{before}.{after}"
    return Fraction(written)


def _quotient(text: str, over: str, under: str) -> Fraction:
    if int(under) == 0:
        _refuse_example(text, f"{_quoted(text)} divides by zero")
    return Fraction(int(over), int(under))


def _unit_size(
    text: str, value: Fraction, unit: str | None, default_unit: LengthUnit | None
) -> Fraction:
    if unit is None:
        if value == 0:
            return Fraction(1)
        if default_unit is None:
            _refuse_example(text, f"{_quoted(text)} has no unit")
        return _UNITS[default_unit]
    name = _SPELLINGS.get(unit.removesuffix("."))
    if name is None:
        _refuse_example(text, f"{_quoted(text)} has the unknown unit '{unit}'")
    return _UNITS[name]


def _plain(text: str, what: str, example: str) -> str:
    """Return the text with one spelling for every prime, dash, fraction and space."""
    if len(text) > _LONGEST:
        _refuse(text, f"{_quoted(text)} is too long for a {what}", example, what)
    marked = text.translate(_PRIMES).translate(_DASHES)
    apart = "".join(_fraction_apart(mark) for mark in marked)
    plain = unicodedata.normalize("NFKC", apart).replace("⁄", "/").replace("''", '"')
    plain = " ".join(plain.casefold().split())
    if not plain:
        _refuse(text, f"the {what} is empty", example, what)
    return plain


def _fraction_apart(mark: str) -> str:
    return f" {mark}" if unicodedata.decomposition(mark).startswith("<fraction>") else mark


def _signed(plain: str) -> tuple[int, str]:
    if plain[0] in "+-":
        return (-1 if plain[0] == "-" else 1), plain[1:].strip()
    return 1, plain


def _refuse_length(text: str, body: str) -> NoReturn:
    if re.search(r"[0-9][ _][0-9]{3}(?![0-9/])", body) is not None or body.count(",") > 1:
        _refuse_example(text, f"{_quoted(text)} parts its thousands")
    if "," in body and "." in body:
        _refuse_example(text, f"{_quoted(text)} has both a comma and a point")
    _refuse_example(text, f"{_quoted(text)} cannot be read as a length")


def _refuse_example(text: str, sentence: str) -> NoReturn:
    _refuse(text, sentence, LENGTH_EXAMPLE, "length")


def _refuse(text: str, sentence: str, example: str, what: str) -> NoReturn:
    remedy = f"write the {what} as {example}"
    raise InputError([Problem(subject=_quoted(text), sentence=sentence, remedy=remedy)])


def _quoted(text: str) -> str:
    """Return the text as shown in a sentence: printable, no longer than a line."""
    shown = "".join(mark if mark.isprintable() else "·" for mark in text[:40])
    return f"‘{shown}…’" if len(text) > 40 else f"‘{shown}’"
