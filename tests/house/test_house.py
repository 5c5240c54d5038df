"""The rules of the house, run as tests: sizes, names, words, docs."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from seamwright.cli.main import COMMANDS

ROOT = Path(__file__).parents[2]
SOURCE = sorted((ROOT / "src").rglob("*.py"))
EVERY_PY = SOURCE + [p for d in ("tests", "benchmarks", "docs") for p in (ROOT / d).rglob("*.py")]
TEXT = [
    p
    for p in ROOT.rglob("*")
    if p.is_file()
    and p.suffix in {".py", ".md", ".yaml", ".toml", ".json", ".csv", ".typ"}
    and not {".venv", "node_modules", ".git", "demo", ".mypy_cache", ".hypothesis"} & set(p.parts)
]
CORE = (
    "geometry",
    "climate",
    "shell",
    "joints",
    "seals",
    "takeoff",
    "leakage",
    "moisture",
    "report",
)


def functions(tree: ast.AST) -> list[ast.FunctionDef]:
    """Return every function of a module."""
    return [n for n in ast.walk(tree) if isinstance(n, ast.FunctionDef)]


def body_lines(function: ast.FunctionDef) -> int:
    """Return the lines of a function's body without its docstring."""
    body = function.body[1:] if ast.get_docstring(function) is not None else function.body
    return 0 if not body else (body[-1].end_lineno or 0) - body[0].lineno + 1


@pytest.mark.parametrize("path", EVERY_PY, ids=lambda p: str(p.relative_to(ROOT)))
def test_no_file_passes_400_lines(path: Path) -> None:
    """A file that passes 400 lines wants splitting."""
    assert len(path.read_text().splitlines()) <= 400


@pytest.mark.parametrize("path", SOURCE, ids=lambda p: str(p.relative_to(ROOT)))
def test_no_function_passes_40_lines(path: Path) -> None:
    """A function that passes 40 lines wants a name for its parts."""
    long = [f.name for f in functions(ast.parse(path.read_text())) if body_lines(f) > 40]
    assert long == []


def test_no_room_for_leftovers() -> None:
    """No module is named for what it could not be named after."""
    banned = {"util", "utils", "helper", "helpers", "common", "misc", "manager"}
    assert [p for p in SOURCE if p.stem.strip("_") in banned] == []


@pytest.mark.parametrize("path", SOURCE, ids=lambda p: str(p.relative_to(ROOT)))
def test_public_names_are_documented(path: Path) -> None:
    """Every public function and class says what it is, and every function is annotated."""
    tree = ast.parse(path.read_text())
    bare = [
        n.name
        for n in tree.body
        if isinstance(n, ast.FunctionDef | ast.ClassDef)
        and not n.name.startswith("_")
        and ast.get_docstring(n) is None
    ]
    assert bare == []
    assert ast.get_docstring(tree) is not None


@pytest.mark.parametrize("room", CORE)
def test_core_rooms_touch_nothing_outside(room: str) -> None:
    """Core rooms open no files and read no clock."""
    for path in (ROOT / "src" / "seamwright" / room).rglob("*.py"):
        names = {n.id for n in ast.walk(ast.parse(path.read_text())) if isinstance(n, ast.Name)}
        assert not names & {"open", "print", "input"}, path


def test_no_imports_hidden_in_core_functions() -> None:
    """A deferred import hides a cycle; only edges may defer an optional or heavy package."""
    hidden = []
    for room in CORE:
        for path in (ROOT / "src" / "seamwright" / room).rglob("*.py"):
            for function in functions(ast.parse(path.read_text())):
                inner = [
                    n for n in ast.walk(function) if isinstance(n, ast.Import | ast.ImportFrom)
                ]
                hidden += [(path.name, function.name) for _ in inner]
    assert hidden == []


def test_nothing_unfinished() -> None:
    """No unfinished work is left behind a marker."""
    marker = re.compile(r"\b(" + "|".join(("TO" + "DO", "FIX" + "ME", "X" * 3)) + r")\b")
    found = [p for p in EVERY_PY if marker.search(p.read_text())]
    assert found == []


def test_no_machine_paths() -> None:
    """Nothing leads to one machine."""
    machine = re.compile("/" + "work" + "/|/" + "tmp" + "/bash|/" + "home" + "/")
    assert [p for p in TEXT if machine.search(p.read_text())] == []


def test_links_in_docs_lead_somewhere() -> None:
    """Every relative link in the docs leads to a file that is there."""
    link = re.compile(r"\]\((?!https?:|#|mailto:)([^)#\s]+)")
    dead = [
        f"{page.name}: {target}"
        for page in [ROOT / "README.md", *(ROOT / "docs").rglob("*.md")]
        for target in link.findall(page.read_text())
        if not (page.parent / target).exists()
    ]
    assert dead == []


def test_each_room_has_its_docs_page() -> None:
    """One noun throughout: a room has a page of the same name, or of the thing it makes."""
    pages = {"shell", "joints", "seals", "order", "drawings", "packet", "plan", "ifc", "commands"}
    pages |= {"climate", "tape-now"}
    assert {p for p in pages if not (ROOT / "docs" / f"{p}.md").exists()} == set()


def test_every_test_says_what_holds() -> None:
    """Every test has a sentence that says what holds."""
    silent = [
        f"{path.name}:{f.name}"
        for path in (ROOT / "tests").rglob("test_*.py")
        for f in functions(ast.parse(path.read_text()))
        if f.name.startswith("test_") and ast.get_docstring(f) is None
    ]
    assert silent == []


def test_each_command_has_its_line_in_the_docs() -> None:
    """The page of commands lists every command there is."""
    page = (ROOT / "docs" / "commands.md").read_text()
    assert [name for name in COMMANDS if f"seamwright {name}" not in page] == []
