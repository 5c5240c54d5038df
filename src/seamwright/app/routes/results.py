"""What long work brought back as data, and what it says of each joint."""

from __future__ import annotations

import json

from fastapi import APIRouter, Request, Response
from pydantic import BaseModel

from seamwright.app.answer import packed_response
from seamwright.app.contract.air import FanOut, ForecastOut, HuntOut
from seamwright.app.contract.days import DaysOut
from seamwright.app.contract.dryness import DrynessGathered, DrynessOut
from seamwright.app.contract.job import JointValues, Wishes
from seamwright.app.desk import Desk, HouseId, TheDesk
from seamwright.app.gathered import DryGo, gathered
from seamwright.app.routes.jobs import RESULT, JobId
from seamwright.app.spoken import SpokenRoute
from seamwright.app.workshop import Packed
from seamwright.store.clash import clash, missing
from seamwright.store.houses import find_house
from seamwright.store.jobs import Job, find_file, find_job, list_jobs
from seamwright.store.revisions import find_revision

router = APIRouter(tags=["work"], route_class=SpokenRoute)


@router.get("/jobs/{job}/wishes")
def get_wishes(desk: TheDesk, job: JobId) -> Wishes:
    """Return what was asked for with a piece of work."""
    return Wishes.model_validate_json(find_job(desk.store, job).wishes)


@router.get("/jobs/{job}/days", response_model=DaysOut)
def get_days(desk: TheDesk, request: Request, job: JobId) -> Response:
    """Return a plan of days that was worked out."""
    return _result(desk, request, job, "days", DaysOut)


@router.get("/jobs/{job}/forecast", response_model=ForecastOut)
def get_forecast(desk: TheDesk, request: Request, job: JobId) -> Response:
    """Return a forecast that was worked out."""
    return _result(desk, request, job, "forecast", ForecastOut)


@router.get("/jobs/{job}/fan", response_model=FanOut)
def get_fan(desk: TheDesk, request: Request, job: JobId) -> Response:
    """Return a fan test that was worked out."""
    return _result(desk, request, job, "fan", FanOut)


@router.get("/jobs/{job}/hunt", response_model=HuntOut)
def get_hunt(desk: TheDesk, request: Request, job: JobId) -> Response:
    """Return where the search for leaks stood."""
    return _result(desk, request, job, "hunt", HuntOut)


@router.get("/jobs/{job}/dryness", response_model=DrynessOut)
def get_dryness(desk: TheDesk, request: Request, job: JobId) -> Response:
    """Return what was worked out on the dryness of joints."""
    return _result(desk, request, job, "dryness", DrynessOut)


@router.get("/houses/{house}/dryness", response_model=DrynessGathered)
def get_house_dryness(desk: TheDesk, request: Request, house: HouseId) -> Response:
    """Return what all finished work says on the dryness of the head, the newest for each joint."""
    done = _finished(desk, house, "dryness")
    if not done:
        told = "nothing was worked out on the dryness of the plan as it stands"
        raise clash("dryness", told, "ask for that work first")
    return packed_response(request, _dryness(desk, done), told=DrynessGathered)


@router.get("/houses/{house}/joint-values")
def get_joint_values(desk: TheDesk, house: HouseId) -> JointValues:
    """Return what finished work says of each joint of the head, in the order of the scene."""
    _, built = desk.built(house)
    goes = _finished(desk, house, "dryness")
    found = json.loads(_dryness(desk, goes).body)["joints"] if goes else []
    dry = {row["id"]: row["margin"] for row in found}
    leak = _defects(desk, house)
    ids = [joint.id for joint in built.house.register.joints]
    return JointValues(
        moisture_margin=[dry.get(name) for name in ids],
        leak_chance=[leak.get(name) for name in ids],
    )


def _result(desk: Desk, request: Request, job: str, kind: str, told: type[BaseModel]) -> Response:
    row = find_job(desk.store, job)
    if row.kind != kind:
        raise missing(f"{kind} of the work", job)
    if row.state != "done":
        raise clash(job, f"this work is {row.state}", "wait for its end, or ask for it again")
    body = desk.workshop.document(("result", job), lambda: find_file(desk.store, job, RESULT).body)
    return packed_response(request, body, told=told)


def _finished(desk: Desk, house: str, kind: str) -> list[Job]:
    """Return the finished work of a kind on the plan as it stands, the newest in front."""
    head = find_house(desk.store, house).plan_hash
    return [
        job
        for job in list_jobs(desk.store, house)
        if job.kind == kind and job.state == "done" and _plan(desk, job) == head
    ]


def _plan(desk: Desk, job: Job) -> str:
    return find_revision(desk.store, job.house_id, job.revision).plan_hash


def _dryness(desk: Desk, done: list[Job]) -> Packed:
    """Return several goes put together, made once."""

    def make() -> bytes:
        goes = [
            DryGo(
                job=job.id, ended_at=job.made_at if job.ended_at is None else job.ended_at,
                found=DrynessOut.model_validate_json(find_file(desk.store, job.id, RESULT).body),
            )
            for job in done
        ]  # fmt: skip
        return gathered(goes).model_dump_json().encode()

    return desk.workshop.document(("dryness", *(job.id for job in done)), make)


def _defects(desk: Desk, house: str) -> dict[str, float]:
    """Return the chance of a defect of each place by the newest search."""
    for job in _finished(desk, house, "hunt"):
        result = json.loads(find_file(desk.store, job.id, RESULT).body)
        return {row["id"]: row["defect"] for row in result.get("places", [])}
    return {}
