"""Where walls end at corners: which one runs through, and how far each face reaches."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal, TypeAlias

from seamwright.errors import Problem
from seamwright.geometry.polygon import crossing
from seamwright.geometry.types import Frame, Ring, Vec2
from seamwright.shell.outline import Stretch
from seamwright.shell.plan import Plan, WallRule

Through: TypeAlias = Literal["first", "second"]
SQUARE = 1e-6
"""Cosine (or sine) below which two walls count as square (or in line). [-]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class WallRun:
    """A straight outside wall in plan, ends settled.

    `outer` and `inner` are the two ends on each face, `clear` the stretch free for openings, all
    along the footprint edge from its start corner. [m]
    """

    stretch: Stretch
    outer: tuple[float, float]
    inner: tuple[float, float]
    clear: tuple[float, float]

    @property
    def wall(self) -> str:
        """Id of the wall."""
        return self.stretch.wall

    def frame(self, bearing: float) -> Frame:
        """Return the wall's frame on its inner face, v = 0 at elevation `bearing`. [m]"""
        x, y = self.stretch.at(0.0, self.stretch.thickness)
        a = self.stretch.edge.along
        return Frame(origin=(x, y, bearing), u=(a[0], a[1], 0.0), v=(0.0, 0.0, 1.0))

    def band(self) -> Ring:
        """Return the wall's plan outline, counter-clockwise. [m]"""
        s, t = self.stretch, self.stretch.thickness
        return (
            s.at(self.outer[0]),
            s.at(self.outer[1]),
            s.at(self.inner[1], t),
            s.at(self.inner[0], t),
        )


@dataclass(frozen=True, kw_only=True, slots=True)
class RoofAbove:
    """What corners ask of the roof over a storey.

    `height` is the elevation of the underside over a plan point, None under no roof [m];
    `stepped` says whether a wall stops square below an eave plate.
    """

    height: Callable[[Vec2], float | None]
    stepped: Callable[[Stretch], bool]


@dataclass(frozen=True, kw_only=True, slots=True)
class _End:
    outer: float
    inner: float
    clear: float


def runs(
    plan: Plan, loop: tuple[Stretch, ...], roof: RoofAbove, problems: list[Problem]
) -> tuple[WallRun, ...]:
    """Return the walls of one closed line with their corners settled; conflicts to `problems`.

    At an inside corner the wall under the flatter roof runs through, so that the valley leaves the
    corner over its inner face and not over its end. At an outside corner a wall that rises to the
    roof runs through past one that stops below an eave plate, and closes the step.
    """
    ends: dict[int, _End] = {}
    starts: dict[int, _End] = {}
    for i in range(len(loop)):
        j = (i + 1) % len(loop)
        ends[i], starts[j] = _corner(plan, loop, i, roof, problems)
    problems.extend(_stubs(loop))
    return tuple(
        WallRun(
            stretch=stretch,
            outer=(starts[i].outer, ends[i].outer),
            inner=(starts[i].inner, ends[i].inner),
            clear=(starts[i].clear, ends[i].clear),
        )
        for i, stretch in enumerate(loop)
    )


def _stubs(loop: tuple[Stretch, ...]) -> list[Problem]:
    """Return the walls too short for the corners at their ends."""
    found: list[Problem] = []
    for i, s in enumerate(loop):
        d = s.edge.along
        sides = [
            x
            for x in (loop[i - 1], loop[(i + 1) % len(loop)])
            if abs(d[0] * x.edge.along[1] - d[1] * x.edge.along[0]) > SQUARE
        ]
        need = max((x.thickness for x in sides), default=0.0)
        if s.high - s.low < need - SQUARE:
            found.append(
                Problem(
                    subject=f"wall {s.wall}",
                    sentence=f"wall {s.wall} has a stretch of {{length}} between two corners, less "
                    "than the thickness {least} of a wall that meets it",
                    remedy="make the stretch longer, or move the corners into one line",
                    lengths=(("length", s.high - s.low), ("least", need)),
                )
            )
    return found


def room_ring(loop: tuple[Stretch, ...]) -> Ring:
    """Return the closed line of the inner faces. [m]"""
    return tuple(_inner_meeting(loop[i - 1], stretch) for i, stretch in enumerate(loop))


def rule_for(plan: Plan, wall: str) -> WallRule | None:
    """Return what the user fixed for a wall, if anything."""
    return next((rule for rule in plan.wall_rules if rule.wall == wall), None)


def _inner_meeting(first: Stretch, second: Stretch) -> Vec2:
    p, q = first.at(first.high, first.thickness), second.at(second.low, second.thickness)
    met = crossing(p, first.edge.along, q, second.edge.along)
    return q if met is None else met


def _corner(
    plan: Plan,
    loop: tuple[Stretch, ...],
    i: int,
    roof: RoofAbove,
    problems: list[Problem],
) -> tuple[_End, _End]:
    first, second = loop[i], loop[(i + 1) % len(loop)]
    d, e = first.edge.along, second.edge.along
    sine, cosine = d[0] * e[1] - d[1] * e[0], d[0] * e[0] + d[1] * e[1]
    if abs(sine) < SQUARE:
        return _End(outer=first.high, inner=first.high, clear=first.high), _End(
            outer=second.low, inner=second.low, clear=second.low
        )
    if abs(cosine) > SQUARE:
        return _mitered(first, second)
    winner = _voted(plan, first, second, problems)
    if winner is None and sine < 0.0:
        winner = _inside_corner(first, second, roof)
    elif winner is None and roof.stepped(first) != roof.stepped(second):
        winner = "second" if roof.stepped(first) else "first"
    if winner is None:
        winner = _preferred(plan, i, (i + 1) % len(loop))
    t1, t2 = first.thickness, second.thickness
    if sine > 0.0:
        end = first.high if winner == "first" else first.high - t2
        start = second.low + (t1 if winner == "first" else 0.0)
        clear = (first.high - t2, second.low + t1)
    else:
        end = first.high + (t2 if winner == "first" else 0.0)
        start = second.low - (0.0 if winner == "first" else t1)
        clear = (first.high, second.low)
    return _End(outer=end, inner=end, clear=clear[0]), _End(
        outer=start, inner=start, clear=clear[1]
    )


def _mitered(first: Stretch, second: Stretch) -> tuple[_End, _End]:
    met = _inner_meeting(first, second)

    def along(s: Stretch) -> float:
        a, o = s.edge.along, s.edge.start
        return (met[0] - o[0]) * a[0] + (met[1] - o[1]) * a[1]

    u1, u2 = along(first), along(second)
    return _End(outer=first.high, inner=u1, clear=min(first.high, u1)), _End(
        outer=second.low, inner=u2, clear=max(second.low, u2)
    )


def _voted(plan: Plan, first: Stretch, second: Stretch, problems: list[Problem]) -> Through | None:
    votes = _votes(plan, first, second)
    if len(set(votes)) > 1:
        problems.append(
            Problem(
                subject=f"wall {second.wall}",
                sentence=f"walls {first.wall} and {second.wall} claim opposite things about the "
                "corner where they meet",
                remedy="let exactly one of the two run through and the other butt",
            )
        )
    return votes[0] if votes else None


def _inside_corner(first: Stretch, second: Stretch, roof: RoofAbove) -> Through | None:
    """Return the taller wall, else the wall under the flatter roof; None when neither decides."""
    if first.edge.rise != second.edge.rise:
        return "first" if first.edge.rise > second.edge.rise else "second"
    if first.edge.rise > first.storey:
        return None
    one = roof.height(first.at(first.high, first.thickness))
    two = roof.height(second.at(second.low, second.thickness))
    if one is None or two is None or abs(one - two) < SQUARE:
        return None
    return "first" if one < two else "second"


def _preferred(plan: Plan, i: int, j: int) -> Through:
    if plan.preferences.corners == "end_through":
        return "first"
    if plan.preferences.corners == "alternate" and i % 2 == 0 and j % 2 == 1:
        return "first"
    return "second"


def _votes(plan: Plan, first: Stretch, second: Stretch) -> list[Through]:
    votes: list[Through] = []
    one, two = rule_for(plan, first.wall), rule_for(plan, second.wall)
    if one is not None and one.end_corner is not None and first.high >= first.edge.length - SQUARE:
        votes.append("first" if one.end_corner == "through" else "second")
    if two is not None and two.start_corner is not None and second.low <= SQUARE:
        votes.append("second" if two.start_corner == "through" else "first")
    return votes
