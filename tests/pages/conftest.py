"""A desk of its own for each story, and a browser that opens it."""

from __future__ import annotations

import shutil
import socket
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
import uvicorn
from playwright.sync_api import Browser, ConsoleMessage, Page, sync_playwright

from seamwright.app.make import make_app, make_desk
from seamwright.app.pages_served import PAGES

WAYS = (
    "--no-sandbox",
    "--use-gl=angle",
    "--use-angle=swiftshader",
    "--enable-unsafe-swiftshader",
    "--disable-background-networking",
    "--no-first-run",
)


@pytest.fixture
def desk_address(tmp_path: Path) -> Iterator[str]:
    """Return the address of a desk without houses."""
    assert (PAGES / "index.html").is_file(), "the pages are not built: run `make pages` first"
    desk = make_desk(tmp_path)
    with socket.socket() as door:
        door.bind(("127.0.0.1", 0))
        port = door.getsockname()[1]
    server = uvicorn.Server(
        uvicorn.Config(make_app(desk), host="127.0.0.1", port=port, log_level="error", ws="none")
    )
    thread = threading.Thread(target=server.run)
    thread.start()
    while not server.started:
        time.sleep(0.05)
    yield f"http://127.0.0.1:{port}/"
    server.should_exit = True
    thread.join()
    desk.close()


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Return the browser: the system's Chromium where there is one."""
    with sync_playwright() as ways:
        browser = ways.chromium.launch(executable_path=shutil.which("chromium"), args=list(WAYS))
        yield browser
        browser.close()


@pytest.fixture
def page(browser: Browser, desk_address: str) -> Iterator[Page]:
    """Return a page open at the list of houses; errors in its console fail the test."""
    page = browser.new_page(viewport={"width": 1280, "height": 900}, accept_downloads=True)
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda told: wrong.append(told.text) if _is_wrong(told) else None)
    page.set_default_timeout(20_000)
    page.goto(desk_address)
    yield page
    page.close()
    assert wrong == []


def _is_wrong(told: ConsoleMessage) -> bool:
    """Return whether a line of the console is an error; a refusal (409, 422) is an answer."""
    refused = "status of 409" in told.text or "status of 422" in told.text
    return told.type == "error" and not refused
