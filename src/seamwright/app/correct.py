"""Corrections and decisions written into the plan text, where the text alone counts."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from seamwright.app.built import Built
from seamwright.app.contract.change import SignIn
from seamwright.app.contract.joint import OverrideIn
from seamwright.io.desk.edit import add_row, remove_row, replace_row
from seamwright.io.desk.write import Raw, Written, size
from seamwright.shell.plan import Decision
from seamwright.units import System


def with_override(text: str, built: Built, joint: str, given: OverrideIn, units: System) -> str:
    """Return the plan text with a correction of one joint, in place of an earlier one."""
    row: dict[str, Written] = {"joint": joint, "reason": given.reason.strip()}
    if given.kind is not None:
        row |= {"kind": given.kind}
    if given.face is not None:
        row |= {"face": given.face}
    if given.span_m is not None:
        row |= {"span": size(given.span_m, units)}
    if given.strip_width_m is not None:
        row |= {"strip_width": size(given.strip_width_m, units)}
    if given.ignore:
        row |= {"ignore": Raw("yes")}
    held = _place(built, joint)
    if held is None:
        return add_row(text, "overrides", row)
    return replace_row(text, "overrides", held, row)


def without_override(text: str, built: Built, joint: str) -> str | None:
    """Return the plan text without the correction of a joint, None when there is none."""
    held = _place(built, joint)
    return None if held is None else remove_row(text, "overrides", held)


def with_decision(text: str, built: Built, given: SignIn, date: str) -> str:
    """Return the plan text with a signed side; what was signed for the same joints gives way."""
    text = without_decisions(text, built, given.kinds, given.joints)
    new = Decision(
        face=given.face, signed_by=given.signed_by.strip(), role=given.role.strip(), date=date,
        kinds=tuple(given.kinds), joints=tuple(given.joints), note=given.note.strip(),
    )  # fmt: skip
    return add_row(text, "decisions", _row(new))


def without_decisions(text: str, built: Built, kinds: Sequence[str], joints: Sequence[str]) -> str:
    """Return the plan text in which nobody signs for these kinds and joints any more."""
    present = {joint.kind for joint in built.house.register.joints}
    decisions = built.house.plan.decisions
    for place in range(len(decisions) - 1, -1, -1):
        one = decisions[place]
        left = _left(one, kinds, joints, present)
        if left is None:
            text = remove_row(text, "decisions", place)
        elif left != one:
            text = replace_row(text, "decisions", place, _row(left))
    return text


def _left(
    one: Decision, kinds: Sequence[str], joints: Sequence[str], present: Iterable[str]
) -> Decision | None:
    """Return what a decision still says without these kinds and joints, None when nothing.

    Without any kinds and joints, decisions for the whole house go; one for the whole house that
    loses some kinds is left for the others that the house has.
    """
    if not one.kinds and not one.joints:
        if not kinds:
            return one if joints else None
        rest = tuple(sorted(set(present) - set(kinds)))
        return replace(one, kinds=rest) if rest else None
    left_kinds = tuple(kind for kind in one.kinds if kind not in kinds)
    left_joints = tuple(joint for joint in one.joints if joint not in joints)
    if not left_kinds and not left_joints:
        return None
    return replace(one, kinds=left_kinds, joints=left_joints)


def _row(one: Decision) -> dict[str, Written]:
    row: dict[str, Written] = {"face": one.face}
    row |= {"kinds": list(one.kinds)} if one.kinds else {}
    row |= {"joints": list(one.joints)} if one.joints else {}
    row |= {"signed_by": one.signed_by, "role": one.role, "date": one.date}
    return row | ({"note": one.note} if one.note else {})


def _place(built: Built, joint: str) -> int | None:
    places = [n for n, one in enumerate(built.house.plan.overrides) if one.joint == joint]
    return places[-1] if places else None
