"""How far each joint is, from what was recorded on site."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from seamwright.store.open import Store
from seamwright.store.records import list_records

_AFTER = {"sealed": "sealed", "checked": "checked", "reopened": "open"}


@dataclass(frozen=True, kw_only=True, slots=True)
class States:
    """The state of each joint that has one, and the number of the last record it comes from."""

    by_joint: Mapping[str, str]
    last: int


def states_of(store: Store, house_id: str) -> States:
    """Return the state of every joint of a house, the last record ruling."""
    records = list_records(store, house_id)
    by_joint = {row.joint: _AFTER[row.what] for row in records if row.what in _AFTER}
    return States(by_joint=by_joint, last=max((row.id for row in records), default=0))
