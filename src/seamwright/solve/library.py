"""The optional package that searches; everything else works without it."""

from __future__ import annotations

from typing import Any, TypeAlias

from seamwright.errors import missing_package

Solver: TypeAlias = Any
"""Anything of the solver's own: it brings no types."""


def library() -> Solver:
    """Return the optional package that plans days.

    Raises
    ------
    InputError
        If it is not installed; the sentence says how to install it.
    """
    try:
        from ortools.sat.python import cp_model  # noqa: PLC0415 - optional package
    except ImportError as error:
        raise missing_package("ortools", "the plan of days", "days") from error
    return cp_model
