"""The legend (only what the sheet shows) and the key of labels that found no room."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from seamwright.draw.ink import KINDS, SMALL
from seamwright.draw.marks import draw_mark
from seamwright.draw.sheet import ROW, Sheet, shortened

LINE = 12.0


def draw_legend(sheet: Sheet, kinds: Collection[str]) -> None:
    """Write a row per joint kind present: its line, mark and name, in the order of the styles."""
    if not kinds:
        return
    sheet.heading("joints")
    for kind, style in KINDS.items():
        if kind not in kinds:
            continue
        y = sheet.take(ROW + 0.5) + 1.6
        x = sheet.side.x0 + 2.0
        sheet.page.line((x, y), (x + LINE, y), style.pen)
        draw_mark(sheet.page, (x + LINE / 2, y), style)
        name = sheet.say(style.name)
        sheet.page.text((x + LINE + 2.0, y + 0.7), name, SMALL, kind="legend")
    sheet.gap()


def draw_key(sheet: Sheet, key: Sequence[str]) -> tuple[str, ...]:
    """Write the key of numbered labels; returns those that still found no room.

    Takes two columns where one is not enough.
    """
    if not key:
        return ()
    sheet.heading("key")
    rows = max(int(sheet.room / ROW) - 1, 1)
    columns = 1 if len(key) <= rows else 2
    width = (sheet.side.width - 4.0) / columns
    top = sheet.take(min(len(key), rows) * ROW)
    fitting = min(len(key), rows * columns)
    for index, text in enumerate(key[:fitting]):
        column, row = divmod(index, rows)
        x = sheet.side.x0 + 2.0 + column * width
        shown = shortened(f"{index + 1} {text}", width - 1.0, SMALL)
        sheet.page.text((x, top + row * ROW + 2.3), shown, SMALL, kind="key")
    left = tuple(key[fitting:])
    if left:
        sheet.row(f"and {len(left)} more: see the register")
    return left
