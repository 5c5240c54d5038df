"""What long work brought back as data, and what it says of each joint."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

from fastapi import APIRouter, Request, Response

from seamwright.app.answer import packed_response
from seamwright.app.contract.air import FanOut, ForecastOut, HuntOut
from seamwright.app.contract.days import DaysOut
from seamwright.app.contract.dryness import DrynessOut
from seamwright.app.contract.job import JointValues, Wishes
from seamwright.app.desk import Desk, HouseId, TheDesk
from seamwright.app.routes.jobs import RESULT, JobId
from seamwright.store.clash import clash, missing
from seamwright.store.houses import find_house
from seamwright.store.jobs import Job, find_file, find_job, list_jobs
from seamwright.store.revisions import find_revision

router = APIRouter(tags=["work"])


@router.get("/jobs/{job}/wishes")
def get_wishes(desk: TheDesk, job: JobId) -> Wishes:
    """Return what was asked for with a piece of work."""
    return Wishes.model_validate_json(find_job(desk.store, job).wishes)


@router.get("/jobs/{job}/days", response_model=DaysOut)
def get_days(desk: TheDesk, request: Request, job: JobId) -> Response:
    """Return a plan of days that was worked out."""
    return _result(desk, request, job, "days")


@router.get("/jobs/{job}/forecast", response_model=ForecastOut)
def get_forecast(desk: TheDesk, request: Request, job: JobId) -> Response:
    """Return a forecast that was worked out."""
    return _result(desk, request, job, "forecast")


@router.get("/jobs/{job}/fan", response_model=FanOut)
def get_fan(desk: TheDesk, request: Request, job: JobId) -> Response:
    """Return a fan test that was worked out."""
    return _result(desk, request, job, "fan")


@router.get("/jobs/{job}/hunt", response_model=HuntOut)
def get_hunt(desk: TheDesk, request: Request, job: JobId) -> Response:
    """Return where the search for leaks stood."""
    return _result(desk, request, job, "hunt")


@router.get("/jobs/{job}/dryness", response_model=DrynessOut)
def get_dryness(desk: TheDesk, request: Request, job: JobId) -> Response:
    """Return what was worked out on the dryness of joints."""
    return _result(desk, request, job, "dryness")


@router.get("/houses/{house}/joint-values")
def get_joint_values(desk: TheDesk, house: HouseId) -> JointValues:
    """Return what finished work says of each joint of the head, in the order of the scene."""
    _, built = desk.built(house)
    dry = _newest(desk, house, "dryness", _margins)
    leak = _newest(desk, house, "hunt", _defects)
    ids = [joint.id for joint in built.house.register.joints]
    return JointValues(
        moisture_margin=[dry.get(name) for name in ids],
        leak_chance=[leak.get(name) for name in ids],
    )


def _result(desk: Desk, request: Request, job: str, kind: str) -> Response:
    row = find_job(desk.store, job)
    if row.kind != kind:
        raise missing(f"{kind} of the work", job)
    if row.state != "done":
        raise clash(job, f"this work is {row.state}", "wait for its end, or ask for it again")
    body = desk.workshop.document(("result", job), lambda: find_file(desk.store, job, RESULT).body)
    return packed_response(request, body)


def _newest(
    desk: Desk, house: str, kind: str, read: Callable[[Any], dict[str, float]]
) -> dict[str, float]:
    """Return what the newest finished work of a kind says of joints, nothing of another plan."""
    head = find_house(desk.store, house).plan_hash
    for job in list_jobs(desk.store, house):
        if job.kind == kind and job.state == "done" and _plan(desk, job) == head:
            return read(json.loads(find_file(desk.store, job.id, RESULT).body))
    return {}


def _plan(desk: Desk, job: Job) -> str:
    return find_revision(desk.store, job.house_id, job.revision).plan_hash


def _margins(result: Any) -> dict[str, float]:  # noqa: ANN401 parsed JSON
    rows = result.get("joints", [])
    return {row["id"]: row["margin"] for row in rows if row.get("margin") is not None}


def _defects(result: Any) -> dict[str, float]:  # noqa: ANN401 parsed JSON
    return {row["id"]: row["defect"] for row in result.get("places", [])}
