"""A plan with the places of its parts, so that problems found later point into the file."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from seamwright.errors import Problem
from seamwright.schedule.types import DaysGiven
from seamwright.seals.types import Catalog, Sentence
from seamwright.shell.plan import Plan


@dataclass(frozen=True, kw_only=True, slots=True)
class PlanFile:
    """A plan as read from a file.

    `lines` gives the line of each subject (``opening W3``, ``wall 2A``, ``roof part main``).
    `catalog_path` is the catalog file the plan names, resolved next to the plan file; `catalog`
    is set when the catalog stands in the plan itself. `notes` say what the reader assumed.
    `days` is what the user gave for the plan of days.
    """

    plan: Plan
    lines: Mapping[str, int]
    file: str | None = None
    catalog_path: str | None = None
    catalog: Catalog | None = None
    notes: tuple[Sentence, ...] = field(default_factory=tuple)
    days: DaysGiven = field(default_factory=DaysGiven)


def with_place(problems: Iterable[Problem], planfile: PlanFile) -> tuple[Problem, ...]:
    """Return problems with file and line filled in from their subjects, where known.

    A subject that is not in the file as it stands is matched by the longest known subject within
    its words, then by an id it ends with when only one subject has it.
    """
    return tuple(_placed(problem, planfile) for problem in problems)


def _placed(problem: Problem, planfile: PlanFile) -> Problem:
    file = planfile.file if problem.file is None else problem.file
    if problem.line is not None or problem.file is not None:
        return replace(problem, file=file)
    return replace(problem, file=file, line=_line(problem.subject, planfile.lines))


def _line(subject: str, lines: Mapping[str, int]) -> int | None:
    exact = lines.get(subject)
    if exact is not None:
        return exact
    words = f" {subject.replace(',', ' ').replace(':', ' ')} "
    held = [known for known in lines if f" {known} " in words]
    if held:
        return lines[max(held, key=len)]
    for word in subject.replace(",", " ").split():
        named = {line for known, line in lines.items() if known.split()[-1] == word}
        if len(named) == 1:
            return named.pop()
    return None
