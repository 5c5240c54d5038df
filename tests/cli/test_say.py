"""Human output."""

from __future__ import annotations

import pytest
from tests.hand_house import register, schedule

from seamwright.cli.say import cell_text, show_findings, show_table, tell_problems
from seamwright.errors import Problem
from seamwright.report.register_tables import joint_totals
from seamwright.report.types import Quantity, Table
from seamwright.seals.types import Sentence


def test_a_problem_stays_one_line_whatever_is_in_it(capsys) -> None:
    """Escape codes and line ends in a user's text cannot move the cursor or fake a second line."""
    text = "name \x1b[2J\nsecond\u202eline"
    tell_problems([Problem(subject="x", sentence=text, remedy="rename it", file="a.yaml", line=3)])
    told = capsys.readouterr().err
    assert told == "a.yaml:3: name \ufffd[2J second\ufffdline; rename it\n"


def test_plain_tables_keep_a_row_on_a_line(capsys) -> None:
    """Outside a terminal each row is one line, however long a cell is."""
    table = Table(columns=("A", "B"), rows=(("x" * 300, "y"), ("z", None)), widths=(1, 1))
    show_table(table, "us")
    lines = capsys.readouterr().out.splitlines()
    assert lines[1] == f"{'x' * 300}  y"
    assert lines[2].split() == ["z", "–"]


def test_a_terminal_gets_a_frame(capsys, monkeypatch) -> None:
    """On a terminal the same table has a rule under its titles and the same words."""
    monkeypatch.setattr("sys.stdout.isatty", lambda: True, raising=False)
    monkeypatch.setenv("TERM", "dumb")
    monkeypatch.setenv("COLUMNS", "100")
    show_table(joint_totals(register()), "us")
    shown = capsys.readouterr().out
    assert "─" in shown
    assert "All joints" in shown


def test_an_empty_table_prints_nothing(capsys) -> None:
    """A table without rows leaves no trace."""
    show_table(Table(columns=("A",), rows=(), widths=(1,)), "us")
    assert capsys.readouterr().out == ""


def test_findings_say_how_grave_in_words_and_the_way_out(capsys) -> None:
    """The gravest finding comes first, in words and not in color, each with its way out."""
    show_findings(schedule().findings, "us")
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("STOP R1.1-R2.1, A.1-base: needs")
    assert lines[1].strip().startswith("Way out: ")
    assert lines[-2].startswith("note N1")


@pytest.mark.parametrize(
    ("cell", "shown"),
    [
        (None, "–"),
        ("plain", "plain"),
        (Quantity(value=2.4384, dimension="length"), "8'-0\""),
        (Sentence(text="lap {l}", lengths={"l": 0.0508}), 'lap 2"'),
    ],
)
def test_cells_print_in_the_wanted_units(cell, shown) -> None:
    """Every kind of cell has its text."""
    assert cell_text(cell, "us") == shown
