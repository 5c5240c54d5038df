"""Seal schedules of joints made by hand."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from seamwright.joints.section import cut_section
from seamwright.joints.types import Break, Joint, Node, Register
from seamwright.seals.catalog import default_catalog
from seamwright.seals.schedule import plan_seals
from seamwright.seals.types import SealSchedule
from seamwright.shell.plan import Decision
from seamwright.shell.types import Shell
from tests.hand_joints import (
    eave_joint,
    opening_joint,
    ridge_joint,
    roof_seam,
    sill_joint,
)

INCH = 0.0254
HOUSE = (ridge_joint(), eave_joint(), roof_seam(), sill_joint(), opening_joint())


def plan(
    shell: Shell,
    joints: Sequence[Joint],
    nodes: Sequence[Node] = (),
    breaks: Sequence[Break] = (),
    **options: Any,
) -> SealSchedule:
    """Return the schedule of some joints, in zone 4C unless told otherwise."""
    register = Register(joints=tuple(joints), nodes=tuple(nodes), ledger=(), breaks=tuple(breaks))
    given: dict[str, Any] = {
        "catalog": default_catalog(),
        "decisions": (),
        "overrides": (),
        "climate_zone": "4C",
        "zone_edition": "2021",
    }
    sections = {j.id: cut_section(shell, j) for j in joints}
    return plan_seals(shell, register, sections, **{**given, **options})


def widths(schedule: SealSchedule) -> dict[tuple[str, str], float]:
    """Return stock widths in inches by joint and face."""
    return {
        (s.joint_id, s.face): round(s.width / INCH, 6)
        for s in schedule.strips
        if s.width is not None
    }


def signed(choice: str, **scope: Any) -> Decision:
    """Return a signed decision."""
    return Decision(
        face=choice,  # type: ignore[arg-type]
        signed_by="A. Designer",
        role="architect",
        date="2025-03-01",
        **scope,
    )


def codes(schedule: SealSchedule) -> set[str]:
    """Return what the findings are about."""
    return {f.id.split(":")[0] for f in schedule.findings}
