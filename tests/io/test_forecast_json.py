"""The forecast as JSON and the history of tests as a file."""

from __future__ import annotations

import json
import math

import pytest
from tests.leakage.houses import house

from seamwright.errors import FormatError
from seamwright.io.forecast_json import forecast_document, read_history, write_history
from seamwright.io.plan import builtin_house, read_plan
from seamwright.leakage.forecast import forecast
from seamwright.leakage.learn import HouseTest, learn, with_test
from seamwright.leakage.targets import target_for
from seamwright.report.outlook import look_ahead
from seamwright.seals.catalog import default_catalog
from seamwright.workflow import seal_house

ANCHOR = forecast(house(40), draws=500).anchor
HISTORY = with_test(
    with_test((), HouseTest(id="one", flow_50=0.31, log_error=0.05, anchor=ANCHOR)),
    HouseTest(id="two", flow_50=0.11, log_error=0.07, anchor=ANCHOR, note="before linings"),
)
TEST = (
    '{"tests": [{"id": "a", "flow_50_m3_h": %d, "log_error": 0.1, "anchor": '
    '{"log_flow_50": 1, "scatter": 0.1, "weights": %s}}]}'
)


def test_a_history_comes_back_as_it_was(tmp_path) -> None:
    """Written and read again, a history teaches the same."""
    path = tmp_path / "tests.json"
    write_history(path, HISTORY)
    back = read_history(path)
    assert [test.id for test in back] == ["one", "two"]
    assert [file.name for file in tmp_path.iterdir()] == ["tests.json"]
    assert back[1].note == "before linings"
    assert learn(back).mean == pytest.approx(learn(HISTORY).mean, rel=1e-12)


def test_a_history_that_is_not_there_is_empty(tmp_path) -> None:
    """The first test begins the file."""
    assert read_history(tmp_path / "new.json") == ()


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("{", "not JSON"),
        ("[]", "no list of tests"),
        ('{"tests": [{}]}', "test 1 lacks"),
        ('{"tests": [3]}', "test 1 lacks"),
        (
            TEST % (-3, "{}"),
            "cannot be",
        ),
        (
            TEST % (3, '{"overall": "much"}'),
            "test 1 lacks or garbles",
        ),
    ],
)
def test_a_garbled_history_is_told(tmp_path, text: str, words: str) -> None:
    """What is no history is refused with the file's name, never with a traceback."""
    path = tmp_path / "tests.json"
    path.write_text(text)
    with pytest.raises(FormatError, match=words):
        read_history(path)


def test_the_document_is_si_with_the_unit_in_the_key() -> None:
    """Flows are in m³/h and cfm, every part has an id, shares add up, and JSON can hold it."""
    sealed = seal_house(read_plan(builtin_house("first_house")).plan, default_catalog())
    outlook = look_ahead(sealed, target=target_for("5B", "IECC 2021"), draws=500)
    document = json.loads(json.dumps(forecast_document(outlook), allow_nan=False))
    flow = document["flow_50_m3_h"]["p50"]
    assert flow == pytest.approx(outlook.forecast.flow_50.p50 * 3600)
    assert document["flow_50_cfm"]["p50"] == pytest.approx(flow / 1.699, rel=1e-3)
    assert document["ach50_1_h"]["p50"] == pytest.approx(flow / document["volume_m3"])
    assert document["target"]["limit_1_h"] == 3.0
    assert "IECC 2021" in document["target"]["source"]
    assert len(document["places"]) == len(outlook.places)
    assert math.fsum(kind["share"] for kind in document["kinds"]) == pytest.approx(1.0)
    assert [a["workmanship"] for a in document["alternatives"]] == [
        "careful", "ordinary", "careless",
    ]  # fmt: skip
    for part in ("kinds", "places", "drivers", "days", "fresh_air", "sources", "alternatives"):
        ids = [entry["id"] for entry in document[part]]
        assert len(ids) == len(set(ids)), part
