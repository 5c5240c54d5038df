"""Every page in Spanish and metres, and in English and feet: nothing of the other is left over."""

from __future__ import annotations

import json
import re
import socket
import threading
import time
from collections.abc import Iterator
from importlib import resources
from urllib.request import Request, urlopen

import pytest
import uvicorn
from playwright.sync_api import Browser, Page

from seamwright.app.make import make_app, make_desk
from seamwright.cli.desk_work import KINDS

pytestmark = pytest.mark.slow

PAGES = (
    "house", "model", "joints", "joint/A.1-A.2", "sides", "order", "days", "dryness", "air",
    "search", "papers", "plan", "draw",
)  # fmt: skip
READ = """() => {
  const found = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const inside = walk.currentNode.parentElement;
    if (inside && !inside.closest("script, style, noscript, textarea"))
      found.push(walk.currentNode.textContent.trim());
  }
  for (const name of ["aria-label", "alt", "placeholder", "title"])
    for (const one of document.querySelectorAll(`[${name}]`)) found.push(one.getAttribute(name));
  return found.filter(text => text !== "");
}"""
ENGLISH = re.compile(
    r"(?<![\w.-])(?:the|of|is|are|and|with|not|to|at|for|from|its|it|this|that|on|which|where|when|"
    r"both|two|per|each|have|been|would|there|into|under|over|between|behind|after|before|than|more|"
    r"less|nothing|joints?|strip|face|wall|roof|floor|by|signed|designer|sealed|leak)(?![\w-])",
    re.IGNORECASE,
)
SPANISH = re.compile(
    r"(?<![\w.-])(?:el|la|los|las|de|del|y|con|para|por|que|se|una|sin|sobre|juntas?|cara)(?![\w-])",
    re.IGNORECASE,
)
US_UNITS = re.compile(r"""\d\s?['"″′]|\b(?:ft|in|CFM|cfm|mph|fl oz|Btu)\b|°F""")
METRIC_UNITS = re.compile(r"\d\s(?:mm|m|cm|km)\b|°C|m³/h|m²(?!\w)|\d m/s")
ALLOWED = (
    r"(?:First|Heron|Cypress) House",  # names of the invented houses
    r"\(inside the inner faces of the panels\)",  # the rule of a file of readings, as written there
    r"\(invented\)|Alder Bench",  # where they stand
    r"strip-\d+|node-patch|sealant-\d+|foam-\d+|\b(?:corner|gasket|roller)\b",  # stock
    r"ft-in|EN, English|ES, Español|hunt-house\.svg",
    r"\d[\d/-]* in \([\d.]+ mm\)",  # a size of the trade, told in both
    r"como 540 cfm o 920 m3/h|as 540 cfm or 920 m3/h",  # how it may be written
    r"'Air sealing structural insulated panel \(SIP\) seams'",  # titles of works
    r"N-\w+(?:/\w+)*",  # names of nodes
    r"[A-Z]\w*(?:\.\w+)+",  # ids
)


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, str]]:
    """Return the address of a desk with all work done on a built-in house, and the house."""
    held = make_desk(tmp_path_factory.mktemp("desk"), KINDS)
    with socket.socket() as door:
        door.bind(("127.0.0.1", 0))
        port = door.getsockname()[1]
    server = uvicorn.Server(
        uvicorn.Config(make_app(held), host="127.0.0.1", port=port, log_level="error", ws="none")
    )
    thread = threading.Thread(target=server.run)
    thread.start()
    while not server.started:
        time.sleep(0.05)
    address = f"http://127.0.0.1:{port}/"
    try:
        yield address, _worked_out(f"{address}api/v1/")
    finally:
        server.should_exit = True
        thread.join()
        held.close()


def _worked_out(api: str) -> str:
    data = resources.files("seamwright") / "data" / "examples"
    readings = (data / "heron_house_fan_test.csv").read_text(encoding="utf-8")
    source = {"source": {"kind": "example", "name": "first_house"}}
    house = str(_told(f"{api}houses", source)["id"])
    wishes: dict[str, dict[str, object]] = {
        "days": {"limit_s": 3}, "forecast": {}, "hunt": {}, "fan": {"readings": readings},
        "dryness": {"joint": "sill", "years": 1},
    }  # fmt: skip
    for kind, wish in wishes.items():
        job = _told(f"{api}houses/{house}/jobs", {"kind": kind, "wishes": wish})["id"]
        while _told(f"{api}jobs/{job}")["state"] in {"queued", "running"}:
            time.sleep(0.3)
        assert _told(f"{api}jobs/{job}")["state"] == "done", kind
    return house


def _told(url: str, body: object = None) -> dict[str, object]:
    data = None if body is None else json.dumps(body).encode()
    with urlopen(Request(url, data, {"Content-Type": "application/json"})) as answer:
        found: dict[str, object] = json.loads(answer.read())
        return found


def shown(page: Page, address: str, house: str) -> dict[str, set[str]]:
    """Return every text of every page."""
    page.goto(address)
    found = {}
    for place in ("#/houses", *(f"#/h/{house}/{name}" for name in PAGES), "#/new"):
        page.evaluate("to => { location.hash = to }", place)
        page.wait_for_timeout(1500)
        page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
        page.wait_for_timeout(200)
        found[place.rpartition("/")[2]] = set(page.evaluate(READ))
    return found


def left_over(
    texts: dict[str, set[str]], words: re.Pattern[str], units: re.Pattern[str]
) -> list[str]:
    """Return the texts in which words of the other language or other units stand."""
    found = []
    for place, told in texts.items():
        for text in sorted(told):
            bare = re.sub("|".join(ALLOWED), "", text)
            strange = [match[0] for one in (words, units) for match in one.finditer(bare)]
            if strange:
                found.append(f"{place}: {strange} in {text[:160]}")
    return found


def opened(browser: Browser, language: str, units: str, width: int) -> Page:
    """Return a page of somebody who reads this language and these units."""
    page = browser.new_page(
        viewport={"width": width, "height": 900}, locale="es-MX" if language == "es" else "en-US"
    )
    page.add_init_script(
        f"localStorage.setItem('seamwright.language', '{language}');"
        f"localStorage.setItem('seamwright.units', '{units}')"
    )
    return page


def test_spanish_and_metres_everywhere(browser: Browser, desk: tuple[str, str]) -> None:
    """No English word and no foot or inch on any page, results of work included."""
    page = opened(browser, "es", "metric", 1280)
    found = left_over(shown(page, *desk), ENGLISH, US_UNITS)
    assert found == [], "\n".join(found)
    page.close()


def test_english_and_feet_everywhere(browser: Browser, desk: tuple[str, str]) -> None:
    """No Spanish word and no metre on any page."""
    page = opened(browser, "en", "us", 1280)
    found = left_over(shown(page, *desk), SPANISH, METRIC_UNITS)
    assert found == [], "\n".join(found)
    page.close()


@pytest.mark.parametrize("width", [390, 820])
def test_spanish_fits(browser: Browser, desk: tuple[str, str], width: int) -> None:
    """Its longer words make no page wider than a phone or a tablet."""
    address, house = desk
    page = opened(browser, "es", "metric", width)
    page.goto(address)
    wide = []
    for place in ("#/houses", *(f"#/h/{house}/{name}" for name in PAGES), "#/new"):
        page.evaluate("to => { location.hash = to }", place)
        page.wait_for_timeout(700)
        if page.evaluate("document.documentElement.scrollWidth > innerWidth + 1"):
            wide.append(place)
    assert wide == []
    page.close()


def test_the_switch_turns_sentences_at_once(browser: Browser, desk: tuple[str, str]) -> None:
    """A finding on the page follows the language and the drawing follows too, without a reload."""
    address, house = desk
    page = opened(browser, "en", "us", 1280)
    page.goto(f"{address}#/h/{house}/house")
    page.get_by_text("The face of the primary seal is UNSIGNED").first.wait_for()
    page.get_by_role("button", name="ES, Español").click()
    page.get_by_text("La cara del sello principal está SIN FIRMA").first.wait_for()
    page.get_by_role("button", name="EN, English").click()
    page.get_by_text("The face of the primary seal is UNSIGNED").first.wait_for()
    page.close()
