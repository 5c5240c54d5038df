"""How soon the desk answers: every read of a house of 10,000 joints, over HTTP on this machine.

A long terrace (invented) is laid out, the desk is opened in a process of its own, and each address
is asked a hundred times, one after another, as a page would. Told are the middle and the 95th
percentile of the time to the last byte, and the bytes sent.
"""

from __future__ import annotations

import gzip
import http.client
import json
import re
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

TIMES = 100
LONG = 360
"""Panels along the terrace: about 3,000 panels and 10,000 joints."""


def terrace(panels: int) -> str:
    """Return the plan of a two-storey terrace, so many 1.2 m panels long."""
    length = panels * 1200
    windows = [
        f"  - {{id: W{wall}.{number}, kind: window, in: {wall}, along: {4800 * number + 1500} mm, "
        "up: 900 mm, width: 1200 mm, height: 1200 mm}"
        for wall in ("A", "2A", "C", "2C")
        for number in range(panels // 4)
    ]
    corners = f"[[0 mm, 0 mm], [{length} mm, 0 mm], [{length} mm, 9600 mm], [0 mm, 9600 mm]]"
    return "\n".join(
        [
            "site: {name: Terrace (invented), climate_zone: 5B, zone_edition: IECC 2021}",
            "panel_types:",
            "  - {id: wall, thickness: 165 mm, max_width: 1200 mm, max_length: 7300 mm}",
            "  - {id: roof, thickness: 260 mm, max_width: 1200 mm, max_length: 7300 mm}",
            "base: {kind: slab, top: 0 mm, thickness: 100 mm, sill: 38 mm}",
            "storeys:",
            '  - {id: "1", height: 2700 mm, panel_type: wall}',
            '  - {id: "2", height: 2.7 m, panel_type: wall, floor: platform, floor_depth: 0.3 m}',
            "footprints:",
            f"  - {{id: main, corners: {corners}}}",
            "roof:",
            "  - {id: main, kind: gable, over: main, eaves: [south, north], pitch: 6/12,",
            "     panel_type: roof, overhang_eave: 300 mm, ridge_beam: 140 mm x 400 mm}",
            "openings:",
            *windows,
            "",
        ]
    )


class Page:
    """A connection to the desk that stays open, as a browser's does."""

    def __init__(self, port: int) -> None:
        self._held = http.client.HTTPConnection("127.0.0.1", port, timeout=1800)

    def ask(self, way: str, address: str, body: object = None) -> tuple[bytes, float]:
        """Return the bytes of an answer and the time it took. [s]"""
        data = None if body is None else json.dumps(body).encode()
        headers = {"Accept-Encoding": "gzip", "Content-Type": "application/json"}
        begun = time.perf_counter()
        self._held.request(way, f"/api/v1/{address}", data, headers)
        answer = self._held.getresponse()
        said = answer.read()
        took = time.perf_counter() - begun
        if answer.status >= 400:
            raise SystemExit(f"{way} {address}: {answer.status} {said[:300]!r}")
        return said, took

    def told(self, way: str, address: str, body: object = None) -> Any:  # noqa: ANN401 any answer
        """Return an answer as data."""
        said, _ = self.ask(way, address, body)
        if said[:2] == b"\x1f\x8b":
            said = gzip.decompress(said)
        return json.loads(said)


def opened(folder: Path) -> tuple[subprocess.Popen[str], int]:
    """Return a desk that answers, and its port."""
    command = [sys.executable, "-c", "from seamwright.cli import main; main()", "serve", "--port=0"]
    desk = subprocess.Popen(  # noqa: S603 our own program with our own words
        [*command, "--folder", str(folder)], stdout=subprocess.PIPE, text=True
    )  # fmt: skip
    assert desk.stdout is not None
    found = re.search(r":(\d+)/", desk.stdout.readline())
    assert found is not None
    return desk, int(found[1])


def reads(page: Page, house: str) -> list[str]:
    """Return every address that a page reads, by turns over many joints where it is about one."""
    ids = [row["id"] for row in page.told("GET", f"houses/{house}/joints")["joints"]]
    some = ids[:: max(1, len(ids) // TIMES)][:TIMES]
    whole = ("", "/plan", "/scene", "/joints", "/findings", "/decisions", "/order", "/revisions",
             "/draft", "/records", "/jobs", "/decisions/book", "/order.csv")  # fmt: skip
    return [
        "about", "settings", "examples", "houses",
        *(f"houses/{house}{part}" for part in whole),
        *(f"houses/{house}/joints/{name}" for name in some),
        *(f"houses/{house}/joints/{name}/section" for name in some),
    ]  # fmt: skip


def named(address: str, house: str) -> str:
    """Return what an address is called in the table."""
    bare = address.replace(house, "ID")
    bare = re.sub(r"/joints/[^/]+/section", "/joints/J/section", bare)
    return re.sub(r"/joints/(?!J/)[^/]+$", "/joints/J", bare)


def measured(page: Page, house: str) -> dict[str, str]:
    """Return a row for each kind of address, asked so that nothing has to be made anew."""
    found: dict[str, list[tuple[float, int]]] = {}
    for address in reads(page, house):
        page.ask("GET", address)
        for _ in range(1 if "/joints/" in address else TIMES):
            said, took = page.ask("GET", address)
            found.setdefault(named(address, house), []).append((took, len(said)))
    return {
        name: f"{told([took for took, _ in rows])}, {max(size for _, size in rows) / 1e3:.1f} kB"
        for name, rows in found.items()
    }


def first_sights(page: Page, house: str) -> dict[str, str]:
    """Return how long single joints take that nobody has looked at yet."""
    ids = [row["id"] for row in page.told("GET", f"houses/{house}/joints")["joints"]]
    some = ids[3 :: max(1, len(ids) // TIMES)][:TIMES]
    return {
        f"first sight of a joint{part}": told(
            [page.ask("GET", f"houses/{house}/joints/{name}{part}")[1] for name in some]
        )
        for part in ("", "/section")
    }


def told(times: list[float]) -> str:
    """Return the middle and the 95th percentile of some times."""
    times = sorted(times)
    middle, late = times[len(times) // 2], times[min(len(times) - 1, int(0.95 * len(times)))]
    return f"p50 {1e3 * middle:.1f} ms, p95 {1e3 * late:.1f} ms"


def run(*, quick: bool = False) -> dict[str, Any]:
    """Return the figures, flat; `quick` takes a short terrace."""
    with tempfile.TemporaryDirectory() as name:
        desk, port = opened(Path(name))
        try:
            return _figures(Page(port), 8 if quick else LONG)
        finally:
            desk.terminate()
            desk.wait()


def _figures(page: Page, long: int) -> dict[str, Any]:
    source = {"kind": "yaml", "text": terrace(long)}
    begun = time.perf_counter()
    counted = page.told("POST", "validate", {"source": source})["counted"]
    checked = time.perf_counter() - begun
    begun = time.perf_counter()
    house = page.told("POST", "houses", {"source": source})["id"]
    taken = time.perf_counter() - begun
    begun = time.perf_counter()
    for part in ("scene", "joints", "decisions", "order", "findings"):
        page.ask("GET", f"houses/{house}/{part}")
    return {
        "panels": counted["panels"],
        "joints": counted["joints"],
        "validated in s": checked,
        "taken in and sealed in s": taken,
        "documents first made in s": time.perf_counter() - begun,
        **first_sights(page, house),
        **measured(page, house),
    }


if __name__ == "__main__":
    for key, value in run(quick="--quick" in sys.argv).items():
        print(f"{key:32} {value}")
