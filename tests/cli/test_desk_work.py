"""Long work of the desk: each kind tells its stages and brings its result."""

from __future__ import annotations

import json

import pytest

from seamwright.app.jobs import Errand
from seamwright.cli.desk_work import do
from seamwright.errors import InputError
from seamwright.io.fan_examples import builtin_fan_test
from seamwright.io.plan import builtin_house

PLAN = builtin_house("first_house")


def told(kind: str, wishes: dict[str, object]) -> tuple[list[tuple[str, float]], dict[str, bytes]]:
    """Return the phases that work told of, with its progress, and the files it brought."""
    phases: list[tuple[str, float]] = []
    errand = Errand(kind=kind, plan_text=PLAN, wishes=json.dumps(wishes), settings={})
    files = do(errand, lambda phase, progress: phases.append((phase, progress)))
    return phases, {file.name: file.body for file in files}


@pytest.mark.parametrize(
    ("kind", "wishes", "stages"),
    [
        ("forecast", {"workmanship": "ordinary"},
         ["finding the joints", "forecasting the fan test", "following the air over a year"]),
        ("hunt", {"by": "smoke", "top": 5},
         ["finding the joints", "weighing what is known", "putting the places in order",
          "printing the sheet"]),
        ("fan", {"readings": builtin_fan_test("heron_house_fan_test")},
         ["reading the test", "working the test out", "printing the sheet"]),
    ],
)  # fmt: skip
def test_work_tells_its_stages_in_order_and_never_goes_back(kind, wishes, stages) -> None:
    """Every stage is told once, progress rises, and the result is there as data."""
    phases, files = told(kind, wishes)
    assert [phase for phase, _ in phases] == ["begins", *stages]
    progress = [part for _, part in phases]
    assert progress == sorted(progress)
    assert 0.0 < progress[-1] < 1.0
    assert json.loads(files["result.json"])


def test_records_may_not_name_another_file() -> None:
    """A page could else read this machine's files through the search."""
    records = "log:\n  - {test: T1, readings: /etc/passwd}\n"
    with pytest.raises(InputError, match="cannot bring the file of readings"):
        told("hunt", {"records": records})
