"""Long work on the pages: seen, stopped, still there after a reload; its results read and used."""

from __future__ import annotations

import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
import uvicorn
from playwright.sync_api import Browser, Page, expect
from tests.pages.test_access import grave

from seamwright.app.jobs import JobKind
from seamwright.app.make import make_app, make_desk
from seamwright.cli.desk_work import KINDS

pytestmark = pytest.mark.slow

SLOW = JobKind(name="report", title="Slow", work="tests.pages.slow_work:do")
LONG = 180_000
"""How long real work may take on a slow machine. [ms]"""


@contextmanager
def opened(folder: Path, port: int, kinds: tuple[JobKind, ...]) -> Iterator[str]:
    """Open a desk at a port and close it again."""
    desk = make_desk(folder, kinds)
    ways = {"host": "127.0.0.1", "port": port, "log_level": "error", "ws": "none"}
    server = uvicorn.Server(uvicorn.Config(make_app(desk), **ways))  # type: ignore[arg-type]
    thread = threading.Thread(target=server.run)
    thread.start()
    while not server.started:
        time.sleep(0.05)
    try:
        yield f"http://127.0.0.1:{port}/"
    finally:
        server.should_exit = True
        thread.join()
        desk.close()


@pytest.fixture
def port() -> int:
    """Return a port that was free just now."""
    with socket.socket() as door:
        door.bind(("127.0.0.1", 0))
        return int(door.getsockname()[1])


@pytest.fixture
def sheet(browser: Browser) -> Iterator[Page]:
    """Return a page; errors of its scripts fail the test."""
    page = browser.new_page(viewport={"width": 1280, "height": 900}, locale="en-US")
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.set_default_timeout(20_000)
    yield page
    page.close()
    assert wrong == []


def house_on(page: Page, address: str) -> str:
    """Copy an invented house and return its id."""
    page.goto(address)
    page.get_by_role("button", name="Copy First House").click()
    expect(page.get_by_role("complementary", name="Key to the drawing")).to_be_visible()
    return page.url.split("#/h/")[1].split("/")[0]


def go(page: Page, house: str, place: str) -> None:
    """Go to a page of a house."""
    page.evaluate("to => { location.hash = to }", f"#/h/{house}/{place}")


def test_work_is_seen_everywhere_outlives_a_reload_and_can_be_stopped(
    tmp_path: Path, port: int, sheet: Page
) -> None:
    """The strip tells of work on every page and after a reload, until somebody stops it."""
    with opened(tmp_path, port, (SLOW,)) as address:
        house = house_on(sheet, address)
        go(sheet, house, "papers")
        sheet.get_by_role("button", name="Print the packet").click()
        strip = sheet.get_by_role("region", name="Work under way")
        expect(strip.get_by_text("UNDER WAY")).to_be_visible()
        expect(strip.get_by_role("progressbar", name="Packet")).to_be_visible()
        expect(strip.get_by_text("of report")).to_be_visible()
        assert grave(sheet) == []
        go(sheet, house, "order")
        expect(strip.get_by_text("UNDER WAY")).to_be_visible()
        sheet.reload()
        expect(strip.get_by_text("UNDER WAY")).to_be_visible()
        strip.get_by_role("button", name="Stop it: Packet").click()
        expect(strip).to_have_count(0)
        go(sheet, house, "papers")
        expect(sheet.get_by_role("cell", name="STOPPED")).to_be_visible()
        expect(sheet.get_by_role("button", name="Print the packet")).to_be_enabled()


def test_work_that_the_desk_broke_off_is_told_and_asked_for_again(
    tmp_path: Path, port: int, sheet: Page
) -> None:
    """Closing the desk breaks work off; the page says so and asks for it again."""
    with opened(tmp_path, port, (SLOW,)) as address:
        house = house_on(sheet, address)
        go(sheet, house, "papers")
        sheet.get_by_role("button", name="Print the packet").click()
        strip = sheet.get_by_role("region", name="Work under way")
        expect(strip.get_by_text("UNDER WAY")).to_be_visible()
    with opened(tmp_path, port, (SLOW,)):
        sheet.reload()
        expect(strip.get_by_text("BROKEN OFF")).to_be_visible()
        expect(strip.get_by_text("The desk was closed while this ran.")).to_be_visible()
        assert grave(sheet) == []
        strip.get_by_role("button", name="Ask again").click()
        expect(strip.get_by_text("UNDER WAY")).to_be_visible()
        expect(strip.get_by_text("BROKEN OFF")).to_have_count(0)


def test_days_are_planned_read_by_day_and_saved(tmp_path: Path, port: int, sheet: Page) -> None:
    """Days come from the form; each has its sheet; the tasks filter and save; both languages."""
    with opened(tmp_path, port, KINDS) as address:
        house = house_on(sheet, address)
        go(sheet, house, "days")
        sheet.get_by_label("First day").fill("2026-05-04")
        sheet.get_by_label("Seconds to search").fill("2")
        sheet.get_by_role("button", name="Plan the days").click()
        expect(sheet.get_by_role("heading", name="The run of days")).to_be_visible(timeout=LONG)
        expect(sheet.get_by_role("heading", name="Mon, May 4, day 1 of")).to_be_visible()
        sheet.get_by_role("button", name="Tue, May 5").click()
        expect(sheet.get_by_role("heading", name="Tue, May 5, day 2 of")).to_be_visible()
        tasks = sheet.get_by_role("region", name="Every task").last
        sheet.get_by_label("Show only rows with these words").last.fill("ridge")
        expect(tasks.get_by_role("row").filter(has_text="ridge").first).to_be_visible()
        with sheet.expect_download() as saved:
            sheet.get_by_role("button", name="Save as CSV").click()
        text = Path(saved.value.path()).read_text("utf-8")
        assert text.startswith("start,end,task,")
        assert "2026-05" in text
        assert grave(sheet) == []
        sheet.get_by_role("button", name="Español").click()
        expect(sheet.get_by_role("heading", name="La sucesión de días")).to_be_visible()


ROWS = ((-1.4, None), (-11.3, 202), (-18.3, 278), (-25.3, 355), (-39.3, 479), (-53.3, 583),
        (-61.3, 635), (-1.2, None))  # fmt: skip
"""Readings of the package's invented test, drawing air out. [Pa, cfm]"""


def test_readings_typed_stay_after_a_reload_and_give_a_figure(
    tmp_path: Path, port: int, sheet: Page
) -> None:
    """A fan test is typed line by line, kept over a reload, worked out, and drawn."""
    with opened(tmp_path, port, KINDS) as address:
        house = house_on(sheet, address)
        go(sheet, house, "air")
        sheet.get_by_label("Indoors [°F]").fill("66")
        sheet.get_by_label("Outdoors [°F]").fill("45")
        for number, (pressure, flow) in enumerate(ROWS, start=1):
            sheet.get_by_label(f"Pressure of line {number} in Pa").fill(str(pressure))
            if flow is not None:
                sheet.get_by_label(f"Flow of line {number} in CFM").fill(str(flow))
        sheet.reload()
        expect(sheet.get_by_label("Flow of line 2 in CFM")).to_have_value("202")
        sheet.get_by_role("button", name="Work the test out").click()
        expect(sheet.get_by_text("with 95 % confidence between")).to_be_visible(timeout=LONG)
        expect(sheet.get_by_role("figure", name="Readings and the line")).to_be_visible()
        expect(sheet.get_by_role("row", name="Air changes an hour (ACH50)")).to_be_visible()
        assert grave(sheet) == []


def test_what_was_seen_moves_the_search_and_shows_on_the_model(
    tmp_path: Path, port: int, sheet: Page
) -> None:
    """A find is written down with one touch, kept over a reload, counted in, and on the model."""
    with opened(tmp_path, port, KINDS) as address:
        house = house_on(sheet, address)
        go(sheet, house, "search")
        sheet.get_by_role("button", name="Say where to look").click()
        expect(sheet.get_by_role("heading", name="Look here next")).to_be_visible(timeout=LONG)
        first = sheet.get_by_role("group", name="What was seen at").first
        place = str(first.get_attribute("aria-label")).removeprefix("What was seen at ")
        first.get_by_role("button", name="A leak of strength 5 of 5").click()
        expect(sheet.get_by_text("1 new entries are not counted in yet.")).to_be_visible()
        sheet.reload()
        expect(sheet.get_by_text("Diary of the search: 1 entry")).to_be_visible()
        sheet.get_by_role("button", name="Work the order out anew").click()
        row = sheet.get_by_role("row").filter(has_text=place).filter(has_text="looked at 1 times")
        expect(row.first).to_be_visible(timeout=LONG)
        assert grave(sheet) == []
        go(sheet, house, "model?by=leak")
        key = sheet.get_by_role("complementary", name="Key to the drawing")
        expect(key.get_by_role("button", name="below 2 %").or_(
            key.get_by_role("button", name="2 to 5 %")).first).to_be_visible()  # fmt: skip
