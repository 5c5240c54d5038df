"""Slips of units that no single cell shows: a whole column a hundred times off."""

from __future__ import annotations

import math
from collections.abc import Sequence
from statistics import correlation, linear_regression, median

from seamwright.io.fan_file import Told
from seamwright.io.fan_rows import Table
from seamwright.io.fan_units import UNITS
from seamwright.leakage.types import Series

_AIR_CHANGES = (0.02, 150.0)
"""ACH50 between which any house lies, with or without doors; our own bounds. [1/h]"""

_FLOWS = (0.0015, 12.0)
"""Flow at 50 Pa of anything from a test box to a small hall; our own bounds. [m³/s]"""

_INCHES = 1.6
"""Readings all below this in the column's unit, in pascals, look like inches of water. [Pa]"""

_SWAPPED = (1.3, 0.99)
"""Steeper than this, and this straight, a line of flows on pressures is one of pressures on flows:
the exponent of leaks is 0.5 to 1 (ISO 9972, from memory); the bounds are our own. [-]"""

_OFFERED = ("cfm", "l/s", "m3/h", "m3/s")


def tell_implausible(
    series: Sequence[Series], volume: float | None, table: Table, told: Told
) -> None:
    """Tell when pressures look like inches of water, flows like another unit's, or both swapped."""
    readings = [reading for one in series for reading in one.readings]
    if len(readings) < 2:
        return
    largest = max(abs(r.pressure) for r in readings)
    if largest < _INCHES and table.pressure == "pa":
        sentence = f"no pressure is beyond {largest:g} Pa, too little to test a house"
        remedy = "if they are inches of water, name the column pressure [in H2O]"
        told.tell("pressure", sentence, remedy, table.line)
        return
    if any(_is_swapped(one) for one in series):
        sentence = "the flow grows faster than the pressure, as no leak does"
        remedy = "pressure and flow may have changed places: check the names of the columns"
        told.tell("table", sentence, remedy, table.line)
        return
    at_50 = median(r.flow * (50.0 / max(abs(r.pressure), 1.0)) ** 0.65 for r in readings)
    if _is_likely(at_50, volume):
        return
    raw = at_50 / UNITS["flow"][table.flow]
    others = [
        unit
        for unit in _OFFERED
        if unit != table.flow and _is_likely(raw * UNITS["flow"][unit], volume)
    ]
    what = f"the flows mean about {raw:.3g} {table.flow} at 50 Pa"
    if volume is not None:
        what += f", {at_50 * 3600.0 / volume:.3g} air changes an hour in {volume:.3g} m³"
    remedy = "check the unit of the flow column and the volume"
    if others:
        remedy = f"they would be likely in {' or '.join(others)}: check the unit of the column"
    told.tell("flow", f"{what}, which no house shows", remedy, table.line)


def _is_swapped(series: Series) -> bool:
    """Return whether the readings lie straight on a line steeper than any leak's."""
    used = [(math.log(abs(r.pressure)), math.log(r.flow)) for r in series.readings
            if r.pressure != 0.0 and r.flow > 0.0]  # fmt: skip
    if len(used) < 4:
        return False
    x, y = zip(*used, strict=True)
    if len(set(x)) < 2 or len(set(y)) < 2:
        return False
    return linear_regression(x, y).slope > _SWAPPED[0] and correlation(x, y) > _SWAPPED[1]


def _is_likely(flow: float, volume: float | None) -> bool:
    if volume is None:
        return _FLOWS[0] <= flow <= _FLOWS[1]
    return _AIR_CHANGES[0] <= flow * 3600.0 / volume <= _AIR_CHANGES[1]
