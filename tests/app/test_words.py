"""The desk speaks the language and the units of whoever asks."""

from __future__ import annotations

import io

import openpyxl
import pytest
from starlette.testclient import TestClient
from tests.app.test_houses import add

from seamwright.app.contract.dryness import FaceOptionOut
from seamwright.app.spoken import rewording
from seamwright.app.taste import Reader, preferred

SPANISH = {"Accept-Language": "es-MX,es;q=0.9,en;q=0.5", "Seamwright-Units": "metric"}
WRONG = {"kind": "example", "name": "no_such_house"}


def test_refusals_come_in_spanish(client: TestClient) -> None:
    """The sentence and the way out, by header, by address, and English without either."""
    body = {"source": WRONG}
    told = client.post("houses", json=body, headers=SPANISH)
    assert told.headers["content-language"] == "es"
    assert "no hay ninguna casa incluida ‘no_such_house’" in told.text
    assert "no hay ninguna casa" in client.post("houses?language=es", json=body).text
    assert "there is no built-in house" in client.post("houses", json=body).text


def test_the_setting_counts_where_nobody_says(client: TestClient) -> None:
    """A request without a language gets that of the desk."""
    client.put("settings", json={"language": "es"})
    assert "no hay nada en esta" in client.get("houses/x/nothing").text
    english = client.get("houses/x/nothing", headers={"Accept-Language": "en"})
    assert "there is nothing at this address" in english.text


def test_findings_and_joints_follow_language_and_units(client: TestClient) -> None:
    """The same finding in feet and inches and English, and in metres and Spanish."""
    house = add(client, kind="example", name="heron_house")["id"]
    english = client.get(f"houses/{house}/findings").json()["findings"]
    spanish = client.get(f"houses/{house}/findings", headers=SPANISH).json()["findings"]
    assert [one["id"] for one in english] == [one["id"] for one in spanish]
    flue = next(n for n, one in enumerate(english) if one["sentence"].startswith("Flue"))
    assert spanish[flue]["sentence"].startswith("Chimenea ")
    joint = client.get(f"houses/{house}/joints/{_joint(client, house)}", headers=SPANISH).json()
    assert joint["title"].startswith("esquina de muro")


def test_documents_are_kept_apart_by_language(client: TestClient) -> None:
    """Each has a tag of its own, and says what it hangs on."""
    house = add(client, kind="example", name="first_house")["id"]
    english, spanish = (
        client.get(f"houses/{house}/decisions", headers=headers) for headers in ({}, SPANISH)
    )
    assert english.headers["etag"] != spanish.headers["etag"]
    assert "Accept-Language" in spanish.headers["vary"]
    again = client.get(
        f"houses/{house}/decisions", headers={**SPANISH, "If-None-Match": spanish.headers["etag"]}
    )
    assert again.status_code == 304


def test_a_section_is_drawn_in_spanish_and_metres(client: TestClient) -> None:
    """Its side column, its labels and its units."""
    house = add(client, kind="example", name="first_house")["id"]
    name = _joint(client, house)
    svg = client.get(f"houses/{house}/joints/{name}/section?language=es&units=metric").text
    assert "sello de aire" in svg
    assert "INTERIOR" in svg
    assert "metros y milímetros" in svg
    assert "air seal" not in svg
    picture = client.get(f"houses/{house}/picture?language=es").text
    assert "cumbrera" in picture
    assert "sin escala" in picture


def test_order_files_are_in_spanish(client: TestClient) -> None:
    """Titles and texts of the table and of every sheet of the workbook."""
    house = add(client, kind="example", name="first_house")["id"]
    csv = client.get(f"houses/{house}/order.csv?language=es&units=metric").text
    assert "tira, rollos" in csv
    assert "strip, rolls" not in csv
    book = client.get(f"houses/{house}/order.xlsx?language=es&units=metric").content
    sheets = openpyxl.load_workbook(io.BytesIO(book)).sheetnames
    assert "Tipos de sello" in sheets


def test_signing_over_a_signature_asks_why_in_spanish(client: TestClient) -> None:
    """The page finds the question by its subject, whatever the language."""
    house = add(client, kind="example", name="first_house")["id"]
    sign = {"base": 1, "face": "inner", "kinds": ["ridge"], "signed_by": "Ana", "role": "designer"}
    client.post(f"houses/{house}/decisions", json=sign)
    other = {**sign, "base": 2, "face": "outer"}
    told = client.post(f"houses/{house}/decisions", json=other, headers=SPANISH)
    assert told.status_code == 409
    problem = told.json()["problems"][0]
    assert problem["subject"] == "reason"
    assert "de clase cumbrera, con firma de Ana" in problem["sentence"]


def test_figures_in_results_follow_the_units() -> None:
    """Results carry SI in their sentences; whoever reads feet reads feet."""
    reword = rewording(FaceOptionOut)
    assert reword is not None
    said = {"tolerable_leak_words": "Up to 0.107 m³/(h·m) at 50 Pa stays within limits.", "x": 1}
    us = reword(said, Reader(language="es", units="us"))
    assert us == {
        "tolerable_leak_words": "Hasta 0.0192 CFM/ft a 50 Pa queda dentro de los límites.",
        "x": 1,
    }


@pytest.mark.parametrize(
    ("header", "wanted"),
    [("", []), ("es", ["es"]), ("fr;q=0.2, es-MX, en;q=0.8", ["es-MX", "en", "fr"]),
     ("en;q=no,es", ["es", "en"])],
)  # fmt: skip
def test_languages_are_taken_in_their_order(header: str, wanted: list[str]) -> None:
    """By weight, then as written; what is no number weighs nothing."""
    assert preferred(header) == wanted


def _joint(client: TestClient, house: str) -> str:
    rows = client.get(f"houses/{house}/joints").json()["joints"]
    return str(next(row["id"] for row in rows if row["kind"] == "wall_corner"))
