"""Open the store: one file in the folder of the desk, brought up to date as it opens."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from alembic import command
from alembic.config import Config
from alembic.util.exc import CommandError
from sqlalchemy import Connection, Engine, create_engine, event, text
from sqlalchemy.exc import DatabaseError, OperationalError

from seamwright.errors import FormatError, Problem

FILE = "desk.sqlite"
"""The name of the file that holds everything, in the folder of the desk."""


def utc_now() -> str:
    """Return the time now as ``2026-05-01T12:00:00.000Z``."""
    now = dt.datetime.now(dt.UTC)
    return f"{now:%Y-%m-%dT%H:%M:%S}.{now.microsecond // 1000:03d}Z"


@dataclass(frozen=True, kw_only=True, slots=True)
class Store:
    """An open store. `now` tells the time, so that a test can say it."""

    engine: Engine
    now: Callable[[], str] = field(default=utc_now)

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Give a connection to read with."""
        with self.engine.connect() as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """Give a connection inside one transaction, on the disk when the block ends.

        The write lock is taken at once, so that what the block reads first is still so when it
        writes.
        """
        with self.engine.connect() as connection:
            connection.execution_options(at_once=True)
            with connection.begin():
                yield connection

    def close(self) -> None:
        """Let go of the file."""
        self.engine.dispose()


def open_store(folder: Path, *, to: str = "head") -> Store:
    """Return the store in `folder`, made if it is not there, its tables brought up to date.

    SQLite writes ahead to a log and waits for the disk before it answers, so a write that was
    acknowledged survives a crash.

    Raises
    ------
    FormatError
        When the file there is no store, or one that a later version wrote.
    """
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / FILE
    engine = create_engine(f"sqlite:///{path}", connect_args={"timeout": 30.0})
    event.listen(engine, "connect", _prepare)
    event.listen(engine, "begin", _begin)
    try:
        migrate(engine, to)
    except (DatabaseError, OperationalError) as error:
        engine.dispose()
        raise _refused(path, str(error.orig)) from error
    except CommandError as error:
        engine.dispose()
        raise _refused(path, "a later version wrote it") from error
    return Store(engine=engine)


def migrate(engine: Engine, to: str = "head") -> None:
    """Bring the tables to a step: ``head`` for the newest, ``base`` for none."""
    config = Config()
    config.set_main_option("script_location", "seamwright.store:migrations")
    config.set_main_option("path_separator", "os")
    with engine.connect() as connection:
        config.attributes["connection"] = connection
        if to == "base":
            command.downgrade(config, to)
        else:
            command.upgrade(config, to)
        connection.commit()


def is_sound(store: Store) -> bool:
    """Return whether SQLite finds the file whole and every reference leads somewhere."""
    with store.reading() as connection:
        whole = connection.execute(text("PRAGMA integrity_check")).scalar() == "ok"
        return whole and not connection.execute(text("PRAGMA foreign_key_check")).all()


def _prepare(raw: Any, _record: object) -> None:  # noqa: ANN401 a driver's own connection
    raw.isolation_level = None  # transactions are begun by SQLAlchemy's own event, see _begin
    cursor = raw.cursor()
    cursor.execute("PRAGMA journal_mode=WAL")
    cursor.execute("PRAGMA synchronous=FULL")
    cursor.execute("PRAGMA foreign_keys=ON")
    cursor.close()


def _begin(connection: Connection) -> None:
    at_once = connection.get_execution_options().get("at_once", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if at_once else "BEGIN")


def _refused(path: Path, why: str) -> FormatError:
    return FormatError(
        [
            Problem(
                subject=path.name,
                sentence=f"{path.name} cannot be used as the desk's store ({why[:120]})",
                remedy="name another folder, or install the version of Seamwright that wrote it",
                file=str(path),
            )
        ]
    )
