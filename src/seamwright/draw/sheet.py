"""The sheet around a drawing: border, title strip, side column, scale bar, north arrow."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from seamwright.draw.ink import (
    ADVANCE,
    BLACK,
    CUT,
    EDGE,
    GREY,
    SMALL,
    TEXT,
    THIN,
    WHITE,
    Pen,
)
from seamwright.draw.labels import Label, Placer
from seamwright.draw.page import Page, text_width
from seamwright.draw.scale import Scale
from seamwright.draw.types import Drawing, Paper, Points, Rect
from seamwright.geometry.types import Vec2
from seamwright.units import System, format_length
from seamwright.words import Language, translate

SIZES: dict[Paper, Vec2] = {"letter": (279.4, 215.9), "a4": (297.0, 210.0)}
"""Landscape sheets: ANSI letter (ASME Y14.1, from memory) and A4 (ISO 216). [mm]"""

STEPS: dict[System, tuple[float, ...]] = {
    "us": (1 / 12, 0.25, 0.5, 1, 2, 4, 8, 16, 32, 64, 128),
    "metric": (0.01, 0.05, 0.1, 0.25, 0.5, 1, 2, 5, 10, 20, 50, 100),
}
"""Half lengths of a scale bar. [ft], [m]"""
BORDER = 8.0
STRIP = 11.5
SIDE = 44.0
ROW = 3.1
UNITS: dict[System, str] = {"us": "feet and inches", "metric": "metres and millimetres"}


@dataclass(frozen=True, kw_only=True, slots=True)
class Head:
    """What stands in the title strip, and the units and language of all that is written."""

    name: str
    title: str
    subject: str
    caption: str
    system: System
    paper: Paper
    language: Language = "en"


class Sheet:
    """A page with its frame; `window` is free for the drawing, the side column fills downward."""

    def __init__(self, head: Head, *, side: float = SIDE) -> None:
        self.head = head
        width, height = SIZES[head.paper]
        self.page = Page(width, height)
        frame = Rect(x0=BORDER, y0=BORDER, x1=width - BORDER, y1=height - BORDER)
        self.frame = frame
        self.window = Rect(
            x0=frame.x0, y0=frame.y0, x1=frame.x1 - side, y1=frame.y1 - STRIP
        ).shrunk(1.5)
        self.side = Rect(x0=frame.x1 - side, y0=frame.y0, x1=frame.x1, y1=frame.y1 - STRIP)
        self.placer = Placer(window=self.window)
        self._y = self.side.y0 + 2.0

    @property
    def room(self) -> float:
        """What is left of the side column. [mm]"""
        return self.side.y1 - self._y - 1.5

    @property
    def columns(self) -> int:
        """How many letters fit across the side column."""
        return int((self.side.width - 4.0) / (ADVANCE * SMALL))

    def say(self, text: str) -> str:
        """Return a text of the drawing's own in the sheet's language."""
        return translate(text, self.head.language)

    def label(self, label: Label) -> bool:
        """Place a label; False when it went to the key."""
        return self.placer.place(self.page, label)

    def outline(self, points: Points, pen: Pen, fill: str | None = None) -> None:
        """Draw a closed outline that labels keep off."""
        self.page.path(points, pen, fill, closed=True)
        ring = [*points, points[0]]
        for a, b in itertools.pairwise(ring):
            self.placer.draw_ink(a, b)

    def take(self, height: float) -> float:
        """Reserve `height` of the side column and return the y of its top. [mm]"""
        top = self._y
        self._y += height
        return top

    def heading(self, text: str) -> None:
        """Write a heading in the side column."""
        y = self.take(ROW + 1.6)
        self.page.text((self.side.x0 + 2.0, y + 3.0), self.say(text), TEXT, bold=True)
        self.page.line((self.side.x0 + 2.0, y + 3.9), (self.side.x1 - 2.0, y + 3.9), THIN)

    def row(self, text: str, *, color: str = BLACK, indent: float = 0.0) -> None:
        """Write one line in the side column, in more where another language needs them."""
        told = self.say(text)
        for line in [told] if told == text else wrapped(told, self.columns):
            y = self.take(ROW)
            self.page.text((self.side.x0 + 2.0 + indent, y + 2.3), line, SMALL, color=color)

    def notes(self, text: str, *, color: str = BLACK) -> None:
        """Write a paragraph in the side column, broken at spaces."""
        for line in wrapped(self.say(text), self.columns):
            y = self.take(ROW)
            self.page.text((self.side.x0 + 2.0, y + 2.3), line, SMALL, color=color)

    def gap(self, height: float = 2.0) -> None:
        """Leave room in the side column. [mm]"""
        self.take(height)

    def finish(self, scale: str, shown: Sequence[str] = ()) -> Drawing:
        """Draw the frame and the title strip, and return the drawing."""
        self.page.bring_forward()
        _frame(self)
        _title_strip(self, scale)
        head = self.head
        return Drawing(
            name=head.name,
            title=head.title,
            svg=self.page.finish(),
            width_mm=self.page.width,
            height_mm=self.page.height,
            scale=scale,
            caption=head.caption,
            shown=tuple(sorted(set(shown))),
        )


def wrapped(text: str, columns: int) -> list[str]:
    """Return the text in lines of at most `columns` letters, broken at spaces."""
    lines: list[str] = [""]
    for word in text.split():
        rest = word
        while len(rest) > columns:
            if lines[-1]:
                lines.append("")
            lines[-1], rest = rest[:columns], rest[columns:]
            lines.append("")
        if lines[-1] and len(lines[-1]) + 1 + len(rest) > columns:
            lines.append("")
        lines[-1] = f"{lines[-1]} {rest}" if lines[-1] else rest
    return [line for line in lines if line]


def packed(words: Sequence[str], columns: int) -> list[list[str]]:
    """Return words in rows that fit `columns` letters with two spaces between them."""
    rows: list[list[str]] = [[]]
    for word in words:
        if rows[-1] and len("  ".join((*rows[-1], word))) > columns:
            rows.append([])
        rows[-1].append(word)
    return rows


def shortened(text: str, width: float, size: float) -> str:
    """Return the text cut to fit `width`, ending in an ellipsis where it was cut. [mm]"""
    if text_width(text, size) <= width:
        return text
    keep = max(int(width / (ADVANCE * size)) - 1, 0)
    return text[:keep].rstrip() + "…" if keep else ""


def _frame(sheet: Sheet) -> None:
    page, frame, side = sheet.page, sheet.frame, sheet.side
    page.path(_corners(frame), CUT, closed=True)
    page.line((frame.x0, frame.y1 - STRIP), (frame.x1, frame.y1 - STRIP), EDGE)
    if side.width > 0:
        page.line((side.x0, side.y0), (side.x0, side.y1), THIN)


def _title_strip(sheet: Sheet, scale: str) -> None:
    """Write five cells: project, sheet, scale, units, and the sheet's note."""
    page, frame, head = sheet.page, sheet.frame, sheet.head
    top = frame.y1 - STRIP
    note = "Joint ids on lines. UNSIGNED: the side is proposed, not signed by the designer."
    cells = (
        ("project", head.subject, 62.0, True),
        ("sheet", f"{sheet.say(head.title)}  [{head.name}]", 88.0, True),
        ("scale", sheet.say(scale), 34.0, True),
        ("units", sheet.say(UNITS[head.system]), 30.0, False),
        ("note", sheet.say(note), 0.0, False),
    )
    x = frame.x0
    for label, text, width, strong in cells:
        end = x + width if width else frame.x1
        if x > frame.x0:
            page.line((x, top), (x, frame.y1), THIN)
        page.text((x + 1.5, top + 3.0), sheet.say(label), 1.7, color=GREY)
        _cell(page, text, Rect(x0=x + 1.5, y0=top + 3.4, x1=end - 1.0, y1=frame.y1), strong=strong)
        x = end


def _cell(page: Page, text: str, room: Rect, *, strong: bool) -> None:
    size = 2.7 if strong else 1.75
    lines = wrapped(text, max(int(room.width / (ADVANCE * size)), 1))
    if strong and len(lines) > 2:
        size = 2.0
        lines = wrapped(text, max(int(room.width / (ADVANCE * size)), 1))
    pitch = size * 1.25
    most = int(room.height / pitch)
    if len(lines) > most:
        lines = [*lines[: most - 1], shortened(lines[most - 1] + " …" * 20, room.width, size)]
    for index, line in enumerate(lines):
        page.text((room.x0, room.y0 + pitch * (index + 0.85)), line, size, bold=strong)


def draw_scale_bar(sheet: Sheet, scale: Scale) -> None:
    """Draw a bar of whole feet or metres in the side column, to the drawing's own scale."""
    system = sheet.head.system
    unit = 0.3048 if system == "us" else 1.0
    steps = STEPS[system]
    most = (sheet.side.width - 18.0) / 2
    fitting = [step for step in steps if step * unit * scale.mm_per_m <= most]
    step = (fitting[-1] if fitting else steps[0]) * unit
    y, x = sheet.take(8.5), sheet.side.x0 + 4.0
    wide = step * scale.mm_per_m
    for part in range(2):
        corners = Rect(x0=x + part * wide, y0=y + 1.0, x1=x + (part + 1) * wide, y1=y + 2.4)
        sheet.page.path(_corners(corners), THIN, BLACK if part == 0 else WHITE, closed=True)
    for part in range(3):
        shown = "0" if part == 0 else format_length(part * step, system)
        if part == 1 and text_width(shown, SMALL) + text_width("0", SMALL) > wide - 1.0:
            continue
        at = (x + part * wide, y + 5.0)
        sheet.page.text(at, shown, SMALL, anchor="start" if part == 0 else "middle")


def draw_north(sheet: Sheet, up: float = 0.0) -> None:
    """Draw a north arrow in the side column; `up` turns north clockwise from the top. [rad]"""
    y = sheet.take(15.0)
    at = (sheet.side.x1 - 9.0, y + 8.5)
    c, s = math.cos(up), math.sin(up)

    def turned(x: float, v: float) -> Vec2:
        return (at[0] + x * c + v * s, at[1] + x * s - v * c)

    page = sheet.page
    page.circle(at, 4.2, THIN)
    page.path((turned(0, 5.4), turned(-1.6, -3.2), turned(0, -1.8)), THIN, BLACK, closed=True)
    page.path((turned(0, 5.4), turned(1.6, -3.2), turned(0, -1.8)), THIN, WHITE, closed=True)
    tip = turned(0, 6.6)
    page.text((tip[0], tip[1] + 0.6), "N", TEXT, anchor="middle", bold=True)


def _corners(rect: Rect) -> tuple[Vec2, ...]:
    return ((rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1))
