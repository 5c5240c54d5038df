"""The search against holding every edge against every edge and face, and one contact a stretch."""

from __future__ import annotations

import itertools
from collections import defaultdict

import numpy as np
import pytest
from benchmarks.estate import estate, house_at
from benchmarks.joints import all_pairs_touches, contact_keys, gathered, run
from tests.samples import corner_pair, flush_pair, gable_box

from seamwright.joints.find import find_touches
from seamwright.shell.types import Shell
from seamwright.tolerance import DEFAULT

SHELLS = (flush_pair(), corner_pair(), gable_box(), house_at(np.random.default_rng(5), 2))


@pytest.mark.parametrize("shell", [*SHELLS, estate(120)])
def test_search_finds_what_all_pairs_find(shell: Shell) -> None:
    """Searching by place loses no contact and adds none."""
    arrays = gathered(shell)
    near, every = find_touches(*arrays, DEFAULT), all_pairs_touches(*arrays)
    assert contact_keys(near) == contact_keys(every)
    assert len(near) > 0


@pytest.mark.parametrize("shell", SHELLS)
def test_no_stretch_of_an_edge_is_taken_twice(shell: Shell) -> None:
    """Settled contacts on one edge follow one another without overlap."""
    edges, surfaces, boxes = gathered(shell)
    touches = find_touches(edges, surfaces, boxes, DEFAULT)
    taken: dict[int, list[tuple[float, float]]] = defaultdict(list)
    for edge, start, end in zip(touches.edge, touches.start, touches.end, strict=True):
        taken[int(edge)].append((float(start), float(end)))
    for stretches in taken.values():
        stretches.sort()
        for before, after in itertools.pairwise(stretches):
            assert before[1] <= after[0] + 0.001


def test_benchmark_runs_and_its_checks_hold() -> None:
    """The short benchmark builds its estate, counts its joints and agrees with all pairs."""
    result = run(quick=True)
    rows = result["rows"]
    assert isinstance(rows, list)
    assert all(row["joints"] > row["panels"] for row in rows)
