"""What the leak hunt is told and what it answers. Flows are leakage at 50 Pa [m³/s].

The diary is a sequence in time: looks, mends and fan tests in the order in which they happened.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal, TypeAlias

from seamwright.leakage.places import Place

Method: TypeAlias = Literal["smoke", "infrared", "hand"]
Taped: TypeAlias = Literal["good", "cold", "wet", "dusty"]
ELSEWHERE = "elsewhere"
"""Id of the leak that no place of the register stands for."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What the records say of how one place was made; None where they say nothing.

    `taped` is the state of boards and air when the strip went on.
    """

    sealed: bool | None = None
    checked: bool | None = None
    photo: bool | None = None
    taped: Taped | None = None
    crew: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class HuntPrior:
    """What one place may leak before anybody looked: a well-made part and, by chance, a defect.

    `base` and `defect_flow` are medians [m³/s at 50 Pa]; the sigmas are standard deviations of
    their natural logarithms; `defect` is the chance of a defect, whose leak comes on top.
    """

    place: Place
    base: float
    base_sigma: float
    defect: float
    defect_flow: float
    defect_sigma: float
    facts: Facts = Facts()


@dataclass(frozen=True, kw_only=True, slots=True)
class Look:
    """Somebody searched a place while a fan held `pressure` [Pa].

    `found` with a `strength` of 1 (a whisper) to 5 (a gale), or None if nobody rated it.
    """

    place: str
    method: Method
    found: bool
    strength: int | None = None
    pressure: float = 50.0
    day: str = ""
    line: int | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Mend:
    """Somebody mended a place."""

    place: str
    day: str = ""
    line: int | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class FanTest:
    """The leakage of the house at 50 Pa with its 95 % limits [m³/s].

    `masked` are ids of places, or kinds, that were masked or not there yet and leaked nothing;
    `unsealed` those that stood without their strips.
    """

    id: str
    flow: float
    low: float
    high: float
    masked: frozenset[str] = frozenset()
    unsealed: frozenset[str] = frozenset()
    day: str = ""
    line: int | None = None


Event: TypeAlias = Look | Mend | FanTest


@dataclass(frozen=True, kw_only=True, slots=True)
class Detection:
    """How well a way of searching finds: half the leaks of `flow` at one spot [m³/s].

    The chance rises from `false_alarm` to `at_best` as a probit of ln(flow), with `spread`.
    """

    flow: float
    spread: float = 0.9
    false_alarm: float = 0.01
    at_best: float = 0.97


@dataclass(frozen=True, kw_only=True, slots=True)
class CrewLaw:
    """What is known of the crews' factors before the hunt: normal in logarithms around 0, since
    what earlier tests have taught is in the places' own priors; rows and columns as `crews`. [-]
    """

    crews: tuple[str, ...]
    covariance: tuple[tuple[float, ...], ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class HuntModel:
    """Every constant of the hunt. All are `common practice, no source` unless said otherwise.

    Attributes
    ----------
    crew_sigma : how far one crew's work leaks more or less throughout (of the logarithm) [-]
    crew_law : the same for crews that have something in common or were tested before; crews that
        are not in it, and all without it, have `crew_sigma` and nothing in common
    detections : by method, at a spot
    spot : length of a joint that a searcher senses at once [m]
    whisper, strength_step, strength_spread : flow of strength 1 [m³/s]; ratio of flows from one
        strength to the next; spread of ratings in steps
    exponent : of flow over pressure; 0.65 as in ASTM E1827 (`from memory`)
    mend_success, mend_share, sound_share : chance that a mend holds; share of the leak left when it
        does, where there was a defect, and where there was none
    unsealed_factor : leak without its strip over leak with it; 4.0 / 0.8 cm²/m of a sole plate
        without and with caulk (NIST residential leakage list, archived 2008)
    test_correlation : between errors of two tests with one fan [-]
    least_test_error : standard error below which no fan test is believed, as a share [-]
    odds : what each record does to the odds of a defect
    """

    crew_sigma: float = 0.52
    crew_law: CrewLaw | None = None
    detections: Mapping[Method, Detection] = field(
        default_factory=lambda: MappingProxyType(
            {
                "smoke": Detection(flow=1.5e-4),
                "infrared": Detection(flow=2.5e-4),
                "hand": Detection(flow=6.0e-4, spread=0.8),
            }
        )
    )
    spot: float = 0.3
    whisper: float = 1.5e-4
    strength_step: float = 2.5
    strength_spread: float = 0.7
    exponent: float = 0.65
    mend_success: float = 0.85
    mend_share: float = 0.1
    sound_share: float = 0.8
    unsealed_factor: float = 5.0
    test_correlation: float = 0.5
    least_test_error: float = 0.01
    odds: Mapping[str, float] = field(
        default_factory=lambda: MappingProxyType(
            {
                "checked": 0.4,
                "photo": 0.6,
                "no photo": 1.3,
                "good": 0.7,
                "cold": 3.0,
                "wet": 4.0,
                "dusty": 3.0,
                "unsealed": 100.0,
            }
        )
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class Standing:
    """Where one place stands now: expected leak with its 90 % interval, chance of a defect.

    `found` is the chance that a look finds something; `gain` the expected fall of the leak by one
    look and, if something is found, one mend [m³/s]. `share` is of the whole house's leak.
    `beyond` is the expected leak beyond what the place tolerates and `relief` its expected fall by
    one look and mend [m³/s], None where nobody knows what it tolerates.
    """

    place: Place
    facts: Facts
    leak: float
    low: float
    high: float
    defect: float
    share: float
    found: float
    gain: float
    looks: int = 0
    mended: int = 0
    beyond: float | None = None
    relief: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Spread:
    """A quantity with its 90 % interval."""

    value: float
    low: float
    high: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Hunt:
    """Where the hunt stands: every place, the whole leak now, and each crew's factor (1 as the
    priors have it). `standings` keep the order of the priors; `method` is the way of searching
    that `found` and `gain` are about.
    """

    standings: tuple[Standing, ...]
    total: Spread
    crews: Mapping[str, Spread]
    method: Method
