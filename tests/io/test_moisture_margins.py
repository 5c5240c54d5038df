"""Reading what each joint tolerates."""

from __future__ import annotations

import json

import pytest

from seamwright.errors import FormatError
from seamwright.io.json_text import write_json
from seamwright.io.moisture_margins import margins_document, read_margins
from seamwright.leakage.margins import Margin

KNOWN = {
    "S1": Margin(tolerates=0.8 / 3600.0, margin=0.25),
    "R1.2-R2.2": Margin(tolerates=0.0, margin=-0.1),
    "A.1-A.2": Margin(tolerates=3.0 / 3600.0),
}


TWICE = """{"joints": [{"id": "S1", "tolerable_leak_m3_h_m": 1},
{"id": "S1", "tolerable_leak_m3_h_m": 2}]}
"""


def text(**joint: object) -> str:
    """Return a file of one joint."""
    return json.dumps({"joints": [joint]}) + "\n"


def test_what_is_written_is_read_back(tmp_path) -> None:
    """Margins survive a round trip through a file, in m³/(h·m) there and m³/(s·m) here."""
    path = tmp_path / "dryness.json"
    write_json(margins_document(KNOWN), path)
    assert json.loads(path.read_text())["joints"][2]["tolerable_leak_m3_h_m"] == pytest.approx(0.8)
    back = read_margins(path)
    assert back == {at: Margin(tolerates=pytest.approx(m.tolerates), margin=m.margin)
                    for at, m in KNOWN.items()}  # fmt: skip


def test_other_words_are_passed_over_and_unknown_leaks_left_out() -> None:
    """A document with more in it serves; a joint of which nobody could say is not among them."""
    document = {
        "climate": "somewhere",
        "joints": [
            {"id": "S1", "tolerable_leak_m3_h_m": 1.8, "margin": 0.2, "face": "inner"},
            {"id": "S2", "tolerable_leak_m3_h_m": None},
        ],
    }
    assert read_margins(json.dumps(document) + "\n") == {
        "S1": Margin(tolerates=pytest.approx(5e-4), margin=0.2)
    }


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        ("{\n", "not JSON"),
        ("[]\n", "no list of joints"),
        ('{"joints": 3}\n', "no list of joints"),
        ('{"joints": [3]}\n', "joint no. 1 has no id"),
        (text(id="S1"), "says no tolerable_leak_m3_h_m"),
        (text(id="S1", tolerable_leak_m3_h_m=-1), "no number from 0"),
        (text(id="S1", tolerable_leak_m3_h_m=True), "no number from 0"),
        ('{"joints": [{"id": "S1", "tolerable_leak_m3_h_m": Infinity}]}\n', "no number from 0"),
        (text(id="S1", tolerable_leak_m3_h_m=1, margin="wet"), "margin that is no number"),
        (TWICE, "joint no. 2 is S1 once more"),
    ],
)  # fmt: skip
def test_what_cannot_be_used_is_told(wrong: str, told: str) -> None:
    """Each fault is a sentence with the joint it stands at and how to write it."""
    with pytest.raises(FormatError) as caught:
        read_margins(wrong)
    assert told in caught.value.problems[0].sentence
    assert "tolerable_leak_m3_h_m" in caught.value.problems[0].remedy


def test_every_fault_is_told_at_once() -> None:
    """Two wrong joints give two problems."""
    wrong = {"joints": [{"id": "A"}, {"id": "B", "tolerable_leak_m3_h_m": "much"}]}
    with pytest.raises(FormatError) as caught:
        read_margins(json.dumps(wrong) + "\n")
    assert len(caught.value.problems) == 2
