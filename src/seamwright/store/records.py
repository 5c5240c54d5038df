"""What was done on site: rows that are only ever added."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import insert, select

from seamwright.store.houses import house_on
from seamwright.store.open import Store
from seamwright.store.schema import RECORD


@dataclass(frozen=True, kw_only=True, slots=True)
class Record:
    """One thing that was done at a joint, by whom and when (`done_at`, as told from the site)."""

    id: int
    key: str
    joint: str
    what: str
    person: str
    note: str
    done_at: str
    made_at: str


def add_record(
    store: Store,
    house_id: str,
    *,
    key: str,
    joint: str,
    what: str,
    person: str,
    note: str,
    done_at: str | None,
) -> Record:
    """Return the record just added, or the one that was added before under the same key."""
    with store.writing() as connection:
        house_on(connection, house_id)
        held = (RECORD.c.house_id == house_id) & (RECORD.c.key == key)
        found = connection.execute(select(*_COLUMNS).where(held)).mappings().first()
        if found is None:
            now = store.now()
            row = {
                "house_id": house_id, "key": key, "joint": joint, "what": what, "person": person,
                "note": note, "done_at": now if done_at is None else done_at, "made_at": now,
            }  # fmt: skip
            connection.execute(insert(RECORD).values(**row))
            found = connection.execute(select(*_COLUMNS).where(held)).mappings().one()
        return Record(**found)


def list_records(store: Store, house_id: str, *, joint: str | None = None) -> tuple[Record, ...]:
    """Return what was recorded at a house, or at one joint of it, in the order it came in."""
    query = select(*_COLUMNS).where(RECORD.c.house_id == house_id).order_by(RECORD.c.id)
    if joint is not None:
        query = query.where(RECORD.c.joint == joint)
    with store.reading() as connection:
        return tuple(Record(**row) for row in connection.execute(query).mappings())


_COLUMNS = tuple(column for column in RECORD.c if column.name != "house_id")
