"""Panels, timbers and supports as one mesh, packed for the page that draws it."""

from __future__ import annotations

import base64
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray

from seamwright.app.contract.scene import Bodies
from seamwright.draw.solids import member_box
from seamwright.geometry.types import Ring, Vec2, Vec3
from seamwright.shell.types import Member, Panel, Shell, Support

Triangle: TypeAlias = tuple[int, int, int]

_BOX = (
    (0, 2, 1), (0, 3, 2), (4, 5, 6), (4, 6, 7), (0, 1, 5), (0, 5, 4),
    (1, 2, 6), (1, 6, 5), (2, 3, 7), (2, 7, 6), (3, 0, 4), (3, 4, 7),
)  # fmt: skip
_BOX_EDGES = (
    (0, 1), (1, 2), (2, 3), (3, 0), (4, 5), (5, 6), (6, 7), (7, 4),
    (0, 4), (1, 5), (2, 6), (3, 7),
)  # fmt: skip
_DIGITS = 9
"""Decimals of a metre to which a corner of a triangle is found again among the vertices."""


class Numbered:
    """Words given once, each with its number in the order of their first use."""

    def __init__(self, words: Iterable[str] = ()) -> None:
        self._numbers = {word: number for number, word in enumerate(words)}

    def number(self, word: str | None) -> int:
        """Return the number of a word, -1 for none."""
        return -1 if word is None else self._numbers.setdefault(word, len(self._numbers))

    @property
    def words(self) -> list[str]:
        """Every word in the order of its number."""
        return list(self._numbers)


@dataclass(kw_only=True, slots=True)
class _Mesh:
    """The arrays while they grow."""

    positions: list[Vec3] = field(default_factory=list)
    triangles: list[Triangle] = field(default_factory=list)
    edges: list[tuple[int, int]] = field(default_factory=list)

    def add(
        self,
        points: Iterable[Vec3],
        triangles: Iterable[Triangle],
        edges: Iterable[tuple[int, int]],
    ) -> None:
        base = len(self.positions)
        self.positions += points
        self.triangles += [(a + base, b + base, c + base) for a, b, c in triangles]
        self.edges += [(a + base, b + base) for a, b in edges]


def packed(values: object, kind: str) -> str:
    """Return numbers as a little-endian array in base64; `kind` is ``<f4`` or ``<u4``."""
    return base64.b64encode(np.ascontiguousarray(values, dtype=kind).tobytes()).decode("ascii")


def bodies_of(shell: Shell) -> Bodies:
    """Return every panel, timber and support of a shell as one mesh."""
    mesh, outward = _Mesh(), []
    first: list[tuple[int, int, int]] = []
    sorts, storeys, planes = Numbered(), Numbered(), Numbered()
    rows: list[tuple[str, int, int, int]] = []
    every: list[Panel | Member | Support] = [*shell.panels, *shell.members, *shell.supports]
    for body in every:
        first.append((len(mesh.positions), len(mesh.triangles), len(mesh.edges)))
        mesh.add(*_solid(body))
        outward.append(_outward(body))
        storey = None if isinstance(body, Member) else body.storey
        plane = body.plane_id if isinstance(body, Panel) else None
        sort = body.role if isinstance(body, Panel) else body.kind
        number = sorts.number(sort), storeys.number(storey), planes.number(plane)
        rows.append((body.id, *number))
    first.append((len(mesh.positions), len(mesh.triangles), len(mesh.edges)))
    return Bodies(
        ids=[row[0] for row in rows],
        sorts=sorts.words, sort=[row[1] for row in rows],
        storeys=storeys.words, storey=[row[2] for row in rows],
        planes=planes.words, plane=[row[3] for row in rows],
        first_vertex=[f[0] for f in first],
        first_triangle=[f[1] for f in first],
        first_edge=[f[2] for f in first],
        positions_f32=packed(mesh.positions, "<f4"),
        triangles_u32=packed(mesh.triangles, "<u4"),
        edges_u32=packed(mesh.edges, "<u4"),
        outward_f32=packed(outward, "<f4"),
    )  # fmt: skip


def bounds(points: NDArray[np.float64]) -> tuple[Vec3, Vec3]:
    """Return the lowest and highest corner of a box around the points. [m]"""
    if len(points) == 0:
        return (0.0, 0.0, 0.0), (0.0, 0.0, 0.0)
    low, high = points.min(axis=0), points.max(axis=0)
    return _vec(low), _vec(high)


def _vec(values: NDArray[np.float64]) -> Vec3:
    return float(values[0]), float(values[1]), float(values[2])


def _outward(body: Panel | Member | Support) -> Vec3:
    return body.up if isinstance(body, Member) else body.frame.n


def _solid(
    body: Panel | Member | Support,
) -> tuple[list[Vec3], list[Triangle], list[tuple[int, int]]]:
    if isinstance(body, Member):
        return list(member_box(body)), list(_BOX), list(_BOX_EDGES)
    if isinstance(body, Panel):
        holes = [hole.outline for hole in body.holes]
        return _prism([body.inner, *holes], [body.outer, *holes], body, body.thickness)
    return _prism([body.outline], [body.outline], body, -body.thickness)


def _prism(
    near: Sequence[Ring], far: Sequence[Ring], body: Panel | Support, height: float
) -> tuple[list[Vec3], list[Triangle], list[tuple[int, int]]]:
    """Return vertices, triangles and lines of a plate with holes, from `near` to `far` rings."""
    frame = body.frame
    points = [frame.point(p) for ring in near for p in ring]
    n = len(points)
    points += [frame.point(p, height) for ring in far for p in ring]
    low = _filled(near)
    high = low if list(near) == list(far) else _filled(far)
    triangles = [(a, c, b) for a, b, c in low] + [(a + n, b + n, c + n) for a, b, c in high]
    edges: list[tuple[int, int]] = []
    start = 0
    for number, ring in enumerate(near):
        count = len(ring)
        turned = (number == 0) == _is_left(ring)
        for k in range(count):
            i, j = start + k, start + (k + 1) % count
            a, b = (i, j) if turned else (j, i)
            triangles += [(a, b, b + n), (a, b + n, a + n)]
            edges += [(i, j), (i + n, j + n), (i, i + n)]
        start += count
    if height < 0:
        triangles = [(a, c, b) for a, b, c in triangles]
    return points, triangles, edges


def _filled(rings: Sequence[Ring]) -> list[Triangle]:
    """Return triangles that fill an outline less its holes, counter-clockwise, by vertex."""
    outline, *holes = rings
    if len(rings) == 1 and _is_box(outline):
        return [(0, 1, 2), (0, 2, 3)] if _is_left(outline) else [(0, 2, 1), (0, 3, 2)]
    numbers: dict[Vec2, int] = {}
    for place, p in enumerate(p for ring in rings for p in ring):
        numbers.setdefault(_key(p), place)
    area = shapely.Polygon(outline, holes)
    found = []
    for piece in shapely.constrained_delaunay_triangles(area).geoms:
        places = [numbers.get(_key(p)) for p in piece.exterior.coords[:3]]
        if None not in places:
            a, b, c = (int(place) for place in places if place is not None)
            found.append((a, b, c) if piece.exterior.is_ccw else (a, c, b))
    return found


def _key(p: Sequence[float]) -> Vec2:
    return round(p[0], _DIGITS), round(p[1], _DIGITS)


def _is_box(ring: Ring) -> bool:
    if len(ring) != 4:
        return False
    turns = [_turn(ring[k], ring[(k + 1) % 4], ring[(k + 2) % 4]) for k in range(4)]
    return all(t > 0 for t in turns) or all(t < 0 for t in turns)


def _turn(a: Vec2, b: Vec2, c: Vec2) -> float:
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def _is_left(ring: Ring) -> bool:
    """Return whether a ring runs counter-clockwise."""
    pairs = zip(ring, (*ring[1:], ring[0]), strict=True)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) > 0
