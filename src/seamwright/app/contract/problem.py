"""The one shape of everything that went wrong."""

from __future__ import annotations

from pydantic import BaseModel

from seamwright.app.contract.told import Figured, Told
from seamwright.errors import Problem
from seamwright.units import System, format_length


class ProblemOut(BaseModel):
    """One thing wrong: what it concerns, the sentence, what to do, and where it stands."""

    subject: str
    sentence: Figured
    remedy: Told
    file: str | None = None
    line: int | None = None


class Problems(BaseModel):
    """Everything that is wrong, in the order of the file."""

    problems: list[ProblemOut]


def told(problem: Problem, units: System = "us") -> ProblemOut:
    """Return a problem with its lengths written in the user's units."""
    filled = problem.filled(lambda value: format_length(value, units))
    return ProblemOut(
        subject=filled.subject,
        sentence=filled.sentence,
        remedy=filled.remedy,
        file=filled.file,
        line=filled.line,
    )
