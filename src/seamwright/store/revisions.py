"""The revisions of a house: a line of plan texts, and the head that moves along it."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, delete, func, insert, select, update

from seamwright.store.clash import clash, missing
from seamwright.store.open import Store
from seamwright.store.schema import DRAFT, HOUSE, REVISION
from seamwright.store.signatures import NewSignature, put_signatures


@dataclass(frozen=True, kw_only=True, slots=True)
class NewRevision:
    """A plan text to keep, and what it came from. `form` is JSON of the guided form, if any."""

    plan_text: str
    origin: str
    origin_name: str = ""
    author: str = ""
    note: str = ""
    form: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Revision:
    """A plan text that was kept. `next` is where redo leads from here, None where nowhere."""

    number: int
    parent: int | None
    next: int | None
    plan_hash: str
    plan_text: str
    form: str | None
    origin: str
    origin_name: str
    author: str
    note: str
    made_at: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Draft:
    """What somebody was writing: `source` is JSON as sent, on top of revision `base`."""

    base: int
    source: str
    saved_at: str


def plan_hash(plan_text: str) -> str:
    """Return the name of a plan text by its content."""
    return hashlib.sha256(plan_text.encode("utf-8")).hexdigest()[:32]


def put_revision(
    connection: Connection,
    house_id: str,
    new: NewRevision,
    *,
    number: int,
    parent: int | None,
    now: str,
) -> None:
    """Write a revision within a transaction of the caller."""
    row = {
        "house_id": house_id, "number": number, "parent": parent,
        "plan_hash": plan_hash(new.plan_text), "plan_text": new.plan_text, "form": new.form,
        "origin": new.origin, "origin_name": new.origin_name, "author": new.author,
        "note": new.note, "made_at": now,
    }  # fmt: skip
    connection.execute(insert(REVISION).values(**row))


def save_revision(
    store: Store,
    house_id: str,
    new: NewRevision,
    *,
    base: int,
    name: str,
    signatures: Sequence[NewSignature] = (),
) -> Revision:
    """Keep a new revision after `base`, which must be the head, and make it the head.

    `name` is the house's name from now on; `signatures` are written in the same transaction. The
    draft is done with.

    Raises
    ------
    ClashError
        When the head is another revision than the one the caller saw.
    """
    with store.writing() as connection:
        _check_head(connection, house_id, base)
        last = select(func.max(REVISION.c.number)).where(REVISION.c.house_id == house_id)
        number, now = int(connection.execute(last).scalar_one()) + 1, store.now()
        put_revision(connection, house_id, new, number=number, parent=base, now=now)
        _lead(connection, house_id, base, number)
        _move(connection, house_id, number, now, name=name)
        put_signatures(connection, house_id, number, signatures, now)
        connection.execute(delete(DRAFT).where(DRAFT.c.house_id == house_id))
    return find_revision(store, house_id, number)


def step_to(
    store: Store,
    house_id: str,
    number: int,
    *,
    base: int,
    name: str,
    signatures: Sequence[NewSignature] = (),
) -> None:
    """Make a revision next to `base`, which must be the head, the head: one step back or forward.

    Raises
    ------
    ClashError
        When the head is another revision, or `number` is no neighbor of it.
    """
    with store.writing() as connection:
        _check_head(connection, house_id, base)
        row = revision_on(connection, house_id, base)
        if number not in {row.parent, row.next}:
            raise clash("revision", f"revision {number} is no step away", "take one step at a time")
        if number == row.parent:
            _lead(connection, house_id, number, base)
        now = store.now()
        _move(connection, house_id, number, now, name=name)
        put_signatures(connection, house_id, number, signatures, now)


def list_revisions(store: Store, house_id: str) -> tuple[Revision, ...]:
    """Return every revision of a house, the newest in front."""
    query = select(*_COLUMNS).where(REVISION.c.house_id == house_id)
    with store.reading() as connection:
        rows = connection.execute(query.order_by(REVISION.c.number.desc())).mappings()
        return tuple(Revision(**row) for row in rows)


def find_revision(store: Store, house_id: str, number: int) -> Revision:
    """Return one revision; raises MissingError when it is not there."""
    with store.reading() as connection:
        return revision_on(connection, house_id, number)


def revision_on(connection: Connection, house_id: str, number: int) -> Revision:
    """Return one revision within a transaction of the caller."""
    wanted = (REVISION.c.house_id == house_id) & (REVISION.c.number == number)
    row = connection.execute(select(*_COLUMNS).where(wanted)).mappings().first()
    if row is None:
        raise missing("revision", number)
    return Revision(**row)


def keep_draft(store: Store, house_id: str, *, base: int, source: str) -> Draft:
    """Keep what is being written in place of what was kept before."""
    draft = Draft(base=base, source=source, saved_at=store.now())
    with store.writing() as connection:
        connection.execute(delete(DRAFT).where(DRAFT.c.house_id == house_id))
        values = {"base": base, "source": source, "saved_at": draft.saved_at}
        connection.execute(insert(DRAFT).values(house_id=house_id, **values))
    return draft


def find_draft(store: Store, house_id: str) -> Draft | None:
    """Return what was being written, None when nothing was."""
    query = select(DRAFT.c.base, DRAFT.c.source, DRAFT.c.saved_at)
    with store.reading() as connection:
        row = connection.execute(query.where(DRAFT.c.house_id == house_id)).mappings().first()
    return None if row is None else Draft(**row)


def drop_draft(store: Store, house_id: str) -> None:
    """Forget what was being written."""
    with store.writing() as connection:
        connection.execute(delete(DRAFT).where(DRAFT.c.house_id == house_id))


_COLUMNS = tuple(column for column in REVISION.c if column.name != "house_id")


def _check_head(connection: Connection, house_id: str, base: int) -> None:
    query = select(HOUSE.c.head).where((HOUSE.c.id == house_id) & HOUSE.c.removed_at.is_(None))
    head = connection.execute(query).scalar()
    if head is None:
        raise missing("house", house_id)
    if head != base:
        told = f"this house is at revision {head} by now, and you worked on revision {base}"
        raise clash("revision", told, "look at what changed, then do it again on the newest one")


def _lead(connection: Connection, house_id: str, number: int, to: int) -> None:
    row = (REVISION.c.house_id == house_id) & (REVISION.c.number == number)
    connection.execute(update(REVISION).where(row).values(next=to))


def _move(
    connection: Connection, house_id: str, head: int, now: str, *, name: str | None = None
) -> None:
    values = {"head": head, "changed_at": now} | ({} if name is None else {"name": name})
    connection.execute(update(HOUSE).where(HOUSE.c.id == house_id).values(**values))
