"""A product's own limits."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from seamwright.errors import InputError
from seamwright.io.product_file import NOT_STATED, read_product
from seamwright.schedule.tape_limits import PRODUCTS

SHEET = """\
id: winter-strip
title: strip for winter work
like: acrylic
surface_min: 14 F
surface_max: 40 C
dew_margin: 5 F
board_hold: 18 %
primer: rough or cold
sun_stop: 120
source: data sheet of 2026-02, page 2
"""


def test_the_sheet_outranks_common_practice() -> None:
    """What the sheet gives replaces the default and carries the sheet as its source."""
    product = read_product(SHEET)
    assert product.surface_min == pytest.approx(-10.0)
    assert product.surface_max == 40.0
    assert product.dew_margin == pytest.approx(25.0 / 9.0)
    assert product.board_hold == pytest.approx(0.18)
    assert product.sun_stop == 120.0
    assert product.primer == "rough_or_cold"
    assert product.source_of("surface_min") == "data sheet of 2026-02, page 2"


def test_the_example_of_the_docs_is_read() -> None:
    """The product file shown in the docs is one as it stands."""
    page = (Path(__file__).parents[2] / "docs" / "tape-now.md").read_text()
    sheet = re.findall(r"```yaml\n(.*?)```", page, flags=re.DOTALL)[0]
    product = read_product(sheet)
    assert product.surface_max == pytest.approx(40.0)
    assert product.primer_below == pytest.approx(40.0 / 9.0)
    assert product.source == "data sheet of February 2026, page 2"


def test_what_the_sheet_leaves_out_keeps_its_own_mark() -> None:
    """A limit that is not given stays the default's, with the default's source."""
    product = read_product(SHEET)
    base = PRODUCTS["acrylic"]
    assert product.air_min == base.air_min
    assert product.source_of("air_min") == base.source_of("air_min")
    assert read_product("id: a\nair_min: 5 C\n").source_of("air_min") == NOT_STATED


def test_kind_chooses_the_defaults() -> None:
    """A foam without ``like`` begins from the default foam."""
    assert read_product("id: f\nkind: foam\n").surface_max == PRODUCTS["foam"].surface_max


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("surface_min: 5\nid: a\n", "has no unit"),
        ("id: a\nsurface_min: 5 mm\n", "unknown unit"),
        ("id: a\nsurface_min: 500 C\n", "no temperature for a seal"),
        ("id: a\nsurface_min: 20 C\nsurface_max: 10 C\n", "leaves no temperature"),
        ("id: a\nboard_hold: 20 %\n", "above board_stop"),
        ("id: a\nsurfacemin: 20 C\n", "unknown word"),
        ("id: a\nprimer: sometimes\n", "not a known word"),
        ("id: a\nsun_stop: -3\n", "outside the range"),
        ("surface_min: 5 C\n", "‘id’ is missing"),
        ("- id: a\n", "not limits with names"),
    ],
)
def test_slips_are_told_in_sentences(text: str, told: str) -> None:
    """A wrong limit is told with what is wrong and where."""
    with pytest.raises(InputError) as caught:
        read_product(text, name="sheet.yaml")
    assert told in str(caught.value)
    assert "sheet.yaml:" in str(caught.value)
