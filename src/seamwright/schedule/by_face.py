"""Tasks that lie on one face of the house ask for the hours of that face alone."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace

from seamwright.schedule.outer_faces import face_of_plane
from seamwright.schedule.outlook import TIMBERS
from seamwright.schedule.types import Network, Task
from seamwright.schedule.window_classes import FRESH
from seamwright.shell.types import Shell

_PART = re.compile(r"[.\-:]")

WALL, ROOF, BEAD = "tape/outer/wall", "tape/outer/roof", "bead"
"""Classes that may be asked of one face instead of all."""

SILL = ".sill"
"""What ends the zone of a wall's sill: it lies on the base, before there is a board."""


def by_face(network: Network, shell: Shell, classes: Iterable[str]) -> Network:
    """Return the network with tasks on one face asking for the hours of that face alone.

    `classes` are those that the weather tells; a task whose face has no class of its own stays as
    it is. Beads of roofs, floors and sills, and roof strips of a panel covered the same day, ask
    for the hours of parts fresh from the stack.
    """
    planes, known = _Planes(shell), frozenset(classes)
    return replace(network, tasks=tuple(_on_face(task, planes, known) for task in network.tasks))


def asked_faces(network: Network, shell: Shell) -> frozenset[str]:
    """Return the faces whose boards some task waits for; fresh parts wait for none.

    Strips draped over timbers wait for these.
    """
    planes = _Planes(shell)
    walls = frozenset(planes.faces[name] for name in planes.walls)
    found: set[str] = set()
    for task in network.tasks:
        window = _asked(task, planes)
        if window in {WALL, BEAD}:
            found |= walls
        elif window == ROOF:
            found.add(TIMBERS.id)
        elif window is not None and not window.endswith(FRESH):
            found.add(window.rsplit("/", maxsplit=1)[-1])
    return frozenset(found)


class _Planes:
    """The planes of a shell by what they are, and the face each looks to."""

    def __init__(self, shell: Shell) -> None:
        self.faces: Mapping[str, str] = face_of_plane(shell)
        self.walls = frozenset(p.plane_id for p in shell.panels if p.role == "wall")
        self.fresh = frozenset(p.plane_id for p in shell.panels if p.role in {"roof", "floor"})


def _on_face(task: Task, planes: _Planes, known: frozenset[str]) -> Task:
    name = _asked(task, planes)
    return replace(task, window=name) if name is not None and name in known else task


def _asked(task: Task, planes: _Planes) -> str | None:
    """Return the class of hours that a task asks for by where it lies; None: none of these."""
    if task.window not in {WALL, ROOF, BEAD}:
        return None
    zone = task.zone.rsplit("/", maxsplit=1)[-1]
    plane = zone if zone in planes.faces else _PART.split(zone, maxsplit=1)[0]
    if task.window == BEAD and (plane in planes.fresh or zone.endswith(SILL)):
        return f"{BEAD}{FRESH}"
    part_only = plane != zone and task.window in {BEAD, ROOF}
    if plane not in planes.faces or part_only:
        return task.window
    fresh = FRESH if task.window == ROOF and task.same_day_as is not None else ""
    return f"{task.window}/{planes.faces[plane]}{fresh}"
