"""How long work takes: rates and times with a low, a likely and a high value.

No measured rates of sealing crews have been published that we know of, so every row is an estimate
of common practice, no source; what the user gives under `rates` in the catalog replaces it, and
the crew's own records are worth more than both.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from seamwright.schedule.types import Span3
from seamwright.seals.types import Rates
from seamwright.sources import COMMON_PRACTICE

HOUR = 3600.0
"""One hour. [s]"""

MINUTE = 60.0
"""One minute. [s]"""

USER = "the rates of the catalog"


def _per_hour(low: float, likely: float, high: float) -> Span3:
    return Span3(low=low / HOUR, likely=likely / HOUR, high=high / HOUR)


def _minutes(low: float, likely: float, high: float) -> Span3:
    return Span3(low=low * MINUTE, likely=likely * MINUTE, high=high * MINUTE)


def _hours(low: float, likely: float, high: float) -> Span3:
    return Span3(low=low * HOUR, likely=likely * HOUR, high=high * HOUR)


@dataclass(frozen=True, kw_only=True, slots=True)
class Productivity:
    """Rates [m/s] and times [s] of one crew; `clad` is area over time [m²/s].

    Low is the slow end of a rate and the quick end of a time.
    `hand_lift` is the heaviest panel that goes up without a crane [kg]; `open_time` the longest a
    bead may lie before the joint closes on it, `flash_off` how long primer dries, `bond` how long
    strips and sealant rest before a fan test, `exposure` how long an outer strip may stand in the
    sun [s]. All of these are on the product sheets, which outrank them.
    """

    bead: Span3
    strip: Span3
    strip_ladder: Span3
    strip_overhead: Span3
    strip_roof: Span3
    gasket: Span3
    fill: Span3
    prime: Span3
    press: Span3
    node: Span3
    dam: Span3
    plug: Span3
    service: Span3
    flue: Span3
    set_wall: Span3
    set_floor: Span3
    set_roof: Span3
    set_timber: Span3
    set_sill: Span3
    set_buck: Span3
    window: Span3
    deck: Span3
    cover_panel: Span3
    cap_line: Span3
    clean_zone: Span3
    look: Span3
    fan_test: Span3
    mend: Span3
    rough_in: Span3
    finish: Span3
    clad: Span3
    hand_lift: float = 100.0
    skin_density: float = 650.0
    core_density: float = 20.0
    open_time: float = HOUR
    flash_off: float = 0.5 * HOUR
    drying: float = 24 * HOUR
    foam_cure: float = HOUR
    bond: float = 24 * HOUR
    exposure: float = 60 * 24 * HOUR
    source: str = COMMON_PRACTICE


DEFAULT_PRODUCTIVITY = Productivity(
    bead=_per_hour(35, 60, 120),
    strip=_per_hour(25, 32, 40),
    strip_ladder=_per_hour(12, 16, 20),
    strip_overhead=_per_hour(6, 9, 12),
    strip_roof=_per_hour(12, 16, 20),
    gasket=_per_hour(60, 90, 120),
    fill=_per_hour(15, 20, 25),
    prime=_per_hour(50, 65, 80),
    press=_per_hour(12, 16, 24),
    node=_minutes(4, 6, 8),
    dam=_minutes(2, 3, 5),
    plug=_minutes(5, 8, 12),
    service=_minutes(8, 12, 15),
    flue=_minutes(30, 60, 90),
    set_wall=_minutes(15, 25, 45),
    set_floor=_minutes(12, 20, 30),
    set_roof=_minutes(15, 30, 60),
    set_timber=_minutes(30, 45, 90),
    set_sill=_minutes(20, 40, 60),
    set_buck=_minutes(20, 30, 45),
    window=_minutes(45, 60, 120),
    deck=_hours(8, 16, 24),
    cover_panel=_minutes(8, 15, 25),
    cap_line=_minutes(30, 60, 120),
    clean_zone=_hours(1, 2, 4),
    look=_hours(0.5, 1, 2),
    fan_test=_hours(3, 4, 8),
    mend=_hours(2, 6, 16),
    rough_in=_hours(16, 24, 40),
    finish=_hours(16, 32, 56),
    clad=_per_hour(2, 4, 6),
)
"""Common practice, no source, throughout. `hand_lift` is four persons of 25 kg each; densities are
those of oriented strand board and expanded polystyrene [kg/m³], from memory."""

NOTHING = Span3(low=0.0, likely=0.0, high=0.0)


def with_rates(rates: Rates, base: Productivity = DEFAULT_PRODUCTIVITY) -> Productivity:
    """Return the productivity with the user's rates in place of the likely ones.

    The spread about the likely value stays in proportion: a user's rate is as uncertain as ours.
    """
    changes: dict[str, Span3] = {}
    for name, given in (
        ("strip", rates.strip),
        ("strip_overhead", rates.strip_overhead),
        ("bead", rates.bead),
    ):
        if given is not None:
            changes[name] = _scaled(getattr(base, name), given)
    if rates.strip is not None:
        share = rates.strip / base.strip.likely
        for name in ("strip_ladder", "strip_roof"):
            span: Span3 = getattr(base, name)
            changes[name] = _scaled(span, span.likely * share)
    if rates.node is not None:
        changes["node"] = _scaled(base.node, 1 / rates.node)
    if not changes:
        return base
    return replace(base, **changes, source=f"{USER}; the rest {base.source}")  # type: ignore[arg-type]


def time_for(length: float, rate: Span3) -> Span3:
    """Return the time a length takes at a rate: the slow end gives the high time. [s]"""
    return Span3(low=length / rate.high, likely=length / rate.likely, high=length / rate.low)


def times(span: Span3, count: float) -> Span3:
    """Return a time taken `count` times. [s]"""
    return Span3(low=span.low * count, likely=span.likely * count, high=span.high * count)


def plus(*spans: Span3) -> Span3:
    """Return times one after another; the ends add up too, which is the widest they can be. [s]"""
    return Span3(
        low=sum(s.low for s in spans),
        likely=sum(s.likely for s in spans),
        high=sum(s.high for s in spans),
    )


def _scaled(span: Span3, likely: float) -> Span3:
    share = likely / span.likely
    return Span3(low=span.low * share, likely=likely, high=span.high * share)
