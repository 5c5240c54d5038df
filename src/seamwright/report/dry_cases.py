"""The runs of a joint: one mesh for each face option, one air flow for each leakage and height."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from seamwright.moisture.air_ways import (
    ROOF_PRESSURE,
    WALL_PRESSURE,
    Airs,
    Exposed,
    SealLines,
    in_series,
    rest_of,
    ways_of,
)
from seamwright.moisture.covers import Strip, Strips
from seamwright.moisture.outdoors import Orientation
from seamwright.moisture.transient.types import Case, Drive, Mesh, Probe
from seamwright.moisture.verdict.types import FaceWord
from seamwright.report.dry_probes import probes_of
from seamwright.report.dryness_types import Asked, DryJoint, HeightClass, JointLines
from seamwright.report.joint_mesh import joint_mesh

SHELTER = 0.5
"""Wind at the house over that 10 m above open ground. [-] common practice, no source"""

SAME = 1.0
"""Joints whose heights differ by less have one height class: a metre of stack is a tenth of a
pascal in a mild winter. [m] common practice, no source"""

_ROOFS = frozenset({"roof_spline", "ridge", "hip", "valley", "rake", "roof_step"})


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Ladder:
    """One joint sealed one way at one height, to be run at one leakage after another.

    `blank` is the case without air; `above` the neutral level [m]; `usual` is the leakage that
    the leak table has for it [m³/(h·m) at 50 Pa]; `depths` are those of its probes.
    """

    joint: DryJoint
    face: FaceWord
    height: HeightClass
    above: float
    usual: float
    blank: Case
    depths: tuple[float | None, ...]


def heights_of(joint: DryJoint) -> tuple[tuple[HeightClass, float], ...]:
    """Return the heights of a joint to look at, above the lowest floor. [m]"""
    low, high = joint.heights
    if high - low < SAME:
        return (("high", high),)
    return ("low", low), ("high", high)


def sealed(lines: JointLines, face: FaceWord) -> tuple[float, float, float]:
    """Return what inner line, channel and outer line leak under a face option. [m³/(h·m)]"""
    inner = in_series((lines.crack, lines.strip_inner)) if face != "outer" else lines.crack
    outer = in_series((lines.crack, lines.strip_outer)) if face != "inner" else lines.crack
    return inner, lines.between, outer


def expected_leakage(lines: JointLines, face: FaceWord) -> float:
    """Return what a joint leaks at 50 Pa, sealed as the table has it. [m³/(h·m)]"""
    return in_series(sealed(lines, face))


def set_to(lines: JointLines, face: FaceWord, leakage: float) -> tuple[float, float, float]:
    """Return inner line, channel and outer line such that the whole joint leaks so much.

    The sealed lines change; what is not sealed stays as it is. Where even the bare joint leaks
    less, its cracks and channel open alike.
    """
    inner, between, outer = sealed(lines, face)
    if face == "inner":
        line = rest_of(leakage, in_series((between, outer)))
        found = (line, between, outer)
    elif face == "outer":
        line = rest_of(leakage, in_series((inner, between)))
        found = (inner, between, line)
    else:
        line = rest_of(leakage, between) * 2.0**0.65
        found = (line, between, line)
    if math.isinf(line):
        whole = in_series((lines.crack, between, lines.crack))
        wider = leakage / whole
        found = (lines.crack * wider, between * wider, lines.crack * wider)
    return found


def ladders_of(
    joint: DryJoint,
    asked: Asked,
    drives: Mapping[tuple[float, Orientation], Drive],
    neutral: float,
) -> tuple[Ladder, ...]:
    """Return what to run of a joint: every face at every height.

    `drives` are those of a climate by the slope of the roof and the way faces look, `neutral` the
    neutral level [m].
    """
    found = []
    for face in asked.faces:
        strips = Strips(
            inner=Strip(width=joint.strip_inner, sd=asked.inner_sd) if face != "outer" else None,
            outer=Strip(width=joint.strip_outer, sd=asked.outer_sd) if face != "inner" else None,
        )
        volumes = joint_mesh(joint.cut, asked.covers, strips)
        watched = probes_of(joint.cut, volumes)
        probes = tuple(probe for probe, _ in watched)
        blank = _blank(joint, asked, volumes.mesh, drives[joint.tilt, joint.facing], probes)
        found += [
            Ladder(
                joint=joint, face=face, height=height, above=above - neutral,
                usual=expected_leakage(joint.lines, face), blank=blank,
                depths=tuple(depth for _, depth in watched),
            )
            for height, above in heights_of(joint)
            if height == "high" or not asked.short
        ]  # fmt: skip
    return tuple(found)


def next_level(
    margins: Mapping[float, float], usual: float, levels: Sequence[float]
) -> float | None:
    """Return the leakage to run next, None when the largest that passes is pinned down.

    The usual one comes first, then the middle of the levels between the highest that passed and
    the lowest that did not, last the lowest of all where something passed: a joint that is wetter
    when tighter shows there. `margins` are those found so far.

    >>> next_level({0.4: -1.0}, 0.4, (0.01, 0.03, 0.1, 0.3, 1.0))
    0.03
    """
    if usual not in margins:
        return usual
    failed = min((level for level, m in margins.items() if not m > 0.0), default=math.inf)
    passed = max((level for level, m in margins.items() if m > 0.0 and level < failed), default=0.0)
    between = [level for level in sorted(levels) if passed < level < failed]
    if between:
        return between[(len(between) - 1) // 2]
    least = min((*levels, usual))
    return least if passed > 0.0 and least not in margins and levels else None


def case_at(ladder: Ladder, leakage: float, airs: Airs, asked: Asked) -> Case:
    """Return the case of a ladder at one leakage of the whole joint. [m³/(h·m) at 50 Pa]"""
    lines = set_to(ladder.joint.lines, ladder.face, leakage)
    return _with_air(ladder.blank, ladder.joint, airs, asked, lines, ladder.above)


def _blank(
    joint: DryJoint, asked: Asked, mesh: Mesh, drive: Drive, probes: tuple[Probe, ...]
) -> Case:
    count = len(mesh.points)
    return Case(
        mesh=mesh,
        materials=joint.cut.materials,
        drive=drive,
        temperature=np.full(count, float(drive.temperature[:24, :2].mean())),
        humidity=np.full(count, asked.humidity),
        probes=probes,
    )


def _with_air(  # noqa: PLR0917 all that the air depends on
    blank: Case, joint: DryJoint, airs: Airs, asked: Asked, lines: tuple[float, float, float],
    above: float,
) -> Case:  # fmt: skip
    seam = joint.cut.seam
    assert seam is not None
    roof = joint.joint.kind in _ROOFS
    inner, between, outer = lines
    ways = ways_of(
        seam.cells,
        seam.shares,
        airs,
        Exposed(
            above=above, shelter=SHELTER, fan=asked.fan,
            face_coefficients=ROOF_PRESSURE if roof else WALL_PRESSURE, facing=joint.facing,
        ),
        SealLines(
            inner=inner, channel=between, outer=outer, gap=joint.gap, run=joint.run,
            feeders=joint.feeders, feeder_run=joint.feeder_run, depth=seam.length,
        ),
        outdoors=2 if roof else 1,
    )  # fmt: skip
    return Case(
        mesh=blank.mesh, materials=blank.materials, drive=blank.drive, ways=ways,
        temperature=blank.temperature, humidity=blank.humidity, probes=blank.probes,
        pressure=airs.pressure,
    )  # fmt: skip
