"""What the dryness of its type says of each joint, under the face signed or proposed for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from seamwright.moisture.verdict.judge import worst
from seamwright.moisture.verdict.types import FaceOption
from seamwright.report.dryness_types import HouseDryness, JointDryness
from seamwright.seals.types import SidePlan

_PER_HOUR = 1.0 / 3600.0


@dataclass(frozen=True, kw_only=True, slots=True)
class DryMark:
    """What stands beside a joint in the seal schedule: the type's name with verdict and margin, and
    the largest leakage within limits [m³/(s·m) at 50 Pa], None where it was not looked for; zero
    where no level tried is within.
    """

    verdict: str
    leak: float | None = None


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
    leaks = [_level(o) for o in options]
    known = [leak for leak in leaks if leak is not None]
    state = "within" if least.within else "OUTSIDE"
    return DryMark(
        verdict=f"{one.joint.name} {state} {least.margin:+.2f}",
        leak=min(known) * _PER_HOUR if len(known) == len(leaks) else None,
    )


def _options(one: JointDryness, face: str | None) -> Iterator[FaceOption]:
    for height in one.heights:
        yield from (option for option in height.options if option.face == face)


def _level(option: FaceOption) -> float | None:
    """Return the largest leakage within limits, zero where none of the levels is."""
    if option.leak is None:
        return None
    return 0.0 if option.leak.level is None else option.leak.level
