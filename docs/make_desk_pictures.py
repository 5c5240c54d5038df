"""Take the pictures of the desk's guide anew: ``python docs/make_desk_pictures.py``.

A desk of its own is opened in an empty folder and the story of the guide is played in a browser, so
a picture can only show what the pages do. The pages must be built (``make pages``).
"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from playwright.sync_api import Page, sync_playwright

FOLDER = Path(__file__).parent / "pictures"
WAYS = ("--no-sandbox", "--use-gl=angle", "--use-angle=swiftshader",
        "--enable-unsafe-swiftshader", "--disable-background-networking")  # fmt: skip
WIDE, HIGH = 1180, 800


def main() -> None:
    """Open a desk, play the story, keep the pictures."""
    command = [sys.executable, "-c", "from seamwright.cli import main; main()", "serve", "--port=0"]
    with TemporaryDirectory() as folder:
        desk = subprocess.Popen(  # noqa: S603 our own program with our own words
            [*command, "--folder", folder], stdout=subprocess.PIPE, text=True
        )  # fmt: skip
        try:
            assert desk.stdout is not None
            found = re.search(r"http://\S+", desk.stdout.readline())
            assert found is not None
            with sync_playwright() as ways:
                browser = ways.chromium.launch(
                    executable_path=shutil.which("chromium"), args=list(WAYS)
                )
                page = browser.new_page(viewport={"width": WIDE, "height": HIGH})
                page.set_default_timeout(90_000)
                page.goto(found[0])
                story(page)
                browser.close()
        finally:
            desk.terminate()
            desk.wait(30)


def keep(page: Page, name: str) -> None:
    """Keep what is in the window as a picture of the guide."""
    page.mouse.move(2, 2)
    page.wait_for_timeout(1800)
    page.screenshot(path=FOLDER / f"desk-{name}.png")


def story(page: Page) -> None:
    """Play the guide from an empty desk to a planned house."""
    keep(page, "houses")
    draw(page)
    correct(page)
    sign(page)
    follow(page)


def draw(page: Page) -> None:
    """Draw a house and look at it."""
    page.get_by_role("link", name="Draw a new house").click()
    page.get_by_label("Wall A, facing south").fill("28'")
    page.get_by_label("Wall B, facing east").fill("20'")
    page.get_by_role("button", name="Add a door").click()
    page.get_by_role("button", name="Add a window").click()
    page.get_by_label("Name of the house").fill("Larch Cabin")
    page.get_by_label("Climate zone").fill("5B")
    page.get_by_label("Latitude, north positive").fill("39.7")
    page.get_by_label("Longitude, east positive").fill("-105.0")
    page.get_by_label("Your name").fill("N. Body")
    page.get_by_text(re.compile(r"\d+ panels, \d+ joints")).wait_for()
    page.evaluate("() => scrollTo(0, 0)")
    keep(page, "draw")
    page.get_by_role("button", name="Keep this house and show its joints").click()
    page.get_by_role("complementary", name="Key to the drawing").wait_for()
    page.get_by_label("Joint or node").fill("ridge")
    page.get_by_role("button", name=re.compile("ridge$")).first.click()
    page.wait_for_timeout(1000)
    page.get_by_role("button", name="Whole house").click()
    keep(page, "model-pick")


def correct(page: Page) -> None:
    """Open a joint and correct it."""
    page.get_by_role("link", name="Open this joint").click()
    page.get_by_text("Width needed").first.wait_for()
    keep(page, "joint")
    page.get_by_role("button", name="Correct it …").click()
    page.get_by_label("Span between sound skins").fill('3"')
    page.get_by_label("Reason", exact=True).fill("beam planed on site")
    page.get_by_label("Reason", exact=True).scroll_into_view_if_needed()
    keep(page, "correct")
    page.get_by_role("button", name="Keep this correction").click()
    page.get_by_text("A correction stands: beam planed on site").wait_for()


def sign(page: Page) -> None:
    """Decide the sides and sign."""
    pages = page.get_by_role("navigation", name="Pages of this house")
    pages.get_by_role("link", name="Sides").click()
    page.get_by_role("button", name="Sign all that is unsigned at once").wait_for()
    keep(page, "sides")
    page.get_by_role("button", name="Sign all that is unsigned at once").click()
    page.get_by_label("Your role").fill("designer")
    page.get_by_role("button", name="See what it does").click()
    page.get_by_role("heading", name="What this would do").wait_for()
    keep(page, "sign")
    page.get_by_role("button", name="Sign", exact=True).click()
    page.get_by_role("link", name=re.compile("all signed")).wait_for()


def follow(page: Page) -> None:
    """Look at the order and plan the days."""
    pages = page.get_by_role("navigation", name="Pages of this house")
    pages.get_by_role("link", name="Order").click()
    page.get_by_role("heading", name="What to buy").wait_for()
    keep(page, "order")
    pages.get_by_role("link", name="Days").click()
    page.get_by_role("button", name=re.compile("^Plan the days")).first.click()
    page.get_by_role("heading", name="The run of days").first.wait_for(timeout=240_000)
    for away in page.get_by_role("button", name=re.compile("^Put away")).all()[::-1]:
        away.click()
    page.evaluate("() => scrollTo(0, 260)")
    keep(page, "days")
    dry(page)


def dry(page: Page) -> None:
    """Work out the dryness of two kinds of joint, and look at both."""
    pages = page.get_by_role("navigation", name="Pages of this house")
    pages.get_by_role("link", name="Dryness").click()
    for kind in ("ridge", "sill"):
        page.get_by_text(re.compile("worked out yet|^Worked out")).first.wait_for()
        page.locator("details.ask").first.evaluate("form => { form.open = true }")
        page.get_by_label("Joints", exact=True).select_option(kind)
        page.get_by_label("Years to follow").fill("1")
        page.get_by_role("button", name="Work the dryness out").click()
        page.get_by_text("It is being worked out.").wait_for()
        page.get_by_text("It is being worked out.").wait_for(state="detached", timeout=600_000)
        for away in page.get_by_role("button", name=re.compile("^Put away")).all()[::-1]:
            away.click()
    page.get_by_role("heading", name="Every sort of joint at a glance").scroll_into_view_if_needed()
    keep(page, "dryness")


if __name__ == "__main__":
    main()
