"""Whether the rows of a typical year follow each other hour by hour, and are in the right units."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

import numpy as np

from seamwright.climate.arrays import Floats
from seamwright.climate.monthly import MONTH_DAYS

Tell = Callable[[int, str, str], None]
"""Takes the number of a row, what is wrong there, and what to do."""

_FIRST_DAY = (0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334)
_STAMP = re.compile(r"\s*(\d{1,2})/(\d{1,2})/(\d{2,4})\s*")
WHOLE = "take the file as it was published"


def epw_stamps(rows: Sequence[Sequence[str]]) -> list[int | None]:
    """Return the hour of the year that each row of an EPW year is stamped with, None if unread."""
    return [_hour(*row[1:4]) if len(row) > 4 else None for row in rows]


def tmy3_stamps(rows: Sequence[Sequence[str]]) -> list[int | None]:
    """Return the same for the rows of a TMY3 table: ``01/01/1988,01:00``."""
    stamps: list[int | None] = []
    for row in rows:
        date = _STAMP.fullmatch(row[0])
        clock = row[1].split(":")[0] if len(row) > 1 else ""
        stamps.append(None if date is None else _hour(date[1], date[2], clock))
    return stamps


def check_order(stamps: Sequence[int | None], tell: Tell) -> None:
    """Tell each place where an hour is missing, twice there, goes back or cannot be read."""
    expected = 0
    for row, hour in enumerate(stamps):
        if hour is None:
            tell(row, "the date and hour of this row cannot be read", WHOLE)
            expected += 1
            continue
        if hour == _LEAP:
            tell(row, "29 February is in the year", "leave that day out: a typical year has 365")
            continue
        if hour > expected:
            lost = hour - expected
            one = "hour is" if lost == 1 else "hours are"
            tell(row, f"{lost} {one} missing before {stamp_text(hour)}", WHOLE)
        elif hour < expected:
            tell(row, f"{stamp_text(hour)} goes back or is there twice", WHOLE)
        expected = hour + 1
    if stamps and expected < 8760 and stamps[-1] is not None:
        last = len(stamps) - 1
        tell(last, f"the year ends after {stamp_text(expected - 1)}", "take a whole common year")


def check_units(found: dict[str, Floats], tell: Tell) -> None:
    """Tell where a whole column can only be in another unit."""
    air, humidity = found["temperature"], found["humidity"]
    if np.nanmean(air) > 38.0 or np.nanpercentile(air, 5.0) > 30.0:
        told = f"the mean of the year is {np.nanmean(air):.0f} °C"
        tell(0, told, "it looks like Fahrenheit: give temperatures in °C")
    if np.nanmax(humidity) <= 0.0101:
        tell(0, "no hour has a humidity above 1 %", "write humidity in percent, 70 for 70 %")
    if "irradiance" in found and np.nanmax(found["irradiance"]) <= 2.0:
        tell(0, "no hour has more sun than 2 W/m²", "it looks like kW/m²: give W/m²")


def column_in_other_unit(title: str, titles: Sequence[str]) -> str | None:
    """Return the title that has the words of `title` and another unit, None if there is none."""
    plain = title.split("(", maxsplit=1)[0].strip()
    return next((t for t in titles if t.split("(")[0].strip() == plain and t != title), None)


def stamp_text(hour: int) -> str:
    """Return an hour of the year as the file stamps it, by its end: ``03/14 05:00``."""
    day, clock = divmod(hour, 24)
    month = max(m for m in range(12) if _FIRST_DAY[m] <= day)
    return f"{month + 1:02d}/{day - _FIRST_DAY[month] + 1:02d} {clock + 1:02d}:00"


_LEAP = -1


def _hour(month: str, day: str, clock: str) -> int | None:
    try:
        m, d, h = int(month), int(day), int(float(clock))
    except ValueError:
        return None
    if (m, d) == (2, 29):
        return _LEAP
    if not (1 <= m <= 12 and 1 <= h <= 24 and 1 <= d <= MONTH_DAYS[m - 1]):
        return None
    return 24 * (_FIRST_DAY[m - 1] + d - 1) + h - 1
