"""Label placement: never on one another, never off the window, never lost."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.draw.textboxes import overlaps, text_boxes

from seamwright.draw.labels import Label, Placer
from seamwright.draw.page import Page
from seamwright.draw.types import Rect

WINDOW = Rect(x0=10.0, y0=10.0, x1=110.0, y1=80.0)
places = st.tuples(st.floats(12.0, 108.0), st.floats(12.0, 78.0))
labels = st.lists(
    st.tuples(st.text("ABR.-123", min_size=2, max_size=12), places, places, st.booleans()),
    min_size=1,
    max_size=60,
)


def placed(items) -> tuple[Page, Placer]:
    """Place labels on lines and points; return the page and the placer."""
    page, placer = Page(120.0, 90.0), Placer(window=WINDOW)
    for _, a, b, point in items:
        placer.draw_ink(a, a if point else b)
    for text, a, b, point in items:
        placer.place(page, Label(text=text, start=a, end=a if point else b))
    return page, placer


@settings(derandomize=True, max_examples=40, deadline=None)
@given(labels)
def test_labels_never_overlap_nor_leave_the_window(items):
    """Whatever is asked for, boxes stay apart and inside the window."""
    page, _ = placed(items)
    boxes = text_boxes(page.finish())
    assert overlaps(boxes) == []
    for box in boxes:
        x0, y0, x1, y1 = box.box.bounds
        assert WINDOW.x0 <= x0
        assert x1 <= WINDOW.x1
        assert WINDOW.y0 <= y0
        assert y1 <= WINDOW.y1


@settings(derandomize=True, max_examples=40, deadline=None)
@given(labels)
def test_every_label_is_placed_or_in_the_key(items):
    """A label that is not written stands in the key."""
    page, placer = placed(items)
    written = [b.text for b in text_boxes(page.finish())]
    for text in {item[0] for item in items}:
        wanted = sum(1 for item in items if item[0] == text)
        assert wanted <= written.count(text) + placer.key.count(text)


def test_a_long_line_carries_its_label_along_itself():
    """A label on a long upright line is turned to read along it, without a leader."""
    page, placer = Page(120.0, 90.0), Placer(window=WINDOW)
    assert placer.place(page, Label(text="A.1-A.2", start=(60.0, 20.0), end=(60.0, 70.0)))
    svg = page.finish()
    assert "rotate(-90" in svg
    assert "<circle" not in svg


def test_a_full_window_sends_labels_to_the_key():
    """Where no place is left the label gets a number and a row in the key."""
    page, placer = Page(120.0, 90.0), Placer(window=WINDOW)
    placer.block(WINDOW)
    assert not placer.place(page, Label(text="A.1-A.2", start=(60.0, 20.0), end=(60.0, 20.0)))
    assert placer.key == ["A.1-A.2"]
