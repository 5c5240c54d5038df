"""A document as plain data."""

from __future__ import annotations

import pytest

from seamwright.pdf.prepare import cell_runs, figure_file, printable
from seamwright.report.types import Quantity
from seamwright.seals.types import Sentence


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("two\nlines\tand tabs", "two lines and tabs"),
        ("bell\x07 and \u202eturned\u202c", "bell and turned"),
        ("24′-6½″ ≤ ⌀", "24′-6½″ ≤ ⌀"),
        ("", ""),
    ],
)
def test_text_is_one_line_without_control_characters(text: str, shown: str) -> None:
    """Control and direction marks go, everything that prints stays."""
    assert printable(text) == shown


def test_marked_words_are_told_apart() -> None:
    """UNSIGNED becomes a run of its own; a word that only contains it does not."""
    runs = cell_runs("inside UNSIGNED", "us", ("UNSIGNED",))
    assert runs == [{"text": "inside ", "mark": False}, {"text": "UNSIGNED", "mark": True}]
    assert cell_runs("UNSIGNEDNESS", "us", ("UNSIGNED",))[0]["mark"] is False


def test_cells_print_in_the_wanted_units() -> None:
    """A quantity and a sentence follow the units; an unknown cell is a dash."""
    assert cell_runs(Quantity(value=0.1016, dimension="width"), "us")[0]["text"] == '4"'
    assert cell_runs(Sentence(text="lap {l}", lengths={"l": 0.05}), "metric")[0]["text"] == (
        "lap 50 mm"
    )
    assert cell_runs(None, "us")[0]["text"] == "–"


def test_two_drawings_never_share_a_file() -> None:
    """Names that differ only in odd characters get different files inside one folder."""
    names = ["a b", "a_b", "a/b", "../a", "a%20b"]
    files = {figure_file(name) for name in names}
    assert len(files) == len(names)
    assert all("/" not in file for file in files)
