"""The chart of a plan of days: working days across, crews down, one bar per run of like work.

Legible in black and white: each kind of work has its own fill pattern of lines, the critical chain
a thick foot, a hold point a diamond, crane hours a bar of their own. Free days are left out and
marked by a double line.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from seamwright.draw.ink import (
    BLACK,
    BLUE,
    EDGE,
    GREEN,
    GREY,
    ORANGE,
    PURPLE,
    RED,
    SKY,
    SMALL,
    TEXT,
    THIN,
    Pen,
)
from seamwright.draw.page import Page, text_width
from seamwright.draw.types import Drawing, Points
from seamwright.schedule.types import Calendar, Crew, DayPlan, Slot, Task

WIDTH = 260.0
LEFT, TOP, LANE, GAP = 30.0, 19.0, 5.4, 3.6
PER_ROW = 15
"""Working days side by side before the chart goes on below. Our own choice."""

_FAINT = Pen(width=0.13, color="#c8c8c8")


@dataclass(frozen=True, kw_only=True, slots=True)
class _Look:
    """How one kind of work is drawn: fill, lines across the bar, and its word in the legend."""

    word: str
    fill: str
    slant: float
    pen: Pen


_LOOKS: tuple[tuple[frozenset[str], _Look], ...] = (
    (frozenset({"set_panel", "set_timber", "set_buck"}),
     _Look(word="setting", fill="#e4e4e4", slant=0.0, pen=Pen(width=0.2, color=BLACK))),
    (frozenset({"lay_beads", "gasket", "plug_chase", "dam", "fill"}),
     _Look(word="beads, dams, foam", fill="#dcecf6", slant=1.0, pen=Pen(width=0.25, color=BLUE))),
    (frozenset({"tape", "drape_strip", "apron", "patch_node", "seal_service", "prime"}),
     _Look(word="strips, patches", fill="#f9e3d6", slant=-1.0, pen=Pen(width=0.25, color=RED))),
    (frozenset({"cover_roof"}),
     _Look(word="covering", fill="#d5eee7", slant=9.0, pen=Pen(width=0.3, color=GREEN))),
    (frozenset({"clean", "dry", "inspect"}),
     _Look(word="cleaning, looking", fill="#ffffff", slant=2.0, pen=Pen(width=0.2, color=SKY))),
    (frozenset({"fan_test", "mend"}),
     _Look(word="fan test, mending", fill="#f6e4ee", slant=8.0, pen=Pen(width=0.3, color=PURPLE))),
    (frozenset(),
     _Look(word="finishing, other", fill="#fdf3dc", slant=7.0, pen=Pen(width=0.2, color=ORANGE))),
)  # fmt: skip


@dataclass(frozen=True, kw_only=True, slots=True)
class _Bar:
    """A run of like work of one lane, in steps."""

    lane: int
    start: int
    end: int
    look: _Look
    critical: bool
    holds: int


@dataclass(frozen=True, kw_only=True, slots=True)
class _Frame:
    """Where time lies on paper: the working days in rows, and the lanes of each crew."""

    days: tuple[int, ...]
    per_day: int
    begin: int
    length: int
    lanes: Mapping[str, tuple[int, int]]
    count: int

    @property
    def day_width(self) -> float:
        """Width of a day. [mm]"""
        return (WIDTH - LEFT - 6.0) / min(PER_ROW, max(1, len(self.days)))

    @property
    def row_height(self) -> float:
        """Height of one row of days with its head. [mm]"""
        return 8.0 + self.count * LANE + len(self.lanes) * 1.2 + GAP

    def at(self, index: int, inside: float) -> tuple[float, float]:
        """Return x and the top of the row of a working day, `inside` from 0 to 1 through it."""
        x = LEFT + (index % PER_ROW + inside) * self.day_width
        return x, TOP + (index // PER_ROW) * self.row_height


def draw_days_chart(
    plan: DayPlan,
    tasks: Mapping[str, Task],
    crews: Sequence[Crew],
    start: dt.datetime,
    *,
    calendar: Calendar,
    title: str,
    marks: Mapping[str, str] | None = None,
) -> Drawing:
    """Return the chart of a plan; `start` is the local time of step 0.

    The hours shown are the working ones of `calendar`; `marks` names days by ISO date with a word
    to print over them (``rain``, ``no crane``).
    """
    frame, bars = _frame(plan, tasks, crews, calendar)
    rows = max(1, -(-len(frame.days) // PER_ROW))
    page = Page(WIDTH, TOP + rows * frame.row_height + 16.0)
    page.text((LEFT, 6.5), title, 3.0, bold=True)
    _legend(page)
    _days(page, frame, start, marks if marks is not None else {})
    _crews(page, frame, rows)
    for bar in bars:
        _draw(page, frame, bar)
    _foot(page, plan, start)
    return Drawing(
        name="days-chart", title="Plan of days", svg=page.finish(), width_mm=WIDTH,
        height_mm=page.height, scale="not to scale",
        caption="Working days across, crews down, one lane for each part of a crew at work; free "
        "days are left out and marked by a double line. A thick foot: the critical chain, where "
        "every hour lost moves the end. A diamond: hold points to sign.",
    )  # fmt: skip


def _frame(
    plan: DayPlan, tasks: Mapping[str, Task], crews: Sequence[Crew], calendar: Calendar
) -> tuple[_Frame, list[_Bar]]:
    per_hour = round(3600 / plan.step)
    per_day = 24 * per_hour
    shown = [slot for slot in plan.slots if slot.crew_id and slot.end > slot.start]
    used_hours = [h for h in calendar.working_hours if h * per_hour < plan.end]
    days = sorted({hour // 24 for hour in used_hours})
    hours = [hour % 24 for hour in used_hours]
    begin, stop = min(hours, default=7), max(hours, default=15) + 1
    lanes: dict[str, tuple[int, int]] = {}
    bars: list[_Bar] = []
    count = 0
    for crew in crews:
        own = _bars([s for s in shown if s.crew_id == crew.id], tasks, count)
        if own:
            used = max(bar.lane for bar in own) - count + 1
            lanes[crew.id] = (count, used)
            count += used
            bars += own
    frame = _Frame(
        days=tuple(days), per_day=per_day, begin=begin * per_hour,
        length=(stop - begin) * per_hour, lanes=lanes, count=max(1, count),
    )  # fmt: skip
    return frame, bars


def _bars(slots: Sequence[Slot], tasks: Mapping[str, Task], first: int) -> list[_Bar]:
    """Return the bars of a crew: each slot on the first free lane, like ones that touch as one."""
    ends: list[int] = []
    bars: dict[int, list[_Bar]] = {}
    for slot in sorted(slots, key=lambda s: (s.start, s.end)):
        lane = next((k for k, end in enumerate(ends) if end <= slot.start), len(ends))
        if lane == len(ends):
            ends.append(0)
        ends[lane] = slot.end
        task = tasks[slot.task_id]
        look = next((look for works, look in _LOOKS if task.work in works), _LOOKS[-1][1])
        own = bars.setdefault(lane, [])
        holds = int(task.hold_point is not None)
        last = own[-1] if own else None
        same = last is not None and last.end == slot.start and last.look is look
        if last is not None and same and last.critical == slot.critical:
            own[-1] = _Bar(lane=first + lane, start=last.start, end=slot.end, look=look,
                           critical=slot.critical, holds=last.holds + holds)  # fmt: skip
        else:
            own.append(_Bar(lane=first + lane, start=slot.start, end=slot.end, look=look,
                            critical=slot.critical, holds=holds))  # fmt: skip
    return [bar for own in bars.values() for bar in own]


def _draw(page: Page, frame: _Frame, bar: _Bar) -> None:
    holds = bar.holds
    for index, day in enumerate(frame.days):
        begin = day * frame.per_day + frame.begin
        low, high = max(bar.start, begin), min(bar.end, begin + frame.length)
        if low >= high:
            continue
        x0, top = frame.at(index, (low - begin) / frame.length)
        x1, _ = frame.at(index, (high - begin) / frame.length)
        y0 = top + 8.0 + _lane_top(frame, bar.lane)
        box = ((x0, y0), (x1, y0), (x1, y0 + LANE - 1.0), (x0, y0 + LANE - 1.0))
        page.path(box, None, bar.look.fill, closed=True)
        _hatch(page, x0, x1, y0, bar.look)
        page.path(box, Pen(width=0.18), closed=True)
        if bar.critical:
            page.line((x0, y0 + LANE - 1.0), (x1, y0 + LANE - 1.0), Pen(width=0.9))
        if holds:
            _diamond(page, (min(x0 + 1.1, (x0 + x1) / 2), y0 + (LANE - 1.0) / 2))
            holds = 0


def _lane_top(frame: _Frame, lane: int) -> float:
    above = sum(1 for first, _ in frame.lanes.values() if first <= lane) - 1
    return lane * LANE + above * 1.2


def _hatch(page: Page, x0: float, x1: float, y0: float, look: _Look) -> None:
    """Draw the lines that tell kinds of work apart without color."""
    tall = LANE - 1.0
    y1 = y0 + tall
    if look.slant == 0.0:
        return
    if look.slant in {9.0, 8.0, 7.0}:
        count = {9.0: 3, 8.0: 2, 7.0: 1}[look.slant]
        for k in range(count):
            y = y0 + (k + 1) * tall / (count + 1)
            page.line((x0, y), (x1, y), look.pen)
        return
    pitch = 1.3 if abs(look.slant) == 1.0 else 2.2
    lean = 0.0 if look.slant == 2.0 else look.slant * tall
    pairs = []
    x = x0 - abs(lean) + pitch / 2
    while x < x1 + abs(lean):
        clip = _clipped((x, y1), (x + lean, y0), x0, x1)
        if clip is not None:
            pairs.append(clip)
        x += pitch
    page.lines(pairs, look.pen)


def _clipped(
    a: tuple[float, float], b: tuple[float, float], x0: float, x1: float
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """Return the part of a line between two uprights."""
    if a[0] == b[0]:
        return (a, b) if x0 <= a[0] <= x1 else None
    lo, hi = sorted(((x0 - a[0]) / (b[0] - a[0]), (x1 - a[0]) / (b[0] - a[0])))
    lo, hi = max(0.0, lo), min(1.0, hi)
    if lo >= hi:
        return None
    return tuple((a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])) for t in (lo, hi))  # type: ignore[return-value]


def _diamond(page: Page, at: tuple[float, float]) -> None:
    size = 0.95
    points: Points = (
        (at[0], at[1] - size), (at[0] + size, at[1]), (at[0], at[1] + size), (at[0] - size, at[1])
    )  # fmt: skip
    page.path(points, Pen(width=0.2, color="#ffffff"), BLACK, closed=True)


def _days(page: Page, frame: _Frame, start: dt.datetime, marks: Mapping[str, str]) -> None:
    for index, day in enumerate(frame.days):
        x, top = frame.at(index, 0.0)
        right = x + frame.day_width
        date = (start + dt.timedelta(days=day)).date()
        bottom = top + frame.row_height - GAP
        page.line((x, top + 7.0), (x, bottom), _FAINT)
        if index % PER_ROW and day != frame.days[index - 1] + 1:
            page.line((x - 0.35, top + 2.0), (x - 0.35, bottom), THIN)
            page.line((x + 0.35, top + 2.0), (x + 0.35, bottom), THIN)
        middle = (x + right) / 2
        page.text((middle, top + 3.4), f"{date:%a}", SMALL, anchor="middle", color=GREY)
        page.text((middle, top + 6.0), f"{date:%m-%d}", TEXT, anchor="middle")
        word = marks.get(date.isoformat())
        if word is not None:
            page.text((middle, top + 0.9), word, SMALL, anchor="middle", bold=True)


def _crews(page: Page, frame: _Frame, rows: int) -> None:
    for row in range(rows):
        top = TOP + row * frame.row_height + 8.0
        across = min(PER_ROW, len(frame.days) - row * PER_ROW)
        for name, (first, used) in frame.lanes.items():
            y0 = top + _lane_top(frame, first) - 0.6
            y1 = y0 + used * LANE + 0.2
            page.text((LEFT - 2.0, (y0 + y1) / 2 + 0.7), name[:18], TEXT, anchor="end")
            page.line((LEFT, y1 + 0.5), (LEFT + across * frame.day_width, y1 + 0.5), _FAINT)
        page.line((LEFT, top - 1.0), (LEFT + across * frame.day_width, top - 1.0), EDGE)


def _legend(page: Page) -> None:
    x, y = LEFT, 10.0
    for _, look in _LOOKS:
        page.path(((x, y), (x + 6, y), (x + 6, y + LANE - 1), (x, y + LANE - 1)),
                  None, look.fill, closed=True)  # fmt: skip
        _hatch(page, x, x + 6, y, look)
        page.path(((x, y), (x + 6, y), (x + 6, y + LANE - 1), (x, y + LANE - 1)),
                  Pen(width=0.18), closed=True)  # fmt: skip
        page.text((x + 7.2, y + 2.9), look.word, SMALL)
        x += 10.5 + text_width(look.word, SMALL)


def _foot(page: Page, plan: DayPlan, start: dt.datetime) -> None:
    end = start + dt.timedelta(seconds=plan.end * plan.step)
    y = page.height - 10.0
    page.line((LEFT, y), (LEFT + 6.0, y), Pen(width=0.9))
    page.text((LEFT + 7.2, y + 0.7), "critical chain", SMALL)
    _diamond(page, (LEFT + 36.0, y))
    page.text((LEFT + 38.0, y + 0.7), "hold point to sign", SMALL)
    page.text((LEFT + 68.0, y + 0.7), "double line: free days left out", SMALL)
    proven = (
        "proven the earliest" if plan.gap == 0 else f"at most {100 * plan.gap:.1f} % from the best"
    )
    words = f"End {end:%a %Y-%m-%d %H:%M}, {proven}, for likely durations and these hours."
    page.text((LEFT, y + 5.0), words, TEXT)
