"""Runs: strips that follow one another in a straight line and are laid as one length."""

from __future__ import annotations

import itertools
import math
from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from seamwright.geometry.types import Segment, Vec3, cross, dot
from seamwright.joints.types import FaceName, Joint, Register
from seamwright.seals.types import Strip
from seamwright.tolerance import Tolerance

_End: TypeAlias = tuple[int, int]
"""A strip by its position, and which of its ends: 0 the start of its line, 1 the end."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Run:
    """Strips laid as one length, in order. `length` is without laps. [m]

    `tips` are the lines of the first and the last joint, each running out to an end of the run;
    None when the strip follows no straight line from end to end: it covers a part of its joint, or
    goes around a penetration.
    """

    strips: tuple[Strip, ...]
    length: float
    tips: tuple[Segment, Segment] | None

    @property
    def joint_ids(self) -> tuple[str, ...]:
        """Ids of the joints along the run, in order."""
        return tuple(strip.joint_id for strip in self.strips)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Stretch:
    """A strip with the line it follows, what must be alike to run on, and the joint's angle."""

    strip: Strip
    line: Segment | None
    alike: tuple[object, ...]
    dihedral: float

    def tip(self, side: int) -> Vec3:
        """Return the end of the line on one side; only asked of stretches with a line."""
        line = self.line if self.line is not None else Segment(start=(0, 0, 0), end=(0, 0, 0))
        return line.end if side else line.start

    def outward(self, side: int) -> Vec3:
        """Return the unit direction out of the line at one side."""
        a, b = self.tip(1 - side), self.tip(side)
        length = math.dist(a, b)
        return ((b[0] - a[0]) / length, (b[1] - a[1]) / length, (b[2] - a[2]) / length)


def lay_runs(strips: Sequence[Strip], register: Register, tolerance: Tolerance) -> tuple[Run, ...]:
    """Return the runs of these strips, each strip in exactly one run, whatever their order.

    Two strips join when they are of one stock, face and stage, their joints have the same dihedral
    angle, and the end of one meets an end of the other in one straight line: a sill along a wall,
    a ridge over several panels. The gap between two such ends is part of the run, because the
    strip crosses it. Lengths in metres.
    """
    joints = {joint.id: joint for joint in register.joints}
    ordered = sorted(strips, key=_order)
    stretches = _stretches(ordered, joints, tolerance)
    links = _links(stretches, tolerance)
    runs: list[Run] = []
    seen: set[int] = set()
    for i in sorted(range(len(ordered)), key=lambda k: ((k, 0) in links and (k, 1) in links, k)):
        if i not in seen:
            chain = _walk(i, links)
            seen.update(k for k, _ in chain)
            runs.append(_run(chain, stretches))
    return tuple(runs)


def face_line(joint: Joint, face: FaceName) -> Segment | None:
    """Return the skin line of a joint on one face. [m]"""
    return joint.inner.line if face == "inner" else joint.outer.line


def _order(strip: Strip) -> tuple[str, str, str, str, float]:
    """Return what puts strips in one order however they come."""
    return (strip.joint_id, strip.face, str(strip.stock_id), strip.stage, strip.length)


def _stretches(
    strips: Sequence[Strip], joints: Mapping[str, Joint], tolerance: Tolerance
) -> list[_Stretch]:
    """Return each strip with its line; the nth like strip of a joint runs on into the nth only."""
    nth: Counter[tuple[object, ...]] = Counter()
    stretches = []
    for strip in strips:
        joint = joints.get(strip.joint_id)
        line = None if joint is None else face_line(joint, strip.face)
        if line is not None and abs(line.length - strip.length) > tolerance.step:
            line = None
        if line is not None and line.length <= tolerance.min_length:
            line = None
        kind = (strip.stock_id, strip.face, strip.stage, strip.wings_open, strip.fold)
        alike = (*kind, nth[strip.joint_id, *kind])
        nth[strip.joint_id, *kind] += 1
        angle = 0.0 if joint is None else joint.dihedral
        stretches.append(_Stretch(strip=strip, line=line, alike=alike, dihedral=angle))
    return stretches


def _links(stretches: Sequence[_Stretch], tolerance: Tolerance) -> dict[_End, _End]:
    """Return, for each end that runs on into another, the end it meets; always both ways."""
    cells: dict[tuple[int, int, int], list[_End]] = defaultdict(list)
    for i, stretch in enumerate(stretches):
        if stretch.line is not None:
            for side in (0, 1):
                cells[_cell(stretch.tip(side), tolerance.node)].append((i, side))
    nearest: dict[_End, _End] = {}
    for cell, ends in cells.items():
        near = [end for step in _AROUND for end in cells.get(_moved(cell, step), ())]
        for end in ends:
            meets = [other for other in near if _runs_on(end, other, stretches, tolerance)]
            if meets:
                nearest[end] = min(meets, key=lambda other: (_gap(end, other, stretches), other))
    return {end: other for end, other in nearest.items() if nearest.get(other) == end}


def _runs_on(a: _End, b: _End, stretches: Sequence[_Stretch], tolerance: Tolerance) -> bool:
    """Return whether the strip at one end runs straight on into the strip at the other."""
    first, second = stretches[a[0]], stretches[b[0]]
    if a[0] == b[0] or first.alike != second.alike:
        return False
    if abs(first.dihedral - second.dihedral) > tolerance.angle:
        return False
    gap = _minus(second.tip(b[1]), first.tip(a[1]))
    out, back = first.outward(a[1]), second.outward(b[1])
    aside = math.hypot(*cross(gap, out))
    bend = math.hypot(*cross(out, back))
    return (
        math.hypot(*gap) <= tolerance.node
        and aside <= tolerance.step
        and bend <= tolerance.angle
        and dot(out, back) < 0
    )


def _walk(start: int, links: Mapping[_End, _End]) -> list[tuple[int, int]]:
    """Return the strips of the run that begins at `start`, each with the side it is entered by."""
    side = 1 if (start, 0) not in links else 0
    chain = [(start, 1 - side)]
    while (chain[-1][0], side) in links:
        nxt, entry = links[chain[-1][0], side]
        if nxt == start:
            break
        chain.append((nxt, entry))
        side = 1 - entry
    return chain


def _run(chain: Sequence[tuple[int, int]], stretches: Sequence[_Stretch]) -> Run:
    """Return the run along a chain: the strips' lengths and the gaps between them."""
    strips = tuple(stretches[i].strip for i, _ in chain)
    parts = [strip.length for strip in strips]
    for (i, entry), (k, next_entry) in itertools.pairwise(chain):
        gap = _minus(stretches[k].tip(next_entry), stretches[i].tip(1 - entry))
        parts.append(max(0.0, dot(gap, stretches[i].outward(1 - entry))))
    first, last = chain[0], chain[-1]
    if stretches[first[0]].line is None:
        return Run(strips=strips, length=math.fsum(parts), tips=None)
    ends = ((first[0], first[1]), (last[0], 1 - last[1]))
    a, b = (
        Segment(start=stretches[i].tip(1 - side), end=stretches[i].tip(side)) for i, side in ends
    )
    return Run(strips=strips, length=math.fsum(parts), tips=(a, b))


def _gap(a: _End, b: _End, stretches: Sequence[_Stretch]) -> float:
    return math.dist(stretches[a[0]].tip(a[1]), stretches[b[0]].tip(b[1]))


def _minus(a: Vec3, b: Vec3) -> Vec3:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


_AROUND = tuple(itertools.product((-1, 0, 1), repeat=3))


def _cell(p: Vec3, size: float) -> tuple[int, int, int]:
    return (math.floor(p[0] / size), math.floor(p[1] / size), math.floor(p[2] / size))


def _moved(cell: tuple[int, int, int], step: tuple[int, ...]) -> tuple[int, int, int]:
    return (cell[0] + step[0], cell[1] + step[1], cell[2] + step[2])
