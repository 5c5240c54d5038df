"""A house as its own page shows it."""

from __future__ import annotations

from seamwright.app.built import Built
from seamwright.app.contract.house import HouseOut
from seamwright.app.desk import Desk
from seamwright.app.summary import Summary, summary_of
from seamwright.store.revisions import find_draft
from seamwright.units import System


def shown(desk: Desk, house_id: str, units: System) -> HouseOut:
    """Return a house as its own page shows it."""
    house, row = desk.head(house_id)

    def make(built: Built) -> bytes:
        return summary_of(built, units).model_dump_json().encode()

    packed = desk.document(row, f"summary {units}", "", make)
    told = Summary.model_validate_json(packed.body)
    return HouseOut(
        id=house.id,
        name=house.name,
        head=house.head,
        made_at=house.made_at,
        changed_at=house.changed_at,
        plan_hash=row.plan_hash,
        origin=row.origin,
        can_undo=row.parent is not None,
        can_redo=row.next is not None,
        has_form=row.form is not None,
        has_draft=find_draft(desk.store, house_id) is not None,
        **told.model_dump(),
    )
