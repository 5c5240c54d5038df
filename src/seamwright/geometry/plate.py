"""Plates: a flat solid between two faces, each edge with a flat side face; cutting them square.

Vertex i of a loop's `inner` outline belongs to vertex i of its `outer` outline. An edge may shrink
to a point on one face (a hip that runs out), never on both.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

import shapely

from seamwright.errors import GeometryError
from seamwright.geometry.plane import Flat, trace
from seamwright.geometry.polygon import crossing, signed_area
from seamwright.geometry.types import Frame, Ring, Vec2

Axis: TypeAlias = Literal[0, 1]
Pair: TypeAlias = tuple[Vec2, Vec2]
ON = 1e-9
"""A vertex this near a cut counts as on it. [m]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Loop:
    """One closed outline on both faces; counter-clockwise around a plate, clockwise around a
    void.
    """

    inner: Ring
    outer: Ring

    @property
    def pairs(self) -> tuple[Pair, ...]:
        """The matched vertices (inner, outer)."""
        return tuple(zip(self.inner, self.outer, strict=True))


@dataclass(frozen=True, kw_only=True, slots=True)
class Plate:
    """A plate before it is split: its boundary, and voids that no cut has reached yet."""

    boundary: Loop
    voids: tuple[Loop, ...] = ()

    @property
    def loops(self) -> tuple[Loop, ...]:
        """Boundary first, then the voids."""
        return (self.boundary, *self.voids)


def loop_of(pairs: Iterable[Pair]) -> Loop:
    """Return the loop of matched vertices, without repeats and without points on straight lines."""
    kept = list(pairs)
    i = 0
    while i < len(kept) and len(kept) >= 3:
        before, here, after = kept[i - 1], kept[i], kept[(i + 1) % len(kept)]
        if all(_idle(before[k], here[k], after[k]) for k in (0, 1)) and _flush(before, here, after):
            del kept[i]
            i = max(i - 1, 0)
        else:
            i += 1
    return Loop(inner=tuple(p[0] for p in kept), outer=tuple(p[1] for p in kept))


def square_loop(ring: Sequence[Vec2]) -> Loop:
    """Return the loop of a square-edged outline: the same on both faces."""
    return Loop(inner=tuple(ring), outer=tuple(ring))


def extent(plate: Plate, axis: Axis) -> tuple[float, float]:
    """Return the least and greatest coordinate along an axis, both faces together. [m]"""
    values = [p[axis] for ring in (plate.boundary.inner, plate.boundary.outer) for p in ring]
    return min(values), max(values)


def volume(plate: Plate, thickness: float) -> float:
    """Return the volume of a plate. [m³]

    The area at height w is quadratic in w, so Simpson's rule is exact.
    """
    return thickness * math.fsum(
        (signed_area(x.inner) + 4.0 * signed_area(halfway(x)) + signed_area(x.outer)) / 6.0
        for x in plate.loops
    )


def halfway(loop: Loop, share: float = 0.5) -> Ring:
    """Return the outline at `share` of the thickness above the inner face."""
    return tuple(
        (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])) for a, b in loop.pairs
    )


def from_sides(frame: Frame, ring: Sequence[Vec2], sides: Sequence[Flat], thickness: float) -> Loop:
    """Return the loop over an inner outline whose edge i is closed by the plane `sides[i]`.

    Parameters
    ----------
    ring : (n,) Vec2
        Inner outline in the frame's axes. [m]
    sides : (n,) Flat
        The plane of the side face of each edge; it contains that inner edge.
    thickness : float
        Height of the outer face above the inner face. [m]

    Raises
    ------
    GeometryError
        If a side face lies in the plate's own plane.
    """
    lines = [_line(trace(frame, thickness, side)) for side in sides]
    pairs: list[Pair] = []
    for i, p in enumerate(ring):
        before, after = lines[i - 1], lines[i]
        met = crossing(before[0], before[1], after[0], after[1])
        if met is not None and _nearly_parallel(before[1], after[1]):
            met = None
        if met is not None:
            pairs.append((p, met))
            continue
        a, b = _foot(p, before), _foot(p, after)
        pairs.append((p, a))
        if math.dist(a, b) > 1e-7:
            pairs.append((p, b))
    return loop_of(pairs)


def kept_below(plate: Plate, axis: Axis, at: float) -> tuple[Plate, ...]:
    """Return the parts of a plate with coordinate `axis` less than `at`, cut square. [m]"""
    return _cut(plate, axis, at, sign=1.0)


def kept_above(plate: Plate, axis: Axis, at: float) -> tuple[Plate, ...]:
    """Return the parts of a plate with coordinate `axis` greater than `at`, cut square. [m]"""
    return _cut(plate, axis, at, sign=-1.0)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Chain:
    """A run of kept vertices between the crossing where it enters and the one where it leaves."""

    pairs: tuple[Pair, ...]
    enters: float
    leaves: float


def _cut(plate: Plate, axis: Axis, at: float, *, sign: float) -> tuple[Plate, ...]:
    whole: list[Loop] = []
    chains: list[_Chain] = []
    for loop in plate.loops:
        depths = [sign * (at - (p[axis] + q[axis]) / 2.0) for p, q in loop.pairs]
        if all(d > ON for d in depths):
            whole.append(loop)
        elif any(d > ON for d in depths):
            chains.extend(_chains(loop, depths, axis, at))
    if not chains:
        return (plate,) if plate.boundary in whole else ()
    return tuple(_with_voids(piece, whole) for piece in _joined(chains))


def _chains(loop: Loop, depths: list[float], axis: Axis, at: float) -> list[_Chain]:
    n = len(depths)
    keep = [d > ON for d in depths]
    found: list[_Chain] = []
    for start in range(n):
        if keep[start] and not keep[start - 1]:
            first = _crossed(loop, start - 1, start, axis, at)
            run = [first]
            i = start
            while keep[i % n]:
                run.append(loop.pairs[i % n])
                i += 1
            last = _crossed(loop, (i - 1) % n, i % n, axis, at)
            run.append(last)
            found.append(
                _Chain(pairs=tuple(run), enters=_other(first, axis), leaves=_other(last, axis))
            )
    return found


def _joined(chains: list[_Chain]) -> list[Loop]:
    marks = sorted(
        [(c.enters, i, True) for i, c in enumerate(chains)]
        + [(c.leaves, i, False) for i, c in enumerate(chains)]
    )
    follows: dict[int, int] = {}
    for a, b in zip(marks[::2], marks[1::2], strict=True):
        if a[2] == b[2]:
            raise GeometryError("a cut runs along an edge that folds back on itself; move the cut")
        leaving, entering = (a, b) if b[2] else (b, a)
        follows[leaving[1]] = entering[1]
    loops: list[Loop] = []
    todo = set(follows)
    while todo:
        i = min(todo)
        pairs: list[Pair] = []
        while i in todo:
            todo.remove(i)
            pairs.extend(chains[i].pairs)
            i = follows[i]
        loop = loop_of(pairs)
        if len(loop.inner) >= 3:
            loops.append(loop)
    return loops


def _with_voids(loop: Loop, whole: list[Loop]) -> Plate:
    if not whole:
        return Plate(boundary=loop)
    shape = shapely.Polygon(halfway(loop))
    firsts = shapely.points([halfway(x)[0] for x in whole])
    shapely.prepare(shape)
    inside = [x for x, is_in in zip(whole, shapely.contains(shape, firsts), strict=True) if is_in]
    return Plate(boundary=loop, voids=tuple(inside))


def _crossed(loop: Loop, i: int, j: int, axis: Axis, at: float) -> Pair:
    def on(a: Vec2, b: Vec2) -> Vec2:
        run = b[axis] - a[axis]
        t = 0.5 if abs(run) < 1e-12 else min(max((at - a[axis]) / run, 0.0), 1.0)
        met = a[1 - axis] + t * (b[1 - axis] - a[1 - axis])
        return (at, met) if axis == 0 else (met, at)

    return (on(loop.inner[i], loop.inner[j]), on(loop.outer[i], loop.outer[j]))


def _other(pair: Pair, axis: Axis) -> float:
    return (pair[0][1 - axis] + pair[1][1 - axis]) / 2.0


def _idle(a: Vec2, b: Vec2, c: Vec2) -> bool:
    reach = math.dist(a, c)
    area = abs((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]))
    if reach <= ON:
        return math.dist(a, b) <= ON
    between = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]) >= -ON * reach
    return area <= ON * reach and between


def _flush(before: Pair, here: Pair, after: Pair) -> bool:
    """Return whether the side faces before and after a vertex are one flat face."""
    if math.dist(before[0], here[0]) <= ON and math.dist(before[1], here[1]) <= ON:
        return True
    if math.dist(after[0], here[0]) <= ON and math.dist(after[1], here[1]) <= ON:
        return True
    if any(math.dist(before[k], after[k]) <= ON for k in (0, 1)):
        return False
    sides = [_direction(before[k], after[k]) for k in (0, 1)]
    return _nearly_parallel(sides[0], sides[1])


def _direction(a: Vec2, b: Vec2) -> Vec2:
    return (b[0] - a[0], b[1] - a[1])


def _nearly_parallel(d: Vec2, e: Vec2) -> bool:
    return abs(d[0] * e[1] - d[1] * e[0]) <= 1e-7 * math.hypot(*d) * math.hypot(*e)


def _line(abc: tuple[float, float, float]) -> Pair:
    a, b, c = abc
    size = a * a + b * b
    if size < 1e-12:
        raise GeometryError("a side face lies flat in its own panel; check the angles that meet")
    return ((-a * c / size, -b * c / size), (-b, a))


def _foot(p: Vec2, line: Pair) -> Vec2:
    q, d = line
    t = ((p[0] - q[0]) * d[0] + (p[1] - q[1]) * d[1]) / (d[0] * d[0] + d[1] * d[1])
    return (q[0] + t * d[0], q[1] + t * d[1])
