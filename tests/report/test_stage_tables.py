"""The stages sheet."""

from __future__ import annotations

import math

import pytest
from tests.hand_house import register, schedule

from seamwright.report.seal_types import joint_seals, seal_types
from seamwright.report.stage_tables import stage_intro, stage_tables
from seamwright.report.words import STAGE_ENDS, STAGE_SHORT, STAGES

TYPES = seal_types(joint_seals(register(), schedule()))


def test_stages_come_in_the_order_of_the_work() -> None:
    """Gaskets before setting stand first, inside strips last; empty stages are left out."""
    assert [stage for stage, _ in stage_tables(schedule(), TYPES)] == [
        "before_setting",
        "at_setting",
        "before_roof",
        "same_day",
        "weathered_in",
    ]


def test_nothing_of_the_schedule_is_left_out() -> None:
    """Every seal of the schedule is in exactly one stage: the sums of the runs agree."""
    whole = schedule()
    runs = [
        row[1].value
        for _, table in stage_tables(whole, TYPES)
        for row in table.rows
        if row[1].dimension == "length"
    ]
    expected = [s.length for s in whole.strips]
    expected += [b.count * b.length for b in whole.beads]
    expected += [g.length for g in whole.gaskets]
    assert math.fsum(runs) == pytest.approx(math.fsum(expected), abs=1e-12)


def test_like_work_stands_on_one_line_with_all_its_joints() -> None:
    """Strips of one width on one face are one line; a whole seal type stands for its joints."""
    tables = dict(stage_tables(schedule(), TYPES))
    rows = {row[0].text: row[2] for row in tables["weathered_in"].rows}
    assert rows["Strip {width}, inside"] == "all 2 of S2, A.1-base"


def test_a_strip_over_a_timber_keeps_its_liner() -> None:
    """What goes on before the roof says that the liner stays on the wings."""
    tables = dict(stage_tables(schedule(), TYPES))
    assert "liner left on the wings" in tables["before_roof"].rows[0][0].text


def test_every_stage_ends_at_a_hold_point() -> None:
    """The last line of each stage is the hold point, to be signed."""
    assert all(table.total[0] == "Hold point" for _, table in stage_tables(schedule(), TYPES))


def test_every_stage_has_its_words() -> None:
    """The three word lists of the stages cover the same stages."""
    assert set(STAGES) == set(STAGE_ENDS) == set(STAGE_SHORT)
    assert stage_intro("before_roof").text.startswith("What hides it")
