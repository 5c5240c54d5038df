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
)


@dataclass(frozen=True, kw_only=True, slots=True)
class DryGo:
    """One finished go: the id of the work, when it ended, and what came out."""

    job: str
    ended_at: str
    found: DrynessOut


def gathered(goes: Sequence[DryGo]) -> DrynessGathered:
    """Return what several goes say together; `goes` with the newest in front, at least one.

    A joint is told by the newest go that has it. What it tolerates and how far it stays from its
    limit comes of the newest go for each face, the best face ruling as it does within one go. Goes
    number their types each for itself, so the types told are numbered anew.
    """
    telling = {
        joint: (go, one) for go in reversed(goes) for one in go.found.types for joint in one.joints
    }
    kept = [
        (go, one)
        for go in goes
        for one in go.found.types
        if any(telling[joint][1] is one for joint in one.joints)
    ]
    left = {out.title: out for go in reversed(goes) for out in go.found.left_out}
    return DrynessGathered(
        **goes[0].found.model_dump(exclude={"types", "joints", "left_out"}),
        types=[one.model_copy(update={"type": f"J{k}"}) for k, (_, one) in enumerate(kept, 1)],
        joints=[
            row
            for k, (_, one) in enumerate(kept, 1)
            for row in _joints(f"J{k}", [j for j in one.joints if telling[j][1] is one], goes)
        ],
        left_out=[out for out in left.values() if not telling.keys() & {*out.joints}],
        made_from=[_told(go, sum(held is go for held, _ in kept)) for go in goes],
    )


def _joints(name: str, joints: Sequence[str], goes: Sequence[DryGo]) -> list[JointDrynessOut]:
    """Return what each joint tolerates, by the newest go for each face."""
    worked: dict[tuple[int, ...], tuple[float | None, float | None]] = {}
    rows = []
    for joint in joints:
        alike = [one for go in goes for one in go.found.types if joint in one.joints]
        key = tuple(id(one) for one in alike)
        if key not in worked:
            worked[key] = _tolerated(_newest_options(alike))
        leak, margin = worked[key]
        rows.append(JointDrynessOut(id=joint, type=name, tolerable_leak_m3_h_m=leak, margin=margin))
    return rows


def _newest_options(types: Sequence[DryTypeOut]) -> dict[tuple[str, str], FaceOptionOut]:
    """Return the options by height and face, each face as the newest go has it."""
    options: dict[tuple[str, str], FaceOptionOut] = {}
    taken: set[str] = set()
    for one in types:
        here = {(height.height, o.face): o for height in one.heights for o in height.options}
        options |= {key: o for key, o in here.items() if key[1] not in taken}
        taken |= {face for _, face in here}
    return options


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
