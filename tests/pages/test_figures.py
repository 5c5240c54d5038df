"""What the pages share with the library is the same on both sides."""

from __future__ import annotations

import json
import runpy
from pathlib import Path

WEB = Path(__file__).parents[2] / "web"


def test_lengths_of_the_pages_are_those_of_the_library() -> None:
    """The pages' cases of printed and read lengths are what the units make of them today."""
    kept = json.loads((WEB / "tests" / "lengths.json").read_text("utf-8"))
    assert kept == runpy.run_path(str(WEB / "tools" / "lengths.py"))["cases"]()


def test_the_model_draws_joints_as_the_sheets_do() -> None:
    """Color, width, dashes and mark of each joint kind are the same in the model and on paper."""
    kept = json.loads((WEB / "src" / "engine" / "inks.json").read_text("utf-8"))
    assert kept == runpy.run_path(str(WEB / "tools" / "inks.py"))["inks"]()


def test_the_pages_lock_names_no_registry() -> None:
    """The lock of the pages' packages holds no address to fetch from."""
    assert '"resolved"' not in (WEB / "package-lock.json").read_text("utf-8")
