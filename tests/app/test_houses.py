"""Houses on the desk: from a form, a text, a list, a model; validated, listed, removed."""

from __future__ import annotations

import json
from importlib import resources
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from seamwright.io.plan import builtin_house, builtin_house_names

ROOT = Path(__file__).parents[2]
FORM: dict[str, Any] = {
    "units": "us",
    "name": "Alder: a cabin #2",
    "climate_zone": "5B",
    "zone_edition": "IECC 2021",
    "wall_panel": {"thickness_m": 0.1651},
    "roof_panel": {"thickness_m": 0.26035},
    "storeys": [{"height_m": 2.4384}, {"height_m": 2.4384}],
    "footprints": [{"id": "main", "corners_m": [[0, 0], [7.3152, 0], [7.3152, 6.1], [0, 6.1]]}],
    "roof": [
        {
            "id": "main", "over": "main", "eaves": ["south", "north"], "pitch_rise": 0.5,
            "overhang_eave_m": 0.3, "ridge_beam": {"width_m": 0.0889, "depth_m": 0.3},
        }
    ],
    "openings": [
        {"id": "D1", "kind": "door", "host": "A", "along_m": 0.9, "up_m": 0, "width_m": 0.97,
         "height_m": 2.08}
    ],
    "services": [{"id": "P1", "host": "B", "along_m": 1, "up_m": 0.5, "diameter_m": 0.1}],
}  # fmt: skip


def add(client: TestClient, **source: object) -> dict[str, Any]:
    """Return a house just added from a source."""
    answer = client.post("houses", json={"source": source})
    assert answer.status_code == 201, answer.text
    return dict(answer.json())


@pytest.mark.parametrize("units", ["us", "metric"])
def test_a_form_becomes_a_plan_a_person_could_have_written(client, units: str) -> None:
    """The text is kept with the form, closes, and holds sizes in the units asked for."""
    house = add(client, kind="form", form={**FORM, "units": units})
    plan = client.get(f"houses/{house['id']}/plan").json()
    assert ("8'-0\"" if units == "us" else "2438.4 mm") in plan["text"]
    assert plan["form"]["name"] == FORM["name"]
    assert house["name"] == FORM["name"]
    assert house["counted"]["breaks"] == 0
    assert house["has_form"]


def test_a_form_in_either_unit_makes_the_same_house(client) -> None:
    """Feet and inches or millimetres: the joints are as long."""
    lengths = [
        add(client, kind="form", form={**FORM, "units": units})["counted"]["joint_length_m"]
        for units in ("us", "metric")
    ]
    assert lengths[0] == pytest.approx(lengths[1], abs=1e-6)


def test_built_in_houses_are_listed_and_taken(client) -> None:
    """Each is on the list and makes a house."""
    named = [row["name"] for row in client.get("examples").json()["examples"]]
    assert named == list(builtin_house_names())
    house = add(client, kind="example", name="first_house")
    listed = client.get("houses").json()["houses"]
    assert [row["id"] for row in listed] == [house["id"]]
    assert house["origin"] == "example"


def test_a_panel_list_becomes_one_plan(client) -> None:
    """The list is written into the plan of its types; nothing is left to a file elsewhere."""
    with (
        (ROOT / "examples/sixty_panels.csv").open("rb") as panels,
        (ROOT / "examples/sixty_panels_types.yaml").open("rb") as types,
    ):
        answer = client.post(
            "houses/upload", files={"file": ("p.csv", panels), "types": ("t.yaml", types)}
        )
    assert answer.status_code == 201, answer.text
    assert answer.json()["counted"]["panels"] == 60
    assert answer.json()["origin"] == "csv"


@pytest.mark.slow
def test_a_building_model_becomes_a_plan(client) -> None:
    """The model is read in a process of its own and written as a plan with its notes in front."""
    model = (resources.files("seamwright") / "data/houses/wren_house.ifc").read_bytes()
    answer = client.post("houses/upload", files={"file": ("wren.ifc", model)})
    assert answer.status_code == 201, answer.text
    text = client.get(f"houses/{answer.json()['id']}/plan").json()["text"]
    assert text.startswith("# From the building model wren.ifc.")
    refused = client.post("houses/upload", files={"file": ("wren.ifc", b"no model")})
    assert refused.status_code == 422
    assert {p["file"] for p in refused.json()["problems"]} <= {None, "wren.ifc"}


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("house.dwg", b"x", "is of no kind known here"),
        ("list.csv", b"id\n", "not what it is made of"),
        ("plan.yaml", b"\xff\x00\xff", "is not text"),
        ("plan.yaml", b"a: 1\n" * 500_000, "larger than the 2 MB"),
        ("plan.yaml", b"", "is empty"),
    ],
)
def test_files_that_cannot_be_used_are_told(client, name: str, data: bytes, said: str) -> None:
    """Each in a sentence that names the file or what is wrong with it."""
    answer = client.post("houses/upload", files={"file": (name, data)})
    assert answer.status_code == 422
    assert said in answer.json()["problems"][0]["sentence"]


def test_validation_says_what_the_command_line_says(client) -> None:
    """Line, sentence and remedy of a wrong text; lengths in the units asked for."""
    text = builtin_house("first_house").replace("along: 2', up: 0,", "along: 14', up: 0,")
    body = {"source": {"kind": "yaml", "text": text}}
    told = client.post("validate", json=body).json()
    metric = client.post("validate?units=metric", json=body).json()
    assert told["usable"] is False
    assert told["problems"][0]["line"] == text.splitlines().index(
        next(line for line in text.splitlines() if "id: D1" in line)
    ) + 1  # fmt: skip
    assert "'" in told["problems"][0]["sentence"]
    assert " m" in metric["problems"][0]["sentence"]
    assert client.get("houses").json()["houses"] == []


def test_validation_of_a_sound_plan_says_what_it_makes(client) -> None:
    """Panels, joints and nodes, and the text that was read."""
    told = client.post("validate", json={"source": {"kind": "form", "form": FORM}}).json()
    assert told["usable"] is True
    assert told["counted"]["panels"] > 10
    assert told["text"].startswith("site:")


@pytest.mark.parametrize("section", ["panels: /etc/hostname", "catalog: /etc/hostname"])
def test_a_plan_may_not_lead_to_files_of_this_machine(client, section: str) -> None:
    """A text that names another file is refused with its line, and the file is never opened."""
    text = f"site: {{name: x}}\n{section}\n"
    answer = client.post("houses", json={"source": {"kind": "yaml", "text": text}})
    assert answer.status_code == 422
    (problem,) = answer.json()["problems"]
    assert (problem["line"], "is not in the desk" in problem["sentence"]) == (2, True)


def test_removal_asks_first_and_can_be_undone(client) -> None:
    """Without the token nothing goes; with it the house is off the list until it is restored."""
    house = add(client, kind="example", name="first_house")["id"]
    assert client.delete(f"houses/{house}?token=x").status_code == 409
    token = client.post(f"houses/{house}/removal").json()["token"]
    assert client.delete(f"houses/{house}?token={token}").status_code == 204
    assert client.get(f"houses/{house}").status_code == 404
    assert client.get("houses?removed=true").json()["houses"][0]["id"] == house
    assert client.post(f"houses/{house}/restoration").json()["id"] == house
    assert client.get(f"houses/{house}").status_code == 200


@pytest.mark.parametrize("text", ["\ud800", "a\x00b", "\u202e", "x" * 100_000])
def test_odd_letters_break_nothing(client, text: str) -> None:
    """Half letters, nulls and floods of letters come back as problems or as they were."""
    body = json.dumps({"source": {"kind": "yaml", "text": text + "\n"}, "author": text[:50]})
    for address in ("validate", "houses"):
        sent = body if address == "houses" else json.dumps({"source": json.loads(body)["source"]})
        answer = client.post(address, content=sent, headers={"Content-Type": "application/json"})
        assert answer.status_code < 500


def test_a_house_says_whether_it_has_a_climate(client) -> None:
    """A plan without a place has none; latitude and longitude give it one."""
    bare = add(client, kind="form", form=FORM)
    placed = add(client, kind="form", form={**FORM, "latitude_deg": 47.0, "longitude_deg": -122.0})
    assert (bare["has_climate"], placed["has_climate"]) == (False, True)
