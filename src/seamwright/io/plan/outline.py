"""Closed outlines in plan: from corners, a rectangle or a walk, checked and turned to run
counter-clockwise, exactly.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from typing import TypeAlias

from seamwright.errors import InputError
from seamwright.io.direction import COMPASS
from seamwright.io.plan.model_shell import OutlineFields
from seamwright.shell.plan import Point2
from seamwright.units import LengthUnit, parse_length

Tell: TypeAlias = Callable[[str, str], None]
"""Takes a sentence and a remedy."""

WALK_EXAMPLE = "walk: [east 24', north 30', west 24', south 30']"

_STEPS = {
    "north": (0, 1),
    "n": (0, 1),
    "south": (0, -1),
    "s": (0, -1),
    "east": (1, 0),
    "e": (1, 0),
    "west": (-1, 0),
    "w": (-1, 0),
}
_WORD = re.compile(r"\b(north|south|east|west|[nsew])\b", re.IGNORECASE)


@dataclass(frozen=True, kw_only=True, slots=True)
class Outline:
    """A simple polygon, counter-clockwise, and the side number each edge had as written.

    `sides[k]` is the user's number, from 1, of the edge that starts at corner k. `turned` when
    the corners were written clockwise.
    """

    corners: tuple[Point2, ...]
    sides: tuple[int, ...]
    turned: bool


def outline_of(fields: OutlineFields, units: LengthUnit | None, tell: Tell) -> Outline | None:
    """Return the outline a user described, or None after telling every reason why not."""
    told = [fields.corners is not None, fields.rectangle is not None, fields.walk is not None]
    if sum(told) != 1:
        how = "no outline is given" if not any(told) else "the outline is given in two ways"
        tell(how, f"give one of corners:, rectangle: or {WALK_EXAMPLE}")
        return None
    if fields.start is not None and fields.walk is None:
        tell("start is given without a walk", "drop start, or describe the outline with walk:")
    corners = _corners(fields, units, tell)
    if corners is None or not _is_simple(corners, tell):
        return None
    return _counter_clockwise(corners)


def ring_of(corners: Sequence[Point2], tell: Tell) -> Outline | None:
    """Return the checked outline of a panel, or None after telling why not."""
    return _counter_clockwise(tuple(corners)) if _is_simple(tuple(corners), tell) else None


def side_index(outline: Outline, word: str, tell: Tell) -> int | None:
    """Return the edge that faces a compass word (``south``) or has a number (``side 2``)."""
    plain = word.strip().lower().removeprefix("side").strip()
    if plain.isascii() and plain.isdigit():
        if int(plain) in outline.sides:
            return outline.sides.index(int(plain))
        tell(f"there is no side {plain[:20]}", f"give a side from 1 to {len(outline.sides)}")
        return None
    if plain not in COMPASS:
        tell(f"‘{word[:40]}’ is not a side", "name it by compass, such as south, or as side 2")
        return None
    facing = [k for k in range(len(outline.corners)) if _faces(outline.corners, k, COMPASS[plain])]
    if len(facing) != 1:
        count = "no side faces" if not facing else f"{len(facing)} sides face"
        tell(f"{count} {plain}", "name the side by its number, as in side 2 (from corner 2 to 3)")
        return None
    return facing[0]


def _faces(corners: tuple[Point2, ...], k: int, toward: tuple[int, int]) -> bool:
    """Tell whether the outward normal of edge k lies within 45° of a direction."""
    (x0, y0), (x1, y1) = corners[k], corners[(k + 1) % len(corners)]
    out = (y1 - y0, x0 - x1)
    dot = out[0] * toward[0] + out[1] * toward[1]
    length2 = (out[0] ** 2 + out[1] ** 2) * (toward[0] ** 2 + toward[1] ** 2)
    return dot > 0 and 2 * dot * dot > length2


def _corners(
    fields: OutlineFields, units: LengthUnit | None, tell: Tell
) -> tuple[Point2, ...] | None:
    if fields.corners is not None:
        closed = len(fields.corners) > 3 and fields.corners[0] == fields.corners[-1]
        return fields.corners[:-1] if closed else fields.corners
    if fields.rectangle is not None:
        (x0, y0), (x1, y1) = fields.rectangle
        west, east, south, north = min(x0, x1), max(x0, x1), min(y0, y1), max(y0, y1)
        return ((west, south), (east, south), (east, north), (west, north))
    start = (Fraction(0), Fraction(0)) if fields.start is None else fields.start
    return _walked(() if fields.walk is None else fields.walk, start, units, tell)


def _walked(
    walk: Sequence[str], start: Point2, units: LengthUnit | None, tell: Tell
) -> tuple[Point2, ...] | None:
    corners = [start]
    close = walk[-1].strip().lower() == "close"
    for number, leg in enumerate(walk[:-1] if close else walk, start=1):
        try:
            east, north = _leg(leg, units)
        except InputError as error:
            problem = error.problems[0]
            tell(f"leg {number} of the walk, {problem.sentence}", problem.remedy)
            return None
        except ValueError:
            tell(f"leg {number} of the walk, ‘{leg[:40]}’, cannot be read", f"write {WALK_EXAMPLE}")
            return None
        corners.append((corners[-1][0] + east, corners[-1][1] + north))
    if corners[-1] == start:
        return _without_straight(corners[:-1])
    if close:
        return _without_straight(corners)
    off = _distance_words(corners[-1][0] - start[0], corners[-1][1] - start[1])
    tell(f"the walk ends {off} of where it began", "correct a leg, or end the walk with: close")
    return None


def _without_straight(corners: list[Point2]) -> tuple[Point2, ...]:
    """Return the corners of a walk without those where it runs straight on."""
    count = len(corners)
    return tuple(
        corners[k]
        for k in range(count)
        if _turn(corners[k - 1], corners[k], corners[(k + 1) % count]) != 0
        or not _within(corners[k - 1], corners[(k + 1) % count], corners[k])
    )


def _leg(leg: str, units: LengthUnit | None) -> Point2:
    """Return the steps east and north of one leg, such as ``east 3' north 4'``."""
    parts = _WORD.split(leg.strip())
    if parts[0].strip() or len(parts) < 3:
        raise ValueError(leg)
    east, north = Fraction(0), Fraction(0)
    for word, length in zip(parts[1::2], parts[2::2], strict=True):
        step = _STEPS[word.lower()]
        run = parse_length(length.strip(" ,"), units)
        east, north = east + step[0] * run, north + step[1] * run
    return east, north


def _distance_words(east: Fraction, north: Fraction) -> str:
    parts = [
        f"{float(abs(value)):.4f} m {words[0] if value > 0 else words[1]}"
        for value, words in ((east, ("east", "west")), (north, ("north", "south")))
        if value != 0
    ]
    return " and ".join(parts)


def _counter_clockwise(corners: tuple[Point2, ...]) -> Outline:
    count = len(corners)
    if _twice_area(corners) > 0:
        return Outline(corners=corners, sides=tuple(range(1, count + 1)), turned=False)
    turned = (corners[0], *reversed(corners[1:]))
    return Outline(corners=turned, sides=tuple(range(count, 0, -1)), turned=True)


def _twice_area(corners: Sequence[Point2]) -> Fraction:
    pairs = zip(corners, (*corners[1:], corners[0]), strict=True)
    return sum((a[0] * b[1] - b[0] * a[1] for a, b in pairs), Fraction(0))


def _is_simple(corners: tuple[Point2, ...], tell: Tell) -> bool:
    """Tell whether a polygon neither crosses nor touches itself; say what is wrong when not."""
    count = len(corners)
    sound = True
    for k in range(count):
        before, here, after = corners[k - 1], corners[k], corners[(k + 1) % count]
        if here == after:
            tell(f"corners {k + 1} and {(k + 1) % count + 1} are the same point", "drop one")
            sound = False
        elif here != before and _turn(before, here, after) == 0:
            remedy = f"drop corner {k + 1}, or move it"
            tell(f"corner {k + 1} lies on the line of its neighbors", remedy)
            sound = False
    if not sound:
        return False
    for i, j in combinations(range(count), 2):
        if j - i in {1, count - 1}:
            continue
        if _meet(corners[i], corners[(i + 1) % count], corners[j], corners[(j + 1) % count]):
            ends = f"(corners {i + 1} to {(i + 1) % count + 1})"
            others = f"(corners {j + 1} to {(j + 1) % count + 1})"
            told = f"side {i + 1} {ends} crosses or touches side {j + 1} {others}"
            tell(told, "put the corners in order around the outline")
            return False
    return True


def _turn(a: Point2, b: Point2, c: Point2) -> int:
    value = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
    return (value > 0) - (value < 0)


def _meet(a: Point2, b: Point2, c: Point2, d: Point2) -> bool:
    """Tell whether two closed segments share a point."""
    first, second = _turn(a, b, c), _turn(a, b, d)
    third, fourth = _turn(c, d, a), _turn(c, d, b)
    if first != second and third != fourth:
        return True
    touching = ((first, a, b, c), (second, a, b, d), (third, c, d, a), (fourth, c, d, b))
    return any(turn == 0 and _within(p, q, point) for turn, p, q, point in touching)


def _within(a: Point2, b: Point2, point: Point2) -> bool:
    return all(min(a[i], b[i]) <= point[i] <= max(a[i], b[i]) for i in (0, 1))
