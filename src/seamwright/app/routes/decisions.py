"""The side of the air seal: the evidence, the signature, and the book of signatures."""

from __future__ import annotations

import datetime as dt

from fastapi import APIRouter, Request, Response

from seamwright.app.answer import packed_response
from seamwright.app.built import Built
from seamwright.app.contract.change import (
    Changed,
    ChangesOut,
    DecisionsOut,
    SignatureBook,
    SignatureOut,
    SignIn,
    WithdrawIn,
)
from seamwright.app.correct import with_decision, without_decisions
from seamwright.app.desk import Desk, HouseId, TheDesk
from seamwright.app.evidence import decisions_out
from seamwright.app.intake import Taken, form_of
from seamwright.app.joint_docs import known
from seamwright.app.revise import changes_between, revise
from seamwright.app.spoken import SpokenRoute
from seamwright.app.taste import TheUnits
from seamwright.store.clash import clash
from seamwright.store.houses import find_house
from seamwright.store.revisions import plan_hash
from seamwright.store.signatures import list_signatures

router = APIRouter(tags=["decisions"], route_class=SpokenRoute)


@router.get("/houses/{house}/decisions", response_model=DecisionsOut)
def get_decisions(desk: TheDesk, request: Request, house: HouseId) -> Response:
    """Return every group of joints with the evidence for both faces and what is signed."""
    row = desk.revision(house)

    def make(built: Built) -> bytes:
        return decisions_out(built, row.number).model_dump_json().encode()

    packed = desk.document(row, "decisions", row.number, make)
    return packed_response(request, packed, told=DecisionsOut)


@router.post("/houses/{house}/decisions/preview")
def preview_decision(desk: TheDesk, house: HouseId, body: SignIn) -> ChangesOut:
    """Say what a signature would do and undo, and keep nothing."""
    _, before = desk.built(house, body.base)
    text = _signed_text(desk, house, body)
    after = desk.workshop.built(plan_hash(text), lambda: text)
    return changes_between(desk, house, before, after, body.base)


@router.post("/houses/{house}/decisions", status_code=201)
def post_decision(desk: TheDesk, units: TheUnits, house: HouseId, body: SignIn) -> Changed:
    """Sign a side by name, role and date; it is locked from then on."""
    text, form = _signed_text(desk, house, body), form_of(desk.revision(house, body.base))
    note = f"{body.face} signed for {_whom(body)}"
    return revise(
        desk, house, Taken(text=text, origin="decision", form=form), base=body.base,
        author=body.signed_by, note=note, reason=body.reason, units=units,
    )  # fmt: skip


@router.post("/houses/{house}/decisions/withdrawal")
def post_withdrawal(desk: TheDesk, units: TheUnits, house: HouseId, body: WithdrawIn) -> Changed:
    """Take signatures back, with the reason; the book of signatures keeps both."""
    row, built = desk.built(house, body.base)
    text = without_decisions(row.plan_text, built, body.kinds, body.joints)
    if text == row.plan_text:
        raise clash("decisions", "nobody signed for these joints", "there is nothing to take back")
    return revise(
        desk, house, Taken(text=text, origin="decision", form=form_of(row)), base=body.base,
        author=body.person, note=f"signature taken back: {body.reason.strip()}",
        reason=body.reason, units=units,
    )  # fmt: skip


@router.get("/houses/{house}/decisions/book")
def get_signatures(desk: TheDesk, house: HouseId) -> SignatureBook:
    """Return everything that was ever signed or taken back, the oldest first."""
    find_house(desk.store, house)
    rows = list_signatures(desk.store, house)
    return SignatureBook(
        signatures=[SignatureOut.model_validate(row, from_attributes=True) for row in rows]
    )


def _signed_text(desk: Desk, house: str, body: SignIn) -> str:
    row, built = desk.built(house, body.base)
    for joint in body.joints:
        known(built, joint)
    date = body.date if body.date is not None else desk.store.now()[:10]
    try:
        dt.date.fromisoformat(date)
    except ValueError:
        raise clash("date", f"{date} is no day", "write the day as 2026-05-01") from None
    return with_decision(row.plan_text, built, body, date)


def _whom(body: SignIn) -> str:
    named = [*body.kinds, *body.joints]
    return "the whole house" if not named else ", ".join(named[:6]).replace("_", " ")
