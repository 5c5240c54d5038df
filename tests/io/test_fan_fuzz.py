"""Nothing that can be in a file makes the fan-test reader do anything but read or refuse it."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

import seamwright
from seamwright.errors import InputError, SeamwrightError
from seamwright.io.fan_readings import read_fan_test
from seamwright.leakage.fan import analyze_fan_test

TEXT = (
    Path(seamwright.__file__).parent / "data" / "examples" / "heron_house_fan_test.csv"
).read_text(encoding="utf-8")


def read_or_refuse(content: str | bytes) -> None:
    """Read and analyze a file; sentences are the only other way out."""
    found, problems = None, ()
    try:
        found = read_fan_test(content, name="fuzz.csv")
    except InputError as error:
        problems = error.problems
    assert (found is None) == bool(problems)
    assert all(problem.sentence and "\n" not in str(problem) for problem in problems)
    if found is not None:
        assert all(one.readings for one in found.series)
        with suppress(SeamwrightError):
            result = analyze_fan_test(found.series, found.conditions, found.envelope)
            assert 0.0 < result.flow_50.low <= result.flow_50.value <= result.flow_50.high


@settings(derandomize=True, max_examples=150, deadline=None)
@given(st.binary(max_size=300))
def test_any_bytes(content: bytes) -> None:
    """Random bytes are refused in sentences."""
    read_or_refuse(content)


@settings(derandomize=True, max_examples=300, deadline=None)
@given(st.data())
def test_any_damage_to_a_right_file(data: st.DataObject) -> None:
    """A right file with pieces cut, doubled or replaced is read or refused."""
    text = TEXT
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(text)))
        end = min(len(text), at + data.draw(st.integers(0, 30)))
        piece = data.draw(
            st.one_of(
                st.text(max_size=8),
                st.sampled_from(
                    [",", ";;", "\t", "[", "]", "(", "nan", "inf", "-1e999", "1e5", "\n", "0", "-",
                     "−5", "depressurize", "baseline after", "flow [cfm]", "pressure [Pa]", '"']
                ),
            )
        )  # fmt: skip
        text = text[:at] + piece + text[end:]
    read_or_refuse(text + "\n")


@settings(derandomize=True, max_examples=100, deadline=None)
@given(st.lists(st.text(max_size=40), max_size=8))
def test_any_lines_before_a_table(lines: list[str]) -> None:
    """Whatever stands above the table, nothing breaks."""
    at = TEXT.index("direction, phase")
    read_or_refuse("\n".join(lines) + "\n" + TEXT[at:])
