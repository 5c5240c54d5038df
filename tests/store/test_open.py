"""The store as it opens: made, brought up to date, taken back, refused."""

from __future__ import annotations

from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import inspect, text

from seamwright.errors import FormatError
from seamwright.store.houses import add_house, list_houses
from seamwright.store.open import FILE, is_sound, migrate, open_store
from seamwright.store.revisions import NewRevision
from seamwright.store.schema import META


def test_the_steps_make_the_tables_the_code_sees(tmp_path: Path) -> None:
    """Nothing would have to be added, taken out or changed to make the file fit the code."""
    store = open_store(tmp_path)
    with store.reading() as connection:
        assert compare_metadata(MigrationContext.configure(connection), META) == []
    store.close()


def test_every_step_can_be_taken_back_and_made_again(tmp_path: Path) -> None:
    """Down to nothing and up again gives the same tables."""
    store = open_store(tmp_path)
    before = sorted(inspect(store.engine).get_table_names())
    migrate(store.engine, "base")
    assert inspect(store.engine).get_table_names() == ["alembic_version"]
    migrate(store.engine)
    assert sorted(inspect(store.engine).get_table_names()) == before
    store.close()


def test_what_was_kept_is_there_when_the_store_opens_again(tmp_path: Path) -> None:
    """Opening an up-to-date store changes nothing in it."""
    store = open_store(tmp_path)
    house = add_house(store, "Aspen", NewRevision(plan_text="site: {}\n", origin="yaml"))
    store.close()
    again = open_store(tmp_path)
    assert list_houses(again) == (house,)
    assert is_sound(again)
    again.close()


def test_sqlite_keeps_writes_and_references(tmp_path: Path) -> None:
    """The log is written ahead, the disk is waited for, and references must lead somewhere."""
    store = open_store(tmp_path)
    with store.reading() as connection:
        asked = {
            word: connection.execute(text(f"PRAGMA {word}")).scalar()
            for word in ("journal_mode", "synchronous", "foreign_keys")
        }
    assert asked == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1}
    store.close()


def test_a_file_that_is_no_store_is_refused_in_a_sentence(tmp_path: Path) -> None:
    """Something else under the store's name is left as it is."""
    (tmp_path / FILE).write_bytes(b"not a database, but long enough to look at " * 40)
    with pytest.raises(FormatError, match="cannot be used as the desk's store"):
        open_store(tmp_path)
    assert (tmp_path / FILE).read_bytes().startswith(b"not a database")


def test_a_store_of_a_later_version_is_refused(tmp_path: Path) -> None:
    """A step this version does not know is told, not guessed at."""
    store = open_store(tmp_path)
    with store.writing() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '9999'"))
    store.close()
    with pytest.raises(FormatError, match="a later version wrote it"):
        open_store(tmp_path)
