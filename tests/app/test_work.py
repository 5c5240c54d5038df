"""Long work: done, refused, broken, cancelled, interrupted, and kept."""

from __future__ import annotations

import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient
from tests.app.test_houses import add

from seamwright.app.jobs import JobKind
from seamwright.app.make import make_app, make_desk
from seamwright.cli.desk_work import how_far

KINDS = [
    JobKind(name=name, title=name.title(), work=f"tests.app.work:{name}")
    for name in ("nap", "sleep", "refuse", "stumble", "vanish")
]


@pytest.fixture
def page(tmp_path: Path) -> Iterator[tuple[TestClient, str]]:
    """Return a connection to a desk with work, and the id of a house on it."""
    desk = make_desk(tmp_path, KINDS)
    with TestClient(make_app(desk), base_url="http://localhost:8765/api/v1/") as client:
        yield client, add(client, kind="example", name="first_house")["id"]
    desk.close()


def ask(client: TestClient, house: str, kind: str, **wishes: object) -> str:
    """Return the id of work just asked for."""
    answer = client.post(f"houses/{house}/jobs", json={"kind": kind, "wishes": wishes})
    assert answer.status_code == 202, answer.text
    return str(answer.json()["id"])


def until(client: TestClient, job: str, *states: str) -> dict[str, Any]:
    """Return the work as soon as it is in one of the states."""
    for _ in range(600):
        found: dict[str, Any] = client.get(f"jobs/{job}").json()
        if found["state"] in states:
            return found
        time.sleep(0.1)
    raise AssertionError(found)


def test_work_brings_back_what_it_made(page) -> None:
    """Its files can be taken, and a page among them may load nothing."""
    client, house = page
    job = ask(client, house, "nap", seed=3)
    done = until(client, job, "done", "failed")
    assert (done["state"], done["progress"], done["is_current"]) == ("done", 1.0, True)
    assert client.get(f"jobs/{job}/files/result.json").json() == {"seed": 3, "units": "us"}
    told = client.get(f"jobs/{job}/files/page.html")
    assert told.headers["content-security-policy"].startswith("default-src 'none'")
    assert client.get(f"jobs/{job}/files/none").status_code == 404
    correction = {"base": 1, "reason": "because", "ignore": True}
    client.put(f"houses/{house}/joints/A.1-A.2/override", json=correction)
    assert client.get(f"jobs/{job}").json()["is_current"] is False


@pytest.mark.parametrize(
    ("kind", "said"),
    [("refuse", "no"), ("stumble", "ZeroDivisionError"), ("vanish", "without an answer")],
)
def test_work_that_fails_says_why(page, kind: str, said: str) -> None:
    """Refused, at fault or gone without a word: the desk lives on and tells."""
    client, house = page
    failed = until(client, ask(client, house, kind), "failed", "done")
    assert said in failed["problems"][0]["sentence"]
    assert until(client, ask(client, house, "nap"), "done", "failed")["state"] == "done"


def test_work_can_be_cancelled(page) -> None:
    """What runs stops, what waits never begins."""
    client, house = page
    running, waiting = ask(client, house, "sleep"), ask(client, house, "sleep")
    found = until(client, running, "running")
    while not found["phase"]:
        found = client.get(f"jobs/{running}").json()
    assert found["phase"] == "asleep sleep"
    assert client.post(f"jobs/{waiting}/cancel").json()["state"] == "cancelled"
    client.post(f"jobs/{running}/cancel")
    until(client, running, "cancelled")
    listed = client.get(f"houses/{house}/jobs").json()["jobs"]
    assert {row["state"] for row in listed} == {"cancelled"}


def test_work_that_is_stopped_leaves_no_folder_behind(page, tmp_path, monkeypatch) -> None:
    """What it had half written is taken away with it."""
    place = tmp_path / "temporary"
    place.mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(place))
    client, house = page
    job = ask(client, house, "sleep")
    while not client.get(f"jobs/{job}").json()["phase"]:
        time.sleep(0.05)
    assert [path.name for path in place.rglob("half.pdf")] == ["half.pdf"]
    client.post(f"jobs/{job}/cancel")
    until(client, job, "cancelled")
    for _ in range(100):
        if not any(place.iterdir()):
            break
        time.sleep(0.1)
    assert list(place.iterdir()) == []


@pytest.mark.parametrize(
    ("words", "phase", "progress"),
    [
        ("2 of 4: finding the joints", "finding the joints", 0.25),
        ("1 of 3: reading the test", "reading the test", 0.01),
        ("30 of about 120 runs", "30 of about 120 runs", 0.25),
        ("130 of about 120 runs", "130 of about 120 runs", 0.99),
        ("15 s  polishing: end 4", "polishing: end 4", 0.5),
        ("a word of the solver", "a word of the solver", 0.0),
    ],
)
def test_what_a_command_says_tells_how_far_it_is(words: str, phase: str, progress: float) -> None:
    """Stages, counts and seconds of the limit become a phase and a part of the whole."""
    assert how_far(words, 30.0) == (phase, progress)


def test_a_closed_desk_leaves_its_work_marked(tmp_path: Path) -> None:
    """After a restart what ran reads interrupted, and what waited is done."""
    desk = make_desk(tmp_path, KINDS)
    client = TestClient(make_app(desk), base_url="http://localhost/api/v1/")
    house = add(client, kind="example", name="first_house")["id"]
    running, waiting = ask(client, house, "sleep"), ask(client, house, "nap")
    until(client, running, "running")
    desk.close()
    again = make_desk(tmp_path, KINDS)
    client = TestClient(make_app(again), base_url="http://localhost/api/v1/")
    assert client.get(f"jobs/{running}").json()["state"] == "interrupted"
    assert until(client, waiting, "done", "failed")["state"] == "done"
    again.close()


def test_unknown_work_is_told(page) -> None:
    """A kind this desk does not do, and work that nobody asked for."""
    client, house = page
    assert client.post(f"houses/{house}/jobs", json={"kind": "dance"}).status_code == 404
    assert client.get("jobs/none").status_code == 404
    assert client.post("jobs/none/cancel").status_code == 404
