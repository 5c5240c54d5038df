"""Records of the dryness of a house's joints: what was asked, what was run, what came out."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from seamwright.joints.types import Joint
from seamwright.leakage.prior_rows import Workmanship
from seamwright.moisture.covers import Covers
from seamwright.moisture.types import Floats
from seamwright.moisture.verdict.types import (
    FaceOption,
    FaceWord,
    Limits,
    Recommendation,
    Verdict,
)
from seamwright.report.joint_cut import JointCut, OwnPart

HeightClass: TypeAlias = Literal["low", "high"]
Facing: TypeAlias = Literal["shaded", "real"]

FACES: tuple[FaceWord, ...] = ("inner", "outer", "both")


@dataclass(frozen=True, kw_only=True, slots=True)
class Asked:
    """What to work out, and what to take for granted.

    Attributes
    ----------
    faces
        The faces to try.
    years
        How long each run goes on; the first begins in October with wood at `humidity`.
    levels
        Leakage of a joint to try, from a tenth of the tightest line of the leak table to several
        times its loosest, in steps of about three. [m³/(h·m) at 50 Pa] common practice, no source
    inner_sd, outer_sd
        What a strip resists vapor by, as still air [m]: between a butyl and an acrylic strip
        inside, an acrylic one outside (see `films.STRIPS`). common practice, no source
    strip_width
        Of every strip whose width the seal schedule does not have. [m] common practice, no source
    humidity
        Relative humidity of all materials at the start: after a summer under cover. [-] common
        practice, no source
    neutral
        Height at which no stack pressure stands, over the height of the house: half where leaks
        lie evenly over it, ASHRAE Fundamentals, chapter 16 (from memory). [-]
    fan
        Indoors less outdoors by ventilation. [Pa]
    fine
        Spacing of the grid at the seam: half of it moves margins by up to `UNDECIDED`. [m] Own
        runs, ``docs/theory.md``
    facing
        ``shaded``: every face looks away from the midday sun; ``real``: joints are told apart by
        the eighth of the compass they look to, and feel its sun and wind.
    parts
        Materials of the user's own by the part they are in, see `OwnPart`.
    kinds
        Kinds of joint to take; empty for all.
    dams
        Whether the dams of the seal schedule are made.
    short
        Only the highest roof line, else the highest wall spline, at its highest place, leaking as
        usual: no ladder of leakages.
    """

    faces: tuple[FaceWord, ...] = FACES
    years: int = 2
    levels: tuple[float, ...] = (0.01, 0.03, 0.1, 0.3, 1.0, 3.0)
    workmanship: Workmanship = "ordinary"
    covers: Covers = field(default_factory=Covers)
    limits: Limits = field(default_factory=Limits)
    inner_sd: float = 20.0
    outer_sd: float = 5.0
    strip_width: float = 0.15
    humidity: float = 0.75
    neutral: float = 0.5
    fan: float = 0.0
    fine: float = 0.008
    facing: Facing = "shaded"
    parts: tuple[OwnPart, ...] = ()
    kinds: tuple[str, ...] = ()
    dams: bool = True
    short: bool = False


def years_word(years: int) -> str:
    """Return a number of years in words."""
    return f"{years} year" if years == 1 else f"{years} years"


@dataclass(frozen=True, kw_only=True, slots=True)
class JointLines:
    """What the parts of a joint leak alone at 50 Pa, by the leak table. [m³/(h·m)]

    `crack` is the bare contact of one face, `strip` a strip on it, `between` beads, foam and
    gasket in the channel together (infinite where there is none).
    """

    crack: float
    strip_inner: float
    strip_outer: float
    between: float


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class DryJoint:
    """Joints of a house that get wet alike, told by one of them.

    Attributes
    ----------
    cut
        The section; its `seam` is None where no air passes, and `why_not` says why.
    heights
        Above the lowest floor, of the lowest and the highest place of all of them. [m]
    run
        Height over which a channel goes on without a dam. [m]
    feeders
        Undammed seams that run into each metre of it from below [1/m], and how far they rise
        (`feeder_run`) [m].
    gap
        How wide the channel stands open. [m]
    tilt
        Slope of the roof panels. [rad]
    facing
        The way it looks, clockwise from north [rad]; None for away from the midday sun.
    """

    name: str
    title: str
    joint: Joint
    joint_ids: tuple[str, ...]
    length: float
    cut: JointCut
    lines: JointLines
    heights: tuple[float, float]
    run: float
    feeders: float
    feeder_run: float
    gap: float
    tilt: float
    strip_inner: float
    strip_outer: float
    why_not: str = ""
    facing: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Wettest:
    """Where and when a joint is wettest: which part, how deep along the seam from the room's face
    (0 to 1, None off the seam), the mean moisture content of its wettest month [kg/kg], and when.
    """

    place: str
    depth: float | None
    moisture: float
    season: str
    month: int


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class DryRun:
    """One run of one joint: how it was sealed, how leaky, how high, and what came out.

    `leakage` is that of the whole joint [m³/(h·m) at 50 Pa]. `verdict` is that of the place with
    the least margin, None where the run did not converge: then no figure may be used. `moisture`
    (days, places) are daily means of the wood [kg/kg], `places` their names; kept for the run at
    the expected leakage only.
    """

    joint: str
    face: FaceWord
    height: HeightClass
    leakage: float
    expected: bool
    verdict: Verdict | None
    wettest: Wettest | None
    converged: bool
    advice: str
    heat_error: float
    water_error: float
    places: tuple[str, ...] = ()
    moisture: Floats | None = None


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class HeightDryness:
    """A joint at one height: its options, and the proposal, None where no run converged. `above`
    the neutral level. [m]
    """

    height: HeightClass
    above: float
    options: tuple[FaceOption, ...]
    runs: tuple[DryRun, ...]
    recommendation: Recommendation | None


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class JointDryness:
    """A joint type with all its heights."""

    joint: DryJoint
    heights: tuple[HeightDryness, ...]


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class HouseDryness:
    """The dryness of a house's joints in one climate.

    `left_out` are the joint types without a way for air, with the reason. `origin` names the
    weather, `room` the indoor climate; `generated` says that the weather is made up.
    """

    joints: tuple[JointDryness, ...]
    left_out: tuple[DryJoint, ...]
    asked: Asked
    origin: str
    room: str
    generated: bool
    assumed: tuple[str, ...]
    cells: int = 0
    count: int = 0
