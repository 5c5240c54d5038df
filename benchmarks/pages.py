"""How soon the pages answer a hand: first view, bytes, touches and turning, in a real browser.

The desk is opened in a process of its own and given a terrace of 10,000 joints (`desk.py`).
A browser without a graphics card opens it, so pictures are drawn by the processor: the time of a
whole picture then says little about a machine with one, and the work the page itself does for a
picture is told apart. A touch is timed from its event to the next picture (the browser's own count,
event timing, in steps of 8 ms); the slowest of several is told.
"""

from __future__ import annotations

import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from benchmarks.desk import LONG, opened, terrace
from benchmarks.desk import Page as Asker
from playwright.sync_api import Page, sync_playwright
from playwright.sync_api import TimeoutError as Timeout

ROOT = Path(__file__).resolve().parents[1]
PAGES = ROOT / "src" / "seamwright" / "app" / "pages"
WAYS = ("--no-sandbox", "--use-gl=angle", "--use-angle=swiftshader",
        "--enable-unsafe-swiftshader", "--disable-background-networking")  # fmt: skip
TURNS = 24
PICTURES = "document.querySelector('canvas')?.view?.pictures"

WATCH = """() => {
  window.touches = [];
  new PerformanceObserver(list => {
    for (const one of list.getEntries()) if (one.interactionId) window.touches.push({
      name: one.name, took: one.duration, waited: one.processingStart - one.startTime,
      worked: one.processingEnd - one.processingStart, id: one.interactionId});
  }).observe({type: 'event', durationThreshold: 16, buffered: false});
  window.longest = [];
  new PerformanceObserver(list => {
    for (const one of list.getEntries()) window.longest.push(one.duration);
  }).observe({type: 'longtask'});
}"""


def sizes() -> dict[str, Any]:
    """Return the bytes of the built pages, packed as they are sent to a browser. [kB]"""
    packed = {path: path.stat().st_size for path in PAGES.rglob("*.br")}
    first = (PAGES / "index.html").read_text("utf-8")
    named = [path for path in packed if path.name[:-3] in first or path.name == "index.html.br"]
    gzipped = sum(path.stat().st_size for path in PAGES.rglob("*.gz"))
    return {
        "all pages, brotli in kB": sum(packed.values()) / 1e3,
        "all pages, gzip in kB": gzipped / 1e3,
        "first view, brotli in kB": sum(packed[path] for path in named) / 1e3,
    }


def first_view(page: Page, address: str) -> dict[str, Any]:
    """Return when the list of houses stands there, with an empty store of the browser. [ms]"""
    times = []
    for _ in range(5):
        fresh = page.context.browser.new_context()  # type: ignore[union-attr]
        one = fresh.new_page()
        begun = time.perf_counter()
        one.goto(address)
        one.get_by_role("heading", level=1).wait_for()
        times.append(1e3 * (time.perf_counter() - begun))
        fresh.close()
    return {"first view in ms, middle of 5": statistics.median(times), "worst": max(times)}


def touched(page: Page, do: Callable[[], object], *, rest: float = 1.5) -> str:
    """Return how long touches took to the next picture, from the browser's own count."""
    page.evaluate("() => { window.touches = []; window.longest = [] }")
    do()
    page.wait_for_timeout(1e3 * rest)
    rows = page.evaluate("() => window.touches")
    if not rows:
        return "under 16 ms"
    worst = max(rows, key=lambda row: row["took"])
    longest = max(page.evaluate("() => window.longest"), default=0)
    return (
        f"{worst['took']:.0f} ms ({worst['name']}: waited {worst['waited']:.0f}, "
        f"worked {worst['worked']:.0f}; longest task {longest:.0f})"
    )


def touches(page: Page, house: str) -> dict[str, str]:
    """Return the slowest touch of each kind on the pages of a large house."""
    found = {}

    def go(name: str, wait: str) -> None:
        page.evaluate("to => { location.hash = to }", f"#/h/{house}/{name}")
        page.locator(wait).first.wait_for(timeout=120_000)
        page.wait_for_timeout(2500)

    go("joints", "tbody tr")
    find = page.get_by_role("searchbox").first
    found["filter the table"] = touched(page, lambda: find.press_sequentially("ridge", delay=120))
    found["take the filter away"] = touched(page, lambda: find.fill(""))
    head = page.locator("thead button").nth(3)
    found["sort the table"] = touched(page, head.click)
    tick = page.get_by_role("checkbox").nth(2)
    found["choose a row"] = touched(page, tick.click)
    found["choose all rows"] = touched(page, page.get_by_role("checkbox").first.click)
    links = page.get_by_role("navigation").get_by_role("link")
    for name in ("Sides", "Order", "Joints"):
        found[f"switch to {name}"] = touched(page, links.filter(has_text=name).first.click, rest=3)
    found["switch to Model"] = touched(page, links.filter(has_text="Model").first.click, rest=8)
    page.wait_for_function(f"() => {PICTURES}?.at(-1)?.fine")
    page.wait_for_timeout(4000)
    page.get_by_label("Lines drawn by").first.focus()
    found["change the color"] = touched(page, lambda: page.keyboard.press("ArrowDown"), rest=6)
    canvas = page.locator("canvas").first
    for number, at in enumerate(((0.5, 0.5), (0.45, 0.52), (0.55, 0.48)), start=1):
        box = canvas.bounding_box()
        assert box is not None
        x, y = box["x"] + at[0] * box["width"], box["y"] + at[1] * box["height"]
        found[f"pick a joint, {number}"] = touched(
            page, lambda x=x, y=y: page.mouse.click(x, y), rest=6
        )
    return found


def picked(page: Page) -> dict[str, float]:
    """Return how long it takes from a touch on a joint until its slip stands there. [ms]"""
    canvas = page.locator("canvas").first
    box = canvas.bounding_box()
    assert box is not None
    times = []
    for at in ((0.5, 0.5), (0.47, 0.51), (0.53, 0.49), (0.44, 0.53)):
        page.keyboard.press("Escape")
        if page.locator(".slip").count() > 0:
            page.locator(".slip button").last.click()
        page.wait_for_timeout(1500)
        begun = time.perf_counter()
        page.mouse.click(box["x"] + at[0] * box["width"], box["y"] + at[1] * box["height"])
        try:
            page.locator(".slip").wait_for(timeout=3000)
        except Timeout:
            continue
        times.append(1e3 * (time.perf_counter() - begun))
    return {"the slip of a picked joint stands there in ms, middle": statistics.median(times)}


def turning(page: Page) -> dict[str, Any]:
    """Return how long pictures take while the house turns, the page's own work in them, the rest.

    What is sent to be drawn in a picture (calls, triangles) says what a graphics card would have to
    do, which this machine has not got.
    """
    canvas = page.locator("canvas").first
    box = canvas.bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.evaluate(
        """() => { window.pictures = []; window.longest = [];
      let last = performance.now();
      const step = now => { window.pictures.push(now - last); last = now;
        window.going = requestAnimationFrame(step) };
      window.going = requestAnimationFrame(step);
      PICTURES.splice(0) }""".replace("PICTURES", PICTURES)
    )
    page.mouse.move(x, y)
    page.mouse.down()
    begun = time.perf_counter()
    for k in range(TURNS):
        page.mouse.move(x + 6 * k, y + 2 * k)
        page.wait_for_timeout(40)
    page.mouse.up()
    page.evaluate("() => cancelAnimationFrame(window.going)")
    took = time.perf_counter() - begun
    gaps = sorted(page.evaluate("() => window.pictures"))
    drawn = page.evaluate(
        "() => document.querySelector('canvas').view.pictures.filter(p => !p.fine)"
    )
    page.wait_for_function("() => document.querySelector('canvas').view.pictures.at(-1)?.fine")
    work = sorted(one["ms"] for one in drawn)
    return {
        "pictures of the house a second while turning": len(drawn) / took,
        "work of the script in such a picture in ms, middle": statistics.median(work),
        "such work, 95 %": work[int(0.95 * len(work))],
        "calls to draw in such a picture": drawn[-1]["calls"],
        "triangles in such a picture": drawn[-1]["triangles"],
        "between pictures of the page while turning in ms, middle": gaps[len(gaps) // 2],
        "between pictures of the page while turning in ms, 95 %": gaps[int(0.95 * len(gaps))],
        "longest task of the page while turning in ms": max(
            page.evaluate("() => window.longest"), default=0
        ),
        "from rest to the fine picture in ms": 1e3 * (time.perf_counter() - begun - took),
    }


def browsed(address: str, house: str) -> dict[str, Any]:
    """Return everything measured in a browser."""
    with sync_playwright() as ways:
        browser = ways.chromium.launch(executable_path=shutil.which("chromium"), args=list(WAYS))
        page = browser.new_page(viewport={"width": 1280, "height": 900})
        page.set_default_timeout(120_000)
        page.goto(address)
        page.evaluate(WATCH)
        found = {**first_view(page, address), **touches(page, house), **picked(page),
                 **turning(page)}  # fmt: skip
        browser.close()
    return found


def run(*, quick: bool = False) -> dict[str, Any]:
    """Return the figures, flat; `quick` takes a short terrace."""
    if not (PAGES / "index.html").is_file():
        return {"pages": "not built: run `make pages` first"}
    with tempfile.TemporaryDirectory() as name:
        desk, port = opened(Path(name))
        try:
            asker = Asker(port)
            source = {"kind": "yaml", "text": terrace(8 if quick else LONG)}
            house = asker.told("POST", "houses", {"source": source})["id"]
            for part in ("scene", "joints", "decisions", "order", "findings"):
                asker.ask("GET", f"houses/{house}/{part}")
            return {**sizes(), **browsed(f"http://127.0.0.1:{port}/", house)}
        finally:
            desk.terminate()
            try:
                desk.wait(20)
            except subprocess.TimeoutExpired:
                desk.kill()


if __name__ == "__main__":
    for key, value in run(quick="--quick" in sys.argv).items():
        print(f"{key:48} {value if isinstance(value, str) else round(value, 1)}")
