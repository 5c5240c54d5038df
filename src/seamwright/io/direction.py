"""Directions as a surveyor or a modeler writes them, as vectors in plan axes (east, north, up)."""

from __future__ import annotations

import math
import re
from typing import TypeAlias

from seamwright.errors import InputError, Problem
from seamwright.units import parse_angle

Direction: TypeAlias = tuple[float, float, float]

DIRECTION_EXAMPLE = "east, up, bearing 30, north at 8/12 or 1 0 0"

COMPASS: dict[str, tuple[int, int]] = {
    "east": (1, 0),
    "northeast": (1, 1),
    "north": (0, 1),
    "northwest": (-1, 1),
    "west": (-1, 0),
    "southwest": (-1, -1),
    "south": (0, -1),
    "southeast": (1, -1),
}
"""Compass words as steps east and north."""

_NUMBER = r"[-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][-+]?[0-9]{1,2})?"
_VECTOR = re.compile(rf"\(?\s*({_NUMBER})[\s,]+({_NUMBER})[\s,]+({_NUMBER})\s*\)?")
_LEVEL = re.compile(r"(?:(?P<word>[a-z]+)|bearing\s+(?P<bearing>[0-9]+(?:\.[0-9]+)?)\s*(?:°|deg)?)")


def parse_direction(text: str) -> Direction:
    """Return a direction as a vector east, north, up; not of unit length when given as numbers.

    Reads three numbers, a compass word, ``up`` or ``down``, a ``bearing`` in degrees clockwise
    from north, and any level direction followed by ``at`` and a slope it rises with.

    Raises
    ------
    InputError
        When the text is none of these or the vector has no length.
    """
    plain = " ".join(text.lower().replace("−", "-").split())
    vector = _VECTOR.fullmatch(plain)
    if vector is not None:
        x, y, z = (float(part) for part in vector.groups())
        if not 1e-9 < math.hypot(x, y, z) < 1e9:
            raise _refused(text, "has no usable length")
        return (x, y, z)
    if plain in {"up", "down"}:
        return (0.0, 0.0, 1.0 if plain == "up" else -1.0)
    level, at, slope = plain.partition(" at ")
    run = _level(text, level)
    rise = float(parse_angle(slope)) if at else 0.0
    return (run[0], run[1], rise) if rise == 0 else _inclined(run, rise)


def _level(text: str, level: str) -> tuple[float, float]:
    match = _LEVEL.fullmatch(level)
    if match is not None and match["bearing"] is not None:
        angle = math.radians(float(match["bearing"]))
        return (math.sin(angle), math.cos(angle))
    if match is None or match["word"] not in COMPASS:
        raise _refused(text, "cannot be read as a direction")
    east, north = COMPASS[match["word"]]
    length = math.hypot(east, north)
    return (east / length, north / length)


def _inclined(run: tuple[float, float], rise: float) -> Direction:
    length = math.hypot(1.0, rise)
    return (run[0] / length, run[1] / length, rise / length)


def _refused(text: str, why: str) -> InputError:
    shown = "".join(mark if mark.isprintable() else "·" for mark in text[:40])
    remedy = f"write the direction as {DIRECTION_EXAMPLE}"
    return InputError([Problem(subject=shown, sentence=f"‘{shown}’ {why}", remedy=remedy)])
