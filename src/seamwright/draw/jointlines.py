"""Joints on a view: their lines and marks by kind, and the labels they ask for."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from seamwright.draw.ink import BLACK, KINDS, THIN, WHITE, Pen
from seamwright.draw.labels import Label
from seamwright.draw.marks import draw_mark
from seamwright.draw.page import Page
from seamwright.draw.sheet import Sheet
from seamwright.draw.view import View
from seamwright.geometry.types import Segment, Vec2, Vec3
from seamwright.joints.types import Joint, Node

CLOSE = 1.8
"""A node nearer than this to a mark is not drawn again. [mm]"""
POINT = 0.6
"""A line shorter than this on paper is drawn as its mark alone. [mm]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Trace:
    """A joint as it lies on a view: from `start` to `end` on paper, its label leaning `away`."""

    joint: Joint
    start: Vec2
    end: Vec2
    away: Vec2 | None = None

    @property
    def length(self) -> float:
        """Length on paper. [mm]"""
        return math.dist(self.start, self.end)


def trace(view: View, joint: Joint, *, outer: bool = False, away: Vec2 | None = None) -> Trace:
    """Return the joint's line on the view: where the parts touch, or its outer skin line."""
    line: Segment = joint.line
    if outer and joint.outer.line is not None:
        line = joint.outer.line
    return Trace(joint=joint, start=view.at(line.start), end=view.at(line.end), away=away)


def draw_traces(sheet: Sheet, traces: Sequence[Trace]) -> None:
    """Draw lines first, then marks above them."""
    for item in sorted(traces, key=lambda t: -t.length):
        style = KINDS[item.joint.kind]
        if item.length >= POINT:
            if style.pen.dash:
                sheet.page.line(item.start, item.end, Pen(width=style.pen.width + 0.3, color=WHITE))
            sheet.page.line(item.start, item.end, style.pen)
            sheet.placer.draw_ink(item.start, item.end, 2.0)
    for item in traces:
        at = _middle(item)
        draw_mark(sheet.page, at, KINDS[item.joint.kind])
        for shift in (-0.4, 0.0, 0.4):
            sheet.placer.draw_ink((at[0] - 0.8, at[1] + shift), (at[0] + 0.8, at[1] + shift), 3.0)


def label_traces(sheet: Sheet, traces: Iterable[Trace]) -> tuple[str, ...]:
    """Label every joint by its id, points first, then short lines before long ones.

    Joints that lie on one another share one label, their ids one after the other.
    """
    groups: dict[tuple[float, ...], list[Trace]] = {}
    for item in traces:
        groups.setdefault(_place(item), []).append(item)
    shown: list[str] = []
    for group in sorted(groups.values(), key=lambda g: (g[0].length, g[0].joint.id)):
        first = group[0]
        ends = (first.start, first.end) if first.length >= POINT else (_middle(first),) * 2
        for item in group:
            sheet.label(
                Label(
                    text=item.joint.id, start=ends[0], end=ends[1], away=first.away, color=BLACK,
                    kind="joint",
                ),
            )  # fmt: skip
            shown.append(item.joint.id)
    return tuple(shown)


def draw_nodes(page: Page, view: View, nodes: Iterable[Node], traces: Sequence[Trace] = ()) -> None:
    """Draw a small open ring at every node, once per place, not on the mark of a trace."""
    marks = [_middle(item) for item in traces]
    seen: set[tuple[int, int]] = set()
    for node in nodes:
        at = view.at(node.at)
        cell = (round(at[0] * 2), round(at[1] * 2))
        if cell not in seen and all(math.dist(at, mark) > CLOSE for mark in marks):
            seen.add(cell)
            page.circle(at, 0.5, THIN, WHITE)


def is_upright(line: Segment) -> bool:
    """Return whether a line stands upright (and so is a point seen from above)."""
    a, b = line.start, line.end
    return math.hypot(b[0] - a[0], b[1] - a[1]) < 0.05 * max(abs(b[2] - a[2]), 1e-9)


def direction(line: Segment) -> Vec3:
    """Return the unit direction of a line; zero for a point."""
    length = line.length
    if length == 0.0:
        return (0.0, 0.0, 0.0)
    a, b = line.start, line.end
    return ((b[0] - a[0]) / length, (b[1] - a[1]) / length, (b[2] - a[2]) / length)


def _middle(item: Trace) -> Vec2:
    return ((item.start[0] + item.end[0]) / 2, (item.start[1] + item.end[1]) / 2)


def _place(item: Trace) -> tuple[float, ...]:
    ends = sorted((item.start, item.end))
    return tuple(round(value * 2) / 2 for end in ends for value in end)
