"""Which face, how tight, and does the joint stay dry: every joint type of a house, run and judged.

A proposal to the building's designer, who signs; never a rule taken in silence.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from seamwright.moisture.outdoors import FALL, RunClimate, airs_of, drive_of
from seamwright.moisture.transient.run import run_cases
from seamwright.moisture.transient.types import Run, Settings
from seamwright.moisture.verdict.advise import recommend
from seamwright.moisture.verdict.judge import judge_run, worst
from seamwright.moisture.verdict.leak import largest_leak
from seamwright.moisture.verdict.types import UNDECIDED, FaceOption, FaceWord, Verdict
from seamwright.report.dry_cases import Ladder, case_at, ladders_of, next_level
from seamwright.report.dry_joints import dry_joints, house_height, main_joints
from seamwright.report.dryness_types import (
    Asked,
    DryJoint,
    DryRun,
    HeightDryness,
    HouseDryness,
    JointDryness,
    Wettest,
    years_word,
)
from seamwright.report.house import SealedHouse
from seamwright.seals.face_table import NO_ZONE, ROOF_LINES, SYNTHESIS, row_for

UNIT = "m³/(h·m) at 50 Pa"
"""What leakages of a joint are in."""

DRENCHED = 2.0
"""More water than this no wood holds; the rest would drip. [kg/kg] common practice, no source"""

SOLVE = Settings(tolerance=1e-4)
"""Hourly steps; ten times tighter moves the largest leak of the eaves of Heron House by 1e-6 of it,
at a tenth more time (own runs)."""

QUICK = Settings(tolerance=1e-3)
"""For the short answer; moves the same leak by 1e-5 of it (own runs)."""

_BATCH = 8
_USUAL_RUNS = 4
"""Runs that a ladder takes, for telling how far they are."""

_DAY = 24
_MONTH_STARTS = (0, 744, 1416, 2160, 2880, 3624, 4344, 5088, 5832, 6552, 7296, 8016)


def house_dryness(
    house: SealedHouse,
    climate: RunClimate,
    asked: Asked,
    *,
    workers: int = 1,
    tell: Callable[[int, int], None] | None = None,
) -> HouseDryness:
    """Return what becomes of every joint type of a house in a climate, and what to propose.

    `tell` hears how many runs are done of how many; `workers` is how many run at a time.

    Raises
    ------
    InputError
        When the compiler package is not installed or the climate cannot be.
    """
    joints = dry_joints(house, asked, south=climate.south)
    ready = [joint for joint in joints if not joint.why_not]
    if asked.short:
        ready = main_joints(ready)
    neutral = asked.neutral * house_height(house)
    drives = {
        way: drive_of(climate, asked.covers, tilt=way[0], years=asked.years, facing=way[1])
        for way in dict.fromkeys((joint.tilt, joint.facing) for joint in ready)
    }
    climbs = [_Climb(one) for joint in ready for one in ladders_of(joint, asked, drives, neutral)]
    _climb(climbs, climate, asked, workers, tell)
    return HouseDryness(
        joints=tuple(_joint(house, joint, climbs) for joint in ready),
        left_out=tuple(joint for joint in joints if joint.why_not),
        asked=asked,
        origin=climate.weather.source,
        room=climate.room,
        generated=climate.is_generated,
        assumed=assumptions(asked, climate),
        cells=max((len(joint.cut.grid.points) for joint in ready), default=0),
        count=sum(len(climb.runs) for climb in climbs),
    )


class _Climb:
    """A ladder and what was found on it so far."""

    def __init__(self, ladder: Ladder) -> None:
        self.ladder = ladder
        self.runs: list[DryRun] = []
        self.usual: tuple[Verdict, ...] = ()

    def next(self, asked: Asked) -> float | None:
        margins = {
            run.leakage: math.nan if run.verdict is None else run.verdict.margin
            for run in self.runs
        }
        levels = () if asked.short else asked.levels
        return next_level(margins, self.ladder.usual, levels)

    def take(self, run: Run, leakage: float, asked: Asked, *, south: bool) -> None:
        ran, verdicts = _judged(self.ladder, run, leakage, asked, south=south)
        self.runs.append(ran)
        if ran.expected:
            self.usual = verdicts


def _climb(
    climbs: Sequence[_Climb], climate: RunClimate, asked: Asked, workers: int,
    tell: Callable[[int, int], None] | None,
) -> None:  # fmt: skip
    """Run every ladder, a round at a time, until each is pinned down."""
    airs = airs_of(climate, asked.years)
    settings = QUICK if asked.short else SOLVE
    done = 0
    while todo := [(c, level) for c in climbs if (level := c.next(asked)) is not None]:
        for k in range(0, len(todo), _BATCH):
            batch = todo[k : k + _BATCH]
            cases = [case_at(climb.ladder, level, airs, asked) for climb, level in batch]
            for (climb, level), run in zip(batch, run_cases(cases, settings, workers=workers),
                                           strict=True):  # fmt: skip
                climb.take(run, level, asked, south=climate.south)
            done += len(batch)
            if tell is not None:
                tell(done, max(_USUAL_RUNS * len(climbs), done))


def assumptions(asked: Asked, climate: RunClimate) -> tuple[str, ...]:
    """Return what the verdicts rest on, as sentences."""
    strips = f"{asked.inner_sd:.3g} m of still air inside and {asked.outer_sd:.3g} m outside"
    pressure = f"the neutral level stands at {asked.neutral:.0%} of the height"
    start = f"Wood begins in October at {asked.humidity:.0%} relative humidity"
    return (
        *asked.covers.sentences(),
        f"Strips resist vapor like {strips}.",
        f"Joints leak as the leak table has it under {asked.workmanship} work, or as stated.",
        "What is not sealed leaks as bare contact.",
        f"{_ways(asked, climate)}; {pressure}; fans add {asked.fan:g} Pa.",
        f"Air pressure, by the height of the place: {climate.pressure / 1000:.1f} kPa.",
        *(f"{own.where.capitalize()}: {own.material.name}." for own in asked.parts),
        f"The dams of the seal schedule {'are made' if asked.dams else 'are left out'}.",
        f"{start} and is followed for {years_word(asked.years)} of the same weather.",
    )


def _ways(asked: Asked, climate: RunClimate) -> str:
    """Return which way faces look and where the wind comes from."""
    turns = "the wind comes from each quarter in turn"
    if asked.facing == "shaded":
        return f"Every face looks away from the midday sun; {turns}"
    real = "Faces look to the eighth of the compass where they stand"
    if climate.weather.direction is None:
        return f"{real}; the year does not tell where the wind blows from: {turns}"
    return f"{real}; the wind comes from where the year tells"


def zone_face(house: SealedHouse, joint: DryJoint) -> tuple[FaceWord, str]:
    """Return what the table of faces by climate zone says of a joint, and its source."""
    row = row_for(house.plan.site.climate_zone)
    if row is None:
        row = NO_ZONE
    face = row.roof_lines if joint.joint.kind in ROOF_LINES else row.face
    return face, SYNTHESIS if row is not NO_ZONE else row.source


def _judged(
    ladder: Ladder, run: Run, leakage: float, asked: Asked, *, south: bool
) -> tuple[DryRun, tuple[Verdict, ...]]:
    verdicts: tuple[Verdict, ...] = ()
    names = tuple(probe.name for probe in ladder.blank.probes)
    if run.converged:
        held = replace(run, water=np.minimum(run.water, DRENCHED))
        places = [(name, True) for name in names]
        verdicts = judge_run(held, places, asked.limits, start=FALL, south=south)
    kept = run.converged and leakage == ladder.usual
    ran = DryRun(
        joint=ladder.joint.name,
        face=ladder.face,
        height=ladder.height,
        leakage=leakage,
        expected=leakage == ladder.usual,
        verdict=worst(verdicts) if verdicts else None,
        wettest=_wettest(verdicts, ladder.depths) if verdicts else None,
        converged=run.converged,
        advice=run.advice,
        heat_error=run.balance.heat_error,
        water_error=run.balance.water_error,
        places=names if kept else (),
        moisture=run.water.reshape(-1, _DAY, len(names)).mean(axis=1) if kept else None,
    )
    return ran, verdicts


def _wettest(verdicts: Sequence[Verdict], depths: Sequence[float | None]) -> Wettest | None:
    wet = [(v.criterion("wettest_month"), v, d) for v, d in zip(verdicts, depths, strict=True)]
    told = [(c, v, d) for c, v, d in wet if c is not None]
    if not told:
        return None
    criterion, verdict, depth = max(told, key=lambda item: item[0].value)
    middle = (FALL + criterion.hour) % 8760
    month = max(k for k, start in enumerate(_MONTH_STARTS) if start <= middle)
    return Wettest(
        place=verdict.place, depth=depth, moisture=criterion.value, season=criterion.season,
        month=month,
    )  # fmt: skip


def _joint(house: SealedHouse, joint: DryJoint, climbs: Sequence[_Climb]) -> JointDryness:
    face, source = zone_face(house, joint)
    mine = [climb for climb in climbs if climb.ladder.joint is joint]
    heights = []
    for height in dict.fromkeys(climb.ladder.height for climb in mine):
        here = [climb for climb in mine if climb.ladder.height == height]
        options = [o for climb in here if (o := _option(climb)) is not None]
        heights.append(
            HeightDryness(
                height=height,
                above=here[0].ladder.above,
                options=tuple(options),
                runs=tuple(run for climb in here for run in climb.runs),
                recommendation=recommend(options, face, source) if options else None,
            )
        )
    return JointDryness(joint=joint, heights=tuple(heights))


def _option(climb: _Climb) -> FaceOption | None:
    """Return a face option; None where its run at the usual leakage did not converge.

    A lowest level that fails by less than `UNDECIDED` below one that passes is left out: too close
    to call the joint wetter when tighter.
    """
    if not climb.usual:
        return None
    points = sorted((run.leakage, run.verdict.margin) for run in climb.runs if run.verdict)
    if len(points) > 1 and -UNDECIDED < points[0][1] <= 0.0 < points[1][1]:
        points = points[1:]
    leak = None
    if len(points) > 1:
        leak = largest_leak([p for p, _ in points], [m for _, m in points], UNIT)
    return FaceOption(
        face=climb.ladder.face,
        verdicts=climb.usual,
        leak=leak,
        leak_expected=climb.ladder.usual,
        leak_unit=UNIT,
    )
