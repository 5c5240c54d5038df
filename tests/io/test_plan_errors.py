"""A bad plan ends in sentences with a line and a remedy, several in one go."""

from __future__ import annotations

from pathlib import Path

import pytest

from seamwright.errors import FormatError, InputError, Problem
from seamwright.io.plan import builtin_house, read_plan
from seamwright.io.yaml_text import LARGEST_FILE

GOOD = """
site: {name: Test}
panel_types:
  - {id: wall, core: 140 mm}
base: {kind: slab}
storeys:
  - {id: one, height: 8', panel_type: wall}
footprints:
  - {id: box, rectangle: [[0, 0], [24', 16']]}
roof:
  - {id: top, kind: gable, over: box, eaves: [south, north], pitch: 8/12, panel_type: wall}
openings:
  - {id: W1, kind: window, in: A, along: 3', up: 3', width: 4', height: 4'}
"""


def problems(text: str | bytes | Path, kind: type[InputError] = InputError) -> list[Problem]:
    """Return what is wrong with a plan."""
    with pytest.raises(kind) as caught:
        read_plan(text, name="plan.yaml")
    return list(caught.value.problems)


def test_the_good_plan_is_good() -> None:
    """The plan that the cases below spoil is sound itself."""
    assert read_plan(GOOD).plan.openings[0].id == "W1"


@pytest.mark.parametrize(
    ("old", "new", "sentence", "remedy"),
    [
        ("kind: slab", "kind: slob", "base, kind: ‘slob’ is not a known word", "‘slab’"),
        ("storeys:", "storys:", "unknown word ‘storys’", "‘storeys’"),
        ("pitch: 8/12", "ptich: 8/12", "roof part top: unknown word ‘ptich’", "‘pitch’"),
        ("pitch: 8/12", "pitch: 35", "‘35’ is a bare number", "8/12"),
        ("height: 8'", "height: 8", "storey one, height: ‘8’ has no unit", "7500 mm"),
        ("height: 8'", "height: -8'", "‘-8'’ is not more than zero", "as built"),
        ("height: 8'", "height: 8000 m", "‘8000 m’ is more than 1000 m", "check the unit"),
        ("height: 8'", "height: [8']", "a list stands where a length", "write a length"),
        ("height: 8', ", "", "storey one: ‘height’ is missing", "add height"),
        ("width: 4'", "width: 0", "opening W1, width: ‘0’ is not more than zero", "as built"),
        ("along: 3'", "along: -3'", "opening W1, along: ‘-3'’ is negative", "zero or more"),
        ("in: A", "in: E", "there is no wall, roof plane, floor or panel ‘E’", "known here: A"),
        ("panel_type: wall}\nf", "panel_type: wal}\nf", "no panel type ‘wal’", "‘wall’"),
        ("over: box", "over: bax", "there is no footprint ‘bax’", "‘box’"),
        ("eaves: [south, north]", "eaves: [south, east]", "not opposite", "correct eaves"),
        ("eaves: [south, north]", "eaves: [south]", "has 2 eaves, not 1", "correct eaves"),
        ("eaves: [south, north], ", "", "does not say on which sides", "add eaves"),
        ("kind: gable", "kind: gambrel", "a gambrel roof has two pitches", "second_pitch"),
        ("core: 140 mm", 'skins: 3"', "neither core nor thickness", "add core"),
        ("core: 140 mm", 'core: 140 mm, thickness: 6"', "do not add up", "drop thickness"),
        ("core: 140 mm", 'thickness: 1/2"', "skins alone are as thick", "check thickness"),
        ("id: W1", "id: W 1", "‘W 1’ cannot serve as an id", "as in W3"),
        ("site: {name: Test}", "site: Test", "‘Test’ stands here", "a group of words"),
        ("[24', 16']", "[24']", "a value is missing", "each axis"),
        ("base: {kind: slab}\n", "", "footprints but no base", "add base"),
    ],
)
def test_each_mistake_has_its_sentence(old: str, new: str, sentence: str, remedy: str) -> None:
    """One mistake gives a sentence about it, at its line, with a way out."""
    assert old in GOOD
    found = problems(GOOD.replace(old, new, 1))
    assert any(sentence in problem.sentence for problem in found), found
    about = next(problem for problem in found if sentence in problem.sentence)
    assert remedy in about.remedy
    assert about.file == "plan.yaml"
    at = GOOD[: GOOD.index(old)].count("\n") + 1
    missing = "missing" in sentence or "no base" in sentence
    assert about.line is not None
    assert missing or abs(about.line - at) <= 1


def test_several_mistakes_come_in_one_go_in_file_order() -> None:
    """Three mistakes give three problems, by line."""
    text = GOOD.replace("slab", "slob").replace("8/12", "steep").replace("width: 4'", "width: 4")
    found = problems(text)
    assert len(found) == 3
    assert [p.line for p in found] == sorted(p.line or 0 for p in found)


def test_an_id_used_twice_is_told_with_its_line() -> None:
    """Openings and services share one set of names, because joints are named after them."""
    text = (
        GOOD + "penetrations:\n  - {id: W1, kind: pipe, in: B, along: 1', up: 1', diameter: 4\"}\n"
    )
    (found,) = problems(text)
    assert "the id ‘W1’ is used before, by another opening" in found.sentence
    assert found.line == text.count("\n")


def test_a_crossing_footprint_names_its_sides() -> None:
    """A self-crossing outline says which two sides cross."""
    text = GOOD.replace("rectangle: [[0, 0], [24', 16']]", "corners: [[0,0],[9',9'],[9',0],[0,9']]")
    assert "side 1 (corners 1 to 2) crosses" in problems(text)[0].sentence


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "the plan file is empty"),
        ("\n\n# only a comment\n", "the plan file is empty"),
        ("- a\n- b\n", "a list or a single word"),
        ("just words\n", "a list or a single word"),
        (b"\x89PNG\r\n\x1a\n\x00\x00", "is not text"),
        (b"site: {name: a\x00b}\n", "is not text"),
        (b"\xff" * 400, "is not text"),
        ("site: {name: x\nbase: 1\n", "not YAML here"),
        ("site: 'open\n", "not YAML here"),
        ("a: 1\na: 2\n", "‘a’ is given twice"),
        ("a: &x [*x]\n", "without end"),
        ("[" * 5000 + "\n", "too deeply"),
        ("? [1]\n: 2\n", "stands where a word belongs"),
    ],
)
def test_a_file_that_is_no_plan_is_one_sentence(text: str | bytes, sentence: str) -> None:
    """Empty, binary, broken and hostile files are refused in one sentence."""
    found = problems(text)
    assert sentence in found[0].sentence
    assert found[0].remedy


def test_a_file_that_multiplies_itself_is_refused() -> None:
    """Aliases that unfold into millions of values stop early."""
    lines = ["a: &a [x, x, x, x, x, x, x, x, x]"]
    for before, name in zip("abcdefgh", "bcdefghi", strict=True):
        lines.append(f"{name}: &{name} [{', '.join([f'*{before}'] * 9)}]")
    (found,) = problems("\n".join(lines), FormatError)
    assert "repeats or nests without end" in found.sentence


def test_a_huge_file_is_refused_unread(tmp_path: Path) -> None:
    """A file past the limit is refused by its size alone, and the limit is told."""
    path = tmp_path / "huge.yaml"
    with path.open("wb") as file:
        file.truncate(50_000_000)
    (found,) = problems(path, FormatError)
    assert "50.0 MB, more than the 2 MB" in found.sentence
    assert LARGEST_FILE == 2_000_000


def test_a_missing_file_and_a_folder_are_told(tmp_path: Path) -> None:
    """A path that leads nowhere, or to a folder, is one sentence."""
    assert "there is no file" in problems(tmp_path / "none.yaml", FormatError)[0].sentence
    assert "is a folder" in problems(tmp_path, FormatError)[0].sentence


def test_contradictory_units_are_told() -> None:
    """A unit word that is none is told, and its bare numbers are not guessed."""
    found = problems("units: yards\n" + GOOD.lstrip())
    assert "units: ‘yards’ is not a known word" in found[0].sentence


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ("height: 8'", "height: 8 mm", "storey one, height: 0.008 m cannot be the height"),
        ("height: 8'", "height: 80 m", "storey one, height: 80 m cannot be the height"),
        ("core: 140 mm", 'core: 140"', "panel type wall: 3.578 m cannot be the thickness"),
        ("[24', 16']", "[24', 16 mm]", "footprint box: 0.016 m cannot be the side"),
        (
            "core: 140 mm",
            "core: 140 mm, max_width: 4 mm, max_length: 8 mm",
            "0.004 m cannot be the largest panel",
        ),
    ],
)
def test_a_slip_of_units_is_told(old: str, new: str, sentence: str) -> None:
    """A size no house has is taken for a slip of units, and said to be one."""
    found = problems(GOOD.replace(old, new, 1))
    assert any(sentence in problem.sentence for problem in found), found
    assert all("check the unit" in p.remedy for p in found if sentence in p.sentence)


def test_decisions_that_contradict_each_other_are_told() -> None:
    """One joint kind signed for two faces is a question for the designer, not for the tool."""
    signed = "{signed_by: A. Nobody, role: designer, date: 2026-03-14"
    text = f"""{GOOD}decisions:
  - {signed}, face: inner}}
  - {signed}, face: both, kinds: [ridge]}}
  - {signed}, face: outer, kinds: [sill, ridge]}}
"""
    (found,) = problems(text)
    assert "ridge, signed by A. Nobody for both, is signed here for outer" in found.sentence
    assert found.line == text.count("\n")


def test_no_more_than_forty_problems_are_shown() -> None:
    """A flood of mistakes is cut off with a count."""
    lines = "".join(f"  - {{id: X{i}, kind: hole}}\n" for i in range(50))
    found = problems(builtin_house("first_house").replace("openings:\n", "openings:\n" + lines))
    assert len(found) == 41
    assert "more problems are not shown" in found[-1].sentence
