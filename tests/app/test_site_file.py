"""The records file of a site, dropped on the page: recorded, read for the search, refused."""

from __future__ import annotations

import json

import pytest
from starlette.testclient import TestClient
from tests.app.test_houses import add

from seamwright.store.jobs import add_job

JOINT, OTHER = "A.1-A.2", "A.1-slab"
FILE = f"""workmanship: careful
target: 500 cfm
crews:
  - {{name: north, work: careful, made: [{JOINT}]}}
seals:
  - {{at: {JOINT}, sealed: yes, checked: yes, photo: no, taped: cold}}
  - {{at: {OTHER}, sealed: yes}}
log:
  - {{test: T1, flow: 905 m3/h, low: 860 m3/h, high: 950 m3/h, masked: opening, day: 2026-05-01}}
  - {{look: {JOINT}, by: smoke, saw: 4}}
  - {{look: {OTHER}, by: hand, saw: nothing, pressure: 30}}
  - {{mend: {JOINT}}}
"""


@pytest.fixture
def house(client: TestClient) -> str:
    """Return the id of a small house."""
    return str(add(client, kind="example", name="first_house")["id"])


def send(client: TestClient, house: str, text: str, status: int = 201) -> dict:
    """Return what sending a file said."""
    body = {"name": "site.yaml", "text": text, "person": "N. Body"}
    answer = client.post(f"houses/{house}/records/file", json=body)
    assert answer.status_code == status, answer.text
    return dict(answer.json())


def test_a_records_file_is_recorded_once_and_stands_in_the_history(client, house) -> None:
    """Sealed and checked joints are recorded under their crew; sent again, nothing is added."""
    found = send(client, house, FILE)
    assert (found["recorded"], found["known"]) == (3, 0)
    again = send(client, house, FILE)
    assert (again["recorded"], again["known"]) == (0, 3)
    one = client.get(f"houses/{house}/joints/{JOINT}").json()
    assert one["state"] == "checked"
    assert [(h["what"], h["person"], h["note"]) for h in one["history"]] == [
        ("sealed", "north", "site.yaml"), ("checked", "north", "site.yaml"),
    ]  # fmt: skip
    assert client.get(f"houses/{house}/records").json()["states"] == {"checked": 1, "sealed": 1}


def test_a_joint_opened_again_is_not_sealed_by_an_old_line(client, house) -> None:
    """The file sent once more leaves it open, and says so."""
    send(client, house, FILE)
    body = {"key": "opened-again", "joint": JOINT, "what": "reopened", "person": "N. Body"}
    client.post(f"houses/{house}/records", json=body)
    assert "opened again" in send(client, house, FILE)["notes"][-1]
    assert client.get(f"houses/{house}/joints/{JOINT}").json()["state"] == "open"


def test_the_diary_comes_back_as_the_search_reads_it(client, house) -> None:
    """Tests, looks and mends in their order; what came back reads as the same records."""
    found = send(client, house, FILE)
    told = [{k: v for k, v in row.items() if v is not None} for row in found["diary"]]
    assert told == [
        {"test": "T1", "flow": "905 m3/h", "low": "860 m3/h", "high": "950 m3/h",
         "masked": ["opening"], "day": "2026-05-01"},
        {"look": JOINT, "by": "smoke", "saw": 4},
        {"look": OTHER, "by": "hand", "saw": "nothing", "pressure": 30.0},
        {"mend": JOINT},
    ]  # fmt: skip
    assert found["target"] == "849.505 m3/h"
    assert found["seals"][0]["taped"] == "cold"
    assert found["crews"] == [{"name": "north", "work": "careful", "made": [JOINT]}]


def test_what_is_wrong_is_told_with_its_line_as_on_the_command_line(client, house) -> None:
    """A place that is not there: the sentence of the reader itself, and nothing is recorded."""
    text = FILE.replace(f"mend: {JOINT}", "mend: A.1-A.3")
    (problem,) = send(client, house, text, 422)["problems"]
    assert problem["line"] == 12
    assert "A.1-A.3" in problem["sentence"]
    assert client.get(f"houses/{house}/records").json()["records"] == []
    (problem,) = send(client, house, "[1, 2]", 422)["problems"]
    assert "not sections with names" in problem["sentence"]


def test_a_file_that_names_another_is_refused(client, house) -> None:
    """Readings lie on somebody else's machine, or on this one where nobody shall look."""
    text = "log:\n  - {test: T1, readings: ../../etc/passwd}\n"
    (problem,) = send(client, house, text, 422)["problems"]
    assert (problem["line"], "cannot bring" in problem["sentence"]) == (2, True)


def test_looks_mends_and_tests_stand_in_the_history_of_a_joint(client, house) -> None:
    """What the search was asked with is told at the joint, beside what was recorded there."""
    wishes = json.dumps({"records": FILE.replace("905 m3/h", "533 cfm")})
    add_job(client.app.state.desk.store, house, revision=1, kind="hunt", wishes=wishes)
    history = client.get(f"houses/{house}/joints/{JOINT}").json()["history"]
    assert {(h["what"], h["by"], h["saw"], h["flow"]) for h in history} == {
        ("tested", "", "", "533 cfm"), ("looked", "smoke", "4", ""), ("mended", "", "", ""),
    }  # fmt: skip
    other = client.get(f"houses/{house}/joints/{OTHER}").json()["history"]
    assert {h["what"] for h in other} == {"tested", "looked"}
