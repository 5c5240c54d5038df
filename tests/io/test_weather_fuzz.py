"""No slip of a pen in a forecast or product file ends in a traceback."""

from __future__ import annotations

import random
from collections.abc import Callable

from tests.io.test_product_file import SHEET
from tests.io.test_weather_forecast import GOOD

from seamwright.errors import InputError
from seamwright.io.product_file import read_product
from seamwright.io.weather_forecast import read_forecast

SCRAPS = ["1e400", "nan", "-inf", "2026-04-18T06:00", "null", "[]", "{", "²", "\x00", "\ufeff", ""]
LETTERS = "0123456789.,;:-+[]\"' \n\tFC%e±°"


def slips(text: str, count: int) -> list[str]:
    """Return copies of a text with one to three slips each, the same every time."""
    draw = random.Random(7)
    found = []
    for _ in range(count):
        letters = list(text)
        for _ in range(draw.randint(1, 3)):
            at = draw.randrange(len(letters))
            kind = draw.randrange(3)
            if kind == 0:
                letters[at] = draw.choice(LETTERS)
            elif kind == 1:
                del letters[at : at + draw.randint(1, 9)]
            else:
                letters.insert(at, draw.choice(SCRAPS))
        found.append("".join(letters) + "\n")
    return found


def outcomes(read: Callable[..., object], sample: str, count: int) -> list[list[str]]:
    """Return what was told of each spoiled sample; nothing where it could still be read."""
    told: list[list[str]] = []
    for text in slips(sample, count):
        try:
            read(text, name="f")
            told.append([])
        except InputError as error:
            told.append([str(problem) for problem in error.problems])
    return told


def test_slips_in_a_forecast_are_read_or_told() -> None:
    """Every slip is either read or told in sentences of one line; both happen."""
    told = outcomes(read_forecast, GOOD, 400)
    assert 30 < len([problems for problems in told if problems]) < 400 - 30
    assert not [text for problems in told for text in problems if "\n" in text]


def test_slips_in_a_product_are_read_or_told() -> None:
    """Every slip is either read or told in sentences of one line; both happen."""
    told = outcomes(read_product, SHEET, 300)
    assert 30 < len([problems for problems in told if problems]) < 300 - 30
    assert not [text for problems in told for text in problems if "\n" in text]
