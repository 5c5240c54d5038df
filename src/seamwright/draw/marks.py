"""Small marks of our own, one per joint kind, so that kinds are told apart without color."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from seamwright.draw.ink import WHITE, KindStyle, Mark, Pen
from seamwright.draw.page import Page
from seamwright.geometry.types import Vec2

Stroke = tuple[Vec2, ...]
_SQUARE: Stroke = ((-1, -1), (1, -1), (1, 1), (-1, 1))
_DIAMOND: Stroke = ((0, -1.3), (1.3, 0), (0, 1.3), (-1.3, 0))
_UP: Stroke = ((0, -1.2), (1.2, 0.9), (-1.2, 0.9))
_OUTLINES: dict[Mark, tuple[Stroke, bool]] = {
    "square": (_SQUARE, True),
    "box": (_SQUARE, False),
    "wedge": (_UP, True),
    "delta": (_UP, False),
    "lozenge": (_DIAMOND, True),
    "rhomb": (_DIAMOND, False),
}
_STROKES: dict[Mark, tuple[Stroke, ...]] = {
    "cross": (((-1, -1), (1, 1)), ((-1, 1), (1, -1))),
    "plus": (((-1.2, 0), (1.2, 0)), ((0, -1.2), (0, 1.2))),
    "bar": (((0, -1.4), (0, 1.4)),),
    "bars": (((-0.5, -1.3), (-0.5, 1.3)), ((0.5, -1.3), (0.5, 1.3))),
    "tee": (((-1.2, -1.0), (1.2, -1.0)), ((0, -1.0), (0, 1.3))),
    "vee": (((-1.2, -1.1), (0, 1.1), (1.2, -1.1)),),
    "hat": (((-1.2, 1.1), (0, -1.1), (1.2, 1.1)),),
    "star": (((-1.3, 0), (1.3, 0)), ((-0.7, -1.1), (0.7, 1.1)), ((-0.7, 1.1), (0.7, -1.1))),
}


def draw_mark(page: Page, at: Vec2, style: KindStyle, size: float = 0.75) -> None:
    """Draw the mark of a joint kind around a point; `size` is half its height. [mm]"""
    pen = Pen(width=0.28, color=style.pen.color)
    mark = style.mark
    if mark in {"disc", "ring"}:
        page.circle(at, size, pen, style.pen.color if mark == "disc" else WHITE)
        return
    place = _placer(at, size)
    if mark in _OUTLINES:
        outline, full = _OUTLINES[mark]
        page.path(place(outline), pen, style.pen.color if full else WHITE, closed=True)
        return
    for stroke in _STROKES[mark]:
        page.path(place(stroke), pen)


def _placer(at: Vec2, size: float) -> Callable[[Sequence[Vec2]], tuple[Vec2, ...]]:
    def place(points: Sequence[Vec2]) -> tuple[Vec2, ...]:
        return tuple((at[0] + x * size, at[1] + y * size) for x, y in points)

    return place
