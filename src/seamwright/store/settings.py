"""How the desk shows things."""

from __future__ import annotations

from collections.abc import Mapping

from sqlalchemy import delete, insert, select

from seamwright.store.open import Store
from seamwright.store.schema import SETTING


def read_settings(store: Store) -> dict[str, str]:
    """Return every setting that was ever made."""
    with store.reading() as connection:
        rows = connection.execute(select(SETTING.c.key, SETTING.c.value))
        return {row.key: row.value for row in rows}


def write_settings(store: Store, values: Mapping[str, str]) -> None:
    """Make these settings, leaving others as they are."""
    with store.writing() as connection:
        connection.execute(delete(SETTING).where(SETTING.c.key.in_(values)))
        rows = [{"key": key, "value": value} for key, value in values.items()]
        if rows:
            connection.execute(insert(SETTING), rows)
