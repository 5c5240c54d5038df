"""Long work in the store: its states, and what it brings back."""

from __future__ import annotations

import pytest

from seamwright.store.clash import MissingError
from seamwright.store.houses import House, add_house, remove_house
from seamwright.store.jobs import (
    Job,
    JobFile,
    add_job,
    cancel_job,
    claim_job,
    end_job,
    find_file,
    find_job,
    interrupt_jobs,
    list_files,
    list_jobs,
    tell_job,
)
from seamwright.store.open import Store
from seamwright.store.revisions import NewRevision


@pytest.fixture
def house(store: Store) -> House:
    """Return a house in the store."""
    return add_house(store, "Aspen", NewRevision(plan_text="one", origin="yaml"))


def ask(store: Store, house: House) -> Job:
    """Return work just queued."""
    return add_job(store, house.id, revision=1, kind="days", wishes="{}")


def test_work_goes_from_queued_to_done(store: Store, house: House) -> None:
    """It is claimed once, tells how far it is, and brings back its files."""
    job = ask(store, house)
    claimed = claim_job(store)
    assert claimed is not None
    assert (claimed.id, claimed.state) == (job.id, "running")
    assert claim_job(store) is None
    tell_job(store, job.id, phase="half way", progress=0.5)
    assert find_job(store, job.id).phase == "half way"
    file = JobFile(name="result.json", media_type="application/json", body=b"{}")
    end_job(store, job.id, "done", files=[file])
    assert find_job(store, job.id).progress == 1.0
    assert list_files(store, job.id) == (("result.json", "application/json"),)
    assert find_file(store, job.id, "result.json") == file
    with pytest.raises(MissingError, match="no file"):
        find_file(store, job.id, "other.json")


def test_work_is_claimed_in_the_order_asked(store: Store, house: House) -> None:
    """First come, first served."""
    asked = [ask(store, house).id for _ in range(3)]
    claimed = [claim_job(store) for _ in range(3)]
    assert sorted(job.id for job in claimed if job is not None) == sorted(asked)
    assert [job.made_at for job in claimed if job] == sorted(j.made_at for j in claimed if j)


def test_queued_work_can_be_cancelled_at_once_running_work_is_asked(
    store: Store, house: House
) -> None:
    """What has not begun never will; what runs is told, and what is over stays as it is."""
    first, second = ask(store, house), ask(store, house)
    claimed = claim_job(store)
    assert claimed is not None
    waiting = second.id if claimed.id == first.id else first.id
    assert cancel_job(store, waiting).state == "cancelled"
    running = cancel_job(store, claimed.id)
    assert (running.state, running.cancel) == ("running", True)
    end_job(store, claimed.id, "done")
    assert cancel_job(store, claimed.id).state == "done"


def test_work_that_ran_when_the_desk_closed_is_marked(store: Store, house: House) -> None:
    """Only what was running is interrupted; what was queued is still to be done."""
    first, second = ask(store, house), ask(store, house)
    claimed = claim_job(store)
    assert claimed is not None
    assert interrupt_jobs(store) == 1
    states = {job.id: job.state for job in list_jobs(store, house.id)}
    waiting = second.id if claimed.id == first.id else first.id
    assert states == {claimed.id: "interrupted", waiting: "queued"}


def test_work_of_a_removed_house_is_gone_with_it(store: Store, house: House) -> None:
    """Nobody finds it until the house is brought back."""
    job = ask(store, house)
    remove_house(store, house.id)
    with pytest.raises(MissingError, match="no work"):
        find_job(store, job.id)
