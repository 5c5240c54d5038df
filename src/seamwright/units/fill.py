"""Print report quantities, and sentences that carry their lengths as numbers."""

from __future__ import annotations

import re
from collections.abc import Callable

from seamwright.report.types import Quantity
from seamwright.seals.types import Sentence
from seamwright.units.air import (
    format_air_change,
    format_flow,
    format_leak_area,
    format_leak_line,
    format_leak_rate,
    format_permeability,
    format_power,
    format_share,
)
from seamwright.units.show import (
    System,
    format_angle,
    format_area,
    format_count,
    format_length,
    format_money,
    format_sealant_volume,
    format_time,
    format_volume,
    format_width,
)

_PLACEHOLDER = re.compile(r"\{(\w+)\}")
_SMALL = 1.0  # metres; shorter lengths in a sentence read as widths


_MEASURED: dict[str, Callable[[float, System], str]] = {
    "length": format_length,
    "width": format_width,
    "area": format_area,
    "volume": format_volume,
    "sealant_volume": format_sealant_volume,
    "flow": format_flow,
    "leak_area": format_leak_area,
    "leak_line": format_leak_line,
    "leak_rate": format_leak_rate,
    "permeability": format_permeability,
    "power": format_power,
}
_PLAIN: dict[str, Callable[[float], str]] = {
    "angle": format_angle,
    "time": format_time,
    "money": format_money,
    "count": format_count,
    "air_change": format_air_change,
    "share": format_share,
}


def format_quantity(quantity: Quantity, system: System) -> str:
    """Return a report quantity as text, by its dimension."""
    measured = _MEASURED.get(quantity.dimension)
    if measured is not None:
        text = measured(quantity.value, system)
    else:
        text = _PLAIN[quantity.dimension](quantity.value)
    return f"{quantity.before} {text}" if quantity.before else text


def fill(sentence: Sentence, system: System) -> str:
    """Return the sentence with each ``{name}`` printed: below one metre as a width, else a run.

    A name without a length stays as it stands, because the user's own words may hold braces.
    """

    def shown(match: re.Match[str]) -> str:
        value = sentence.lengths.get(match[1])
        if value is None:
            return match[0]
        small = abs(value) < _SMALL
        return format_width(value, system) if small else format_length(value, system)

    return _PLACEHOLDER.sub(shown, sentence.text)
