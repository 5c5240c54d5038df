"""Put another plan in place of the one that counts, and say what that does."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence

from seamwright.app.built import Built
from seamwright.app.contract.change import (
    Changed,
    ChangesOut,
    JointBrief,
    JointChangeOut,
    OrderChangeOut,
    PropertyChange,
    Undone,
    WorkTouched,
)
from seamwright.app.desk import Desk
from seamwright.app.intake import Taken
from seamwright.app.shown import shown
from seamwright.app.state import states_of
from seamwright.errors import Problem
from seamwright.joints.types import Joint
from seamwright.report.house_changes import HouseChanges, compare_houses
from seamwright.report.words import FACES, kind_word
from seamwright.shell.plan import Decision
from seamwright.store.clash import ClashError
from seamwright.store.revisions import plan_hash, save_revision, step_to
from seamwright.store.signatures import NewSignature
from seamwright.units import System


def revise(
    desk: Desk,
    house_id: str,
    taken: Taken,
    *,
    base: int,
    author: str,
    note: str,
    reason: str,
    units: System,
) -> Changed:
    """Return the house with the plan that was taken in put in place of revision `base`.

    Raises
    ------
    InputError
        When the text is no house; when another revision came in between; when it takes back what
        was signed and gives no reason.
    """
    _, before = desk.built(house_id, base)
    after = desk.workshop.built(plan_hash(taken.text), lambda: taken.text)
    found = changes_between(desk, house_id, before, after, base)
    lines = _lines(before, after, found.undone, reason, author)
    name = after.house.plan.site.name
    row = save_revision(
        desk.store, house_id, taken.revision(author, note), base=base, name=name, signatures=lines
    )
    return Changed(
        house=shown(desk, house_id, units), changes=found.model_copy(update={"after": row.number})
    )


def step(
    desk: Desk, house_id: str, number: int, *, base: int, reason: str, units: System
) -> Changed:
    """Return the house after one undo or redo, from revision `base` to `number`."""
    _, before = desk.built(house_id, base)
    _, after = desk.built(house_id, number)
    found = changes_between(desk, house_id, before, after, base)
    lines = _lines(before, after, found.undone, reason, "")
    name = after.house.plan.site.name
    step_to(desk.store, house_id, number, base=base, name=name, signatures=lines)
    return Changed(
        house=shown(desk, house_id, units), changes=found.model_copy(update={"after": number})
    )


def changes_between(
    desk: Desk, house_id: str, before: Built, after: Built, base: int
) -> ChangesOut:
    """Return what differs, with what it does to recorded work and to what was signed."""
    found = compare_houses(before.house, after.house)
    states = states_of(desk.store, house_id).by_joint
    return ChangesOut(
        before=base,
        after=None,
        joints_came=[_brief(joint) for joint in found.joints_came],
        joints_went=[_brief(joint) for joint in found.joints_went],
        joints_changed=[
            JointChangeOut(
                **_brief(one.joint).model_dump(),
                changes=[
                    PropertyChange(name=c.name, before=c.before, after=c.after) for c in one.changes
                ],
            )
            for one in found.joints_changed
        ],
        nodes_came=[node.id for node in found.nodes_came],
        nodes_went=[node.id for node in found.nodes_went],
        order=[OrderChangeOut.model_validate(one, from_attributes=True) for one in found.order],
        work_touched=_touched(found, states),
        undone=undone(before, after),
    )


def undone(before: Built, after: Built) -> list[Undone]:
    """Return the signed sides of joints still there that another plan takes back or changes."""
    groups: defaultdict[tuple[str, str, str, str], list[str]] = defaultdict(list)
    now = {side.joint_id: side for side in after.house.schedule.sides}
    for side in before.house.schedule.sides:
        new = now.get(side.joint_id)
        if not side.signed or new is None:
            continue
        if not new.signed:
            groups[before.joints[side.joint_id].kind, side.by, side.face, ""].append(side.joint_id)
        elif (new.face, new.by) != (side.face, side.by):
            to = f"{FACES[new.face]}, signed by {new.by}"
            groups[before.joints[side.joint_id].kind, side.by, side.face, to].append(side.joint_id)
    return [
        Undone(
            sentence=_undone_words(kind, by, face, to, len(ids)),
            kind=kind,
            signed_by=by,
            joints=ids,
        )
        for (kind, by, face, to), ids in sorted(groups.items())
    ]


def _undone_words(kind: str, by: str, face: str, to: str, count: int) -> str:
    joints = "1 joint" if count == 1 else f"{count} joints"
    told = f"{FACES[face]} for {joints} of kind {kind_word(kind)}, signed by {by}, is taken back"
    return f"{told} and becomes {to}" if to else f"{told}; nobody signs for them then"


def _lines(
    before: Built, after: Built, taken_back: Sequence[Undone], reason: str, author: str
) -> list[NewSignature]:
    """Return the lines for the book of signatures, or refuse a change without a reason."""
    if taken_back and len(reason.strip()) < 3:
        remedy = "say why (reason) to change what was signed"
        raise ClashError(
            [Problem(subject="reason", sentence=one.sentence, remedy=remedy) for one in taken_back]
        )
    old, new = _signed(before), _signed(after)
    sentences = tuple(one.sentence for one in taken_back)
    lines = []
    for one in new:
        if not any(_covers(was, one) for was in old):
            action = "changed" if sentences else "signed"
            lines.append(_line(one, action, reason if sentences else "", sentences))
    if sentences and not lines:
        lines = [
            _line(one, "withdrawn", reason, sentences, author) for one in old if one not in new
        ][:1] or [_line(old[0], "withdrawn", reason, sentences, author)]
    return lines


def _signed(built: Built) -> list[Decision]:
    return [one for one in built.house.plan.decisions if one.signed_by.strip()]


def _covers(was: Decision, one: Decision) -> bool:
    """Return whether a decision says no more than an earlier one of the same signature."""
    alike = (was.face, was.signed_by, was.role, was.date, was.note) == (
        one.face, one.signed_by, one.role, one.date, one.note
    )  # fmt: skip
    whole = not was.kinds and not was.joints
    within = {*one.kinds} <= {*was.kinds} and {*one.joints} <= {*was.joints}
    return alike and (whole or (within and bool(one.kinds or one.joints)))


def _line(
    one: Decision, action: str, reason: str, sentences: Iterable[str], author: str = ""
) -> NewSignature:
    who = one.signed_by if not author.strip() else author.strip()
    return NewSignature(
        action=action, face=one.face, kinds=one.kinds, joints=one.joints,
        signed_by=who, role=one.role,
        date=one.date, note=one.note, reason=reason.strip(), undone=tuple(sentences),
    )  # fmt: skip


def _brief(joint: Joint) -> JointBrief:
    return JointBrief(id=joint.id, kind=joint.kind, length_m=joint.length)


def _touched(found: HouseChanges, states: Mapping[str, str]) -> list[WorkTouched]:
    gone = [joint.id for joint in found.joints_went]
    other = [one.joint.id for one in found.joints_changed if one.touches_seal]
    return [
        WorkTouched(joint=joint, state=states[joint], sentence=_touched_words(joint, states, gone))
        for joint in (*gone, *other)
        if states.get(joint, "open") != "open"
    ]


def _touched_words(joint: str, states: Mapping[str, str], gone: Sequence[str]) -> str:
    state = states[joint]
    if joint in gone:
        return f"{joint} is recorded {state} and would no longer be there"
    return f"{joint} is recorded {state} and would ask for another seal"
