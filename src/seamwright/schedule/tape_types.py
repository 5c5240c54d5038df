"""What is read on site, what a product asks for, and the answer to “can we tape now?”."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from seamwright.sources import COMMON_PRACTICE

Verdict: TypeAlias = Literal["GO", "WAIT", "STOP"]
ProductKind: TypeAlias = Literal["strip", "sealant", "foam"]
PrimerRule: TypeAlias = Literal["never", "rough", "cold", "rough_or_cold", "always"]
CheckState: TypeAlias = Literal["pass", "caution", "open", "fail", "unknown"]
Measure: TypeAlias = Literal["temperature", "difference", "share", "days", "hours"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Reading:
    """A reading and how far the instrument may be off either way, in the reading's unit."""

    value: float
    within: float = 0.0

    @property
    def low(self) -> float:
        """The least it may truly be."""
        return self.value - self.within

    @property
    def high(self) -> float:
        """The most it may truly be."""
        return self.value + self.within


@dataclass(frozen=True, kw_only=True, slots=True)
class TapeReadings:
    """What was read and seen at the seam. Temperatures in °C, humidity and board as parts of one.

    `surface` is that of the skin itself, `board` its moisture by a meter corrected for the board.
    None: not read. `rough` is a rough or textured face or a planed edge; `exposed` means that rain
    can reach the seam before it is covered; `sun_days` how long the strip, or what it is pressed
    onto, has been in the sun [days].
    """

    surface: Reading | None = None
    air: Reading | None = None
    humidity: Reading | None = None
    board: Reading | None = None
    wet: bool = False
    frost: bool = False
    dust: bool = False
    rough: bool = False
    primed: bool = False
    exposed: bool = False
    sun_days: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class TapeProduct:
    """What a strip, sealant or foam asks of the day. Temperatures in °C, shares as parts of one.

    None means that the product sets no such limit. `dew_margin` is how far the surface must be
    above the point where the air's water condenses [K]; board moisture up to `board_hold` is fine,
    beyond `board_stop` nothing may be closed in. `primer_below` is the surface temperature under
    which the rule ``cold`` asks for primer. `dry_hours` must pass without rain, `cure_hours` until
    the bond is full. `sources` names where single fields come from, `source` all others.
    """

    id: str
    title: str
    kind: ProductKind
    surface_min: float | None = None
    surface_max: float | None = None
    air_min: float | None = None
    air_max: float | None = None
    dew_margin: float = 3.0
    humidity_caution: float = 0.85
    board_hold: float = 0.16
    board_stop: float = 0.19
    primer: PrimerRule = "rough"
    primer_below: float | None = None
    sun_caution: float | None = 60.0
    sun_stop: float | None = 90.0
    dry_hours: float = 4.0
    cure_hours: float = 24.0
    wet_ok: bool = False
    source: str = COMMON_PRACTICE
    sources: Mapping[str, str] = field(default_factory=dict)

    def source_of(self, name: str) -> str:
        """Return where the value of a field comes from."""
        return self.sources.get(name, self.source)


@dataclass(frozen=True, kw_only=True, slots=True)
class Told:
    """A sentence whose figures stay numbers, so that an edge prints them in its own units.

    `text` holds ``{name}`` placeholders; `figures` gives each with its measure: temperatures in
    °C, differences in K, shares as parts of one, days, hours.
    """

    text: str
    figures: Mapping[str, tuple[float, Measure]] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True, slots=True)
class Check:
    """One thing looked at.

    `low` and `high` are the margin at the worst and best corner of the readings' uncertainty, not
    negative where the limit is kept (None: a thing seen, not measured). State ``open`` means that
    the instruments cannot tell; `hard` that a failure is a STOP; `weather` that waiting can mend
    it.
    """

    id: str
    state: CheckState
    hard: bool
    weather: bool
    found: Told
    way_out: Told
    source: str
    low: float | None = None
    high: float | None = None
    measure: Measure | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class TapeAnswer:
    """GO, WAIT or STOP, every check, and the one that binds.

    `chance` is the probability that every measured limit is kept, from the instruments' errors
    alone (each ± taken as two standard deviations of a normal error); None when a reading is
    missing. `turns_at` is the hour of the forecast (0 is now) from which the weather suits for at
    least an hour, None when it does not within the forecast or none was given. `board_dry_at` is
    the hour from which a run of moisture, begun with the board as read, finds it dry enough; None
    where it stays damp or no run was made.
    """

    answer: Verdict
    checks: tuple[Check, ...]
    binding: Check
    chance: float | None
    turns_at: int | None = None
    board_dry_at: int | None = None
