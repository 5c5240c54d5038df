"""Revisions of a house: a new one, undo and redo, what differs, and the draft being written."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query
from pydantic import TypeAdapter

from seamwright.app.contract.change import Changed, ChangesOut
from seamwright.app.contract.house import (
    DraftIn,
    DraftOut,
    FromForm,
    FromRevision,
    NewRevisionIn,
    PlanSource,
    RevisionList,
    RevisionOut,
    StepIn,
)
from seamwright.app.desk import HouseId, TheDesk
from seamwright.app.intake import put_back, take
from seamwright.app.revise import changes_between, revise, step
from seamwright.app.spoken import SpokenRoute
from seamwright.app.taste import TheUnits
from seamwright.store.clash import clash
from seamwright.store.houses import find_house
from seamwright.store.revisions import (
    drop_draft,
    find_draft,
    find_revision,
    keep_draft,
    list_revisions,
)

router = APIRouter(tags=["revisions"], route_class=SpokenRoute)

_SOURCE: TypeAdapter[PlanSource] = TypeAdapter(PlanSource)


@router.get("/houses/{house}/revisions")
def get_revisions(desk: TheDesk, house: HouseId) -> RevisionList:
    """List every revision of a house, the newest in front."""
    head = find_house(desk.store, house).head
    rows = list_revisions(desk.store, house)
    return RevisionList(
        revisions=[
            RevisionOut(
                number=row.number, parent=row.parent, is_head=row.number == head,
                origin=row.origin, origin_name=row.origin_name, author=row.author,
                note=row.note, made_at=row.made_at,
            )
            for row in rows
        ]
    )  # fmt: skip


@router.post("/houses/{house}/revisions", status_code=201)
def post_revision(desk: TheDesk, units: TheUnits, house: HouseId, body: NewRevisionIn) -> Changed:
    """Put another plan in place of the head and say what that does."""
    if isinstance(body.source, FromRevision):
        taken = put_back(desk.revision(house, body.source.number))
    else:
        before = desk.revision(house, body.base).plan_text
        taken = take(body.source, before=before if isinstance(body.source, FromForm) else None)
    return revise(
        desk, house, taken, base=body.base, author=body.author, note=body.note,
        reason=body.reason, units=units,
    )  # fmt: skip


@router.post("/houses/{house}/undo")
def post_undo(desk: TheDesk, units: TheUnits, house: HouseId, body: StepIn) -> Changed:
    """Go one revision back."""
    to = desk.revision(house, body.base).parent
    if to is None:
        raise clash("undo", "this is the first revision", "there is nothing to undo")
    return step(desk, house, to, base=body.base, reason=body.reason, units=units)


@router.post("/houses/{house}/redo")
def post_redo(desk: TheDesk, units: TheUnits, house: HouseId, body: StepIn) -> Changed:
    """Go one revision forward again."""
    to = desk.revision(house, body.base).next
    if to is None:
        raise clash("redo", "nothing was undone after this one", "there is nothing to redo")
    return step(desk, house, to, base=body.base, reason=body.reason, units=units)


@router.get("/houses/{house}/changes")
def get_changes(
    desk: TheDesk,
    house: HouseId,
    before: Annotated[int, Query(ge=1, le=2**31 - 1)],
    after: Annotated[int | None, Query(ge=1, le=2**31 - 1)] = None,
) -> ChangesOut:
    """Say what differs between two revisions; without `after`, from one to the head."""
    find_revision(desk.store, house, before)
    new, built = desk.built(house, after)
    _, old = desk.built(house, before)
    found = changes_between(desk, house, old, built, before)
    return found.model_copy(update={"after": new.number})


@router.get("/houses/{house}/draft")
def get_draft(desk: TheDesk, house: HouseId) -> DraftOut:
    """Return what was being written."""
    find_house(desk.store, house)
    draft = find_draft(desk.store, house)
    if draft is None:
        return DraftOut(base=None, source=None, saved_at=None)
    source = _SOURCE.validate_json(draft.source)
    return DraftOut(base=draft.base, source=source, saved_at=draft.saved_at)


@router.put("/houses/{house}/draft")
def put_draft(desk: TheDesk, house: HouseId, body: DraftIn) -> DraftOut:
    """Keep what is being written, right or wrong."""
    find_house(desk.store, house)
    source = _SOURCE.dump_json(body.source).decode()
    draft = keep_draft(desk.store, house, base=body.base, source=source)
    return DraftOut(base=draft.base, source=body.source, saved_at=draft.saved_at)


@router.delete("/houses/{house}/draft", status_code=204)
def delete_draft(desk: TheDesk, house: HouseId) -> None:
    """Forget what was being written."""
    find_house(desk.store, house)
    drop_draft(desk.store, house)
