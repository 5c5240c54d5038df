"""Words for the places and causes of a forecast."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from seamwright.report.words import kind_word

_PLACES: Mapping[str, str] = MappingProxyType(
    {
        "node": "nodes of two lines",
        "node_corner": "nodes of three lines",
        "opening": "around windows and doors",
        "window_unit": "windows themselves",
        "door_unit": "doors themselves",
        "box": "electrical box",
    }
)

_DRIVERS: Mapping[str, str] = MappingProxyType(
    {
        "overall": "table against real houses",
        "crew": "this crew against others",
        "places": "chance, place by place",
        "exponent": "flow exponent",
    }
)


def place_word(kind: str, sort: str) -> str:
    """Return a kind of place in words."""
    word = _PLACES.get(kind)
    if word is not None:
        return word
    return kind_word(kind) if sort == "joint" else f"{kind_word(kind)} through the shell"


def driver_word(name: str) -> str:
    """Return a cause of uncertainty in words."""
    word = _DRIVERS.get(name)
    if word is not None:
        return word
    head, _, rest = name.partition(":")
    if head == "crew":
        return f"crew {rest}"
    return f"rate: {_PLACES.get(rest, kind_word(rest))}"
