"""Records of the verdict: what is judged, the limits, and what was found."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal, TypeAlias

from seamwright.moisture.types import Floats
from seamwright.sources import COMMON_PRACTICE

MoldClass: TypeAlias = Literal["very_sensitive", "sensitive", "medium_resistant", "resistant"]
CriterionName: TypeAlias = Literal[
    "mold", "decay", "wettest_month", "wettest_week", "month_ahead", "surface_humidity"
]
Trend: TypeAlias = Literal["repeating", "drying", "wetting", "unknown"]
FaceWord: TypeAlias = Literal["inner", "outer", "both"]
LeakCase: TypeAlias = Literal["crosses", "all within", "none within", "not monotone"]

HOURS_OF_YEAR = 8760

STRICT_HUMIDITY = 0.80
"""The limit of ASHRAE 160-2009 for `Limits.surface_humidity`. [-] (seen second-hand)"""

UNDECIDED = 0.05
"""Margins nearer to zero than this are undecided: halving the spacing of the grid moved margins of
one house by up to 0.045. [-] Own runs, ``docs/theory.md``, "Steps, iteration"."""

OWN_LIMIT = "set by the user"
"""Source of a limit that is not the default."""


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Series:
    """A place hour by hour, each (hours,): temperature [°C], relative humidity [-], moisture.

    `moisture` is kg of water per kg dry [kg/kg], None where the place is not wood. `start` is the
    hour of the year of the first entry, 0 at the beginning of January. `south` of the equator the
    seasons are the other way round.
    """

    name: str
    temperature: Floats
    humidity: Floats
    moisture: Floats | None = None
    start: int = 0
    south: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Limits:
    """What a place must stay below. Each may be changed; None leaves a criterion out.

    Attributes
    ----------
    mold
        Mold index. [-] ASHRAE 160-2016 (from memory): at most 3, where growth becomes visible.
    mold_class, decline
        Growth class of the surface: boards and lumber are `sensitive` (glued wood boards, spruce:
        seen second-hand). Share of the decline of pine that it has when dry: 0.1 is the lowest
        class, which ASHRAE 160-2016 takes (from memory). [-]
    decay
        Activation of decay, from 0 to 1, plus the mass lost. [- and % of dry mass] Viitanen et al.
        2010: below 1 nothing is lost.
    month
        Largest mean moisture content over 30 days. [kg/kg] Fungi need 20 % (Smulski 1996).
    week
        Largest mean moisture content over 7 days. [kg/kg] 28 %, the low end of the fiber
        saturation above which decay is serious: 30 % on average (Rowell and Ibach 2000); the low
        end and the week are common practice, no source.
    years_ahead
        So many years of the last yearly rise are added to the wettest month of the last year, and
        held to the limit of the month. common practice, no source
    surface_humidity
        Largest 30-day mean of the relative humidity while that of the temperature is 5 to 40 °C.
        [-] ASHRAE 160-2009: 0.80. Left out by default: found too strict, and replaced in 2016.
    count_over
        Moisture contents whose hours above are counted, for information. [kg/kg] 16 %: skins
        before a strip goes on (common practice, no source); 19 %: framing before the interior
        finish (Oregon R318.2); 20 and 28 % as above.
    """

    mold: float | None = 3.0
    mold_class: MoldClass = "sensitive"
    decline: float = 0.1
    decay: float | None = 1.0
    month: float | None = 0.20
    week: float | None = 0.28
    years_ahead: float | None = 5.0
    surface_humidity: float | None = None
    count_over: tuple[float, ...] = (0.16, 0.19, 0.20, 0.28)


LIMIT_SOURCES: Mapping[CriterionName, str] = MappingProxyType(
    {
        "mold": "ashrae-160",
        "decay": "viitanen-2010",
        "wettest_month": "smulski-1996",
        "wettest_week": "rowell-ibach-2000",
        "month_ahead": COMMON_PRACTICE,
        "surface_humidity": "ashrae-160",
    }
)
"""Where each default limit comes from: a key of the register, or the words for none."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Criterion:
    """One criterion of a place: value and limit in `unit`, and the margin between. [-]

    `hour` is when the worst is reached, counted from the start of the series; `season` the season
    of it.
    """

    name: CriterionName
    title: str
    value: float
    limit: float
    unit: str
    margin: float
    hour: int
    season: str
    source: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Verdict:
    """A place measured against the limits.

    Attributes
    ----------
    margin
        The least of the criteria's margins: above zero the place stays within every limit. [-]
    binding
        The criterion that has it.
    trend
        Whether the last year repeats the one before; `yearly_change` is the rise of its mean
        moisture content, of its relative humidity where the place is not wood. [kg/kg or -]
    hours_over
        Moisture content, hours of the whole series above it, hours of the worst year.
    mold_end, mold_rise, mass_loss
        Mold index at the end, and how far its peak of the last year lies above that of the year
        before (0 under two years) [-]; mass lost to decay [% of dry mass].
    """

    place: str
    criteria: tuple[Criterion, ...]
    margin: float
    binding: CriterionName
    trend: Trend
    yearly_change: float
    hours_over: tuple[tuple[float, int, int], ...] = ()
    mold_end: float = 0.0
    mold_rise: float = 0.0
    mass_loss: float = 0.0

    @property
    def within(self) -> bool:
        """Whether every limit is kept."""
        return self.margin > 0.0

    def criterion(self, name: CriterionName) -> Criterion | None:
        """Return one criterion by name, None where it was not judged."""
        return next((c for c in self.criteria if c.name == name), None)


@dataclass(frozen=True, kw_only=True, slots=True)
class LeakLimit:
    """The largest leakage that stays within limits, in the unit of the levels asked.

    Attributes
    ----------
    level
        That leakage; the top level tried where all stay within, None where none does.
    ranges
        Every stretch of levels that stays within, ends interpolated.
    advice
        What the case means, as a sentence.
    lowest
        The lowest level tried.
    """

    case: LeakCase
    level: float | None
    ranges: tuple[tuple[float, float], ...]
    advice: str
    lowest: float = 0.0


@dataclass(frozen=True, kw_only=True, slots=True)
class FaceOption:
    """One way to seal: the face of the primary strip, and what its run said of each place.

    `leak` is the largest leak that stays within limits, `leak_unit` what it is in; `leak_expected`
    what the joint is taken to leak.
    """

    face: FaceWord
    verdicts: tuple[Verdict, ...]
    leak: LeakLimit | None = None
    leak_expected: float | None = None
    leak_unit: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Advice:
    """What published advice says: who holds it, what, for which faces, and the source."""

    holder: str
    says: str
    faces: tuple[FaceWord, ...]
    source: str
    agrees: bool | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Ranked:
    """One option with its margin, the place and criterion that bind, and a sentence on it."""

    face: FaceWord
    margin: float
    place: str
    binding: CriterionName
    sentence: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Recommendation:
    """A proposal to the designer: which face, with what margin, and who disagrees.

    `face` is None where no option stays within limits. `sentences` say it in plain words, the
    proposal first; `advice` holds published opinions with whether they agree.
    """

    face: FaceWord | None
    margin: float
    ranked: tuple[Ranked, ...]
    sentences: tuple[str, ...]
    advice: tuple[Advice, ...]
    assumed: tuple[str, ...] = field(default=())
