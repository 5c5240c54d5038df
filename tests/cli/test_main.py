"""The list of commands, and what happens when something goes wrong."""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
from importlib import import_module
from inspect import getdoc

import pytest

import seamwright
from seamwright.cli.main import COMMANDS, problem_of
from seamwright.errors import GeometryError, InputError, Problem

PROGRAM = [sys.executable, "-c", "from seamwright.cli import main; main()"]


def shell(*words: object, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run the program as a process of its own."""
    return subprocess.run(
        [*PROGRAM, *map(str, words)],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, **environment},
    )


@pytest.mark.parametrize("name", COMMANDS)
def test_the_listed_help_is_that_of_the_command(name: str) -> None:
    """The line in the list of commands is the first line of the command's own help."""
    doc = getdoc(import_module(f"seamwright.cli.{name.replace('-', '_')}").run)
    assert doc is not None
    assert doc.splitlines()[0] == COMMANDS[name]


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_explains_itself(name: str, run) -> None:
    """Each command has a help page that names its options; the desk asks for no units there."""
    result = run(name, "--help")
    assert result.exit_code == 0
    assert ("--port" if name == "serve" else "--units") in result.output


def test_help_does_not_load_the_work() -> None:
    """Asking for help imports none of the heavy packages."""
    code = (
        "import sys; from typer.testing import CliRunner; from seamwright.cli.main import app; "
        "assert CliRunner().invoke(app, ['--help']).exit_code == 0; "
        "print({'shapely', 'scipy', 'numpy', 'typst', 'pydantic'} & set(sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "set()"


def test_version_is_told(run) -> None:
    """The version needs no command."""
    result = run("--version")
    assert result.exit_code == 0
    assert result.output == f"seamwright {seamwright.__version__}\n"


def test_a_mistyped_command_names_the_near_one(run) -> None:
    """An unknown command is status 2 and says which one is near."""
    result = run("jonts", "x.yaml")
    assert result.exit_code == 2
    assert "joints" in result.output


def test_an_unknown_option_value_lists_the_known(run, cabin) -> None:
    """A wrong choice is status 2 and lists the right ones."""
    result = run("check", cabin, "--units", "cubits")
    assert result.exit_code == 2
    assert "metric" in result.output


def test_a_reader_that_goes_away_leaves_no_traceback(cabin) -> None:
    """When the output is cut off, the program stops quietly with status 141."""
    with subprocess.Popen(
        [*PROGRAM, "joints", str(cabin), "--json"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        told = process.stderr.read()
        status = process.wait()
    assert (status, told) == (141, "")


def test_what_the_system_refuses_is_a_sentence() -> None:
    """A refused file is named, with what to do."""
    problem = problem_of(PermissionError(13, "Permission denied", "plan.yaml"))
    assert str(problem) == (
        "cannot use plan.yaml: permission denied; check the name, the folder and its permissions"
    )


def test_a_shape_that_cannot_be_built_is_told_in_one_sentence(run, cabin, monkeypatch) -> None:
    """An error of the core without a place in the file is still one sentence and status 2."""

    def fail(*_: object) -> None:
        raise GeometryError("the roof does not close")

    monkeypatch.setattr("seamwright.cli.check.register_joints", fail)
    result = run("check", cabin)
    assert result.exit_code == 2
    assert result.stderr.strip() == "the roof does not close"


def test_problems_travel_between_processes() -> None:
    """An input error sent to another process arrives with every problem."""
    error = InputError([Problem(subject="a", sentence="b", remedy="c", file="d", line=3)])
    assert pickle.loads(pickle.dumps(error)).problems == error.problems


def test_a_fault_of_the_program_says_it_is_one(tmp_path) -> None:
    """An unforeseen error is not blamed on the input: status 70 and one sentence."""
    code = (
        "import seamwright.cli.check as c; from seamwright.cli import main; import sys\n"
        "def bad(*a, **k): raise RuntimeError('loose screw')\n"
        "c.read_source = bad; sys.argv = ['seamwright', 'check', 'x']; main()"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 70
    assert "fault of its own" in done.stderr
    assert "Traceback" not in done.stderr


def test_the_program_runs_as_a_process(cabin) -> None:
    """The installed entry point leaves with the status of the command, also in an old locale."""
    done = shell("check", cabin, PYTHONIOENCODING="ascii")
    assert done.returncode in {0, 1}
    assert done.stderr == ""
    assert "Test cabin" in done.stdout
