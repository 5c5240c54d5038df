"""The story in a real browser: draw a house, correct a joint, sign, order, save, come back."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

pytestmark = pytest.mark.slow


def draw_house(page: Page, name: str = "Story House") -> None:
    """Draw a small house with a door and keep it; the model is open afterwards."""
    page.get_by_role("link", name="Draw a new house").click()
    page.get_by_label("Wall A, facing south").fill("20'")
    page.get_by_label("Wall B, facing east").fill("16'")
    page.get_by_role("button", name="Add a door").click()
    page.get_by_label("Name of the house").fill(name)
    page.get_by_label("Climate zone").fill("5B")
    page.get_by_label("Your name").fill("N. Body")
    expect(page.get_by_text(re.compile(r"\d+ panels, \d+ joints"))).to_be_visible()
    page.get_by_role("button", name="Keep this house and show its joints").click()
    expect(page.get_by_role("complementary", name="Key to the drawing")).to_be_visible()


def test_a_house_is_drawn_with_snapping_and_undone_step_by_step(page: Page) -> None:
    """Typed lengths stay square, the verdict follows, and every step can be taken back."""
    page.get_by_role("link", name="Draw a new house").click()
    page.get_by_label("Wall A, facing south").fill("21' 6\"")
    page.get_by_label("Name of the house").click()
    expect(page.get_by_label("Wall C, facing north")).to_have_value("21'-6\"")
    corner = page.get_by_role("button", name=re.compile("^Corner 3"))
    corner.focus()
    page.keyboard.press("ArrowUp")
    expect(
        page.get_by_role("button", name=re.compile("^Corner 3: .*25'-0\" north"))
    ).to_be_visible()
    page.get_by_role("button", name="Step back").click()
    page.get_by_role("button", name="Step back").click()
    expect(page.get_by_label("Wall A, facing south")).to_have_value("32'-0\"")
    page.get_by_label("Wall A, facing south").fill("wide")
    expect(page.get_by_text("Write a length as 24'")).to_be_visible()


def test_the_whole_story(page: Page, tmp_path: Path) -> None:
    """From a drawn house to a corrected joint, a signed side, an order kept, and back by undo."""
    draw_house(page)
    page.get_by_label("Joint or node").fill("ridge")
    page.get_by_role("button", name=re.compile("ridge$")).first.click()
    page.get_by_role("link", name="Open this joint").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Joint")
    expect(page.get_by_text("Width needed").first).to_be_visible()
    page.get_by_role("button", name="Correct it …").click()
    page.get_by_label("Span between sound skins").fill('3"')
    page.get_by_label("Reason", exact=True).fill("beam planed on site")
    page.get_by_role("button", name="Keep this correction").click()
    expect(page.get_by_text("A correction stands: beam planed on site")).to_be_visible()
    expect(page.get_by_text("developed span, as corrected").first).to_be_visible()

    pages = page.get_by_role("navigation", name="Pages of this house")
    pages.get_by_role("link", name="Sides").click()
    page.get_by_role("button", name="Sign all that is unsigned at once").click()
    page.get_by_label("Your role").fill("designer")
    page.get_by_role("button", name="See what it does").click()
    expect(page.get_by_role("heading", name="What this would do")).to_be_visible()
    page.get_by_role("button", name="Sign", exact=True).click()
    expect(page.get_by_role("link", name=re.compile("all signed"))).to_be_visible()

    pages.get_by_role("link", name="Order").click()
    expect(page.get_by_role("heading", name="What to buy")).to_be_visible()
    with page.expect_download() as kept:
        page.get_by_role("link", name="Workbook for the one who buys").click()
    kept.value.save_as(tmp_path / "order.xlsx")
    assert (tmp_path / "order.xlsx").stat().st_size > 5_000

    page.reload()
    expect(page.get_by_role("heading", name="What to buy")).to_be_visible()
    page.get_by_role("button", name="Undo").click()
    dialog = page.get_by_role("dialog")
    expect(dialog).to_contain_text("This takes back what somebody signed")
    dialog.get_by_label("Why is it changed?").fill("signed too early")
    dialog.get_by_role("button", name="Change it all the same").click()
    expect(page.get_by_role("link", name=re.compile(r"\d+ unsigned"))).to_be_visible()


def test_work_on_site_is_recorded_and_shown(page: Page) -> None:
    """A joint recorded as sealed is sealed in the register after a reload."""
    draw_house(page)
    pages = page.get_by_role("navigation", name="Pages of this house")
    pages.get_by_role("link", name=re.compile("^Joints")).click()
    first = page.get_by_role("checkbox", name=re.compile("^Choose (?!all)")).first
    first.check()
    page.get_by_role("button", name="Record as sealed").click()
    page.get_by_role("button", name="Record it").click()
    page.reload()
    expect(page.get_by_role("cell", name="sealed", exact=True).first).to_be_visible()


def test_units_and_language_change_everywhere_at_once(page: Page) -> None:
    """Switched to metres and Spanish, the register speaks both, and keeps them after a reload."""
    draw_house(page)
    page.get_by_role("button", name="m, metres and millimetres").click()
    page.get_by_role("button", name="ES, Español").click()
    page.get_by_role("link", name=re.compile("^Juntas")).click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Juntas y nodos")
    page.reload()
    expect(page.get_by_role("heading", level=1)).to_have_text("Juntas y nodos")
    expect(page.get_by_role("cell", name=re.compile(r"^\d+(\.\d+)? (m|mm)$")).first).to_be_visible()
