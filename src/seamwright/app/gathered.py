"""Dryness worked out in several goes, put together: of each kind of joint and face the newest.

A lead asks for the ridge today and for the sills tomorrow; the model and the tables show both.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from seamwright.app.contract.dryness import (
    DryFrom,
    DrynessGathered,
    DrynessOut,
    DryTypeOut,
    FaceOptionOut,
    JointDrynessOut,
    LeftOutOut,
)


@dataclass(frozen=True, kw_only=True, slots=True)
class DryGo:
    """One finished go: the id of the work, when it ended, and what came out."""

    job: str
    ended_at: str
    found: DrynessOut


def gathered(goes: Sequence[DryGo]) -> DrynessGathered:
    """Return what several goes say together; `goes` with the newest in front, at least one.

    A type of joint is told by the newest go that has it. What its joints tolerate and how far they
    stay from their limit comes of the newest go for each face, the best face ruling as it does
    within one go.
    """
    types: dict[str, tuple[DryGo, DryTypeOut]] = {}
    left: dict[str, LeftOutOut] = {}
    for go in goes:
        for one in go.found.types:
            types.setdefault(one.type, (go, one))
        for out in go.found.left_out:
            left.setdefault(out.type, out)
    return DrynessGathered(
        **goes[0].found.model_dump(exclude={"types", "joints", "left_out"}),
        types=[one for _, one in types.values()],
        joints=[row for name in types for row in _joints(name, goes)],
        left_out=[out for name, out in left.items() if name not in types],
        made_from=[
            _told(go, sum(held is go for held, _ in types.values()))
            for go in goes
        ],
    )  # fmt: skip


def _joints(name: str, goes: Sequence[DryGo]) -> list[JointDrynessOut]:
    """Return what each joint of a type tolerates, by the newest go for each face."""
    options: dict[tuple[str, str], FaceOptionOut] = {}
    taken: set[str] = set()
    joints: list[str] = []
    for go in goes:
        one = next((held for held in go.found.types if held.type == name), None)
        if one is None:
            continue
        joints = joints or one.joints
        here = {(height.height, o.face): o for height in one.heights for o in height.options}
        options |= {key: o for key, o in here.items() if key[1] not in taken}
        taken |= {face for _, face in here}
    leak, margin = _tolerated(options)
    return [
        JointDrynessOut(id=joint, type=name, tolerable_leak_m3_h_m=leak, margin=margin)
        for joint in joints
    ]


def _tolerated(
    options: dict[tuple[str, str], FaceOptionOut],
) -> tuple[float | None, float | None]:
    """Return leak and margin under the best face, the least of the heights; None where unknown."""
    leaks, margins = [], []
    for height in {height for height, _ in options}:
        here = [option for (at, _), option in options.items() if at == height]
        told = [option for option in here if option.tolerable_leak_words is not None]
        if not told:
            return None, None
        leaks.append(max(_level(option) for option in told))
        margins.append(max(min(p.margin for p in option.places) for option in here))
    return (min(leaks), min(margins)) if leaks else (None, None)


def _level(option: FaceOptionOut) -> float:
    level = option.tolerable_leak_m3_h_m
    return 0.0 if level is None else level


def _told(go: DryGo, types: int) -> DryFrom:
    return DryFrom(
        job=go.job, ended_at=go.ended_at, weather=go.found.weather, rooms=go.found.rooms,
        years=go.found.years, types=types,
    )  # fmt: skip
