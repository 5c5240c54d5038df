"""Laws of reading and printing lengths."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seamwright.errors import InputError, Problem
from seamwright.units import (
    INCH,
    format_length,
    format_width,
    parse_angle,
    parse_duration,
    parse_length,
    parse_rate,
    parse_volume,
)

calm = settings(derandomize=True, max_examples=150, deadline=None)
denominators = st.sampled_from([1, 2, 4, 8, 16, 32, 64])
QUOTES = [("'", '"'), ("′", "″"), ("’", "”"), (" ft", " in"), ("'", "''")]
GAPS = [" ", "-", "–", " - ", ""]


@calm
@given(parts=st.integers(-200_000, 200_000), denominator=denominators)
def test_us_lengths_survive_a_round_trip(parts: int, denominator: int) -> None:
    """What prints at a denominator reads back exactly."""
    metres = Fraction(parts, denominator) * INCH
    assert metres == parse_length(format_length(metres, "us", denominator))
    assert metres == parse_length(format_width(metres, "us", denominator))


@calm
@given(mm=st.integers(-100_000, 100_000))
def test_metric_lengths_survive_a_round_trip(mm: int) -> None:
    """Whole millimetres print and read back exactly."""
    assert Fraction(mm, 1000) == parse_length(format_length(Fraction(mm, 1000), "metric"))


@calm
@given(
    feet=st.integers(0, 500),
    inches=st.integers(0, 11),
    part=st.tuples(st.integers(1, 63), st.just(64)),
    quotes=st.sampled_from(QUOTES),
    gap=st.sampled_from(GAPS),
    inner=st.sampled_from([" ", "-", "–"]),
)
def test_every_spelling_is_the_same_fraction(feet, inches, part, quotes, gap, inner) -> None:
    """Quotes, dashes and gaps change nothing about the length."""
    text = f"{feet}{quotes[0]}{gap}{inches}{inner}{part[0]}/{part[1]}{quotes[1]}"
    assert (12 * feet + inches + Fraction(*part)) * INCH == parse_length(text)


@calm
@given(st.lists(st.integers(0, 100_000), min_size=1, max_size=30))
def test_nothing_is_rounded_before_it_is_summed(sixteenths: list[int]) -> None:
    """The sum of lengths read one by one is the length of their sum."""
    texts = [format_length(Fraction(n, 16) * INCH, "us") for n in sixteenths]
    assert Fraction(sum(sixteenths), 16) * INCH == sum(parse_length(text) for text in texts)


@calm
@given(number=st.decimals(0, 9999, places=4))
def test_units_agree_with_each_other(number) -> None:
    """The same number in two units differs by exactly their ratio."""
    text = f"{number:f}"
    assert parse_length(f"{text} m") == 1000 * parse_length(f"{text} mm")
    assert parse_length(f"{text} ft") == 12 * parse_length(f"{text} in")
    assert parse_length(text, "ft") == parse_length(f"{text}'")


@calm
@given(value=st.floats(-1e4, 1e4), denominator=denominators)
def test_printing_is_off_by_half_a_step_at_most(value: float, denominator: int) -> None:
    """A printed length is the nearest one the denominator allows."""
    shown = parse_length(format_length(value, "us", denominator))
    assert abs(shown - Fraction(value)) <= INCH / denominator / 2


@settings(derandomize=True, max_examples=600, deadline=None)
@given(
    text=st.text(alphabet="0123456789 '\"/-.,½″′mftinc x°%:∞\0", max_size=14) | st.text(max_size=20)
)
@pytest.mark.parametrize(
    "parse", [parse_length, parse_angle, parse_volume, parse_rate, parse_duration]
)
def test_no_text_breaks_a_reader(parse, text: str) -> None:
    """Any text gives a number or one sentence, never another error."""
    problems: tuple[Problem, ...] = ()
    value = Fraction(0)
    try:
        value = parse(text)
    except InputError as error:
        problems = error.problems
    assert isinstance(value, Fraction)
    assert len(problems) <= 1
    assert all(problem.sentence and problem.remedy for problem in problems)
