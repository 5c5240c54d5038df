"""What work took, read from a records file."""

from __future__ import annotations

import pytest

from seamwright.errors import InputError
from seamwright.io.work_records import read_work

TASKS = ("beads.A.2", "set.A.2")


def test_a_record_has_time_people_and_day() -> None:
    """Minutes and hours become seconds; the day may be missing."""
    text = (
        "work:\n  - {task: beads.A.2, took: 25 min, people: 2, day: 2027-04-06}\n"
        "  - {task: set.A.2, took: 1.5 h, people: 4}\n"
    )
    one, two = read_work(text, TASKS)
    assert (one.task_id, one.seconds, one.people, one.day) == ("beads.A.2", 1500.0, 2, "2027-04-06")
    assert (two.seconds, two.day) == (5400.0, "")


def test_other_parts_of_the_file_do_not_matter() -> None:
    """A file with seals and a diary and no work teaches nothing."""
    assert read_work("seals:\n  - {at: ridge, photo: no}\n", TASKS) == ()


def test_a_stranger_is_told_with_its_line() -> None:
    """A task that the house does not have is named with the one it is most like."""
    with pytest.raises(InputError, match=r"line 2: .*did you mean ‘beads.A.2’"):
        read_work("work:\n  - {task: beads.A.22, took: 25 min, people: 2}\n", TASKS)


@pytest.mark.parametrize("wrong", ["took: 0 min, people: 2", "took: 9 min, people: 0", "took: 9"])
def test_wrong_values_are_told(wrong: str) -> None:
    """No time, no people, or a number without a unit are refused."""
    with pytest.raises(InputError, match="line 2"):
        read_work(f"work:\n  - {{task: beads.A.2, {wrong}}}\n", TASKS)


def test_a_list_is_no_records_file() -> None:
    """A file without sections is refused with a sentence."""
    with pytest.raises(InputError, match="start with work:"):
        read_work("- one\n- two\n", TASKS)
