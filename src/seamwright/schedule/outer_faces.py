"""The outer faces of a house by where they look, for the weather on them."""

from __future__ import annotations

from collections.abc import Mapping
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
    normals: dict[str, tuple[float, float, float]] = {}
    for plane, face in face_of_plane(shell).items():
        if plane == face:
            normals[face] = next(p.frame.n for p in shell.panels if p.plane_id == plane)
    return tuple(
        Face(id=name, azimuth=atan2(n[0], n[1]) % (2 * pi), tilt=acos(max(-1.0, min(1.0, n[2]))))
        for name, n in normals.items()
    )


def face_of_plane(shell: Shell) -> Mapping[str, str]:
    """Return for each plane of walls and roofs the id of the face that looks its way."""
    normals: dict[str, tuple[float, float, float]] = {}
    found: dict[str, str] = {}
    for panel in shell.panels:
        if panel.role not in {"wall", "roof"} or panel.plane_id in found:
            continue
        normal = panel.frame.n
        same = next((name for name, other in normals.items() if _near(normal, other)), None)
        if same is None:
            normals[panel.plane_id] = normal
        found[panel.plane_id] = panel.plane_id if same is None else same
    return found


def _near(a: tuple[float, float, float], b: tuple[float, float, float]) -> bool:
    return sum((x - y) ** 2 for x, y in zip(a, b, strict=True)) < _SAME**2
