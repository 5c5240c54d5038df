"""What the page of days says about the first house is what the network says."""

from __future__ import annotations

import re
from pathlib import Path

from tests.schedule.houses import BUILT_IN, network

from seamwright.report.network_sheet import bury_blocks
from seamwright.report.types import Table
from seamwright.schedule.conflict import explain_conflict
from seamwright.schedule.tasks_given import with_given
from seamwright.schedule.tasks_kinds import WINDOWS
from seamwright.schedule.types import AskedLink, DaysGiven

PAGE = (Path(__file__).parents[2] / "docs" / "days.md").read_text(encoding="utf-8")


def test_the_counts_of_tasks_are_those_of_the_page() -> None:
    """The page tells, within a twentieth, how many tasks each built-in house has."""
    for name, words in zip(BUILT_IN, ("first house", "heron house", "cypress house"), strict=True):
        told = re.search(rf"{words} \(\d+(?: panels)?\)(?: has about)? (\d+)", PAGE)
        assert told is not None
        assert abs(int(told[1]) - len(network(name).tasks)) <= 0.05 * len(network(name).tasks)


def test_the_bury_events_of_the_page_are_those_of_the_house() -> None:
    """Each row of the page's table stands in the sheet of the first house."""
    (table,) = [b for b in bury_blocks(network("first_house")) if isinstance(b, Table)]
    sheet = {str(row[0]): row for row in table.rows}
    told = re.findall(r"^\| `(\S+)` \| ([^|]+) \| ([^|]+) \|$", PAGE, re.MULTILINE)
    assert len(told) == 5
    for task, seals, makers in told:
        assert (seals, makers.replace("`", "")) == (sheet[task][2], sheet[task][3])


def test_the_conflict_of_the_page_is_the_one_told() -> None:
    """The chain on the page is word for word what a user would read."""
    reason = "the plasterers come in week 3"
    asked = AskedLink(before="finish.ceiling", after="fan_test", reason=reason)
    made = with_given(network("first_house"), DaysGiven(order=(asked,)))
    assert "\n".join(explain_conflict(made)) in PAGE


def test_every_class_of_hours_is_on_the_page() -> None:
    """The page names each class of hours a task may ask for."""
    assert [name for name in WINDOWS if f"`{name}`" not in PAGE] == []
