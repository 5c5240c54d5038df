"""Files of every sort fall onto the list of houses, and the house stands there."""

from __future__ import annotations

import base64
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

pytestmark = pytest.mark.slow

ROOT = Path(__file__).parents[2]
FILES = {
    "plan": ("src/seamwright/data/houses/first_house.yaml",),
    "list": ("examples/sixty_panels.csv", "examples/sixty_panels_types.yaml"),
    "model": ("src/seamwright/data/houses/wren_house.ifc",),
}

DROP = """([place, files]) => {
  const moved = new DataTransfer();
  for (const [name, body] of files)
    moved.items.add(new File([Uint8Array.from(atob(body), one => one.charCodeAt(0))], name));
  for (const kind of ['dragover', 'drop'])
    place.dispatchEvent(
      new DragEvent(kind, {dataTransfer: moved, bubbles: true, cancelable: true}));
}"""


def drop(page: Page, names: tuple[str, ...]) -> None:
    """Let files fall onto the place for them, as a hand with a mouse would."""
    files = [
        (Path(name).name, base64.b64encode((ROOT / name).read_bytes()).decode()) for name in names
    ]
    place = page.get_by_role("region", name="Files", exact=True).element_handle()
    page.evaluate(DROP, [place, files])


@pytest.mark.parametrize("sort", list(FILES))
def test_a_dropped_file_becomes_a_house(page: Page, sort: str) -> None:
    """A plan, a panel list with its types and a building model each open as a model of joints."""
    drop(page, FILES[sort])
    expect(page.get_by_role("complementary", name="Key to the drawing")).to_be_visible(
        timeout=60_000
    )


def test_a_file_that_cannot_be_read_is_told_in_sentences(page: Page, tmp_path: Path) -> None:
    """A broken plan is refused with what is wrong; no house is kept."""
    bad = tmp_path / "bad.yaml"
    bad.write_text("storeys: [{id: one, height: wide}]\n", "utf-8")
    files = [("bad.yaml", base64.b64encode(bad.read_bytes()).decode())]
    place = page.get_by_role("region", name="Files", exact=True).element_handle()
    page.evaluate(DROP, [place, files])
    expect(page.get_by_role("alert").first).to_be_visible()
    assert "#/h/" not in page.url
