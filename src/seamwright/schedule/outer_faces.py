"""The outer faces of a house by where they look, for the weather on them."""

from __future__ import annotations

from math import acos, atan2, pi

from seamwright.climate.face import Face
from seamwright.shell.types import Shell

_SAME = 0.02
"""Normals nearer than this look the same way: about one degree. Our own choice."""


def outer_faces(shell: Shell) -> tuple[Face, ...]:
    """Return one face for each direction in which walls and roofs look, in the shell's order.

    Azimuth clockwise from north (plan axis y), tilt from flat [rad]; the id is that of the first
    plane that looks that way. Covers come and go with the days: none is `covered` here.
    """
    found: list[tuple[str, tuple[float, float, float]]] = []
    for panel in shell.panels:
        if panel.role not in {"wall", "roof"}:
            continue
        normal = panel.frame.n
        if not any(_near(normal, other) for _, other in found):
            found.append((panel.plane_id, normal))
    return tuple(
        Face(id=name, azimuth=atan2(n[0], n[1]) % (2 * pi), tilt=acos(max(-1.0, min(1.0, n[2]))))
        for name, n in found
    )


def _near(a: tuple[float, float, float], b: tuple[float, float, float]) -> bool:
    return sum((x - y) ** 2 for x, y in zip(a, b, strict=True)) < _SAME**2
