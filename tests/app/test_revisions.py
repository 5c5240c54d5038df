"""Revisions over the interface: saving, undo, what changed, drafts, and what was done on site."""

from __future__ import annotations

from typing import Any

import pytest
from starlette.testclient import TestClient
from tests.app.test_houses import FORM, add

from seamwright.io.plan import builtin_house

CABIN = builtin_house("first_house")


@pytest.fixture
def house(client: TestClient) -> str:
    """Return the id of a small house."""
    return str(add(client, kind="yaml", text=CABIN)["id"])


def save(client: TestClient, house: str, base: int, text: str, **more: str) -> dict[str, Any]:
    """Return what saving a text said."""
    body = {"base": base, "source": {"kind": "yaml", "text": text}, **more}
    answer = client.post(f"houses/{house}/revisions", json=body)
    assert answer.status_code == 201, answer.text
    return dict(answer.json())


def test_a_change_says_what_it_does(client, house) -> None:
    """A window that moves changes its joints; nothing else comes or goes."""
    moved = CABIN.replace("in: C, along: 2'", "in: C, along: 3'")
    found = save(client, house, 1, moved, author="A. Nobody", note="window moved")
    assert found["house"]["head"] == 2
    assert {row["id"] for row in found["changes"]["joints_changed"]} >= {"C.1-W1.head"} or {
        row["kind"] for row in found["changes"]["joints_came"]
    } == {"opening"}
    (newest, first) = client.get(f"houses/{house}/revisions").json()["revisions"]
    assert (newest["author"], newest["note"], newest["is_head"]) == (
        "A. Nobody", "window moved", True,
    )  # fmt: skip
    assert first["is_head"] is False


def test_joints_that_come_and_go_are_named(client, house) -> None:
    """Without its pipe a house has one joint less, and the order follows."""
    without = "\n".join(line for line in CABIN.splitlines() if "id: P1" not in line)
    without = without.replace("penetrations:", "penetrations: []")
    found = save(client, house, 1, without + "\n")["changes"]
    assert [row["id"] for row in found["joints_went"]] == ["D.1-P1"]
    assert found["joints_came"] == []
    assert found["order"] != []
    back = client.get(f"houses/{house}/changes?before=2&after=1").json()
    assert [row["id"] for row in back["joints_came"]] == ["D.1-P1"]


def test_undo_and_redo_move_the_head(client, house) -> None:
    """One step each way; at the ends there is nothing to do, and that is said."""
    save(client, house, 1, CABIN.replace("First House", "Second House"))
    undone = client.post(f"houses/{house}/undo", json={"base": 2}).json()["house"]
    assert (undone["head"], undone["name"], undone["can_undo"], undone["can_redo"]) == (
        1, "First House", False, True,
    )  # fmt: skip
    assert client.post(f"houses/{house}/undo", json={"base": 1}).status_code == 409
    redone = client.post(f"houses/{house}/redo", json={"base": 1}).json()["house"]
    assert (redone["head"], redone["name"]) == (2, "Second House")
    assert client.post(f"houses/{house}/redo", json={"base": 2}).status_code == 409


def test_who_worked_on_an_older_revision_is_told(client, house) -> None:
    """Nothing is overwritten."""
    save(client, house, 1, CABIN.replace("First House", "Second House"))
    body = {"base": 1, "source": {"kind": "yaml", "text": CABIN}}
    answer = client.post(f"houses/{house}/revisions", json=body)
    assert answer.status_code == 409
    assert "revision 2 by now" in answer.json()["problems"][0]["sentence"]


def test_a_plan_that_is_no_house_is_not_kept(client, house) -> None:
    """Its problems come back and the head stays."""
    body = {"base": 1, "source": {"kind": "yaml", "text": "site: 3\n"}}
    assert client.post(f"houses/{house}/revisions", json=body).status_code == 422
    assert client.get(f"houses/{house}").json()["head"] == 1


def test_a_draft_is_kept_right_or_wrong_until_the_plan_is_saved(client, house) -> None:
    """What is being written survives a reload; saving is done with it."""
    source = {"kind": "yaml", "text": "site: 3 # half written\n", "name": "plan.yaml"}
    client.put(f"houses/{house}/draft", json={"base": 1, "source": source})
    assert client.get(f"houses/{house}/draft").json()["source"] == source
    assert client.get(f"houses/{house}").json()["has_draft"] is True
    save(client, house, 1, CABIN.replace("First House", "Second House"))
    assert client.get(f"houses/{house}/draft").json()["source"] is None


def test_a_form_keeps_what_it_does_not_fill(client) -> None:
    """Corrections and signatures survive another round of the form."""
    house = add(client, kind="form", form=FORM)["id"]
    correction = {"base": 1, "reason": "skins planed", "strip_width_m": 0.3048}
    client.put(f"houses/{house}/joints/A.1-A.2/override", json=correction)
    form = {**FORM, "name": "Alder again"}
    body = {"base": 2, "source": {"kind": "form", "form": form}}
    answer = client.post(f"houses/{house}/revisions", json=body)
    assert answer.status_code == 201, answer.text
    text = client.get(f"houses/{house}/plan").json()["text"]
    assert "Alder again" in text
    assert "skins planed" in text


def test_work_already_done_that_a_change_touches_is_named(client, house) -> None:
    """A sealed joint that goes, and a sealed one that would ask for another strip."""
    for key, joint in (("key-0001", "D.1-P1"), ("key-0002", "A.1-A.2")):
        record = {"key": key, "joint": joint, "what": "sealed", "person": "Kim"}
        assert client.post(f"houses/{house}/records", json=record).status_code == 201
    body = {"base": 1, "reason": "skins planed", "strip_width_m": 0.3048}
    found = client.put(f"houses/{house}/joints/A.1-A.2/override", json=body).json()["changes"]
    (touched,) = found["work_touched"]
    assert touched["joint"] == "A.1-A.2"
    assert "another seal" in touched["sentence"]
    without = client.get(f"houses/{house}/plan").json()["text"]
    lines = [line for line in without.splitlines() if "id: P1" not in line]
    text = "\n".join(lines).replace("penetrations:", "penetrations: []") + "\n"
    (gone,) = save(client, house, 2, text)["changes"]["work_touched"]
    assert gone["joint"] == "D.1-P1"


def test_a_drawn_house_can_be_redrawn_after_it_was_corrected_and_signed(client) -> None:
    """Correction and signature keep the form; redrawn from it, both are still in the text."""
    house = str(add(client, kind="form", form=FORM)["id"])
    joint = client.get(f"houses/{house}/joints").json()["joints"][0]["id"]
    wide = {"base": 1, "reason": "wide gap", "span_m": 0.08}
    client.put(f"houses/{house}/joints/{joint}/override", json=wide)
    signature = {"base": 2, "face": "inner", "signed_by": "A. Nobody", "role": "designer"}
    signed = client.post(f"houses/{house}/decisions", json=signature).json()["house"]
    assert (signed["head"], signed["has_form"]) == (3, True)
    form = client.get(f"houses/{house}/plan").json()["form"]
    moved = {**form, "openings": [{**form["openings"][0], "along_m": 1.2}]}
    body = {"base": 3, "source": {"kind": "form", "form": moved}}
    answer = client.post(f"houses/{house}/revisions", json=body)
    assert answer.status_code == 201, answer.text
    text = client.get(f"houses/{house}/plan").json()["text"]
    assert "wide gap" in text
    assert "A. Nobody" in text


def test_an_earlier_revision_is_put_back_letter_by_letter(client) -> None:
    """Not the form over the newest text, but the very text that stood then."""
    house = str(add(client, kind="form", form=FORM)["id"])
    before = client.get(f"houses/{house}/plan").json()
    joint = client.get(f"houses/{house}/joints").json()["joints"][0]["id"]
    wide = {"base": 1, "reason": "wide gap", "span_m": 0.08}
    client.put(f"houses/{house}/joints/{joint}/override", json=wide)
    body = {"base": 2, "source": {"kind": "revision", "number": 1}}
    assert client.post(f"houses/{house}/revisions", json=body).status_code == 201
    after = client.get(f"houses/{house}/plan").json()
    assert (after["text"], after["form"]) == (before["text"], before["form"])
    newest = client.get(f"houses/{house}/revisions").json()["revisions"][0]
    assert (newest["origin"], newest["origin_name"]) == ("back", "1")
    body["source"]["number"] = 99
    assert client.post(f"houses/{house}/revisions", json={**body, "base": 3}).status_code == 404
