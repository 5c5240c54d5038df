"""Words for the places and causes of a forecast."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from seamwright.leakage.forecast_types import Forecast
from seamwright.leakage.prior_rows import Workmanship
from seamwright.leakage.types import Target
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


WORK_MEANS: Mapping[Workmanship, str] = MappingProxyType(
    {
        "careful": "every line rolled, every hold point looked at and photographed, holes listed",
        "ordinary": "the schedule is followed; what is hidden is mostly looked at",
        "careless": "dusty or damp skins, lines not rolled, hold points skipped",
    }
)
"""What the three words for workmanship stand for: `common practice, no source`."""


def work_words(result: Forecast) -> str:
    """Return the work that a forecast counts on: ``ordinary work (careful by crew north)``."""
    crews = ", ".join(f"{how} by crew {crew}" for crew, how in result.crews)
    return f"{result.workmanship} work ({crews})" if crews else f"{result.workmanship} work"


def lead_sentence(result: Forecast) -> str:
    """Return the forecast in words: the middle, the span of nine in ten, the chance to pass."""
    spread = result.flow_50 if result.ach50 is None else result.ach50
    unit, factor = ("m³/h", 3600.0) if result.ach50 is None else ("air changes an hour", 1.0)
    middle, low, high = (number(v * factor) for v in (spread.p50, spread.p05, spread.p95))
    text = (
        f"With {work_words(result)} the fan test at 50 Pa is as likely to come out below as "
        f"above {middle} {unit}; 9 times in 10 between {low} and {high}."
    )
    if result.target is None or result.chance is None:
        return f"{text} There is no target to compare with."
    chance = chance_words(result.chance)
    return f"{text} The chance to meet {target_phrase(result.target)} is {chance}."


def target_phrase(target: Target) -> str:
    """Return a target in words, its edition always beside the number."""
    unit = {"ach50": "ACH50", "q50": "m³/(h·m²) at 50 Pa", "flow_50": "m³/h at 50 Pa"}
    factor = 3600.0 if target.measure == "flow_50" else 1.0
    return f"{number(target.limit * factor)} {unit[target.measure]} ({target.source})"


def target_words(target: Target | None) -> str:
    """Return a target in words, or that there is none."""
    return "a target (none given)" if target is None else target_phrase(target)


def chance_words(chance: float) -> str:
    """Return a chance in whole per cent; what never failed in the draws is not called certain."""
    if chance < 0.01:
        return "below 1 %"
    if chance > 0.99:
        return "above 99 %"
    return f"{chance * 100:.0f} %"


def number(value: float) -> str:
    """Return a number with two or three digits."""
    return f"{value:.0f}" if value >= 100 else f"{value:.1f}" if value >= 10 else f"{value:.2f}"
