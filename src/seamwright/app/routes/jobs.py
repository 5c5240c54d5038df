"""Long work: ask for it, see how far it is, cancel it, take what it brought back."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Path, Query, Response

from seamwright.app.contract.job import JobFileOut, JobIn, JobList, JobOut
from seamwright.app.contract.problem import ProblemOut
from seamwright.app.desk import Desk, HouseId, TheDesk
from seamwright.app.guard import DRAWING_POLICY
from seamwright.app.spoken import SpokenRoute
from seamwright.app.taste import TheUnits
from seamwright.store.clash import missing
from seamwright.store.houses import find_house
from seamwright.store.jobs import (
    Job,
    add_job,
    cancel_job,
    find_file,
    find_job,
    list_files,
    list_jobs,
)

router = APIRouter(tags=["work"], route_class=SpokenRoute)

RESULT = "result.json"
"""The file of every piece of work that holds its result as data."""

JobId = Annotated[str, Path(max_length=40, description="The id of a piece of work.")]
_ANY: dict[int | str, dict[str, Any]] = {
    200: {
        "content": {
            "application/octet-stream": {"schema": {"type": "string", "format": "binary"}},
            "application/json": {"schema": {"type": "object", "additionalProperties": True}},
        }
    }
}


@router.post("/houses/{house}/jobs", status_code=202)
def post_job(desk: TheDesk, units: TheUnits, house: HouseId, body: JobIn) -> JobOut:
    """Ask for long work on the head of a house."""
    row = desk.revision(house)
    if body.kind not in desk.kinds:
        raise missing("kind of work", body.kind)
    own = body.wishes.units
    wished = body.wishes.model_copy(update={"units": units if own is None else own})
    wishes = wished.model_dump_json(exclude_defaults=True)
    job = add_job(desk.store, house, revision=row.number, kind=body.kind, wishes=wishes)
    desk.runner.wake()
    return _out(desk, job, row.plan_hash)


@router.get("/houses/{house}/jobs")
def get_jobs(
    desk: TheDesk,
    house: HouseId,
    kind: Annotated[str | None, Query(max_length=40, description="Only of this kind.")] = None,
) -> JobList:
    """List the work asked for at a house, the newest first."""
    head = find_house(desk.store, house).plan_hash
    rows = [job for job in list_jobs(desk.store, house) if kind is None or job.kind == kind]
    return JobList(jobs=[_out(desk, job, head) for job in rows])


@router.get("/jobs/{job}")
def get_job(desk: TheDesk, job: JobId) -> JobOut:
    """Say how far a piece of work is."""
    row = find_job(desk.store, job)
    return _out(desk, row, find_house(desk.store, row.house_id).plan_hash)


@router.post("/jobs/{job}/cancel")
def post_cancel(desk: TheDesk, job: JobId) -> JobOut:
    """Stop a piece of work, or never begin it."""
    row = cancel_job(desk.store, job)
    desk.runner.wake()
    return _out(desk, row, find_house(desk.store, row.house_id).plan_hash)


@router.get("/jobs/{job}/files/{name}", response_class=Response, responses=_ANY)
def get_job_file(desk: TheDesk, job: JobId, name: Annotated[str, Path(max_length=120)]) -> Response:
    """Return a file that work brought back; `result.json` is its result as data."""
    find_job(desk.store, job)
    file = find_file(desk.store, job, name)
    headers = {
        "Cache-Control": "private, max-age=31536000, immutable",
        "Content-Security-Policy": DRAWING_POLICY,
        "Content-Disposition": f'inline; filename="{file.name}"',
    }
    return Response(file.body, media_type=file.media_type, headers=headers)


def _out(desk: Desk, job: Job, head: str) -> JobOut:
    kind = desk.kinds.get(job.kind)
    now = desk.revision(job.house_id, job.revision).plan_hash
    return JobOut(
        id=job.id, house=job.house_id, revision=job.revision, is_current=now == head,
        kind=job.kind, title=job.kind if kind is None else kind.title, state=job.state,  # type: ignore[arg-type]
        phase=job.phase, progress=job.progress,
        problems=[ProblemOut.model_validate(problem) for problem in job.problems],
        files=[JobFileOut(name=n, media_type=m) for n, m in list_files(desk.store, job.id)],
        made_at=job.made_at, started_at=job.started_at, ended_at=job.ended_at,
    )  # fmt: skip
