"""From the word PLAN to a plan."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
from tests.cli.conftest import CABIN

from seamwright.cli.source import read_source, shelf
from seamwright.errors import InputError
from seamwright.io.plan import builtin_house_names

LIST = """\
id,type,role,x [m],y [m],z [m],along,up,length [m],height [m]
A.1,wall6,wall,0,0,0,1 0 0,0 0 1,1.2,2.4
A.2,wall6,wall,1.203,0,0,1 0 0,0 0 1,1.2,2.4
"""
TYPES = """\
site: {name: Listed}
panel_types:
  - {id: wall6, thickness: 6-1/2", skins: 7/16"}
"""

BROKEN = {
    "empty.yaml": b"",
    "blank.yaml": b"  \n\n",
    "junk.yaml": bytes(range(256)) * 20,
    "zeros.yaml": b"\0" * 4096,
    "word.yaml": b"house",
    "list.yaml": b"- a\n- b\n",
    "open.yaml": b"site: {name: x\n",
    "tab.yaml": b"site:\n\tname: x\n",
    "twice.yaml": b"site: {name: a}\nsite: {name: b}\n",
    "anchor.yaml": b"a: &a [*a]\n",
    "tag.yaml": b"!!python/object/apply:os.system ['true']\n",
    "unknown.yaml": CABIN.replace("storeys:", "stories:").encode(),
    "text-length.yaml": CABIN.replace("height: 8'", "height: eight feet").encode(),
    "no-roof-type.yaml": CABIN.replace("panel_type: roof10}", "panel_type: roof11}").encode(),
    "crossed.yaml": CABIN.replace(
        "rectangle: [[0, 0], [16', 12']]", "corners: [[0, 0], [16', 12'], [16', 0], [0, 12']]"
    ).encode(),
    "outside.yaml": CABIN.replace("along: 2'", "along: 15'").encode(),
    "latin.yaml": "site: {name: Häuschen}\n".encode("latin-1"),
    "empty.csv": b"",
    "junk.csv": bytes(range(256)) * 20,
    "empty.ifc": b"",
    "junk.ifc": bytes(range(256)) * 20,
    "text.ifc": b"this is not a model\n",
    "plan.txt": CABIN.encode(),
    "noending": CABIN.encode(),
}


@pytest.mark.parametrize("command", ["check", "seals"])
@pytest.mark.parametrize("name", BROKEN)
def test_broken_input_is_told_in_sentences(command, name, run, tmp_path) -> None:
    """Whatever is wrong with a file: status 2, sentences on standard error, nothing on output."""
    path = tmp_path / name
    path.write_bytes(BROKEN[name])
    result = run(command, path)
    assert result.exit_code == 2
    assert result.stdout == ""
    lines = result.stderr.splitlines()
    assert lines
    assert all(name.split(".")[0] in line for line in lines)
    assert not any("Traceback" in line for line in lines)
    assert all(line.isprintable() for line in lines)


def test_several_problems_come_in_one_go(run, tmp_path) -> None:
    """Two mistakes in one file are two sentences, each with its line and a remedy."""
    path = tmp_path / "two.yaml"
    text = CABIN.replace("kind: slab", "kind: slap").replace("height: 8'", "height: eight")
    path.write_text(text, encoding="utf-8")
    result = run("check", path)
    assert result.exit_code == 2
    lines = result.stderr.splitlines()
    assert len(lines) == 2
    assert all(line.startswith(f"{path}:") and ";" in line for line in lines)
    assert "slab" in lines[0]


def test_problems_found_by_the_core_point_into_the_file(run, tmp_path) -> None:
    """An opening past the end of its wall is told with the line it stands on."""
    path = tmp_path / "outside.yaml"
    path.write_bytes(BROKEN["outside.yaml"])
    result = run("check", path)
    line = CABIN.splitlines().index(next(t for t in CABIN.splitlines() if "D1" in t)) + 1
    assert f"{path}:{line}" in result.stderr
    assert "D1" in result.stderr


def test_a_folder_is_no_plan(run, tmp_path) -> None:
    """A folder is refused by name."""
    result = run("check", tmp_path)
    assert result.exit_code == 2
    assert "is a folder" in result.stderr
    assert "no file or built-in house" in run("check", "").stderr


def test_a_missing_file_and_a_mistyped_house_get_different_advice(run, tmp_path) -> None:
    """A path that leads nowhere lists the built-in houses; a near word names the near house."""
    missing = run("check", tmp_path / "gone.yaml")
    assert missing.exit_code == 2
    assert builtin_house_names()[0] in missing.stderr
    near = run("check", builtin_house_names()[0][:-1])
    assert near.exit_code == 2
    assert f"did you mean ‘{builtin_house_names()[0]}" in near.stderr


def test_a_file_that_may_not_be_read_is_told(run, cabin, monkeypatch) -> None:
    """A file without permission is a sentence, not a traceback."""

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied", str(cabin))

    monkeypatch.setattr("seamwright.cli.source.read_plan", refuse)
    result = run("check", cabin)
    assert result.exit_code == 2
    assert result.stderr.startswith(f"cannot use {cabin}: permission denied")


def test_a_panel_list_needs_panel_types(tmp_path) -> None:
    """A list alone is refused with the two ways to go on."""
    path = tmp_path / "panels.csv"
    path.write_text(LIST, encoding="utf-8")
    with pytest.raises(InputError, match="--types"):
        read_source(str(path))


def test_a_panel_list_with_types_is_a_plan(tmp_path) -> None:
    """The list brings the panels, the other file what they are made of."""
    path, types = tmp_path / "panels.csv", tmp_path / "types.yaml"
    path.write_text(LIST, encoding="utf-8")
    types.write_text(TYPES, encoding="utf-8")
    plan = read_source(str(path), types=types).plan
    assert [panel.id for panel in plan.panels] == ["A.1", "A.2"]
    assert [kind.id for kind in plan.panel_types] == ["wall6"]
    assert plan.site.name == "Listed"


def test_a_panel_list_goes_through_the_whole_work(run, tmp_path) -> None:
    """Sixty listed panels in a row come out with a seam between each two, sealed and ordered."""
    header, *_ = LIST.splitlines()
    rows = [f"W.{n},wall6,wall,{1.203 * n:.3f},0,0,1 0 0,0 0 1,1.2,2.4" for n in range(60)]
    path, types = tmp_path / "panels.csv", tmp_path / "types.yaml"
    path.write_text("\n".join([header, *rows]), encoding="utf-8")
    types.write_text(TYPES, encoding="utf-8")
    joints = json.loads(run("joints", path, "--types", types, "--json").stdout)["joints"]
    assert [j["kind"] for j in joints].count("wall_spline") == 59
    order = run("order", path, "--types", types)
    assert order.exit_code == 1
    assert "strip" in order.stdout


def test_a_wrong_cell_of_a_list_is_told_with_its_line(run, tmp_path) -> None:
    """Problems of the list point into the list, not into the plan beside it."""
    path, types = tmp_path / "panels.csv", tmp_path / "types.yaml"
    path.write_text(LIST.replace("1.203", "wide"), encoding="utf-8")
    types.write_text(TYPES, encoding="utf-8")
    result = run("check", path, "--types", types)
    assert result.exit_code == 2
    assert "panels.csv:3" in result.stderr


def test_a_missing_catalog_is_told(run, cabin, tmp_path) -> None:
    """A catalog that is not there is status 2 and named."""
    result = run("seals", cabin, "--catalog", tmp_path / "gone.yaml")
    assert result.exit_code == 2
    assert "gone.yaml" in result.stderr


def test_a_model_without_the_optional_part_says_how_to_install_it(tmp_path) -> None:
    """Where the package for models is missing, the sentence says how to get it."""
    path = tmp_path / "model.ifc"
    path.write_text("ISO-10303-21;\n", encoding="utf-8")
    code = (
        "import sys; sys.modules['ifcopenshell'] = None\n"
        f"sys.argv = ['seamwright', 'check', {str(path)!r}]\n"
        "from seamwright.cli import main; main()"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert "pip install" in done.stderr
    assert "Traceback" not in done.stderr


def test_types_do_not_go_with_a_plan(cabin) -> None:
    """A plan brings its own panel types; giving others beside it is refused."""
    with pytest.raises(InputError, match="brings its own"):
        read_source(str(cabin), types=cabin)


def test_every_built_in_house_is_a_plan() -> None:
    """Each built-in house reads by its name."""
    for name in builtin_house_names():
        assert read_source(name).plan.panel_types


def test_a_file_wins_over_a_house_of_the_same_name(tmp_path, monkeypatch) -> None:
    """A file in this folder is taken before a built-in house."""
    monkeypatch.chdir(tmp_path)
    name = builtin_house_names()[0]
    Path(name).write_text(CABIN, encoding="utf-8")
    with pytest.raises(InputError, match="has no ending"):
        read_source(name)


def test_the_catalog_given_wins(tmp_path, cabin) -> None:
    """The catalog on the command line is taken before the default one."""
    path = tmp_path / "shelf.yaml"
    path.write_text("reserve: {strip: 0.2}\n", encoding="utf-8")
    source = read_source(str(cabin))
    assert shelf(source, path).reserve_strip == pytest.approx(0.2)
    assert shelf(source, None).reserve_strip != pytest.approx(0.2)
