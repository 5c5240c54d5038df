"""Dryness worked out in several goes: the newest for each kind of joint and face counts."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient
from tests.app.test_houses import add
from tests.app.test_work import ask, until

from seamwright.app.jobs import JobKind
from seamwright.app.make import make_app, make_desk

RIDGE, SILL = "R1.2-R2.2", "A.1-slab"


@pytest.fixture
def page(tmp_path: Path) -> Iterator[tuple[TestClient, str]]:
    """Return a connection to a desk that brings back what it is given, and a house on it."""
    desk = make_desk(
        tmp_path, [JobKind(name="dryness", title="Dryness", work="tests.app.work:dry")]
    )
    with TestClient(make_app(desk), base_url="http://localhost:8765/api/v1/") as client:
        yield client, add(client, kind="example", name="first_house")["id"]
    desk.close()


def face(name: str, margin: float, leak: float | None) -> dict[str, Any]:
    """Return what comes of sealing one face."""
    place = {"place": "skin", "within": margin > 0, "margin": margin, "binding": "moisture",
             "trend": "steady", "criteria": []}  # fmt: skip
    return {"face": name, "usual_leak_m3_h_m": 1.0, "tolerable_leak_m3_h_m": leak,
            "tolerable_leak_words": "up to that", "places": [place]}  # fmt: skip


def result(kind: str, joint: str, *faces: dict[str, Any]) -> str:
    """Return a result on one joint."""
    height = {"height": "whole", "above_neutral_level_m": 1.0, "proposed_face": None,
              "proposal": [], "published_advice": [], "options": list(faces),
              "runs": []}  # fmt: skip
    one = {"type": "J1", "title": kind, "drawn": joint, "joints": [joint], "length_m": 2.0,
           "undammed_height_m": 0.0, "heights": [height]}  # fmt: skip
    row = {"id": joint, "type": "J1", "tolerable_leak_m3_h_m": 9.0, "margin": 9.0}
    left = {"type": "J2", "title": "eave", "joints": ["A.1-R1.1"], "why": "no case"}
    return json.dumps(
        {"weather": "made", "generated": True, "rooms": "dry", "years": 1, "proposal_only": "",
         "assumed": [], "limits_of_the_model": [], "joints": [row], "types": [one],
         "left_out": [left]}
    )  # fmt: skip


def go(client: TestClient, house: str, text: str) -> str:
    """Return the id of work that has brought back a result."""
    job = ask(client, house, "dryness", weather=text)
    until(client, job, "done")
    return job


def margins(client: TestClient, house: str) -> dict[str, float]:
    """Return the margin of each joint that has one, by its id."""
    ids = [row["id"] for row in client.get(f"houses/{house}/joints").json()["joints"]]
    values = client.get(f"houses/{house}/joint-values").json()["moisture_margin"]
    return {name: value for name, value in zip(ids, values, strict=True) if value is not None}


def test_partial_goes_add_up(page) -> None:
    """A go on sills leaves what an earlier one said of the ridge; a later ridge takes its place."""
    client, house = page
    assert client.get(f"houses/{house}/dryness").status_code == 409
    first = go(client, house, result("ridge", RIDGE, face("inner", 0.2, 1.5)))
    second = go(client, house, result("sill", SILL, face("inner", 0.4, None)))
    assert margins(client, house) == {RIDGE: 0.2, SILL: 0.4}
    found = client.get(f"houses/{house}/dryness").json()
    assert [(one["type"], one["title"]) for one in found["types"]] == [
        ("J1", "sill"), ("J2", "ridge"),
    ]  # fmt: skip
    assert [(row["id"], row["type"]) for row in found["joints"]] == [(SILL, "J1"), (RIDGE, "J2")]
    assert [(one["job"], one["types"]) for one in found["made_from"]] == [(second, 1), (first, 1)]
    assert [one["title"] for one in found["left_out"]] == ["eave"]
    third = go(client, house, result("ridge", RIDGE, face("inner", -0.1, None)))
    assert margins(client, house) == {RIDGE: -0.1, SILL: 0.4}
    told = client.get(f"houses/{house}/dryness").json()["made_from"]
    assert [(one["job"], one["types"]) for one in told] == [(third, 1), (second, 1), (first, 0)]


def test_a_go_on_one_face_leaves_the_other(page) -> None:
    """Sealed on its best face a joint has the better margin, whichever go that came of."""
    client, house = page
    go(client, house, result("ridge", RIDGE, face("inner", 0.2, 1.5), face("outer", 0.3, 2.0)))
    go(client, house, result("ridge", RIDGE, face("outer", -0.5, None)))
    (row,) = client.get(f"houses/{house}/dryness").json()["joints"]
    assert (row["margin"], row["tolerable_leak_m3_h_m"]) == (0.2, 1.5)


def test_another_plan_begins_anew(page) -> None:
    """What was said of another plan colors nothing."""
    client, house = page
    go(client, house, result("ridge", RIDGE, face("inner", 0.2, 1.5)))
    correction = {"base": 1, "reason": "because", "ignore": True}
    client.put(f"houses/{house}/joints/{SILL}/override", json=correction)
    assert margins(client, house) == {}
    assert client.get(f"houses/{house}/dryness").status_code == 409
