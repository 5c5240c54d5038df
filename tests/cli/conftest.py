"""Plans and a way to run the command line."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from seamwright.cli.main import app

CABIN = """\
site: {name: "Test cabin [b]#1", climate_zone: 5B, zone_edition: IECC 2021}
panel_types:
  - {id: wall6, thickness: 6-1/2", skins: 7/16", max_width: 4', max_length: 24'}
  - {id: roof10, thickness: 10-1/4", skins: 7/16", max_width: 8', max_length: 24'}
base: {kind: slab, top: 0, thickness: 4"}
storeys:
  - {id: "1", height: 8', panel_type: wall6}
footprints:
  - {id: room, rectangle: [[0, 0], [16', 12']]}
roof:
  - {id: main, kind: gable, over: room, eaves: [south, north], pitch: 6/12, panel_type: roof10}
openings:
  - {id: D1, kind: door, in: A, along: 2', up: 0, width: 3' 2", height: 6' 10"}
"""


@pytest.fixture(autouse=True)
def kept_answers(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """Keep answers about dryness in the tests' own folder, not in the user's."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.getbasetemp() / "kept-answers"))


@pytest.fixture
def cabin(tmp_path: Path) -> Path:
    """Return the path of a one-room plan."""
    path = tmp_path / "cabin.yaml"
    path.write_text(CABIN, encoding="utf-8")
    return path


@pytest.fixture
def run() -> Callable[..., Result]:
    """Return a function that runs the command line in this process."""
    runner = CliRunner()

    def invoke(*words: object) -> Result:
        return runner.invoke(app, [str(word) for word in words])

    return invoke
