"""Houses in the store: add, list, find, remove and bring back."""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, Select, insert, select, update

from seamwright.store.clash import missing
from seamwright.store.open import Store
from seamwright.store.revisions import NewRevision, put_revision
from seamwright.store.schema import HOUSE, REVISION

_LETTERS = "23456789abcdefghjkmnpqrstuvwxyz"
"""Letters and digits that no one takes for another."""


@dataclass(frozen=True, kw_only=True, slots=True)
class House:
    """A house as the list shows it. Times are UTC."""

    id: str
    name: str
    head: int
    plan_hash: str
    made_at: str
    changed_at: str
    removed_at: str | None


def add_house(store: Store, name: str, first: NewRevision) -> House:
    """Return the house just added with its first revision."""
    house_id = "".join(secrets.choice(_LETTERS) for _ in range(8))
    with store.writing() as connection:
        now = store.now()
        row = {"id": house_id, "name": name, "head": 1, "made_at": now, "changed_at": now}
        connection.execute(insert(HOUSE).values(**row))
        put_revision(connection, house_id, first, number=1, parent=None, now=now)
    return find_house(store, house_id)


def list_houses(store: Store, *, removed: bool = False) -> tuple[House, ...]:
    """Return the houses, the one changed last in front; with `removed`, those taken out instead."""
    gone = HOUSE.c.removed_at.is_not(None) if removed else HOUSE.c.removed_at.is_(None)
    query = _query().where(gone).order_by(HOUSE.c.changed_at.desc(), HOUSE.c.id)
    with store.reading() as connection:
        return tuple(House(**row) for row in connection.execute(query).mappings())


def find_house(store: Store, house_id: str, *, removed: bool = False) -> House:
    """Return one house.

    Raises
    ------
    MissingError
        When there is no such house, or it was removed and `removed` is not set.
    """
    with store.reading() as connection:
        return house_on(connection, house_id, removed=removed)


def house_on(connection: Connection, house_id: str, *, removed: bool = False) -> House:
    """Return one house as `find_house` does, within a transaction of the caller."""
    row = connection.execute(_query().where(HOUSE.c.id == house_id)).mappings().first()
    if row is None or (row["removed_at"] is not None and not removed):
        raise missing("house", house_id)
    return House(**row)


def remove_house(store: Store, house_id: str) -> None:
    """Take a house out of the list; nothing of it is lost, see `restore_house`."""
    with store.writing() as connection:
        house_on(connection, house_id)
        _mark(connection, house_id, store.now())


def restore_house(store: Store, house_id: str) -> House:
    """Put a removed house back into the list."""
    with store.writing() as connection:
        house_on(connection, house_id, removed=True)
        _mark(connection, house_id, None)
    return find_house(store, house_id)


def _mark(connection: Connection, house_id: str, when: str | None) -> None:
    connection.execute(update(HOUSE).where(HOUSE.c.id == house_id).values(removed_at=when))


def _query() -> Select[Any]:
    head = (REVISION.c.house_id == HOUSE.c.id) & (REVISION.c.number == HOUSE.c.head)
    return select(
        HOUSE.c.id, HOUSE.c.name, HOUSE.c.head, REVISION.c.plan_hash, HOUSE.c.made_at,
        HOUSE.c.changed_at, HOUSE.c.removed_at,
    ).join(REVISION, head)  # fmt: skip
