"""The docs of the plan are true: their examples are read, and every key is in them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from seamwright.io.catalog import read_catalog
from seamwright.io.catalog_model import catalog_schema
from seamwright.io.panel_list import read_panel_list
from seamwright.io.plan import plan_schema, read_plan
from seamwright.shell.build import build_shell

PAGE = (Path(__file__).parents[2] / "docs" / "plan.md").read_text(encoding="utf-8")


def blocks(kind: str) -> list[str]:
    """Return the fenced blocks of a kind."""
    return re.findall(rf"^```{kind}\n(.*?)^```", PAGE, re.MULTILINE | re.DOTALL)


@pytest.mark.parametrize("text", blocks("yaml plan"))
def test_the_plans_of_the_docs_stand(text: str) -> None:
    """Each whole plan of the docs is read and laid out."""
    assert build_shell(read_plan(text).plan).panels


def test_the_dormer_of_the_docs_fits_the_plan_of_the_docs() -> None:
    """The dormer shown apart can be put into the whole plan."""
    (dormer,) = blocks("yaml")
    plan = read_plan(blocks("yaml plan")[0].replace("dormers: []\n", dormer)).plan
    assert plan.dormers[0].part == "main"


def test_the_catalog_of_the_docs_is_read() -> None:
    """The catalog of the docs is a catalog."""
    (text,) = blocks("yaml catalog")
    assert [strip.id for strip in read_catalog(text).strips] == ["seam-6", "ridge-18"]


def test_the_panel_list_of_the_docs_is_read() -> None:
    """The CSV of the docs is a panel list."""
    (text,) = blocks("csv")
    assert [panel.id for panel in read_panel_list(text)] == ["A.1", "A.2"]


@pytest.mark.parametrize("schema", [plan_schema, catalog_schema])
def test_every_key_is_in_the_docs(schema) -> None:
    """No key of the plan or the catalog is left out of the page."""
    groups = [schema(), *schema()["$defs"].values()]
    keys = {key for group in groups for key in group.get("properties", {})}
    assert {key for key in keys if re.search(rf"\b{key}\b", PAGE) is None} == set()
