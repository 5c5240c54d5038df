"""The side of the air seal: evidence, signature, change with a reason, book."""

from __future__ import annotations

import pytest
from starlette.testclient import TestClient
from tests.app.test_houses import add

from seamwright.io.plan import builtin_house

WHO = {"signed_by": "A. Nobody", "role": "designer", "date": "2026-03-14"}


@pytest.fixture
def house(client: TestClient) -> str:
    """Return the id of a small house that nobody has signed for."""
    return str(add(client, kind="example", name="first_house")["id"])


def test_every_kind_shows_both_faces(client, house) -> None:
    """Joints, reach and strips of either face stand side by side, and what is proposed."""
    found = client.get(f"houses/{house}/decisions").json()
    kinds = {group["kind"] for group in found["groups"]}
    joints = client.get(f"houses/{house}/joints").json()["joints"]
    assert kinds == {row["kind"] for row in joints}
    for group in found["groups"]:
        assert sum(group["proposed"].values()) == len(group["joints"])
        assert group["locked"] is False
        for face in ("inner", "outer"):
            side = group[face]
            reached = side["reachable"] + side["before_panels_only"] + side["never"]
            assert reached == side["joints_with_line"]
    assert "published advice differs" in found["disagreement"]


def test_a_signature_locks_and_stands_in_the_plan(client, house) -> None:
    """The plan text holds it, comments stay, the group is locked, the book has a line."""
    body = {"base": 1, "face": "inner", "kinds": ["ridge"], **WHO}
    assert client.post(f"houses/{house}/decisions", json=body).status_code == 201
    text = client.get(f"houses/{house}/plan").json()["text"]
    assert "signed_by: A. Nobody" in text
    comments = [line for line in builtin_house("first_house").splitlines() if line[:1] == "#"]
    assert [line for line in text.splitlines() if line[:1] == "#"] == comments
    groups = client.get(f"houses/{house}/decisions").json()["groups"]
    assert [group["kind"] for group in groups if group["locked"]] == ["ridge"]
    (line,) = client.get(f"houses/{house}/decisions/book").json()["signatures"]
    assert (line["action"], line["face"], line["signed_by"]) == ("signed", "inner", "A. Nobody")


def test_changing_a_signed_side_needs_a_reason(client, house) -> None:
    """First it says what it undoes; with a reason it is done, and the book keeps both lines."""
    body = {"base": 1, "face": "inner", "kinds": ["ridge", "eave"], **WHO}
    client.post(f"houses/{house}/decisions", json=body)
    other = {"base": 2, "face": "outer", "kinds": ["ridge"], **WHO, "signed_by": "B. Other"}
    before = client.post(f"houses/{house}/decisions/preview", json=other).json()
    assert {row["kind"] for row in before["undone"]} == {"ridge"}
    assert client.get(f"houses/{house}").json()["head"] == 2
    refused = client.post(f"houses/{house}/decisions", json=other)
    assert refused.status_code == 409
    assert "A. Nobody" in refused.json()["problems"][0]["sentence"]
    done = client.post(f"houses/{house}/decisions", json={**other, "reason": "open roof"})
    assert done.status_code == 201
    book = client.get(f"houses/{house}/decisions/book").json()["signatures"]
    assert [(line["action"], line["signed_by"]) for line in book] == [
        ("signed", "A. Nobody"), ("changed", "B. Other"),
    ]  # fmt: skip
    assert book[1]["reason"] == "open roof"
    assert book[1]["undone"] != []
    rows = client.get(f"houses/{house}/joints").json()["joints"]
    assert {(j["face"], j["signed"]) for j in rows if j["kind"] == "eave"} == {("inner", True)}


@pytest.mark.parametrize("way", ["text", "undo", "withdrawal"])
def test_no_way_around_the_reason(client, house, way: str) -> None:
    """Neither another text nor undo nor taking back is done without a reason."""
    client.post(f"houses/{house}/decisions", json={"base": 1, "face": "inner", **WHO})
    body: dict[str, object] = {"base": 2}
    address = "undo"
    if way == "text":
        address = "revisions"
        body |= {"source": {"kind": "yaml", "text": builtin_house("first_house")}}
    if way == "withdrawal":
        address, body = "decisions/withdrawal", {**body, "person": "B. Other", "reason": "no"}
    refused = client.post(f"houses/{house}/{address}", json=body)
    assert refused.status_code in {409, 422}
    done = client.post(f"houses/{house}/{address}", json={**body, "reason": "roof changed"})
    assert done.status_code < 300, done.text
    book = client.get(f"houses/{house}/decisions/book").json()["signatures"]
    assert [line["action"] for line in book] == ["signed", "withdrawn"]
    assert book[1]["reason"] == "roof changed"
    assert client.get(f"houses/{house}").json()["counted"]["unsigned"] > 0


def test_a_day_that_is_none_is_refused(client, house) -> None:
    """The thirtieth of February is told."""
    body = {"base": 1, "face": "inner", **WHO, "date": "2026-02-30"}
    answer = client.post(f"houses/{house}/decisions", json=body)
    assert answer.status_code == 409
    assert "no day" in answer.json()["problems"][0]["sentence"]


def test_signing_single_joints_leaves_their_kind_open(client, house) -> None:
    """Only the joints named are signed; an unknown one is told."""
    ids = [j["id"] for j in client.get(f"houses/{house}/joints").json()["joints"]
           if j["kind"] == "ridge"]  # fmt: skip
    body = {"base": 1, "face": "inner", "joints": ids[:1], **WHO}
    assert client.post(f"houses/{house}/decisions", json=body).status_code == 201
    group = next(
        g for g in client.get(f"houses/{house}/decisions").json()["groups"] if g["kind"] == "ridge"
    )
    assert group["unsigned"] == len(ids) - 1
    unknown = {"base": 2, "face": "inner", "joints": ["nowhere"], **WHO}
    assert client.post(f"houses/{house}/decisions", json=unknown).status_code == 404
