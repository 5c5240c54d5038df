"""The records file: what it holds, and every slip told with its line."""

from __future__ import annotations

import pytest

from seamwright.errors import FormatError, InputError, SeamwrightError
from seamwright.io.fan_examples import builtin_fan_test
from seamwright.io.fan_readings import read_fan_test
from seamwright.io.records import read_records
from seamwright.leakage.fan import analyze_fan_test
from seamwright.leakage.hunt_types import FanTest, Look, Mend
from seamwright.leakage.places import Place

PLACES = tuple(
    Place(id=i, sort="joint", kind=kind, length=2.0, layers=(), height=1.0)
    for i, kind in (("A.1-A.2", "wall_spline"), ("R1.1-R2.1", "ridge"), ("R1.2-R2.2", "ridge"))
)
GOOD = """
house: cabin
workmanship: careful
target: 300 cfm
seals:
  - {at: Ridge, photo: no, taped: cold}
  - {at: [R1.2-R2.2], taped: wet, checked: yes, crew: north}
log:
  - {test: T1, day: 2026-03-12, flow: 900 m³/h, low: 850 m3/h, high: 950 m3/h, masked: ridge}
  - {look: R1.1-R2.1, saw: 4}
  - {look: A.1-A.2, by: hand, saw: nothing, pressure: 30}
  - {look: A.1-A.2, by: infrared, saw: something}
  - {mend: R1.1-R2.1}
  - {test: T2, flow: 250 l/s}
"""


def test_what_was_written_is_read() -> None:
    """Facts by place, later over earlier; the diary in order; flows in m³/s."""
    records = read_records(GOOD, PLACES)
    assert records.facts["R1.1-R2.1"].taped == "cold"
    assert records.facts["R1.2-R2.2"].taped == "wet"
    assert records.facts["R1.2-R2.2"].photo is False
    assert records.facts["R1.2-R2.2"].crew == "north"
    assert "A.1-A.2" not in records.facts
    assert records.workmanship == "careful"
    assert records.target == pytest.approx(300 * 0.3048**3 / 60)
    first, second, third, fourth, fifth, last = records.diary
    assert isinstance(first, FanTest)
    assert first.flow == pytest.approx(0.25)
    assert first.masked == {"R1.1-R2.1", "R1.2-R2.2"}
    assert second == Look(place="R1.1-R2.1", method="smoke", found=True, strength=4, line=10)
    assert third == Look(place="A.1-A.2", method="hand", found=False, pressure=30.0, line=11)
    assert fourth == Look(place="A.1-A.2", method="infrared", found=True, line=12)
    assert fifth == Mend(place="R1.1-R2.1", line=13)
    assert isinstance(last, FanTest)
    assert (last.low, last.high) == pytest.approx((0.225, 0.275))
    assert records.notes == ("Test T2: limits of ±10 % assumed.",)


@pytest.mark.parametrize(
    ("line", "told", "remedy"),
    [
        ("  - {look: R1.1-R2.2, saw: 2}", "no place ‘R1.1-R2.2’", "did you mean ‘R1."),
        ("  - {mend: hip}", "no place ‘hip’", "known here"),
        ("  - {look: A.1-A.2}", "what was seen is missing", "saw: nothing"),
        ("  - {look: A.1-A.2, saw: 7}", "‘7’ says not what was seen", "whisper"),
        ("  - {look: A.1-A.2, saw: 1, flow: 3 cfm}", "‘flow’ does not belong", "leave it out"),
        ("  - {look: A.1-A.2, by: dog, saw: 1}", "‘dog’ is not a known word", "smoke"),
        ("  - {look: A.1-A.2, mend: A.1-A.2}", "look and mend", "one of test:"),
        ("  - {day: 2026-01-01}", "no test, look or mend", "one of test:"),
        ("  - {test: T1}", "without its flow", "flow: 640 m3/h"),
        ("  - {test: T1, flow: 640}", "cannot be read as a flow", "375 cfm"),
        ("  - {test: T1, flow: 640 parsecs}", "‘parsecs’ is not a unit", "375 cfm"),
        ("  - {test: T1, flow: 640 m3/s}", "no house's leakage", "check the unit"),
        (
            "  - {test: T1, flow: 640 m3/h, low: 700 m3/h, high: 800 m3/h}",
            "outside its own limits",
            "units",
        ),
        ("  - {test: T1, flow: 9 cfm, masked: [B.1]}", "no place ‘B.1’", "known here"),
        ("  - {mend: A.1-A.2, day: soon}", "‘soon’ is not a date", "2026"),
        ("  - {mended: A.1-A.2}", "unknown word ‘mended’", "did you mean ‘mend’?"),
    ],
)
def test_every_slip_is_told_with_its_line(line: str, told: str, remedy: str) -> None:
    """What is wrong, where, and what to do."""
    with pytest.raises(InputError) as caught:
        read_records(f"house: cabin\nlog:\n{line}\n", PLACES)
    (problem,) = caught.value.problems
    assert told in problem.sentence
    assert remedy in problem.remedy
    assert problem.line == 3


def test_all_slips_come_in_one_go() -> None:
    """Two wrong places and a test named twice are three problems, in the order of the file."""
    text = """
seals:
  - {at: attic, sealed: yes}
log:
  - {test: T1, flow: 900 m3/h}
  - {test: T1, flow: 900 m3/h}
  - {mend: nowhere}
"""
    with pytest.raises(InputError) as caught:
        read_records(text, PLACES)
    assert [problem.line for problem in caught.value.problems] == [3, 6, 7]


@pytest.mark.parametrize("text", ["", "- a\n- b\n", b"\x00\xff\x00", "seals: {\n"])
def test_what_is_no_records_file_is_told(text: str | bytes) -> None:
    """Nothing, a list, binary junk and broken YAML are refused in a sentence."""
    with pytest.raises((FormatError, InputError)) as caught:
        read_records(text, PLACES)
    assert caught.value.problems[0].remedy


def test_a_test_may_point_to_its_readings(tmp_path) -> None:
    """Flow and 95 % limits of a test come from the file of readings beside the records."""
    text = builtin_fan_test("heron_house_fan_test")
    (tmp_path / "first.csv").write_text(text, encoding="utf-8")
    path = tmp_path / "records.yaml"
    path.write_text("log:\n  - {test: T1, readings: first.csv}\n", encoding="utf-8")
    (test,) = read_records(path, PLACES).diary
    read = read_fan_test(text)
    result = analyze_fan_test(
        read.series, read.conditions, read.envelope, devices=read.devices, accuracy=read.accuracy
    )
    assert isinstance(test, FanTest)
    assert (test.low, test.flow, test.high) == pytest.approx(
        (result.flow_50.low, result.flow_50.value, result.flow_50.high), rel=1e-9
    )


def test_faults_of_the_readings_are_told(tmp_path) -> None:
    """A file that is not there, rows that cannot be, and a flow beside the readings are told."""
    path = tmp_path / "records.yaml"
    path.write_text("log:\n  - {test: T1, readings: none.csv}\n", encoding="utf-8")
    with pytest.raises(SeamwrightError, match=r"none\.csv"):
        read_records(path, PLACES)
    path.write_text("log:\n  - {test: T1, readings: a.csv, flow: 9 cfm}\n", encoding="utf-8")
    with pytest.raises(InputError, match="from them"):
        read_records(path, PLACES)


def test_crews_say_what_they_made_and_how() -> None:
    """A crew's places carry its name, its way of working is kept, later seal records go over it."""
    text = """\
crews:
  - {name: north, work: careful, made: [wall spline]}
  - {name: south, made: R1.1-R2.1}
seals:
  - {at: A.1-A.2, crew: south}
"""
    records = read_records(text, PLACES)
    assert records.crews == {"north": "careful"}
    made = records.made_by
    assert made["R1.1-R2.1"] == made["A.1-A.2"] == "south"
    splines = [p.id for p in PLACES if p.kind == "wall_spline" and p.id != "A.1-A.2"]
    assert {made[i] for i in splines} <= {"north"}


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("  - {name: north}", "there is a crew north before"),
        ("  - {name: south, made: wall spline}", "was made by north above"),
        ("  - {name: south, work: splendid}", "splendid"),
        ("  - {name: south, made: Q.9}", "no place ‘Q.9’"),
        ("  - {work: careful}", "name"),
    ],
)
def test_wrong_crews_are_told_with_their_line(line: str, told: str) -> None:
    """A crew written twice, a place of two crews, unknown words and places: line and sentence."""
    with pytest.raises(InputError) as caught:
        read_records(f"crews:\n  - {{name: north, made: wall spline}}\n{line}\n", PLACES)
    assert caught.value.problems[0].line == 3
    assert told in str(caught.value.problems[0])
