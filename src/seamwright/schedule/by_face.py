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

ROOF = "tape/outer/roof"

STANDING = frozenset({"tape/outer/wall", ROOF, "bead"})
"""Classes that may be asked of one face instead of all."""


def by_face(network: Network, shell: Shell, classes: Iterable[str]) -> Network:
    """Return the network with tasks on one face asking for the hours of that face alone.

    `classes` are those that the weather tells; a task whose face has no class of its own stays as
    it is. Roof strips of a panel covered the same day ask for those of a fresh one.
    """
    faces, known = face_of_plane(shell), frozenset(classes)
    return replace(network, tasks=tuple(_on_face(task, faces, known) for task in network.tasks))


def asked_faces(network: Network, shell: Shell) -> frozenset[str]:
    """Return the faces whose boards some task waits for; fresh panels and sills wait for none.

    Strips draped over timbers wait for these.
    """
    faces = face_of_plane(shell)
    walls = {faces[p.plane_id] for p in shell.panels if p.role == "wall"}
    roofs = {faces[p.plane_id] for p in shell.panels if p.role == "roof"}
    names = [*(f"bead/{w}" for w in walls), *(f"tape/outer/wall/{w}" for w in walls),
             *(f"{ROOF}/{r}{end}" for r in roofs for end in ("", FRESH))]  # fmt: skip
    found: set[str] = set()
    for task in by_face(network, shell, names).tasks:
        window = "" if task.window is None else task.window
        if window == "tape/outer/wall":
            found |= walls
        elif window == ROOF:
            found.add(TIMBERS.id)
        elif window in names and not window.endswith(FRESH):
            found.add(window.rsplit("/", maxsplit=1)[-1])
    return frozenset(found)


def _on_face(task: Task, faces: Mapping[str, str], known: frozenset[str]) -> Task:
    if task.window not in STANDING:
        return task
    zone = task.zone.rsplit("/", maxsplit=1)[-1]
    plane = zone if zone in faces else _PART.split(zone, maxsplit=1)[0]
    if plane not in faces or (task.window == "bead" and plane != zone):
        return task
    fresh = FRESH if task.window == ROOF and task.same_day_as is not None else ""
    name = f"{task.window}/{faces[plane]}{fresh}"
    return replace(task, window=name) if name in known else task
