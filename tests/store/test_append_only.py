"""The book of signatures and the records: rows are only ever added."""

from __future__ import annotations

import pytest
from sqlalchemy import delete, update
from sqlalchemy.exc import IntegrityError

from seamwright.store.houses import House, add_house
from seamwright.store.open import Store
from seamwright.store.records import Record, add_record, list_records
from seamwright.store.revisions import NewRevision, save_revision
from seamwright.store.schema import RECORD, SIGNATURE
from seamwright.store.signatures import NewSignature, list_signatures

SIGNED = NewSignature(
    action="signed", face="inner", kinds=("ridge",), joints=(), signed_by="A. Nobody",
    role="designer", date="2026-03-14", note="", reason="", undone=("a", "b"),
)  # fmt: skip


@pytest.fixture
def house(store: Store) -> House:
    """Return a house in the store."""
    return add_house(store, "Aspen", NewRevision(plan_text="one", origin="yaml"))


def record(store: Store, house: House, key: str, what: str = "sealed") -> Record:
    """Return a record just added."""
    return add_record(
        store, house.id, key=key, joint="A.1-A.2", what=what, person="Kim", note="", done_at=None
    )


def test_a_signature_is_kept_with_its_revision(store: Store, house: House) -> None:
    """What was written into the book reads back word for word."""
    new = NewRevision(plan_text="two", origin="decision")
    save_revision(store, house.id, new, base=1, name="Aspen", signatures=[SIGNED])
    (row,) = list_signatures(store, house.id)
    assert (row.revision, row.kinds, row.undone) == (2, ("ridge",), ("a", "b"))


def test_the_same_record_sent_twice_is_one(store: Store, house: House) -> None:
    """A phone that sends again because it heard no answer does no harm."""
    first = record(store, house, "k1")
    assert record(store, house, "k1", what="reopened") == first
    record(store, house, "k2", what="checked")
    assert [row.what for row in list_records(store, house.id)] == ["sealed", "checked"]


@pytest.mark.parametrize("table", [RECORD, SIGNATURE], ids=["record", "signature"])
@pytest.mark.parametrize("word", ["update", "delete"])
def test_no_row_can_be_changed_or_taken_out(store: Store, house: House, table, word: str) -> None:
    """The store itself refuses, whoever asks."""
    record(store, house, "k1")
    new = NewRevision(plan_text="two", origin="decision")
    save_revision(store, house.id, new, base=1, name="Aspen", signatures=[SIGNED])
    wish = delete(table) if word == "delete" else update(table).values(note="other")
    with pytest.raises(IntegrityError, match="only ever added"), store.writing() as connection:
        connection.execute(wish)
    assert len(list_records(store, house.id)) == 1
    assert len(list_signatures(store, house.id)) == 1
