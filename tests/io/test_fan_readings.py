"""Fan-test files: what is read, and how each slip is told."""

from __future__ import annotations

from pathlib import Path

import pytest

import seamwright
from seamwright.errors import InputError
from seamwright.io.fan_file import COLUMNS, FACTS, TEXTS
from seamwright.io.fan_readings import FanFile, read_fan_test

EXAMPLE = Path(seamwright.__file__).parent / "data" / "examples" / "heron_house_fan_test.csv"
HEAD = """\
indoor temperature [F], 68
outdoor temperature [F], 50
elevation [ft], 100
volume [ft3], 12000
"""
TABLE = """\
direction, phase, pressure [Pa], flow [cfm], range
depressurize, baseline before, -1.0
depressurize, reading, -11, 200, low
depressurize, reading, -21, 310, low
depressurize, reading, -31, 395, high
depressurize, reading, -41, 470, high
depressurize, reading, -51, 540, high
depressurize, baseline after, -1.2
"""
CFM = 0.3048**3 / 60


def told(text: str) -> list[tuple[int | None, str]]:
    """Return line and sentence with remedy of every problem in a text."""
    with pytest.raises(InputError) as caught:
        read_fan_test(text)
    return [(p.line, f"{p.sentence}; {p.remedy}") for p in caught.value.problems]


def changed(old: str, new: str) -> str:
    """Return the sample file with one thing replaced."""
    whole = HEAD + TABLE
    assert old in whole
    return whole.replace(old, new)


def test_the_example_is_read_in_full() -> None:
    """The built-in example gives both directions, baselines, ranges, weather and house in SI."""
    found = read_fan_test(EXAMPLE)
    assert [one.direction for one in found.series] == ["depressurize", "pressurize"]
    assert [len(one.readings) for one in found.series] == [8, 8]
    assert found.series[0].baseline_before == (-1.4,)
    assert found.series[1].baseline_after == (-1.0,)
    assert found.series[0].readings[0].flow == pytest.approx(202 * CFM)
    assert found.series[0].readings[0].device == "low"
    assert found.conditions.indoor_temperature == pytest.approx((66 - 32) / 1.8)
    assert found.conditions.wind_speed == pytest.approx(5 * 0.44704)
    assert found.envelope.volume == pytest.approx(17817 * 0.3048**3)
    assert found.envelope.rule == "inside the inner faces of the panels"
    assert found.accuracy.flow == 0.04
    assert [d.name for d in found.devices] == ["high", "low"]
    assert found.texts["house"] == "Heron House"


@pytest.mark.parametrize(
    ("header", "factor"),
    [
        ("pressure [Pa], flow [l/s]", 1e-3),
        ("pressure [Pa], flow [m3/h]", 1 / 3600),
        ("pressure [Pa], flow (m³/h)", 1 / 3600),
        ("pressure [Pa], flow [L/s]", 1e-3),
    ],
)
def test_units_stand_in_the_header(header: str, factor: float) -> None:
    """The same column in another unit is another flow."""
    found = read_fan_test(changed("pressure [Pa], flow [cfm]", header))
    assert found.series[0].readings[0].flow == pytest.approx(200 * factor)


def test_inches_of_water_are_read() -> None:
    """A gauge in inches of water gives pascals."""
    text = HEAD + "pressure [in H2O], flow [cfm]\n-0.04, 200\n-0.12, 410\n-0.2, 540\n"
    found = read_fan_test(text)
    assert found.series[0].readings[2].pressure == pytest.approx(-49.82, abs=0.01)
    assert found.series[0].direction == "depressurize"
    assert "Directions taken from the sign of the pressures." in found.notes


@pytest.mark.parametrize("delimiter", [";", "\t", "|", "^", "~", ":", "   "])
def test_any_delimiter_serves(delimiter: str) -> None:
    """Semicolons, tabs, bars, carets, tildes, colons and columns of blanks part cells as commas do,
    and leave the comma to decimals.
    """
    text = (HEAD + TABLE).replace(",", delimiter).replace("-1.2", "-1,2")
    found = read_fan_test(text)
    assert found == read_fan_test(HEAD + TABLE)


def test_files_as_spreadsheets_save_them_are_read() -> None:
    """A byte order mark, carriage returns, quoted cells and empty columns change nothing."""
    plain = HEAD + TABLE
    saved = plain.replace("\n", ",,\r\n").replace("elevation [ft], 100", '"elevation [ft]","100"')
    assert read_fan_test(saved.encode("utf-8-sig")) == read_fan_test(plain)
    assert read_fan_test(plain.encode("utf-16")) == read_fan_test(plain)


def test_phases_may_be_left_out() -> None:
    """A row without flow is a baseline, before or after by where it stands."""
    rows = "pressure [Pa], flow [cfm]\n-1.0,\n-11,200\n-31,395\n-51,540\n-1.2,\n"
    one = read_fan_test(HEAD + "direction, depressurize\n" + rows).series[0]
    assert (one.baseline_before, one.baseline_after) == ((-1.0,), (-1.2,))
    assert len(one.readings) == 3


def test_what_is_assumed_is_said() -> None:
    """No elevation and no humidity: sea level and 50 % are taken, and a note says so."""
    found = read_fan_test(changed("elevation [ft], 100\n", ""))
    assert found.conditions.barometric_pressure == pytest.approx(101325)
    assert "sea level taken" in found.notes[0]
    assert "50 % taken" in found.notes[1]


@pytest.mark.parametrize(
    ("old", "new", "line", "part"),
    [
        ("flow [cfm]", "flwo [cfm], flow [cfm]", 5, "did you mean ‘flow’"),
        ("elevation [ft], 100", "elevaton [ft], 100", 3, "did you mean ‘elevation’"),
        ("flow [cfm]", "flow", 5, "flow has no unit; write it in the name: flow [cfm]"),
        ("flow [cfm]", "flow [gallons]", 5, "is no unit of it; use cfm, l/s, m3/h or m3/s"),
        ("temperature [F], 68", "temperature [C], 68", 1, "write indoor temperature [F]"),
        ("-21, 310", "-21, 3l0", 8, "flow ‘3l0’ is not a number"),
        ("-21, 310", "x, 310", 8, "pressure ‘x’ is not a number"),
        ("-21, 310", "-2100, 310", 8, "beyond ±500 Pa"),
        ("-21, 310", "-21, 0", 8, "flow 0 cfm is not above zero"),
        ("-21, 310", "-21, -310", 8, "is not above zero"),
        ("-21, 310", "21, 310", 8, "pressure 21 Pa has the wrong sign for depressurize"),
        ("-21, 310", "-11, 200", 8, "stands there twice, first in line 7"),
        ("-21, 310, low", "-21", 8, "the reading has no flow"),
        ("-21, 310, low", "-21, 310, low, fine, day", 8, "more cells than the table has columns"),
        ("depressurize, reading, -21", "sideways, reading, -21", 8, "‘sideways’ is no direction"),
        ("depressurize, reading, -21", "depressurize, guess, -21", 8, "‘guess’ is no phase"),
        ("volume [ft3], 12000", "volume [ft3], 12", 4, "not possible at a house"),
        ("volume [ft3], 12000", "volume [ft3], big", 4, "volume: ‘big’ is not a number"),
        ("elevation [ft], 100", "volume [m3], 340", 4, "volume is given again, first in line 3"),
        ("elevation [ft], 100", "device range A [cfm], 9", 3, "write it as: device range A"),
        ("indoor temperature [F], 68\n", "", None, "does not say the indoor temperature"),
        ("baseline after, -1.2", "baseline after, -1.2, 50", 12, "read with the fan off"),
    ],
)
def test_each_slip_is_told_with_its_line(old: str, new: str, line: int | None, part: str) -> None:
    """One wrong thing gives a sentence with its line and what to do."""
    problems = told(changed(old, new))
    assert any(at == line and part in sentence for at, sentence in problems), problems


def test_a_direction_with_all_signs_wrong_is_told_once() -> None:
    """Pressures written without their minus give one sentence, not one a row."""
    problems = told((HEAD + TABLE).replace("reading, -", "reading, "))
    assert len(problems) == 1
    assert "all pressures of depressurize have the wrong sign" in problems[0][1]


@pytest.mark.parametrize(
    ("old", "new", "part"),
    [
        ("flow [cfm]", "flow [m3/s]", "likely in cfm"),
        ("volume [ft3], 12000", "volume [m3], 12000\nflow uncertainty [%], 5", "check the unit"),
        ("pressure [Pa]", "pressure [kPa]", "beyond ±500 Pa"),
    ],
)
def test_a_column_in_the_wrong_unit_is_told(old: str, new: str, part: str) -> None:
    """Flows or pressures far from anything a house shows name the unit that would fit."""
    text = changed(old, new)
    if "12000\nflow" in new:
        text = text.replace(" 200,", " 2,").replace(" 310,", " 3,").replace(" 395,", " 4,")
        text = text.replace(" 470,", " 5,").replace(" 540,", " 6,")
    assert any(part in sentence for _, sentence in told(text))


def test_inches_written_as_pascals_are_told() -> None:
    """Readings that never pass 0.2 Pa are taken for inches of water."""
    rows = "pressure [Pa], flow [cfm]\n-0.04, 200\n-0.12, 410\n-0.2, 540\n"
    assert any("pressure [in H2O]" in sentence for _, sentence in told(HEAD + rows))


def test_several_problems_come_in_one_go_and_in_order() -> None:
    """Every problem of a file is told, sorted by line."""
    text = changed("-21, 310", "-21, x").replace("-31, 395", "y, 395").replace("68", "900")
    lines = [line for line, _ in told(text)]
    assert lines == [1, 8, 9]


@pytest.mark.parametrize(
    ("content", "part"),
    [
        (b"", "is empty"),
        (b"\n\n# only a remark\n", "is empty"),
        (b"\x00\x01\x02\xff" * 50, "not text"),
        (b"hello\nworld\n", "no table with a pressure and a flow column"),
        (b"pressure [Pa], flow [cfm]\n", "does not say the indoor temperature"),
        (b"a,b\n" * 30_000, "30000 lines"),
        (b"x" * 3_000_000, "one test is a few lines"),
    ],
)
def test_files_that_hold_no_test_are_refused(content: bytes, part: str) -> None:
    """Empty, binary, foreign and huge files give a sentence."""
    with pytest.raises(InputError) as caught:
        read_fan_test(content, name="test.csv")
    assert part in str(caught.value)


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    """A path that leads nowhere is told by its name."""
    with pytest.raises(InputError, match=r"gone\.csv: there is no file"):
        read_fan_test(tmp_path / "gone.csv")


def test_a_range_without_its_limits_is_noted() -> None:
    """Readings on a range that the file does not describe are read, and a note says so."""
    found: FanFile = read_fan_test(HEAD + TABLE)
    assert any("No device range is given for ‘low’" in note for note in found.notes)


def test_the_docs_name_every_fact_column_and_unit() -> None:
    """The page for the tester lists all that the reader knows, and its example is read."""
    page = (Path(__file__).parents[2] / "docs" / "fan.md").read_text(encoding="utf-8")
    rows = [line for line in page.splitlines() if line.startswith("| ")]
    told = " ".join(row.split("|")[1] for row in rows)
    short = {"flow uncertainty", "volume uncertainty"}
    assert [name for name in (*FACTS, *TEXTS) if name not in told and name not in short] == []
    assert "flow, volume, area uncertainty" in told
    assert [name for name in COLUMNS if f"`{name}`" not in told] == []
    example = next(part for part in page.split("```") if part.startswith("\nhouse, "))
    assert len(read_fan_test(example.replace("...\n", "")).series[0].readings) == 2


def test_columns_that_changed_places_are_told() -> None:
    """Pressures under the name of flows and the other way round are told, not fitted."""
    rows = "flow [cfm], pressure [Pa]\n-11, 200\n-21, 310\n-31, 395\n-41, 470\n"
    assert all("the two columns have changed places" in words for _, words in told(HEAD + rows))
    blown = rows.replace("-", "")
    ((_, words),) = told(HEAD + blown)
    assert "grows faster than the pressure" in words
    assert "changed places" in words
