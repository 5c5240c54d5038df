"""Report quantities and sentences with lengths."""

from __future__ import annotations

from seamwright.report.types import Quantity
from seamwright.seals.types import Sentence
from seamwright.units import fill, format_quantity


def test_each_dimension_prints_its_own_way() -> None:
    """A quantity prints by its dimension, in the system asked for."""
    assert format_quantity(Quantity(value=0.1016, dimension="width"), "us") == '4"'
    assert format_quantity(Quantity(value=3.048, dimension="length"), "us") == "10'-0\""
    assert format_quantity(Quantity(value=3.048, dimension="length"), "metric") == "3.048 m"
    assert format_quantity(Quantity(value=3.0, dimension="count"), "us") == "3"
    assert format_quantity(Quantity(value=3.0, dimension="money"), "us") == "3.00"


def test_a_sentence_prints_its_lengths() -> None:
    """Short lengths print as widths, long ones as runs."""
    sentence = Sentence(text="a lap of {lap} along {run}", lengths={"lap": 0.0508, "run": 3.048})
    assert fill(sentence, "us") == 'a lap of 2" along 10\'-0"'
    assert fill(sentence, "metric") == "a lap of 51 mm along 3.048 m"


def test_braces_of_the_user_stay() -> None:
    """A brace without a length is the user's own and stays."""
    assert fill(Sentence(text="see {note} {0} {", lengths={}), "us") == "see {note} {0} {"
