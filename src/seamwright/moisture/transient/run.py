"""Run cases: heat, air and moisture through a section, hour by hour."""

from __future__ import annotations

from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from importlib import import_module
from typing import TYPE_CHECKING

import numpy as np

from seamwright.errors import missing_package
from seamwright.moisture.transient.check import check_case
from seamwright.moisture.transient.line import line_mesh
from seamwright.moisture.transient.types import (
    Case,
    Curve,
    Drive,
    HygroMaterial,
    Run,
    Settings,
)

if TYPE_CHECKING:
    from seamwright.moisture.transient.job import Job

HOURLY = Settings()
"""Hourly steps."""


def run_case(case: Case, settings: Settings = HOURLY) -> Run:
    r"""Return what a case does hour by hour, with its balances.

    .. math::
        \partial_t w = \nabla \cdot (\delta_p \nabla p_v - K \nabla s) + g_{air}, \qquad
        \partial_t \bigl[(\rho c + c_w w) T\bigr] = \nabla \cdot (\lambda \nabla T
        + h_e \delta_p \nabla p_v) + q_{air}

    with the heat that moving water carries as well. Steps are implicit and of first order; moving
    air has no storage. Ice is not told from water; its heat of melting is left out.

    Raises
    ------
    InputError
        When the case does not fit together, or numba is not installed.

    Source
    ------
    ``en-15026``, checked in ``tests/published/test_en_15026.py``; air ways by number of transfer
    units, vapor by the Lewis relation with factor one.
    """
    job = _job()
    check_case(case, settings)
    return job(case, settings).done()


def run_cases(cases: Sequence[Case], settings: Settings = HOURLY, *, workers: int = 1) -> list[Run]:
    """Return one run for each case, in their order, several at a time on as many cores.

    Raises as `run_case`, before anything is run.
    """
    job = _job()
    for case in cases:
        check_case(case, settings)
    jobs = [job(case, settings) for case in cases]
    if workers <= 1 or len(jobs) <= 1:
        return [job.done() for job in jobs]
    with ThreadPoolExecutor(max_workers=workers) as pool:
        return list(pool.map(job.done, jobs))


def warm() -> None:
    """Compile what a run needs and keep it on disk, by a run of two volumes for one hour."""
    flat = Curve(x=(0.0, 1.0), y=(1.0, 1.0))
    stuff = HygroMaterial(
        id="warm", name="to compile", density=1.0, heat_capacity=1000.0, conductivity=1.0,
        conductivity_rise=0.0, sorption=Curve(x=(0.0, 1.0), y=(0.0, 1.0)), vapor_factor=flat,
        liquid=None, source=(), flag="common practice, no source",
    )  # fmt: skip
    hour = np.zeros((1, 2))
    drive = Drive(temperature=hour, face=hour, vapor=hour, rain=hour)
    run_case(
        Case(mesh=line_mesh(np.array([0.0, 1.0]), (0,)), materials=(stuff,), drive=drive,
             temperature=np.zeros(2), humidity=np.zeros(2))
    )  # fmt: skip


def _job() -> type[Job]:
    """Return what needs the optional compiler; everything else loads without it."""
    try:
        found: type[Job] = import_module("seamwright.moisture.transient.job").Job
    except ImportError as error:
        raise missing_package("numba", "a run hour by hour", "dryness") from error
    return found
