"""A house as its own page shows it."""

from __future__ import annotations

from seamwright.app.contract.house import HouseOut
from seamwright.app.desk import Desk
from seamwright.app.summary import house_out
from seamwright.store.revisions import find_draft
from seamwright.units import System


def shown(desk: Desk, house_id: str, units: System) -> HouseOut:
    """Return a house as its own page shows it."""
    house, row = desk.head(house_id)
    built = desk.workshop.built(row.plan_hash, lambda: row.plan_text)
    has_draft = find_draft(desk.store, house_id) is not None
    return house_out(house, row, built, units=units, has_draft=has_draft)
