"""What was done on site: add a record, list them."""

from __future__ import annotations

from collections import Counter

from fastapi import APIRouter

from seamwright.app.contract.record import RecordIn, RecordList, RecordOut
from seamwright.app.desk import HouseId, TheDesk
from seamwright.app.joint_docs import known
from seamwright.app.state import states_of
from seamwright.store.houses import find_house
from seamwright.store.records import add_record, list_records

router = APIRouter(tags=["records"])


@router.get("/houses/{house}/records")
def get_records(desk: TheDesk, house: HouseId) -> RecordList:
    """Return everything recorded at a house, the oldest first."""
    find_house(desk.store, house)
    rows = list_records(desk.store, house)
    return RecordList(
        records=[RecordOut.model_validate(row, from_attributes=True) for row in rows],
        states=dict(Counter(states_of(desk.store, house).by_joint.values())),
    )


@router.post("/houses/{house}/records", status_code=201)
def post_record(desk: TheDesk, house: HouseId, body: RecordIn) -> RecordOut:
    """Record a thing done at a joint; it is on the disk when this answers."""
    _, built = desk.built(house)
    known(built, body.joint)
    row = add_record(desk.store, house, **body.model_dump())
    return RecordOut.model_validate(row, from_attributes=True)
