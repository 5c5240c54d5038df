"""Lengths and slopes as the trade writes them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from seamwright.errors import InputError
from seamwright.units import parse_angle, parse_length

INCH = Fraction(254, 10000)
RIGHT = [
    ("24' 6-1/2\"", (24 * 12 + Fraction(13, 2)) * INCH),
    ("8'-7 7/16\"", (96 + Fraction(119, 16)) * INCH),
    ("8' 7-7/16", (96 + Fraction(119, 16)) * INCH),
    ('103.4375"', Fraction(1034375, 10000) * INCH),
    ('7 7/16"', Fraction(119, 16) * INCH),
    ('7-7/16"', Fraction(119, 16) * INCH),
    ('1/2"', INCH / 2),
    ("12'", 144 * INCH),
    ("24'6", 294 * INCH),
    ("24'-6\"", 294 * INCH),
    ("24' - 6\"", 294 * INCH),
    ("5 ft 3 in", 63 * INCH),
    ("5ft3in", 63 * INCH),
    ("5 ft. 3 in.", 63 * INCH),
    ("5 feet, 3 inches", 63 * INCH),
    ("7-1/2 ft", 90 * INCH),
    ("24′ 6½″", (288 + Fraction(13, 2)) * INCH),
    ("24’ 6–1/2”", (288 + Fraction(13, 2)) * INCH),
    ("24‘ 6−1⁄2“", (288 + Fraction(13, 2)) * INCH),
    ("5' 6''", 66 * INCH),
    ("½″", INCH / 2),
    ("-5' 3\"", -63 * INCH),
    ("−2 m", Fraction(-2)),
    ("+2 m", Fraction(2)),
    ("7.5 m", Fraction(15, 2)),
    ("7,5 m", Fraction(15, 2)),
    ("0,125 m", Fraction(1, 8)),
    (".5 m", Fraction(1, 2)),
    ("7500 mm", Fraction(15, 2)),
    ("75cm", Fraction(3, 4)),
    ("75 centimetres", Fraction(3, 4)),
    ("0", Fraction(0)),
]
WRONG = [
    ("7500", "has no unit"),
    ("7,500 mm", "thousands or a decimal"),
    ("7 500 mm", "parts its thousands"),
    ("1,000,000 mm", "parts its thousands"),
    ("1.234,5 mm", "both a comma and a point"),
    ("5' 14\"", "12 inches or more"),
    ("7'500", "12 inches or more"),
    ("5.5' 3\"", "part of a foot and inches"),
    ('7 9/8"', "fraction of one or more"),
    ('1/0"', "divides by zero"),
    ("7 furlong", "unknown unit 'furlong'"),
    ("abc", "cannot be read as a length"),
    ("--5 m", "cannot be read as a length"),
    ("1e3 mm", "cannot be read as a length"),
    ("", "is empty"),
    (" \t", "is empty"),
    ("9" * 70 + " m", "too long"),
    ("٣ m", "cannot be read as a length"),
]


@pytest.mark.parametrize(("text", "metres"), RIGHT)
def test_a_length_is_read_exactly(text: str, metres: Fraction) -> None:
    """Every spelling of the trade gives the exact fraction of a metre."""
    assert metres == parse_length(text)


@pytest.mark.parametrize(("text", "reason"), WRONG)
def test_a_wrong_length_says_why_and_shows_a_right_one(text: str, reason: str) -> None:
    """A refused length is one problem: what is wrong, and what to write instead."""
    with pytest.raises(InputError) as caught:
        parse_length(text)
    (problem,) = caught.value.problems
    assert reason in problem.sentence
    assert "write the length as" in problem.remedy
    assert len(str(problem)) < 200


@pytest.mark.parametrize(
    ("unit", "metres"),
    [("mm", Fraction(3, 1000)), ("cm", Fraction(3, 100)), ("in", 3 * INCH), ("ft", 36 * INCH)],
)
def test_a_bare_number_takes_the_default_unit(unit, metres) -> None:
    """A number without unit is read in the unit the file states, and only then."""
    assert metres == parse_length("3", unit)


def test_a_written_unit_outranks_the_default() -> None:
    """The default unit serves bare numbers only."""
    assert Fraction(3) == parse_length("3 m", "ft")


@pytest.mark.parametrize(
    ("text", "slope"),
    [
        ("8/12", Fraction(2, 3)),
        ("8:12", Fraction(2, 3)),
        ("8 in 12", Fraction(2, 3)),
        ("8-in-12", Fraction(2, 3)),
        ("6.5/12", Fraction(13, 24)),
        ("45°", Fraction(1)),
        ("45 degrees", Fraction(1)),
        ("60 %", Fraction(3, 5)),
        ("0 deg", Fraction(0)),
    ],
)
def test_a_pitch_stays_exact(text: str, slope: Fraction) -> None:
    """A pitch is kept as the ratio it was written as."""
    assert slope == parse_angle(text)


def test_degrees_become_their_tangent() -> None:
    """30° rises 1 in the square root of 3, to the last bit of a double."""
    assert abs(float(parse_angle("30 deg")) - 3**-0.5) < 1e-15


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("35", "bare number"),
        ("8/0", "run of zero"),
        ("90 deg", "not below 90°"),
        ("-3/12", "cannot be read as a slope"),
        ("steep", "cannot be read as a slope"),
        ("", "is empty"),
    ],
)
def test_a_wrong_slope_says_why(text: str, reason: str) -> None:
    """A refused slope is one problem with a right example."""
    with pytest.raises(InputError) as caught:
        parse_angle(text)
    assert reason in caught.value.problems[0].sentence
    assert "8/12 or 33.7 deg" in caught.value.problems[0].remedy
