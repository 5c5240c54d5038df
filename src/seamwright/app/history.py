"""What happened to one joint: recorded on site, corrected in the plan, signed."""

from __future__ import annotations

from seamwright.app.contract.joint import HappeningOut
from seamwright.joints.types import Joint
from seamwright.store.open import Store
from seamwright.store.records import list_records
from seamwright.store.revisions import list_revisions
from seamwright.store.signatures import Signature, list_signatures


def history_of(store: Store, house_id: str, joint: Joint) -> list[HappeningOut]:
    """Return what happened to a joint, the oldest first."""
    happened = [
        HappeningOut(
            when=row.done_at, what=row.what, person=row.person, note=row.note, revision=None
        )
        for row in list_records(store, house_id, joint=joint.id)
    ]
    happened += [
        HappeningOut(
            when=row.made_at, what="corrected", person=row.author, note=row.note,
            revision=row.number,
        )
        for row in list_revisions(store, house_id)
        if row.origin == "correction" and row.origin_name == joint.id
    ]  # fmt: skip
    happened += [_signed(row) for row in list_signatures(store, house_id) if _concerns(row, joint)]
    return sorted(happened, key=lambda one: one.when)


def _signed(row: Signature) -> HappeningOut:
    told = "; ".join(part for part in (f"face: {row.face}", row.note, row.reason) if part)
    return HappeningOut(
        when=row.made_at, what=row.action, person=row.signed_by, note=told, revision=row.revision
    )


def _concerns(row: Signature, joint: Joint) -> bool:
    whole = not row.kinds and not row.joints
    return whole or joint.kind in row.kinds or joint.id in row.joints
