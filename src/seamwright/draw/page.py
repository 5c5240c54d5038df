"""A sheet of paper being drawn on: millimetres, x right, y down; ends as SVG 1.1 text.

Only paths, circles, text and groups with plain attributes are used, so that browsers and the
renderers that know no style sheets, clips or filters show the same picture.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from xml.sax.saxutils import escape

from seamwright.draw.ink import ADVANCE, BLACK, TEXT, WHITE, Pen
from seamwright.draw.types import Anchor, Points
from seamwright.geometry.types import Vec2

FAMILY = '"DejaVu Sans Mono", monospace'
RISE, DROP = 0.77, 0.24
"""Reach of the glyphs above and below the base line, in em; from the font's own tables."""


def text_width(text: str, size: float = TEXT) -> float:
    """Return the width of a line of text. [mm]"""
    return len(text) * ADVANCE * size


class Page:
    """Collects marks in order; `finish` returns the SVG text."""

    def __init__(self, width: float, height: float) -> None:
        self.width = width
        self.height = height
        self._parts: list[str] = []
        self._front: list[str] = []

    def line(self, a: Vec2, b: Vec2, pen: Pen) -> None:
        """Draw a straight line."""
        self.path((a, b), pen)

    def path(
        self, points: Points, pen: Pen | None, fill: str | None = None, *, closed: bool = False
    ) -> None:
        """Draw a polyline or, `closed`, a polygon; `pen` None leaves it without an outline."""
        if len(points) > 1:
            self._emit(_trail(points, closed=closed), pen, fill)

    def rings(self, rings: Iterable[Points], pen: Pen | None, fill: str | None) -> None:
        """Draw a polygon with holes (even-odd)."""
        self._emit(" ".join(_trail(ring, closed=True) for ring in rings), pen, fill)

    def lines(self, pairs: Iterable[tuple[Vec2, Vec2]], pen: Pen) -> None:
        """Draw many loose lines with one pen as one path."""
        data = " ".join(_trail(pair, closed=False) for pair in pairs)
        if data:
            self._emit(data, pen, None)

    def circle(self, at: Vec2, radius: float, pen: Pen | None, fill: str | None = None) -> None:
        """Draw a circle."""
        paint = _paint(pen, fill)
        self._parts.append(f'<circle cx="{_n(at[0])}" cy="{_n(at[1])}" r="{_n(radius)}"{paint}/>')

    def text(
        self,
        at: Vec2,
        text: str,
        size: float = TEXT,
        *,
        anchor: Anchor = "start",
        angle: float = 0.0,
        color: str = BLACK,
        bold: bool = False,
        kind: str = "",
        front: bool = False,
    ) -> None:
        """Draw text with its base line at `at`, turned by `angle` degrees clockwise."""
        if not text:
            return
        turn = f' transform="rotate({_n(angle)} {_n(at[0])} {_n(at[1])})"' if angle else ""
        weight = ' font-weight="bold"' if bold else ""
        role = f' class="{kind}"' if kind else ""
        (self._front if front else self._parts).append(
            f'<text{role} x="{_n(at[0])}" y="{_n(at[1])}" font-size="{_n(size)}" fill="{color}"'
            f' text-anchor="{anchor}"{weight}{turn}>{escape(text)}</text>'
        )

    def centered(
        self, at: Vec2, text: str, size: float = TEXT, *, angle: float = 0.0,
        color: str = BLACK, bold: bool = False, kind: str = "", paper: bool = True,
    ) -> None:  # fmt: skip
        """Draw text with the middle of its box at `at`, on a patch of paper, above all lines."""
        turn = math.radians(angle)
        drop = (RISE - DROP) / 2 * size
        base = (at[0] - drop * math.sin(turn), at[1] + drop * math.cos(turn))
        if paper:
            wide, tall = text_width(text, size) / 2 + 0.25, size / 2 + 0.02
            corners = box_corners(at, wide, tall, angle)
            self._front.append(
                f'<path d="{_trail(corners, closed=True)}"{_paint(None, WHITE)}'
                ' fill-opacity="0.82"/>'
            )
        self.text(base, text, size, anchor="middle", angle=angle, color=color, bold=bold,
                  kind=kind, front=True)  # fmt: skip

    def bring_forward(self) -> None:
        """Put the text collected so far onto the page; later marks lie above it."""
        self._parts += self._front
        self._front = []

    def finish(self) -> str:
        """Return the SVG text."""
        self.bring_forward()
        body = "\n".join(self._parts)
        size = f'width="{_n(self.width)}mm" height="{_n(self.height)}mm"'
        view = f'viewBox="0 0 {_n(self.width)} {_n(self.height)}"'
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" {size} {view}>\n'
            f'<rect width="{_n(self.width)}" height="{_n(self.height)}" fill="{WHITE}"/>\n'
            f'<g font-family=\'{FAMILY}\' stroke-linecap="butt" stroke-linejoin="round">\n'
            f"{body}\n</g>\n</svg>\n"
        )

    def _emit(self, data: str, pen: Pen | None, fill: str | None) -> None:
        self._parts.append(f'<path d="{data}"{_paint(pen, fill)}/>')


def box_corners(at: Vec2, half_wide: float, half_tall: float, angle: float) -> tuple[Vec2, ...]:
    """Return the corners of a turned box around `at`; `angle` in degrees clockwise. [mm]"""
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    signs = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    return tuple(
        (
            at[0] + x * half_wide * c - y * half_tall * s,
            at[1] + x * half_wide * s + y * half_tall * c,
        )
        for x, y in signs
    )


def _trail(points: Points | Sequence[Vec2], *, closed: bool) -> str:
    data = "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in points)
    return data + "Z" if closed else data


def _paint(pen: Pen | None, fill: str | None) -> str:
    paint = f' fill="{fill if fill is not None else "none"}"'
    if fill is not None:
        paint += ' fill-rule="evenodd"'
    if pen is None:
        return paint
    paint += f' stroke="{pen.color}" stroke-width="{_n(pen.width)}"'
    if pen.dash:
        paint += f' stroke-dasharray="{" ".join(_n(part) for part in pen.dash)}"'
    return paint


def _n(value: float) -> str:
    """Return a number rounded to a thousandth, without trailing zeros or a minus zero."""
    shown = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if shown == "-0" else shown
