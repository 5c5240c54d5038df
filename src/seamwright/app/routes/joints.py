"""Joints: the table, one of them, its section, and what is to be looked at."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from seamwright.app.answer import SVG, drawing_response, packed_response
from seamwright.app.built import Built
from seamwright.app.contract.joint import FindingList, JointOut, JointTable
from seamwright.app.desk import HouseId, JointId, TheDesk
from seamwright.app.drawings import section_svg
from seamwright.app.history import history_of
from seamwright.app.joint_docs import (
    findings_out,
    joint_out,
    joint_table,
    known,
)
from seamwright.app.spoken import SpokenRoute
from seamwright.app.state import states_of
from seamwright.app.taste import TheLanguage, TheSettings, TheUnits

router = APIRouter(tags=["joints"], route_class=SpokenRoute)


@router.get("/houses/{house}/joints", response_model=JointTable)
def get_joints(desk: TheDesk, request: Request, house: HouseId) -> Response:
    """Return the table of all joints and nodes."""
    row = desk.revision(house)
    states = states_of(desk.store, house)

    def make(built: Built) -> bytes:
        return joint_table(built, states.by_joint, row.number).model_dump_json().encode()

    version = (house, row.number, states.last)
    return packed_response(request, desk.document(row, "joints", version, make))


@router.get("/houses/{house}/findings", response_model=FindingList)
def get_findings(desk: TheDesk, request: Request, units: TheUnits, house: HouseId) -> Response:
    """Return everything to look at, the gravest first."""

    def make(built: Built) -> bytes:
        found = FindingList(
            findings=findings_out(built.house.schedule.findings, units),
            lost_overrides=list(built.house.register.lost_overrides),
        )
        return found.model_dump_json().encode()

    packed = desk.document(desk.revision(house), f"findings {units}", "", make)
    return packed_response(request, packed, told=FindingList)


@router.get("/houses/{house}/joints/{joint}")
def get_joint(desk: TheDesk, units: TheUnits, house: HouseId, joint: JointId) -> JointOut:
    """Return everything about one joint."""
    _, built = desk.built(house)
    state = states_of(desk.store, house).by_joint.get(joint, "open")
    history = history_of(desk.store, house, known(built, joint))
    return joint_out(built, joint, state, history, units)


@router.get("/houses/{house}/joints/{joint}/section", response_class=Response, responses=SVG)
def get_section(
    desk: TheDesk,
    request: Request,
    *,
    units: TheUnits,
    language: TheLanguage,
    settings: TheSettings,
    house: HouseId,
    joint: JointId,
) -> Response:
    """Return the section through one joint as a drawing to scale (SVG)."""
    row = desk.revision(house)

    def make() -> bytes:
        built = desk.workshop.built(row.plan_hash, lambda: row.plan_text)
        return section_svg(built, joint, units, settings.paper, language).encode()

    key = ("section", row.plan_hash, joint, units, language, settings.paper)
    return drawing_response(request, desk.workshop.document(key, make))
