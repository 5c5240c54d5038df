"""Who signed which side, and what a later change undid: rows that are only ever added."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass

from sqlalchemy import Connection, insert, select

from seamwright.store.open import Store
from seamwright.store.schema import SIGNATURE


@dataclass(frozen=True, kw_only=True, slots=True)
class NewSignature:
    """A line for the book of signatures. `undone` are sentences on what it took back."""

    action: str
    face: str
    kinds: tuple[str, ...]
    joints: tuple[str, ...]
    signed_by: str
    role: str
    date: str
    note: str
    reason: str
    undone: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Signature(NewSignature):
    """A line of the book: which revision it made, and when it came in."""

    id: int
    revision: int
    made_at: str


_LISTS = ("kinds", "joints", "undone")


def put_signatures(
    connection: Connection, house_id: str, revision: int, new: Sequence[NewSignature], now: str
) -> None:
    """Write lines into the book within a transaction of the caller."""
    for one in new:
        row = {**asdict(one), "house_id": house_id, "revision": revision, "made_at": now}
        row |= {key: json.dumps(row[key], ensure_ascii=False) for key in _LISTS}
        connection.execute(insert(SIGNATURE).values(**row))


def list_signatures(store: Store, house_id: str) -> tuple[Signature, ...]:
    """Return the book of a house, the oldest line first."""
    columns = [column for column in SIGNATURE.c if column.name != "house_id"]
    query = select(*columns).where(SIGNATURE.c.house_id == house_id).order_by(SIGNATURE.c.id)
    with store.reading() as connection:
        rows = [dict(row) for row in connection.execute(query).mappings()]
    return tuple(
        Signature(**{**row, **{key: tuple(json.loads(row[key])) for key in _LISTS}}) for row in rows
    )
