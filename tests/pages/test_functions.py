"""Functions of the desk on its pages: signing on a phone, the site's file, dryness in goes."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from tests.pages.test_access import grave
from tests.pages.test_story import draw_house
from tests.pages.test_work import LONG, ROWS, go, house_on, opened, port, sheet

from seamwright.cli.desk_work import KINDS

pytestmark = pytest.mark.slow

__all__ = ["port", "sheet"]

RECORDS = """seals:
  - {at: A.1-A.2, sealed: yes, checked: yes}
log:
  - {look: A.1-A.2, by: smoke, saw: 4}
  - {mend: A.1-A.2}
"""


def test_a_side_is_signed_on_a_phone_with_the_button_in_reach(page: Page) -> None:
    """What a signature does is folded, and the button that signs stays in the window."""
    draw_house(page)
    page.set_viewport_size({"width": 390, "height": 700})
    page.get_by_role("link", name=re.compile("^Next: decide and sign")).click()
    page.get_by_role("button", name="Sign all that is unsigned at once").click()
    dialog = page.get_by_role("dialog")
    expect(dialog.get_by_text("A signature needs name and role.")).to_be_visible()
    dialog.get_by_label("Your role").fill("designer")
    dialog.get_by_role("button", name="See what it does").click()
    expect(dialog.get_by_role("heading", name="What this would do")).to_be_in_viewport()
    expect(dialog.get_by_text(re.compile(r"^\d+ joints: "))).to_have_count(1)
    sign = dialog.get_by_role("button", name="Sign", exact=True)
    expect(sign).to_be_in_viewport(ratio=1)
    assert grave(page) == []
    sign.click()
    expect(page.get_by_text(re.compile(r"^Kept: \d+ joints changed\.$"))).to_be_visible()
    page.wait_for_timeout(1700)
    page.get_by_role("link", name="Next: what to buy").click()
    expect(page.get_by_role("heading", name="What to buy")).to_be_visible()
    expect(page.get_by_text(re.compile("^Kept: "))).to_have_count(0)


def test_a_drawn_house_is_redrawn_after_it_was_signed(page: Page) -> None:
    """Signing keeps the form: the house can be drawn further from its page."""
    draw_house(page)
    pages = page.get_by_role("navigation", name="Pages of this house")
    pages.get_by_role("link", name="Sides").click()
    page.get_by_role("button", name="Sign all that is unsigned at once").click()
    page.get_by_label("Your role").fill("designer")
    page.get_by_role("button", name="Sign", exact=True).click()
    expect(page.get_by_role("link", name=re.compile("all signed"))).to_be_visible()
    pages.get_by_role("link", name="House").click()
    page.get_by_role("link", name="Redraw this house").click()
    expect(page.get_by_label("Wall A, facing south")).to_have_value("20'-0\"")


def test_a_records_file_is_read_refused_and_told_at_the_joint(
    tmp_path: Path, port: int, sheet: Page
) -> None:
    """A slip is told with its line; the right file is recorded, searched with, and in history."""
    wrong, right = tmp_path / "wrong.yaml", tmp_path / "site.yaml"
    wrong.write_text(RECORDS.replace("mend: A.1-A.2", "mend: A.1-A.3"), encoding="utf-8")
    right.write_text(RECORDS, encoding="utf-8")
    with opened(tmp_path, port, KINDS) as address:
        house = house_on(sheet, address)
        go(sheet, house, "search")
        sheet.get_by_text("Diary of the search: 0 entries").click()
        drop = sheet.get_by_role("region", name="Place for the site's records")
        drop.locator("input").set_input_files(wrong)
        expect(sheet.get_by_text("Line 5:")).to_be_visible()
        drop.locator("input").set_input_files(right)
        expect(sheet.get_by_text("Read: 2 entries of the diary; recorded 2")).to_be_visible()
        assert grave(sheet) == []
        sheet.get_by_role("button", name="Say where to look").click()
        expect(sheet.get_by_role("heading", name="Look here next")).to_be_visible(timeout=LONG)
        go(sheet, house, "joint/A.1-A.2")
        told = sheet.get_by_role("listitem")
        expect(told.filter(has_text="checked, ")).to_have_count(1)
        expect(told.filter(has_text="looked by smoke: strength 4")).to_have_count(1)
        expect(told.filter(has_text="mended")).to_have_count(1)


def test_a_fan_test_is_carried_into_the_search(tmp_path: Path, port: int, sheet: Page) -> None:
    """Worked out on one page, one touch writes it into the diary of the other."""
    with opened(tmp_path, port, KINDS) as address:
        house = house_on(sheet, address)
        go(sheet, house, "air")
        sheet.get_by_label("Indoors [°F]").fill("66")
        sheet.get_by_label("Outdoors [°F]").fill("45")
        for number, (pressure, flow) in enumerate(ROWS, start=1):
            sheet.get_by_label(f"Pressure of line {number} in Pa").fill(str(pressure))
            if flow is not None:
                sheet.get_by_label(f"Flow of line {number} in CFM").fill(str(flow))
        sheet.get_by_role("button", name="Work the test out").click()
        sheet.get_by_role("link", name="Search on from this figure").click(timeout=LONG)
        sheet.get_by_role("button", name="Carry it into the diary").click()
        expect(sheet.get_by_text("1 new entries are not counted in yet.")).to_be_visible()
        expect(sheet.get_by_role("button", name="Carry it into the diary")).to_have_count(0)
        sheet.get_by_role("button", name="Say where to look").click()
        expect(sheet.get_by_role("heading", name="Look here next")).to_be_visible(timeout=LONG)


def test_dryness_in_two_goes_is_on_the_page_and_on_the_model(
    tmp_path: Path, port: int, sheet: Page
) -> None:
    """Ridge, then sills: progress after a reload, one table, one chart, both on the model."""
    with opened(tmp_path, port, KINDS) as address:
        house = house_on(sheet, address)
        for kind in ("ridge", "sill"):
            go(sheet, house, "dryness")
            if kind == "sill":
                sheet.get_by_text("What to work out").click()
            sheet.get_by_label("Joints", exact=True).select_option(kind)
            sheet.get_by_label("Years to follow").fill("1")
            sheet.get_by_role("button", name="Work the dryness out").click()
            sheet.reload()
            expect(sheet.get_by_text("It is being worked out.")).to_be_visible()
            expect(sheet.get_by_text("It is being worked out.")).to_have_count(0, timeout=LONG)
        expect(sheet.get_by_text("Put together from 2 runs")).to_be_visible()
        expect(sheet.get_by_role("img", name="Every sort of joint at a glance")).to_be_visible()
        assert grave(sheet) == []
        sheet.get_by_role("link", name="See the margins on the model").click()
        key = sheet.get_by_role("complementary", name="Key to the drawing")
        rest = key.get_by_role("button", name="not worked out yet")
        expect(rest).to_be_visible()
        joints = sheet.evaluate(
            """async (house) => (await (await fetch(
              `/api/v1/houses/${house}/joint-values`)).json()).moisture_margin""",
            house,
        )
        assert sum(value is not None for value in joints) == 14, "5 ridge joints and 9 sills"
