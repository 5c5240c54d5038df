"""What the dryness of its type says of each joint, under the face signed or proposed for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from seamwright.moisture.verdict.judge import worst
from seamwright.moisture.verdict.types import UNDECIDED, FaceOption
from seamwright.report.dryness_types import HouseDryness, JointDryness
from seamwright.report.types import Quantity
from seamwright.seals.types import SidePlan

NOT_EVEN, OVER = "not even", "over"
"""Words before a leakage: the lowest level tried is outside; the highest tried is within."""

TURNED = "wetter when tighter"
"""Stands for a leakage where the lowest level tried is outside and a higher one within."""

_PER_HOUR = 1.0 / 3600.0


@dataclass(frozen=True, kw_only=True, slots=True)
class DryMark:
    """What stands beside a joint in the seal schedule: the type's name with verdict and margin, and
    the largest leakage within limits [m³/(s·m) at 50 Pa], None where it was not looked for.
    `bound` are the words before it where it lies beyond the levels tried, or instead of it, see
    `leak_cell`.
    """

    verdict: str
    leak: float | None = None
    bound: str = ""


def state_word(margin: float) -> str:
    """Return whether a margin is within the limits, OUTSIDE, or too close to either to say."""
    if abs(margin) < UNDECIDED:
        return "TOO CLOSE"
    return "within" if margin > 0.0 else "OUTSIDE"


def leak_cell(option: FaceOption) -> Quantity | str | None:
    """Return the largest leakage within limits; bounded in words where it lies beyond the levels
    tried, `TURNED` where less is worse, None where it was not looked for.
    """
    leak = option.leak
    if leak is None:
        return None
    if leak.level is None and leak.ranges:
        return TURNED
    if leak.level is None:
        value, before = leak.lowest, NOT_EVEN
    else:
        value, before = leak.level, OVER if leak.case == "all within" else ""
    return Quantity(value=value * _PER_HOUR, dimension="leak_rate", before=before)


def dry_marks(found: HouseDryness, sides: tuple[SidePlan, ...]) -> Mapping[str, DryMark]:
    """Return the mark of each joint that was run, by its id; the least of its type's heights."""
    faces = {side.joint_id: side.face for side in sides}
    return {
        joint_id: mark
        for one in found.joints
        for joint_id in one.joint.joint_ids
        for mark in [_mark(one, faces.get(joint_id))]
    }


def _mark(one: JointDryness, face: str | None) -> DryMark:
    options = list(_options(one, face))
    if not options:
        return DryMark(verdict=f"{one.joint.name} not run on this face")
    least = min((worst(o.verdicts) for o in options), key=lambda verdict: verdict.margin)
    verdict = f"{one.joint.name} {state_word(least.margin)} {least.margin:+.2f}"
    leaks = [leak_cell(option) for option in options]
    known = [leak for leak in leaks if isinstance(leak, Quantity)]
    if TURNED in leaks:
        return DryMark(verdict=verdict, bound=TURNED)
    if len(known) < len(leaks):
        return DryMark(verdict=verdict)
    smallest = min(known, key=lambda leak: (leak.value, leak.before != NOT_EVEN))
    return DryMark(verdict=verdict, leak=smallest.value, bound=smallest.before)


def _options(one: JointDryness, face: str | None) -> Iterator[FaceOption]:
    for height in one.heights:
        yield from (option for option in height.options if option.face == face)
