"""Placing labels: no label lies on another, none leaves the sheet, and lines are avoided.

Every label brings its own list of positions, best first in its own eyes. The placer keeps the sheet
as a grid of cells: `taken` cells hold text and are forbidden, `ink` counts what else is drawn there
and costs. Labels with the fewest choices (shortest lines) are not favored: the order is the one the
caller gives, so the same drawing always comes out the same. A label that fits nowhere becomes a
number beside its line and a row in the sheet's key.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from seamwright.draw.ink import BLACK, LEADER, TEXT
from seamwright.draw.page import Page, text_width
from seamwright.draw.types import Rect
from seamwright.geometry.types import Vec2

Index: TypeAlias = NDArray[np.intp] | slice
CELL = 0.4
"""Side of a cell of the placing grid. [mm]"""
CLEAR = 0.35
"""Least clear distance kept around text. [mm]"""
INK_COST, LEADER_COST, LEADER_BASE, KEY_LIMIT = 0.05, 0.22, 2.5, 26.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Label:
    """A text that belongs to a stretch of a line (or to a point, when both ends are one).

    `away` is the direction the label would rather lie in, seen from the line. `on_point` labels
    lie on their point or on one of the `others` if they can, `led` ones always stand off with a
    leader, `keyed` ones may go to the key; `clear` is half the size of the mark at the point [mm].
    """

    text: str
    start: Vec2
    end: Vec2
    size: float = TEXT
    color: str = BLACK
    away: Vec2 | None = None
    bold: bool = False
    kind: str = "label"
    on_point: bool = False
    others: tuple[Vec2, ...] = ()
    led: bool = False
    clear: float = 0.75
    keyed: bool = True


@dataclass(frozen=True, kw_only=True, slots=True)
class Spot:
    """A place for a label: middle of its box, its angle, and where a leader would leave from.

    `floor` is the least cost of this place and of all that follow it.
    """

    at: Vec2
    angle: float
    cost: float
    leader: Vec2 | None = None
    floor: float = 0.0


@dataclass(slots=True)
class Placer:
    """The cells of one window of a sheet, and the key of labels that found no room."""

    window: Rect
    taken: NDArray[np.bool_] = field(init=False)
    ink: NDArray[np.float32] = field(init=False)
    key: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        shape = (
            math.ceil(self.window.height / CELL) + 1,
            math.ceil(self.window.width / CELL) + 1,
        )
        self.taken = np.zeros(shape, dtype=np.bool_)
        self.ink = np.zeros(shape, dtype=np.float32)

    def draw_ink(self, a: Vec2, b: Vec2, weight: float = 1.0) -> None:
        """Remember a drawn line, so that labels keep off it where they can."""
        rows, columns = self._along(a, b)
        self.ink[rows, columns] += weight

    def block(self, rect: Rect) -> None:
        """Forbid a rectangle."""
        wide, tall = rect.width / 2, rect.height / 2
        rows, columns = self._cells(rect.center, wide, tall, 0.0)
        self.taken[rows, columns] = True

    def busy(self, rect: Rect) -> float:
        """Return how much is drawn or written in a rectangle; more is worse. [-]"""
        rows, columns = self._cells(rect.center, rect.width / 2, rect.height / 2, 0.0)
        return float(self.ink[rows, columns].sum() + 20.0 * self.taken[rows, columns].sum())

    def place(self, page: Page, label: Label) -> bool:
        """Draw the label at its best free position; False when it had to go to the key."""
        spot = self._best(label.text, label, spots(label, text_width(label.text, label.size)))
        if spot is not None and (spot.cost < KEY_LIMIT or not label.keyed):
            self._draw(page, label, label.text, spot)
            return True
        if not label.keyed:
            return False
        self._place_key(page, label)
        return False

    def _place_key(self, page: Page, label: Label) -> None:
        self.key.append(label.text)
        number = f"{len(self.key)}"
        around = spots(label, text_width(number, label.size))
        spot = self._best(number, label, around)
        if spot is not None:
            self._draw(page, label, number, spot)

    def _best(self, text: str, label: Label, candidates: Iterable[Spot]) -> Spot | None:
        wide, tall = text_width(text, label.size) / 2 + CLEAR, label.size / 2 + CLEAR
        best: Spot | None = None
        for spot in candidates:
            if best is not None and spot.floor >= best.cost:
                break
            if best is not None and spot.cost >= best.cost:
                continue
            if not self._inside(spot, wide, tall):
                continue
            if spot.leader is not None and not self.window.holds(spot.leader):
                continue
            rows, columns = self._cells(spot.at, wide, tall, spot.angle)
            if self.taken[rows, columns].any():
                continue
            cost = spot.cost + INK_COST * float(self.ink[rows, columns].sum())
            if spot.leader is not None:
                crossed = self._leader_cost(spot, wide, tall)
                if crossed is None:
                    continue
                cost += crossed
            if best is None or cost < best.cost - 1e-9:
                best = Spot(at=spot.at, angle=spot.angle, cost=cost, leader=spot.leader)
        return best

    def _leader_cost(self, spot: Spot, wide: float, tall: float) -> float | None:
        root = spot.leader
        if root is None:
            return 0.0
        end = leader_end(spot, wide, tall)
        rows, columns = self._along(root, end)
        if self.taken[rows, columns].any():
            return None
        return 0.02 * float(self.ink[rows, columns].sum())

    def _draw(self, page: Page, label: Label, text: str, spot: Spot) -> None:
        wide, tall = text_width(text, label.size) / 2 + CLEAR, label.size / 2 + CLEAR
        if spot.leader is not None:
            end = leader_end(spot, wide, tall)
            page.line(spot.leader, end, LEADER)
            page.circle(spot.leader, 0.3, None, LEADER.color)
            self.draw_ink(spot.leader, end, 6.0)
        page.centered(spot.at, text, label.size, angle=spot.angle, color=label.color,
                      bold=label.bold, kind=label.kind)  # fmt: skip
        rows, columns = self._cells(spot.at, wide, tall, spot.angle)
        self.taken[rows, columns] = True

    def _inside(self, spot: Spot, wide: float, tall: float) -> bool:
        turn = math.radians(spot.angle)
        c, s = abs(math.cos(turn)), abs(math.sin(turn))
        reach = (wide * c + tall * s, wide * s + tall * c)
        room = self.window
        return (
            room.x0 <= spot.at[0] - reach[0]
            and spot.at[0] + reach[0] <= room.x1
            and room.y0 <= spot.at[1] - reach[1]
            and spot.at[1] + reach[1] <= room.y1
        )

    def _cells(self, at: Vec2, wide: float, tall: float, angle: float) -> tuple[Index, Index]:
        """Return every cell that the turned box touches (a little more, never less)."""
        if angle in {0.0, -90.0, 90.0}:
            return self._upright(at, (wide, tall) if angle == 0.0 else (tall, wide))
        turn = math.radians(angle)
        c, s = math.cos(turn), math.sin(turn)
        reach = (wide * abs(c) + tall * abs(s), wide * abs(s) + tall * abs(c))
        x = _steps(at[0] - reach[0] - self.window.x0, at[0] + reach[0] - self.window.x0,
                   self.taken.shape[1])  # fmt: skip
        y = _steps(at[1] - reach[1] - self.window.y0, at[1] + reach[1] - self.window.y0,
                   self.taken.shape[0])  # fmt: skip
        columns, rows = np.meshgrid(x, y)
        dx = (columns + 0.5) * CELL + self.window.x0 - at[0]
        dy = (rows + 0.5) * CELL + self.window.y0 - at[1]
        spare = CELL * 0.71
        touched = (np.abs(dx * c + dy * s) <= wide + spare) & (
            np.abs(dy * c - dx * s) <= tall + spare
        )
        return rows[touched], columns[touched]

    def _upright(self, at: Vec2, reach: Vec2) -> tuple[slice, slice]:
        x0, y0 = self.window.x0, self.window.y0
        return (
            slice(max(math.floor((at[1] - reach[1] - y0) / CELL), 0),
                  max(math.floor((at[1] + reach[1] - y0) / CELL) + 1, 0)),
            slice(max(math.floor((at[0] - reach[0] - x0) / CELL), 0),
                  max(math.floor((at[0] + reach[0] - x0) / CELL) + 1, 0)),
        )  # fmt: skip

    def _along(self, a: Vec2, b: Vec2) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
        count = max(int(math.dist(a, b) / CELL * 1.5) + 2, 2)
        t = np.linspace(0.0, 1.0, count)
        columns = ((a[0] + t * (b[0] - a[0]) - self.window.x0) / CELL).astype(np.intp)
        rows = ((a[1] + t * (b[1] - a[1]) - self.window.y0) / CELL).astype(np.intp)
        within = (
            (rows >= 0)
            & (rows < self.ink.shape[0])
            & (columns >= 0)
            & (columns < self.ink.shape[1])
        )
        return rows[within], columns[within]


def _steps(low: float, high: float, count: int) -> NDArray[np.intp]:
    first = max(math.floor(low / CELL), 0)
    last = min(math.floor(high / CELL), count - 1)
    return np.arange(first, last + 1, dtype=np.intp)


def leader_end(spot: Spot, wide: float, tall: float) -> Vec2:
    """Return where a leader meets the box of a label: the nearest point of its edge."""
    if spot.leader is None:
        return spot.at
    x = min(max(spot.leader[0], spot.at[0] - wide), spot.at[0] + wide)
    y = min(max(spot.leader[1], spot.at[1] - tall), spot.at[1] + tall)
    return (x, y)


def spots(label: Label, width: float) -> Iterator[Spot]:
    """Yield positions for a label of this width, cheap ones first: on, beside, then led away."""
    if label.on_point:
        for index, at in enumerate((_between(label, 0.5), *label.others)):
            yield Spot(at=at, angle=0.0, cost=0.05 * index)
    length = math.dist(label.start, label.end)
    if label.led:
        yield from _led(label, width)
        return
    if length > 0.8 * width:
        yield from _beside(label, width, length)
    elif length < label.size * 1.5:
        yield from _around(label, width)
    yield from _led(label, width)


def _between(label: Label, t: float) -> Vec2:
    a, b = label.start, label.end
    return (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]))


def _beside(label: Label, width: float, length: float) -> Iterator[Spot]:
    """Yield places along the line, on the preferred side first."""
    dx, dy = (label.end[0] - label.start[0]) / length, (label.end[1] - label.start[1]) / length
    angle = math.degrees(math.atan2(dy, dx))
    if angle > 90.0 - 1e-6:
        angle -= 180.0
    elif angle <= -90.0 - 1e-6:
        angle += 180.0
    normal = (-dy, dx)
    lean = 0.0
    if label.away is not None:
        lean = normal[0] * label.away[0] + normal[1] * label.away[1]
    if lean < 0.0 or (lean == 0.0 and normal[1] > 0.0):
        normal = (-normal[0], -normal[1])
    spare = max((length - width) / length / 2, 0.0)
    shifts = (0.0,) if spare < 0.05 else (0.0, -0.35, 0.35, -0.7, 0.7, -1.0, 1.0)
    for side in (1.0, -1.0):
        for shift in shifts:
            x, y = _between(label, 0.5 + shift * spare)
            away = (label.size / 2 + 0.75) * side
            at = (x + normal[0] * away, y + normal[1] * away)
            cost = 0.3 * abs(shift) + (0.0 if side > 0 else 0.9)
            yield Spot(at=at, angle=angle, cost=cost)


def _around(label: Label, width: float) -> Iterator[Spot]:
    """Yield places that touch a point's mark, without a leader."""
    x, y = _between(label, 0.5)
    reach = (width / 2 + label.clear + 0.65, label.size / 2 + label.clear + 0.55)
    for index, (sx, sy) in enumerate(
        ((1, 0), (-1, 0), (0, -1), (0, 1), (1, -1), (-1, -1), (1, 1), (-1, 1))
    ):
        cost = 0.1 * index
        if label.away is not None:
            along = (sx * label.away[0] + sy * label.away[1]) / math.hypot(sx, sy)
            cost += 1.2 * (1.0 - along)
        near = 0.85 if sx and sy else 1.0
        yield Spot(at=(x + sx * reach[0] * near, y + sy * reach[1] * near), angle=0.0, cost=cost)


RINGS = (3.5, 5.0, 7.0, 9.5, 12.5, 16.0, 20.0, 25.0, 32.0, 40.0)
TURNS = 24
WAYS = tuple(
    (math.cos(2 * math.pi * turn / TURNS), math.sin(2 * math.pi * turn / TURNS))
    for turn in range(TURNS)
)


def _led(label: Label, width: float) -> Iterator[Spot]:
    """Yield places at the end of a leader, ring by ring."""
    fractions = (0.5,) if math.dist(label.start, label.end) < 6.0 else (0.5, 0.25, 0.75)
    for ring in RINGS:
        floor = LEADER_BASE + LEADER_COST * ring
        for fraction in fractions:
            root = _between(label, fraction)
            aside = 0.0 if fraction == 0.5 else 0.3
            for dx, dy in WAYS:
                cost = floor + aside
                if label.away is not None:
                    cost += 1.5 * (1.0 - dx * label.away[0] - dy * label.away[1])
                at = (
                    root[0] + dx * (ring + width / 2 * abs(dx)),
                    root[1] + dy * (ring + label.size / 2 * abs(dy)),
                )
                yield Spot(at=at, angle=0.0, cost=cost, leader=root, floor=floor)
