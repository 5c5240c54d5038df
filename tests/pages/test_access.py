"""Nothing serious stands in anybody's way: axe on every page, and what fits on a phone."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

pytestmark = pytest.mark.slow

AXE = Path(__file__).parents[2] / "web" / "node_modules" / "axe-core" / "axe.min.js"
PAGES = (
    "house", "model", "joints", "joint/A.1-A.2", "sides", "order", "days", "dryness", "air",
    "search", "papers", "plan",
)  # fmt: skip


def open_first_house(page: Page) -> str:
    """Copy an invented house and return its id."""
    page.get_by_role("button", name="Copy First House").click()
    expect(page.get_by_role("complementary", name="Key to the drawing")).to_be_visible()
    return page.url.split("#/h/")[1].split("/")[0]


def grave(page: Page) -> list[str]:
    """Return what axe finds that is moderate, serious or critical on the page as it stands."""
    page.evaluate(AXE.read_text("utf-8"))
    found = page.evaluate("async () => (await axe.run(document)).violations")
    return [
        f"{one['id']}: {json.dumps([node['html'][:160] for node in one['nodes'][:3]])}"
        for one in found
        if one["impact"] in {"moderate", "serious", "critical"}
    ]


@pytest.mark.parametrize("width", [390, 1280])
def test_nothing_serious_on_any_page(page: Page, width: int) -> None:
    """Names, roles, contrast and order hold on every page of a house, at phone and desk width."""
    page.set_viewport_size({"width": width, "height": 900})
    assert grave(page) == []
    house = open_first_house(page)
    found = []
    for place in (*(f"#/h/{house}/{name}" for name in PAGES), "#/new"):
        page.evaluate("to => { location.hash = to }", place)
        page.wait_for_timeout(900)
        found += [f"{place}: {one}" for one in grave(page)]
    assert found == []


def test_nothing_runs_out_of_a_phone(page: Page) -> None:
    """At 390 pixels no page is wider than the window; wider things scroll in their own frame."""
    page.set_viewport_size({"width": 390, "height": 844})
    house = open_first_house(page)
    for name in (*PAGES, "new"):
        page.evaluate(
            "to => { location.hash = to }", f"#/h/{house}/{name}" if name != "new" else "#/new"
        )
        page.wait_for_timeout(700)
        wide = page.evaluate("() => document.documentElement.scrollWidth")
        assert wide <= 390, f"{name} is {wide} pixels wide"


def test_targets_are_large_enough_for_a_thumb(page: Page) -> None:
    """Every button and field seen is at least 44 pixels high, or lies in a label that is."""
    house = open_first_house(page)
    for name in ("model", "joints", "sides", "house"):
        page.evaluate("to => { location.hash = to }", f"#/h/{house}/{name}")
        page.wait_for_timeout(700)
        small = page.evaluate(
            """() => [...document.querySelectorAll('button, select, input, a.button, nav a')]
              .map(one => one.closest('label') ?? one)
              .filter(one => one.offsetParent !== null && one.type !== 'range')
              .filter(one => !one.classList.contains('hidden-words'))
              .filter(one => one.getBoundingClientRect().height < 43.5)
              .map(one => one.outerHTML.slice(0, 120))"""
        )
        assert small == []
