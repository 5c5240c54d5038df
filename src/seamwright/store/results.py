"""Documents worked out from a plan text, kept so that reading them again costs nothing."""

from __future__ import annotations

import zlib

from sqlalchemy import delete, insert, select

from seamwright.store.open import Store
from seamwright.store.schema import RESULT


def keep_result(store: Store, plan_hash: str, kind: str, version: str, body: bytes) -> None:
    """Keep a document of a plan text, made by a version of the program; other versions' go."""
    with store.writing() as connection:
        stale = (RESULT.c.plan_hash == plan_hash) & (RESULT.c.kind == kind)
        connection.execute(delete(RESULT).where(stale))
        row = {"plan_hash": plan_hash, "kind": kind, "version": version}
        connection.execute(insert(RESULT).values(**row, body=zlib.compress(body, 6)))


def find_result(store: Store, plan_hash: str, kind: str, version: str) -> bytes | None:
    """Return the document, None when it was not kept or another version made it."""
    wanted = (RESULT.c.plan_hash == plan_hash) & (RESULT.c.kind == kind)
    query = select(RESULT.c.body).where(wanted & (RESULT.c.version == version))
    with store.reading() as connection:
        body = connection.execute(query).scalar()
    return None if body is None else zlib.decompress(body)
