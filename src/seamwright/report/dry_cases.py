"""The runs of a joint: one mesh for each face option, one air flow for each leakage and height."""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from seamwright.moisture.air_ways import Airs, Exposed, SealLines, in_series, rest_of, ways_of
from seamwright.moisture.covers import Strip, Strips
from seamwright.moisture.transient.types import Case, Drive, Mesh, Probe
from seamwright.moisture.verdict.types import FaceWord
from seamwright.report.dry_probes import probes_of
from seamwright.report.dryness_types import Asked, DryJoint, HeightClass, JointLines
from seamwright.report.joint_mesh import joint_mesh

ROOM_PRESSURE, WALL_PRESSURE, ROOF_PRESSURE = -0.2, -0.2, -0.4
"""Coefficients of wind pressure over all directions: room, walls, roof slopes up to 30°. [-]
M. W. Liddament, Air infiltration calculation techniques, AIVC 1986 (from memory)."""

SHELTER = 0.5
"""Wind at the house over that 10 m above open ground. [-] common practice, no source"""

SAME = 1.0
"""Joints whose heights differ by less have one height class. [m]"""

_ROOFS = frozenset({"roof_spline", "ridge", "hip", "valley", "rake", "roof_step"})


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class DryCase:
    """A case to run, and what it stands for. `depths` are those of its probes."""

    case: Case
    joint: str
    face: FaceWord
    height: HeightClass
    leakage: float
    expected: bool
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


def cases_of(
    joint: DryJoint, asked: Asked, airs: Airs, drives: Mapping[float, Drive], neutral: float
) -> tuple[DryCase, ...]:
    """Return the cases of a joint: every face, height and leakage.

    `drives` are those of a climate by the slope of the roof, `neutral` the neutral level [m].
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
        blank = _blank(joint, asked, volumes.mesh, drives[joint.tilt], probes)
        usual = expected_leakage(joint.lines, face)
        depths = tuple(depth for _, depth in watched)
        for (height, above), level in itertools.product(
            heights_of(joint), sorted({*asked.levels, usual})
        ):
            lines = set_to(joint.lines, face, level)
            found.append(
                DryCase(
                    case=_with_air(blank, joint, airs, asked, lines, above - neutral),
                    joint=joint.name,
                    face=face,
                    height=height,
                    leakage=level,
                    expected=level == usual,
                    depths=depths,
                )
            )
    return tuple(found)


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
            above=above, room_coefficient=ROOM_PRESSURE, shelter=SHELTER, fan=asked.fan,
            face_coefficient=ROOF_PRESSURE if roof else WALL_PRESSURE,
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
    )  # fmt: skip
