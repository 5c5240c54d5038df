"""What can be seen wrong in a plan before any shape is built."""

from __future__ import annotations

from seamwright.errors import Problem
from seamwright.shell.plan import Plan


def check_plan(plan: Plan) -> tuple[Problem, ...]:
    """Return every problem visible in the plan's records alone, in plan order."""
    del plan
    return ()
