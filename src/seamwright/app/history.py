"""What happened to one joint: recorded on site, corrected in the plan, signed, searched."""

from __future__ import annotations

import json
from collections.abc import Mapping

from seamwright.app.contract.joint import HappeningOut
from seamwright.errors import InputError
from seamwright.io.yaml_text import read_yaml
from seamwright.joints.types import Joint
from seamwright.store.jobs import list_jobs
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
    happened += _searched(store, house_id, joint.id)
    return sorted(happened, key=lambda one: one.when)


def _searched(store: Store, house_id: str, joint: str) -> list[HappeningOut]:
    """Return looks and mends at a joint and fan tests of the house, as the newest search knows."""
    asked = next((job for job in list_jobs(store, house_id) if job.kind == "hunt"), None)
    text = None if asked is None else json.loads(asked.wishes).get("records")
    if asked is None or text is None:
        return []
    return [
        HappeningOut(
            when=str(row.get("day", asked.made_at[:10])), what=what, person="", note="",
            revision=None, by=str(row.get("by", "")), saw=str(row.get("saw", "")),
            flow=str(row.get("flow", "")),
        )
        for row in _log(text)
        if (what := _what(row, joint)) is not None
    ]  # fmt: skip


def _what(row: Mapping[str, object], joint: str) -> str | None:
    """Return what an entry of the diary says of a joint, None when it says nothing."""
    if row.get("look") == joint:
        return "looked"
    if row.get("mend") == joint:
        return "mended"
    return "tested" if "test" in row and "flow" in row else None


def _log(text: str) -> list[Mapping[str, object]]:
    """Return the diary of records as they were sent, none where they cannot be read."""
    try:
        tree = read_yaml(text.encode(), what="records").tree
    except InputError:
        return []
    log = tree.get("log") if isinstance(tree, dict) else None
    return [row for row in log if isinstance(row, dict)] if isinstance(log, list) else []


def _signed(row: Signature) -> HappeningOut:
    told = "; ".join(part for part in (f"face: {row.face}", row.note, row.reason) if part)
    return HappeningOut(
        when=row.made_at, what=row.action, person=row.signed_by, note=told, revision=row.revision
    )


def _concerns(row: Signature, joint: Joint) -> bool:
    whole = not row.kinds and not row.joints
    return whole or joint.kind in row.kinds or joint.id in row.joints
