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
from seamwright.moisture.transient.types import Run
from seamwright.moisture.verdict.advise import recommend
from seamwright.moisture.verdict.judge import judge_run, worst
from seamwright.moisture.verdict.leak import largest_leak
from seamwright.moisture.verdict.types import FaceOption, FaceWord, Verdict
from seamwright.report.dry_cases import DryCase, cases_of, expected_leakage, heights_of
from seamwright.report.dry_joints import dry_joints, house_height
from seamwright.report.dryness_types import (
    Asked,
    DryJoint,
    DryRun,
    HeightDryness,
    HouseDryness,
    JointDryness,
    Wettest,
)
from seamwright.report.house import SealedHouse
from seamwright.seals.face_table import NO_ZONE, ROOF_LINES, SYNTHESIS, row_for

UNIT = "m³/(h·m) at 50 Pa"
"""What leakages of a joint are in."""

DRENCHED = 2.0
"""More water than this no wood holds; the rest would drip. [kg/kg] common practice, no source"""

_BATCH = 8
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
    joints = dry_joints(house, asked)
    ready = [joint for joint in joints if not joint.why_not]
    neutral = asked.neutral * house_height(house)
    airs = airs_of(climate, asked.years)
    drives = {
        tilt: drive_of(climate, asked.covers, tilt=tilt, years=asked.years)
        for tilt in sorted({joint.tilt for joint in ready})
    }
    total = sum(_count(joint, asked) for joint in ready)
    done, cells = 0, 0
    found = []
    for joint in ready:
        runs: list[tuple[DryRun, tuple[Verdict, ...]]] = []
        cases = cases_of(joint, asked, airs, drives, neutral)
        for k in range(0, len(cases), _BATCH):
            batch = cases[k : k + _BATCH]
            ran = run_cases([c.case for c in batch], workers=workers)
            runs += [
                _judged(c, run, asked, _south(climate)) for c, run in zip(batch, ran, strict=True)
            ]
            done += len(batch)
            if tell is not None:
                tell(done, total)
        cells = max(cells, len(joint.cut.grid.points))
        found.append(_joint(house, joint, runs, asked, neutral))
    return HouseDryness(
        joints=tuple(found),
        left_out=tuple(joint for joint in joints if joint.why_not),
        asked=asked,
        origin=climate.weather.source,
        room=climate.room,
        generated=climate.is_generated,
        assumed=assumptions(asked),
        cells=cells,
        count=total,
    )


def assumptions(asked: Asked) -> tuple[str, ...]:
    """Return what the verdicts rest on, as sentences."""
    strips = f"{asked.inner_sd:g} m of still air inside and {asked.outer_sd:g} m outside"
    pressure = f"the neutral level stands at {asked.neutral:.0%} of the height"
    start = f"Wood begins in October at {asked.humidity:.0%} relative humidity"
    return (
        *asked.covers.sentences(),
        f"Strips resist vapor like {strips}.",
        f"Joints leak as the leak table has it under {asked.workmanship} work, or as stated.",
        "What is not sealed leaks as bare contact.",
        f"Every face looks away from the midday sun; {pressure}; fans add {asked.fan:g} Pa.",
        "No rain gets behind the covers.",
        f"The dams of the seal schedule {'are made' if asked.dams else 'are left out'}.",
        f"{start} and is followed for {asked.years} years of the same weather.",
    )


def zone_face(house: SealedHouse, joint: DryJoint) -> tuple[FaceWord, str]:
    """Return what the table of faces by climate zone says of a joint, and its source."""
    row = row_for(house.plan.site.climate_zone)
    if row is None:
        row = NO_ZONE
    face = row.roof_lines if joint.joint.kind in ROOF_LINES else row.face
    return face, SYNTHESIS if row is not NO_ZONE else row.source


def _count(joint: DryJoint, asked: Asked) -> int:
    heights = len(heights_of(joint))
    levels = [{*asked.levels, expected_leakage(joint.lines, face)} for face in asked.faces]
    return heights * sum(len(one) for one in levels)


def _south(climate: RunClimate) -> bool:
    return climate.place is not None and climate.place.latitude < 0.0


def _judged(case: DryCase, run: Run, asked: Asked, south: bool  # noqa: FBT001 from the climate
            ) -> tuple[DryRun, tuple[Verdict, ...]]:  # fmt: skip
    verdicts: tuple[Verdict, ...] = ()
    if run.converged:
        places = [(probe.name, True) for probe in case.case.probes]
        held = replace(run, water=np.minimum(run.water, DRENCHED))
        verdicts = judge_run(held, places, asked.limits, start=FALL, south=south)
    days = None
    if case.expected and run.converged:
        days = run.water.reshape(-1, _DAY, run.water.shape[1]).mean(axis=1)
    ran = DryRun(
        joint=case.joint,
        face=case.face,
        height=case.height,
        leakage=case.leakage,
        expected=case.expected,
        verdict=worst(verdicts) if verdicts else None,
        wettest=_wettest(verdicts, case.depths) if verdicts else None,
        converged=run.converged,
        advice=run.advice,
        heat_error=run.balance.heat_error,
        water_error=run.balance.water_error,
        places=tuple(probe.name for probe in case.case.probes) if days is not None else (),
        moisture=days,
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


def _joint(
    house: SealedHouse, joint: DryJoint, runs: Sequence[tuple[DryRun, tuple[Verdict, ...]]],
    asked: Asked, neutral: float,
) -> JointDryness:  # fmt: skip
    face, source = zone_face(house, joint)
    heights = []
    for height, above in heights_of(joint):
        mine = [pair for pair in runs if pair[0].height == height]
        options = [o for f in asked.faces if (o := _option(f, mine, joint)) is not None]
        heights.append(
            HeightDryness(
                height=height,
                above=above - neutral,
                options=tuple(options),
                runs=tuple(ran for ran, _ in mine),
                recommendation=recommend(options, face, source) if options else None,
            )
        )
    return JointDryness(joint=joint, heights=tuple(heights))


def _option(
    face: FaceWord, runs: Sequence[tuple[DryRun, tuple[Verdict, ...]]], joint: DryJoint
) -> FaceOption | None:
    """Return a face option; None where its run at the expected leakage did not converge."""
    mine = [(ran, verdicts) for ran, verdicts in runs if ran.face == face and ran.verdict]
    usual = next((verdicts for ran, verdicts in mine if ran.expected), None)
    if usual is None:
        return None
    points = sorted((ran.leakage, ran.verdict.margin) for ran, _ in mine if ran.verdict)
    leak = None
    if len(points) > 1 and not any(math.isnan(m) for _, m in points):
        leak = largest_leak([p for p, _ in points], [m for _, m in points], UNIT)
    return FaceOption(
        face=face,
        verdicts=usual,
        leak=leak,
        leak_expected=expected_leakage(joint.lines, face),
        leak_unit=UNIT,
    )
