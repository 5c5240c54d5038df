"""Read how long work took: the part ``work`` of a records file."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from pydantic import ValidationError

from seamwright.errors import InputError, Problem
from seamwright.io.explain import explain, nearest, problem_at
from seamwright.io.records_model import RecordsFields
from seamwright.io.yaml_text import read_yaml
from seamwright.schedule.learn import Took


def read_work(
    path_or_text: Path | str | bytes, tasks: Iterable[str], *, name: str | None = None
) -> tuple[Took, ...]:
    """Return what each task took, for the tasks of a house.

    Raises
    ------
    FormatError
        When the file is missing, too large, binary, empty or not YAML.
    InputError
        With every wrong value and every unknown task, its line and a remedy.
    """
    yaml = read_yaml(path_or_text, what="records", name=name)
    if not isinstance(yaml.tree, dict):
        told = "the records are a list or a single word, not sections with names"
        raise InputError([problem_at(yaml, (), told, "start with work:")])
    try:
        fields = RecordsFields.model_validate(yaml.tree)
    except ValidationError as error:
        raise InputError(explain(error, yaml, RecordsFields)) from None
    known = set(tasks)
    problems: list[Problem] = [
        problem_at(yaml, ("work", i, "task"), f"this house has no task ‘{item.task[:40]}’",
                   nearest(item.task, known))
        for i, item in enumerate(fields.work)
        if item.task not in known
    ]  # fmt: skip
    if problems:
        raise InputError(problems)
    return tuple(
        Took(task_id=item.task, seconds=float(item.took), people=item.people,
             day="" if item.day is None else item.day,
             crew="" if item.crew is None else item.crew)
        for item in fields.work
    )  # fmt: skip
