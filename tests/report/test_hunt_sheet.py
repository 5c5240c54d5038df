"""The sheet of the leak hunt."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from tests.leakage.hunt_world import made_up

from seamwright.io.plan import builtin_house, read_plan
from seamwright.leakage.hunt import hunt
from seamwright.leakage.hunt_types import Facts, HuntModel, Look, Mend
from seamwright.leakage.rank import StopRule, advise, rank
from seamwright.report.hunt_sheet import (
    SMOKE,
    advice_sentence,
    first_line,
    hunt_sheet,
    neighbors,
    rank_table,
    reason,
)
from seamwright.report.types import Caution, Heading, Table
from seamwright.workflow import register_joints

MODEL = HuntModel()
PRIORS = made_up(12, np.random.default_rng(2))


def test_the_sheet_opens_with_cautions_and_lists_ids_to_tick() -> None:
    """One heading, the cautions for fan, smoke and ladders, and a row per place up to the top."""
    found = hunt(PRIORS, [], MODEL)
    choices = rank(found)
    blocks = hunt_sheet(found, choices, advise(found, choices), top=5, notes=("A note.",))
    assert isinstance(blocks[0], Heading)
    cautions = {block.text for block in blocks if isinstance(block, Caution)}
    assert SMOKE in cautions
    assert any(text.startswith("Combustion") for text in cautions)
    assert any(text.startswith("Ladders") for text in cautions)
    ticks = [block for block in blocks if isinstance(block, Table)][-1]
    assert [row[1] for row in ticks.rows] == [c.standing.place.id for c in choices[:5]]
    assert all(str(row[0]).startswith("☐") for row in ticks.rows)


def test_the_reason_names_records_looks_and_mends() -> None:
    """Why a place is next: how it was taped, that no photo is there, what was done, its share."""
    first = replace(PRIORS[0], facts=Facts(photo=False, taped="cold"))
    diary = [Look(place="J0", method="smoke", found=True, strength=2), Mend(place="J0")]
    found = hunt([first, *PRIORS[1:]], diary, MODEL)
    words = reason(found.standings[0])
    assert words.startswith("no photo, taped cold, looked at once, mended once, ")
    assert "% of the expected leak" in words
    line = first_line(rank(found)[0])
    assert line.endswith(" min")


def test_the_order_on_paper_is_the_order() -> None:
    """Rows of the table keep the order and have a cell for each column."""
    choices = rank(hunt(PRIORS, [], MODEL))
    table = rank_table(choices)
    assert [row[1] for row in table.rows] == [c.standing.place.id for c in choices]
    assert {len(row) for row in table.rows} == {len(table.columns)} == {len(table.widths)}


def test_each_word_of_advice_has_its_sentence() -> None:
    """Going on says what is to gain; stopping says why."""
    found = hunt(PRIORS, [], MODEL)
    choices = rank(found)
    said = [
        advice_sentence(found, advise(found, choices, rule))
        for rule in (
            StopRule(least_share=0.0, thin_share=0.0),
            StopRule(least_share=99.0),
            StopRule(least_share=0.0, thin_share=1.1),
            StopRule(target=99.0),
        )
    ]
    starts = ("Go on: ", "Stop: the best place", "Stop hunting one by one", "Stop: the whole 90 %")
    assert all(text.startswith(start) for text, start in zip(said, starts, strict=True))


def test_neighbors_are_mutual_and_reach_nodes_and_windows() -> None:
    """What is near one place has it near too; joints know their nodes, windows their joints."""
    near = neighbors(register_joints(read_plan(builtin_house("first_house"), name="h").plan)[1])
    assert all(a in near[b] for a, others in near.items() for b in others)
    assert any(place.startswith("N-") for place in near)
    assert any(place.endswith("/unit") for place in near)
