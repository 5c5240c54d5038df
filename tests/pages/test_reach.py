"""The desk at 200 % zoom, without motion, and by the keyboard alone."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, Page, expect
from tests.pages.test_access import PAGES, open_first_house

pytestmark = pytest.mark.slow

COVERED = """() => [...document.querySelectorAll('main a, main button, main input, main select')]
  .filter(one => one.checkVisibility({visibilityProperty: true}) && !one.closest('.hidden-words'))
  .filter(one => !one.classList.contains('hidden-words') && !one.closest('.table-frame'))
  .filter(one => {
    one.scrollIntoView({block: 'center'});
    const box = (one.closest('label') ?? one).getBoundingClientRect();
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    if (x < 0 || x > innerWidth) return true;
    const top = document.elementFromPoint(x, y);
    return top !== null && !one.contains(top) && !top.contains(one)
      && !(one.closest('label')?.contains(top) ?? false) && top.closest('a, button') !== one;
  }).map(one => one.outerHTML.slice(0, 140))"""


def test_nothing_is_lost_at_twice_the_size(browser: Browser, desk_address: str) -> None:
    """At 200 % of a small laptop nothing runs out sideways, and nothing covers a control."""
    page = browser.new_page(viewport={"width": 640, "height": 400}, device_scale_factor=2)
    page.goto(desk_address)
    house = open_first_house(page)
    for name in PAGES:
        page.evaluate("to => { location.hash = to }", f"#/h/{house}/{name}")
        page.wait_for_timeout(900)
        assert page.evaluate("() => document.documentElement.scrollWidth") <= 640, name
        assert page.evaluate(COVERED) == [], name
    page.close()


def test_less_motion_is_kept_to(browser: Browser, desk_address: str) -> None:
    """Where the reader asked for less motion nothing runs or fades, and the model turns at once."""
    page = browser.new_page(reduced_motion="reduce")
    page.goto(desk_address)
    open_first_house(page)
    page.wait_for_timeout(1500)
    page.get_by_role("button", name="North", exact=True).click()
    page.wait_for_timeout(400)
    moving = page.evaluate("() => document.getAnimations().length")
    assert moving == 0
    page.close()


FOCUSED = """() => {
  const one = document.activeElement;
  if (one === null || !one.matches('a, button, input, select, summary')) return '';
  return [one.getAttribute('aria-label'), one.labels?.[0]?.textContent, one.textContent].join(' ');
}"""


def press_until(page: Page, key: str, words: str, most: int = 60) -> None:
    """Press a key until what holds the focus says so."""
    for _ in range(most):
        told = page.evaluate(FOCUSED)
        if words in told:
            return
        page.keyboard.press(key)
    message = f"the focus never came to ‘{words}’"
    raise AssertionError(message)


def test_a_joint_is_found_and_corrected_by_keyboard_alone(page: Page) -> None:
    """From the model to a kept correction without a mouse."""
    open_first_house(page)
    press_until(page, "Tab", "Joint or node")
    page.keyboard.type("A.1-A.2")
    expect(page.get_by_role("button", name="A.1-A.2 wall spline")).to_be_visible()
    press_until(page, "Tab", "A.1-A.2")
    page.keyboard.press("Enter")
    expect(page.get_by_role("link", name="Open this joint")).to_be_visible()
    press_until(page, "Shift+Tab", "Open this joint")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_contain_text("Joint A.1-A.2")
    press_until(page, "Tab", "Correct it")
    page.keyboard.press("Enter")
    press_until(page, "Tab", "Span between sound skins")
    page.keyboard.type('3"')
    press_until(page, "Tab", "Reason")
    page.keyboard.type("beam planed on site")
    press_until(page, "Tab", "Keep this correction")
    page.keyboard.press("Enter")
    expect(page.get_by_text("A correction stands: beam planed on site")).to_be_visible()
