"""What was done on site: add a record, a whole file of them, list them."""

from __future__ import annotations

from collections import Counter

from fastapi import APIRouter

from seamwright.app.contract.record import RecordIn, RecordList, RecordOut
from seamwright.app.contract.site_file import SiteFileIn, SiteFileOut
from seamwright.app.desk import HouseId, TheDesk
from seamwright.app.joint_docs import known
from seamwright.app.site_file import (
    crew_notes,
    diary_of,
    done_at_joints,
    opened_since,
    read_site_file,
    seal_notes,
    target_of,
)
from seamwright.app.spoken import SpokenRoute
from seamwright.app.state import states_of
from seamwright.store.houses import find_house
from seamwright.store.records import add_record, list_records

router = APIRouter(tags=["records"], route_class=SpokenRoute)


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


@router.post("/houses/{house}/records/file", status_code=201)
def post_records_file(desk: TheDesk, house: HouseId, body: SiteFileIn) -> SiteFileOut:
    """Take in a records file: what it says of joints is recorded, its diary is read for the search.

    Sent twice, it records once.
    """
    _, built = desk.built(house)
    records, fields = read_site_file(built, body)
    before = {row.key for row in list_records(desk.store, house)}
    rows = list(done_at_joints(built, records, body))
    for row in rows:
        add_record(desk.store, house, **row)
    known_before = sum(row["key"] in before for row in rows)
    states = states_of(desk.store, house).by_joint
    opened = sum(states.get(row["joint"]) == "open" for row in rows if row["what"] == "sealed")
    return SiteFileOut(
        recorded=len(rows) - known_before, known=known_before, diary=diary_of(fields),
        crews=crew_notes(fields), seals=seal_notes(fields), workmanship=fields.workmanship,
        target=target_of(fields), notes=[*records.notes, *opened_since(opened)],
    )  # fmt: skip
