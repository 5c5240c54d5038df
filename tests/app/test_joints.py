"""Joints over the interface: table, page, section, corrections, order."""

from __future__ import annotations

import io
import math
import xml.etree.ElementTree as ET

import openpyxl
import pytest
from starlette.testclient import TestClient
from tests.app.test_houses import add


@pytest.fixture
def house(client: TestClient) -> str:
    """Return the id of a house with every kind of seal."""
    return str(add(client, kind="example", name="heron_house")["id"])


def test_the_width_of_each_strip_adds_up(client, house) -> None:
    """For every joint the terms shown sum to what is required."""
    for row in client.get(f"houses/{house}/joints").json()["joints"][::9]:
        joint = client.get(f"houses/{house}/joints/{row['id']}").json()
        for strip in joint["strips"]:
            summed = math.fsum(term["count"] * term["value_m"] for term in strip["terms"])
            assert summed == pytest.approx(strip["required_m"], abs=1e-9)
        assert joint["length_m"] == row["length_m"]
        assert {n["id"] for n in joint["neighbors"]}.isdisjoint({row["id"]})


def test_the_section_of_a_joint_is_a_drawing(client, house) -> None:
    """It is SVG that names the joint, in either unit, and may load nothing."""
    told = set()
    for units in ("us", "metric"):
        answer = client.get(f"houses/{house}/joints/2E.1-E.2/section?units={units}")
        assert ET.fromstring(answer.text).tag.endswith("svg")
        assert "2E.1-E.2" in answer.text
        assert answer.headers["content-type"].startswith("image/svg+xml")
        assert answer.headers["content-security-policy"].startswith("default-src 'none'")
        told.add(answer.text)
    assert len(told) == 2


def test_a_correction_is_written_and_taken_back(client, house) -> None:
    """It stands in the plan with its reason, shows on the joint, and leaves no trace."""
    before = client.get(f"houses/{house}/plan").json()["text"]
    joint = "2E.1-E.2"
    body = {"base": 1, "reason": "deck notched: see photo", "span_m": 0.0127, "author": "Kim"}
    assert client.put(f"houses/{house}/joints/{joint}/override", json=body).status_code == 200
    shown = client.get(f"houses/{house}/joints/{joint}").json()
    assert shown["override"]["span_m"] == 0.0127
    assert shown["strips"][0]["span_m"] == 0.0127
    assert [(h["what"], h["person"]) for h in shown["history"] if h["what"] == "corrected"] == [
        ("corrected", "Kim")
    ]
    again = {**body, "base": 2, "span_m": 0.0254, "reason": "measured again"}
    client.put(f"houses/{house}/joints/{joint}/override", json=again)
    text = client.get(f"houses/{house}/plan").json()["text"]
    assert text.count(joint) == 1
    answer = client.delete(f"houses/{house}/joints/{joint}/override?base=3")
    assert answer.status_code == 200, answer.text
    after = client.get(f"houses/{house}/plan").json()["text"]
    assert after.replace("\noverrides: []\n", "").rstrip() == before.replace(
        "\noverrides: []\n", ""
    ).rstrip()  # fmt: skip
    assert client.delete(f"houses/{house}/joints/{joint}/override?base=4").status_code == 404


def test_a_joint_that_is_not_there_is_told(client, house) -> None:
    """Page, section and correction alike."""
    for address in ("joints/none", "joints/none/section"):
        assert client.get(f"houses/{house}/{address}").status_code == 404
    body = {"base": 1, "reason": "because"}
    assert client.put(f"houses/{house}/joints/none/override", json=body).status_code == 404


def test_findings_come_gravest_first(client, house) -> None:
    """Stops, then things to look at, then notes, each with a way out."""
    found = client.get(f"houses/{house}/findings").json()["findings"]
    order = [("stop", "attention", "note").index(row["severity"]) for row in found]
    assert order == sorted(order)
    assert all(row["way_out"] for row in found)


def test_the_order_is_the_same_on_the_page_and_in_the_files(client, house) -> None:
    """Packs of every line agree with the workbook, and the CSV has a row for each."""
    lines = client.get(f"houses/{house}/order").json()["lines"]
    book = client.get(f"houses/{house}/order.xlsx")
    assert "attachment" in book.headers["content-disposition"]
    sheet = openpyxl.load_workbook(io.BytesIO(book.content))["Order"]
    rows = {row[0].value: [cell.value for cell in row] for row in sheet.iter_rows()}
    for line in lines:
        assert line["packs"] in rows[line["id"]] or not line["packs"]
    text = client.get(f"houses/{house}/order.csv").text
    assert all(line["id"] in text for line in lines)


def test_records_show_as_states(client, house) -> None:
    """Sealed, then checked, then open again; the scene and the table say the same."""
    joint = "2E.1-E.2"
    for number, (what, state) in enumerate(
        (("sealed", "sealed"), ("checked", "checked"), ("reopened", "open"))
    ):
        record = {"key": f"record-{number}", "joint": joint, "what": what, "person": "Kim"}
        assert client.post(f"houses/{house}/records", json=record).status_code == 201
        table = client.get(f"houses/{house}/joints").json()["joints"]
        assert next(row["state"] for row in table if row["id"] == joint) == state
        lines = client.get(f"houses/{house}/scene").json()["joints"]
        at = lines["ids"].index(joint)
        assert lines["states"][lines["state"][at]] == state
    assert len(client.get(f"houses/{house}/records").json()["records"]) == 3
