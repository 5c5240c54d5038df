"""The order of work as tables: complete, and every cell something an edge can print."""

from __future__ import annotations

from tests.schedule.houses import network

from seamwright.report.network_sheet import (
    bury_blocks,
    hold_blocks,
    network_document,
    rule_blocks,
    task_blocks,
)
from seamwright.report.types import Block, Quantity, Table
from seamwright.schedule.hold import bury_events
from seamwright.schedule.links_order import nearest, reaches


def table(blocks: tuple[Block, ...]) -> Table:
    """Return the one table among blocks."""
    (found,) = [block for block in blocks if isinstance(block, Table)]
    return found


def test_every_task_has_a_row() -> None:
    """The table of tasks lists each once, with three times; a milestone takes none."""
    rows = table(task_blocks(network("first_house"))).rows
    assert [row[0] for row in rows] == [t.id for t in network("first_house").tasks]
    for row, task in zip(rows, network("first_house").tasks, strict=True):
        timed = task.work != "milestone"
        assert all(isinstance(cell, Quantity) == timed for cell in row[2:5])


def test_what_a_task_waits_for_is_told_without_repeats() -> None:
    """Links that others imply are left out, and those that stay say all of them."""
    links = network("first_house").links
    kept = nearest(links)
    assert len(kept) < len(links)
    assert reaches(kept) == reaches(links)


def test_bury_events_have_a_row_each() -> None:
    """Each task that hides seals is listed with how many of which kind."""
    rows = table(bury_blocks(network("first_house"))).rows
    assert len(rows) == len(bury_events(network("first_house")))
    ridge = next(row for row in rows if row[0] == "set.R1.1")
    assert "strip" in str(ridge[2])
    assert "drape.main.ridge" in str(ridge[3])


def test_hold_points_say_who_signs_and_leave_room_to() -> None:
    """Each hold point in use has its sentence, its signer and an empty cell."""
    rows = table(hold_blocks(network("first_house"))).rows
    assert rows[0][1] == "building's designer"
    assert all(row[1] and row[4] == "" for row in rows)


def test_rules_add_up_to_the_links() -> None:
    """The uses of all rules are the links of the network."""
    made = network("heron_house")
    rows = table(rule_blocks(made)).rows
    assert sum(int(str(row[2])) for row in rows) == len(made.links)


def test_the_document_holds_all_four() -> None:
    """The whole document has a table for each part, every row as wide as its titles."""
    tables = [
        b for b in network_document(network("heron_house"), "H").blocks if isinstance(b, Table)
    ]
    assert len(tables) == 4
    for one in tables:
        assert all(len(row) == len(one.columns) == len(one.widths) for row in one.rows)
