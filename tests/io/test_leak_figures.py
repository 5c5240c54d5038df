"""The file of one's own limits and leak figures."""

from __future__ import annotations

import pytest

from seamwright.errors import InputError
from seamwright.io.leak_figures import read_figures
from seamwright.leakage.priors import DEFAULT_TABLE
from seamwright.leakage.targets import target_for

GOOD = """
targets:
  - {edition: County 2026, limit: 2.0, zones: [5, 6], source: ordinance 12-4}
leaks:
  - {kind: ridge, careful: 1, ordinary: 2, careless: 4, source: nine houses of ours}
  - {seal: patch, of: node, careful: 0.1, ordinary: 0.2, careless: 0.3, source: ours}
"""


def test_own_limits_go_before_the_others_and_name_their_edition() -> None:
    """Own limits are found by their edition, and those carried with the program still are."""
    limits = read_figures(GOOD).limits
    own = target_for("5B", "county 2026", table=limits)
    assert own.limit == 2.0
    assert "County 2026, ordinance 12-4" in own.source
    assert target_for("5B", "IECC 2021", table=limits).limit == 3.0


def test_own_rows_stand_in_the_table_with_their_source() -> None:
    """A row replaces areas and source of its kind or seal and leaves every other as it was."""
    table = read_figures(GOOD).table
    assert table.bare_lines["ridge"].ordinary == pytest.approx(2e-4)
    assert table.bare_lines["ridge"].source == "nine houses of ours"
    assert table.node_seals["patch"].careless == pytest.approx(0.3e-4)
    assert table.piece_seals == DEFAULT_TABLE.piece_seals
    assert table.bare_lines["hip"] == DEFAULT_TABLE.bare_lines["hip"]


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("  - {kind: rigde, careful: 1, ordinary: 2, careless: 3, source: x}", "no row ‘rigde’"),
        ("  - {kind: ridge, careful: 3, ordinary: 2, careless: 3, source: x}", "leaks more"),
        ("  - {careful: 1, ordinary: 2, careless: 3, source: x}", "one kind or of one seal"),
        ("  - {kind: ridge, careful: -1, ordinary: 2, careless: 3, source: x}", "-1"),
    ],
)
def test_every_slip_is_told_with_its_line(line: str, told: str) -> None:
    """Unknown rows, areas out of order and below nothing, and rows of nothing are refused."""
    with pytest.raises(InputError) as caught:
        read_figures(f"leaks:\n{line}\n")
    (problem,) = caught.value.problems
    assert told in problem.sentence
    assert problem.line == 2


def test_a_row_without_its_source_is_refused() -> None:
    """No figure stands without a source."""
    with pytest.raises(InputError, match="source"):
        read_figures("targets:\n  - {edition: Ours, limit: 2.0}\n")
