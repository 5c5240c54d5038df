"""Names of joints that do not depend on the order, place, rotation or units of the panels."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence

from seamwright.geometry.types import Segment, Vec3
from seamwright.joints.gather import natural_key

_GRAIN = 0.001
_SHIFT = 0.000237
"""Places are compared to a millimetre, off the half millimetres where drawn sizes fall. [m]"""


def joint_name(parts: Sequence[str]) -> str:
    """Return the ids of what meets, in natural order, joined by hyphens."""
    return "-".join(parts)


def in_order(ids: Sequence[str]) -> tuple[str, ...]:
    """Return ids in natural order."""
    if len(ids) < 2:
        return tuple(ids)
    return tuple(sorted(ids, key=lambda name: (natural_key(name), name)))


def numbered(names: Sequence[str], lines: Sequence[Segment]) -> list[str]:
    """Return the names with ``:2``, ``:3`` ... where one occurs more than once.

    Joints of one name are ordered from the lowest up, then by length, then by their distance from
    the other joints of the house that are alone in their name, taken in the order of those names:
    nothing that moving, turning or mirroring the house would change.
    """
    groups: dict[str, list[int]] = defaultdict(list)
    for at, name in enumerate(names):
        groups[name].append(at)
    result = list(names)
    for name, rows in groups.items():
        if len(rows) > 1:
            rows.sort(key=lambda at: _key(at, lines))
            settled = _ties_broken(rows, names, lines, groups)
            for number, at in enumerate(settled[1:], start=2):
                result[at] = f"{name}:{number}"
    return result


def _key(at: int, lines: Sequence[Segment]) -> tuple[int, int]:
    return _grains(lines[at].middle[2]), _grains(lines[at].length)


def _grains(value: float) -> int:
    return math.floor((value + _SHIFT) / _GRAIN)


def _ties_broken(
    rows: list[int],
    names: Sequence[str],
    lines: Sequence[Segment],
    groups: dict[str, list[int]],
) -> list[int]:
    keys = [_key(at, lines) for at in rows]
    if len(set(keys)) == len(keys):
        return rows
    first = names[rows[0]].split("-", maxsplit=1)[0]
    alone = [
        at for name in in_order(tuple(groups)) for at in groups[name] if len(groups[name]) == 1
    ]
    near = [at for at in alone if first in names[at].split("-")]
    marks: list[Vec3] = [lines[at].middle for at in near]

    def full(at: int) -> tuple[int, ...]:
        here = lines[at].middle
        return (*_key(at, lines), *(_grains(math.dist(here, mark)) for mark in marks))

    return sorted(rows, key=full)
