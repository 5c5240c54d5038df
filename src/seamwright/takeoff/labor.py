"""The time of each kind of work, where the user gave its rate."""

from __future__ import annotations

import math
from typing import Literal

from seamwright.joints.types import Register
from seamwright.seals.types import Rates, SealSchedule
from seamwright.takeoff.types import Labor

OVERHEAD_KINDS = frozenset({"roof_spline", "ridge", "hip", "valley", "eave", "rake", "roof_step"})
"""Joint kinds whose inner strip is pressed up from below (common practice, no source)."""


def work_times(schedule: SealSchedule, register: Register, rates: Rates) -> tuple[Labor, ...]:
    """Return the time of strips, strips overhead, beads and node patches, rate by rate. [s]

    Work without a rate is not listed; cost stays None without a wage (money for each second of one
    person's work). Strip lengths are without laps.
    """
    kinds = {joint.id: joint.kind for joint in register.joints}
    high = [
        strip.face == "inner" and kinds.get(strip.joint_id) in OVERHEAD_KINDS
        for strip in schedule.strips
    ]
    flat = math.fsum(s.length for s, up in zip(schedule.strips, high, strict=True) if not up)
    over = math.fsum(s.length for s, up in zip(schedule.strips, high, strict=True) if up)
    beads = math.fsum(bead.length * bead.count for bead in schedule.beads)
    rows: tuple[tuple[str, float, Literal["m", "piece"], float | None], ...] = (
        ("strips", flat, "m", rates.strip),
        ("strips overhead", over, "m", rates.strip_overhead),
        ("beads", beads, "m", rates.bead),
        ("node patches", float(len(schedule.patches)), "piece", rates.node),
    )
    return tuple(
        _labor(work, amount, unit, rate, rates.wage)
        for work, amount, unit, rate in rows
        if rate is not None and amount > 0
    )


def _labor(
    work: str, amount: float, unit: Literal["m", "piece"], rate: float, wage: float | None
) -> Labor:
    time = amount / rate
    cost = None if wage is None else time * wage
    return Labor(work=work, amount=amount, unit=unit, time=time, cost=cost)
