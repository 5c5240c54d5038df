"""What stays out of the register: corrections of the user, and contacts that show on no face."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import cast

from seamwright.joints.classify import Verdict
from seamwright.joints.draft import Draft
from seamwright.joints.types import JointKind
from seamwright.shell.plan import Override

_ON_WALLS = ("eave", "rake")
_BURIED = "top of a wall inside the corner, under the eave of its neighbor"


@dataclass(frozen=True, kw_only=True, slots=True)
class Found:
    """All joints of a shell, classified and named, before corrections."""

    drafts: list[Draft]
    verdicts: list[Verdict]
    lengths: list[float]
    ids: list[str]

    def take(self, keep: Sequence[int]) -> Found:
        """Return these rows only."""
        return Found(
            drafts=[self.drafts[at] for at in keep],
            verdicts=[self.verdicts[at] for at in keep],
            lengths=[self.lengths[at] for at in keep],
            ids=[self.ids[at] for at in keep],
        )


@dataclass(frozen=True, kw_only=True, slots=True)
class Corrected:
    """Joints after corrections, the ignored drafts with the reason, and the lost ids."""

    found: Found
    ignored: list[tuple[Draft, str]]
    lost: tuple[str, ...]


def corrected_by(found: Found, overrides: Sequence[Override]) -> Corrected:
    """Return what is left after corrections, the ignored drafts with why, and the lost ids."""
    place = {name: at for at, name in enumerate(found.ids)}
    verdicts = list(found.verdicts)
    dropped: dict[int, str] = {}
    lost: list[str] = []
    for override in overrides:
        at = place.get(override.joint)
        if at is None:
            lost.append(override.joint)
        elif override.ignore:
            dropped[at] = f"ignored by a correction: {override.reason}"
        elif override.kind is not None:
            note = f"kind corrected from {found.verdicts[at][0]}: {override.reason}"
            verdicts[at] = (cast("JointKind", override.kind), note)
    keep = [at for at in range(len(found.ids)) if at not in dropped]
    left = replace(found, verdicts=verdicts).take(keep)
    ignored = [(found.drafts[at], why) for at, why in dropped.items()]
    return Corrected(found=left, ignored=ignored, lost=tuple(lost))


def without_buried(corrected: Corrected, clipped: Sequence[Draft]) -> Corrected:
    """Return the corrections without contacts of a wall top that show on neither face.

    Where a wall runs through at a corner under a hip, the last of its top lies under the next
    slope, inside the neighbor's thickness: the neighbor's eave seals there.
    """
    found = corrected.found
    buried = {
        at
        for at, (draft, (kind, _)) in enumerate(zip(clipped, found.verdicts, strict=True))
        if kind in _ON_WALLS and draft.inner is None and draft.outer is None
    }
    if not buried:
        return corrected
    ignored = [(found.drafts[at], _BURIED) for at in sorted(buried)]
    keep = [at for at in range(len(found.ids)) if at not in buried]
    return replace(corrected, found=found.take(keep), ignored=[*corrected.ignored, *ignored])
