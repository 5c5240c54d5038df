"""Revisions: the head moves along a line that is never cut."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from seamwright.store.clash import ClashError, MissingError
from seamwright.store.houses import (
    add_house,
    find_house,
    list_houses,
    remove_house,
    restore_house,
)
from seamwright.store.open import Store, is_sound
from seamwright.store.revisions import (
    NewRevision,
    find_draft,
    find_revision,
    keep_draft,
    list_revisions,
    save_revision,
    step_to,
)


def revision(text: str) -> NewRevision:
    """Return a revision that holds a text."""
    return NewRevision(plan_text=text, origin="yaml", author="A. Nobody")


def test_a_saved_revision_becomes_the_head(store: Store) -> None:
    """The new text counts, the old one stays, and the draft is done with."""
    house = add_house(store, "Aspen", revision("one"))
    keep_draft(store, house.id, base=1, source="{}")
    saved = save_revision(store, house.id, revision("two"), base=1, name="Birch")
    assert (saved.number, saved.parent, saved.plan_text) == (2, 1, "two")
    assert find_house(store, house.id).head == 2
    assert find_house(store, house.id).name == "Birch"
    assert find_revision(store, house.id, 1).plan_text == "one"
    assert find_draft(store, house.id) is None


def test_only_the_newest_revision_can_be_built_on(store: Store) -> None:
    """Who worked on an older revision is told, and nothing is overwritten."""
    house = add_house(store, "Aspen", revision("one"))
    save_revision(store, house.id, revision("two"), base=1, name="Aspen")
    with pytest.raises(ClashError, match="revision 2 by now"):
        save_revision(store, house.id, revision("three"), base=1, name="Aspen")
    assert [row.plan_text for row in list_revisions(store, house.id)] == ["two", "one"]


def test_of_two_at_once_one_is_told(store: Store) -> None:
    """Ten writers on one revision: one comes through, nine are told, none is lost silently."""
    house = add_house(store, "Aspen", revision("one"))

    def write(word: str) -> bool:
        try:
            save_revision(store, house.id, revision(word), base=1, name="Aspen")
        except ClashError:
            return False
        return True

    with ThreadPoolExecutor(10) as pool:
        came = list(pool.map(write, "abcdefghij"))
    assert came.count(True) == 1
    assert len(list_revisions(store, house.id)) == 2


def test_redo_leads_where_undo_came_from(store: Store) -> None:
    """After a new text in between, redo leads to the new one, and the old one is still there."""
    house = add_house(store, "Aspen", revision("one"))
    save_revision(store, house.id, revision("two"), base=1, name="Aspen")
    step_to(store, house.id, 1, base=2, name="Aspen")
    assert find_revision(store, house.id, 1).next == 2
    save_revision(store, house.id, revision("three"), base=1, name="Aspen")
    assert find_revision(store, house.id, 1).next == 3
    assert find_revision(store, house.id, 2).plan_text == "two"
    with pytest.raises(ClashError, match="no step away"):
        step_to(store, house.id, 2, base=3, name="Aspen")


@settings(
    derandomize=True, max_examples=25, deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)  # fmt: skip
@given(moves=st.lists(st.sampled_from(["save", "undo", "redo"]), max_size=25))
def test_undo_and_redo_follow_a_stack(store: Store, moves: list[str]) -> None:
    """Any mix of saving, undo and redo shows the text that two stacks would show."""
    house = add_house(store, "Aspen", revision("0"))
    past, future, number = ["0"], [], 0
    for move in moves:
        head = find_revision(store, house.id, find_house(store, house.id).head)
        if move == "save":
            number += 1
            save_revision(store, house.id, revision(str(number)), base=head.number, name="Aspen")
            past, future = [*past, str(number)], []
        elif move == "undo" and head.parent is not None:
            step_to(store, house.id, head.parent, base=head.number, name="Aspen")
            future.append(past.pop())
        elif move == "redo" and head.next is not None:
            step_to(store, house.id, head.next, base=head.number, name="Aspen")
            past.append(future.pop())
        now = find_revision(store, house.id, find_house(store, house.id).head)
        assert now.plan_text == past[-1]
        assert (now.next is None) == (not future)
    assert is_sound(store)


def test_a_removed_house_can_be_brought_back(store: Store) -> None:
    """It is off the list and cannot be changed meanwhile, and nothing of it is lost."""
    house = add_house(store, "Aspen", revision("one"))
    remove_house(store, house.id)
    assert list_houses(store) == ()
    assert [row.id for row in list_houses(store, removed=True)] == [house.id]
    with pytest.raises(MissingError, match="there is no house"):
        save_revision(store, house.id, revision("two"), base=1, name="Aspen")
    assert restore_house(store, house.id).plan_hash == house.plan_hash
