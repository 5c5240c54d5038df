"""Long work in the store: what was asked for, how far it is, and what it brought back."""

from __future__ import annotations

import json
import secrets
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, Select, insert, select, update

from seamwright.store.clash import missing
from seamwright.store.houses import house_on
from seamwright.store.open import Store
from seamwright.store.schema import HOUSE, JOB, JOB_FILE

OPEN = ("queued", "running")
"""States of work that is not over."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Job:
    """Work asked for on one revision of a house. `progress` runs from 0 to 1.

    `state` is queued, running, done, failed, cancelled, or interrupted when the desk was closed
    while it ran. `wishes` is JSON as sent; `problems` are rows as an answer tells them.
    """

    id: str
    house_id: str
    revision: int
    kind: str
    wishes: str
    state: str
    phase: str
    progress: float
    problems: tuple[Mapping[str, Any], ...]
    made_at: str
    started_at: str | None
    ended_at: str | None
    cancel: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class JobFile:
    """A file that work brought back."""

    name: str
    media_type: str
    body: bytes


def add_job(store: Store, house_id: str, *, revision: int, kind: str, wishes: str) -> Job:
    """Return the work just queued."""
    job_id = secrets.token_hex(8)
    with store.writing() as connection:
        house_on(connection, house_id)
        row = {
            "id": job_id, "house_id": house_id, "revision": revision, "kind": kind,
            "wishes": wishes, "state": "queued", "phase": "", "progress": 0.0, "problems": "[]",
            "made_at": store.now(), "cancel": 0,
        }  # fmt: skip
        connection.execute(insert(JOB).values(**row))
    return find_job(store, job_id)


def find_job(store: Store, job_id: str) -> Job:
    """Return one piece of work; raises MissingError when there is none, or its house is gone."""
    with store.reading() as connection:
        return _job_on(connection, job_id)


def list_jobs(store: Store, house_id: str) -> tuple[Job, ...]:
    """Return the work asked for at a house, the newest first."""
    query = _query().where(JOB.c.house_id == house_id).order_by(JOB.c.made_at.desc(), JOB.c.id)
    with store.reading() as connection:
        return tuple(_job(dict(row)) for row in connection.execute(query).mappings())


def claim_job(store: Store) -> Job | None:
    """Return the work that was queued first, now running, or None when nothing waits."""
    with store.writing() as connection:
        waiting = select(JOB.c.id).where(JOB.c.state == "queued").order_by(JOB.c.made_at, JOB.c.id)
        job_id = connection.execute(waiting.limit(1)).scalar()
        if job_id is None:
            return None
        _set(connection, job_id, state="running", started_at=store.now())
    return find_any_job(store, job_id)


def find_any_job(store: Store, job_id: str) -> Job:
    """Return one piece of work, of a removed house too."""
    with store.reading() as connection:
        row = connection.execute(_query().where(JOB.c.id == job_id)).mappings().one()
        return _job(dict(row))


def tell_job(store: Store, job_id: str, *, phase: str, progress: float) -> None:
    """Say how far running work is."""
    with store.writing() as connection:
        _set(connection, job_id, phase=phase[:200], progress=min(max(progress, 0.0), 1.0))


def end_job(
    store: Store,
    job_id: str,
    state: str,
    *,
    problems: Sequence[Mapping[str, Any]] = (),
    files: Sequence[JobFile] = (),
) -> None:
    """End work with what it brought back or what went wrong, all of it or nothing."""
    told = json.dumps([dict(problem) for problem in problems], ensure_ascii=False)
    with store.writing() as connection:
        for file in files:
            row = {"job_id": job_id, "name": file.name, "media_type": file.media_type}
            connection.execute(insert(JOB_FILE).values(**row, body=file.body))
        done = {"progress": 1.0} if state == "done" else {}
        _set(connection, job_id, state=state, problems=told, ended_at=store.now(), **done)


def cancel_job(store: Store, job_id: str) -> Job:
    """Ask for work to stop; what has not begun never will. Work that is over stays as it is."""
    with store.writing() as connection:
        job = _job_on(connection, job_id)
        if job.state == "queued":
            _set(connection, job_id, state="cancelled", cancel=1, ended_at=store.now())
        elif job.state == "running":
            _set(connection, job_id, cancel=1)
    return find_job(store, job_id)


def interrupt_jobs(store: Store) -> int:
    """Mark work that was running when the desk closed as interrupted; return how much it was."""
    values = {"state": "interrupted", "ended_at": store.now()}
    with store.writing() as connection:
        done = connection.execute(update(JOB).where(JOB.c.state == "running").values(**values))
        return int(done.rowcount)


def is_waiting(store: Store) -> bool:
    """Return whether any work is queued."""
    with store.reading() as connection:
        waiting = select(JOB.c.id).where(JOB.c.state == "queued").limit(1)
        return connection.execute(waiting).scalar() is not None


def list_files(store: Store, job_id: str) -> tuple[tuple[str, str], ...]:
    """Return name and media type of every file that work brought back."""
    query = select(JOB_FILE.c.name, JOB_FILE.c.media_type).where(JOB_FILE.c.job_id == job_id)
    with store.reading() as connection:
        rows = connection.execute(query.order_by(JOB_FILE.c.name))
        return tuple((row.name, row.media_type) for row in rows)


def find_file(store: Store, job_id: str, name: str) -> JobFile:
    """Return a file that work brought back; raises MissingError when it did not."""
    wanted = (JOB_FILE.c.job_id == job_id) & (JOB_FILE.c.name == name)
    query = select(JOB_FILE.c.name, JOB_FILE.c.media_type, JOB_FILE.c.body).where(wanted)
    with store.reading() as connection:
        row = connection.execute(query).mappings().first()
    if row is None:
        raise missing("file", name)
    return JobFile(**row)


def _job_on(connection: Connection, job_id: str) -> Job:
    there = _query().join(HOUSE, HOUSE.c.id == JOB.c.house_id).where(HOUSE.c.removed_at.is_(None))
    row = connection.execute(there.where(JOB.c.id == job_id)).mappings().first()
    if row is None:
        raise missing("work", job_id)
    return _job(dict(row))


def _query() -> Select[Any]:
    return select(*JOB.c)


def _job(row: Mapping[str, Any]) -> Job:
    problems = tuple(json.loads(row["problems"]))
    return Job(**{**row, "problems": problems, "cancel": bool(row["cancel"])})


def _set(connection: Connection, job_id: str, **values: object) -> None:
    connection.execute(update(JOB).where(JOB.c.id == job_id).values(**values))
