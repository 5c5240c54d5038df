"""The part of a house that may come into a section, so that a cut does not look at all of it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from seamwright.geometry.slice import Plate
from seamwright.geometry.types import Vec3
from seamwright.joints.section_parts import member_plate, panel_plate, support_plate
from seamwright.joints.types import Joint
from seamwright.shell.types import Shell

Part = TypeVar("Part")


class Surroundings:
    """Boxes around all parts of a shell, made once for many sections."""

    def __init__(self, shell: Shell) -> None:
        self._shell = shell
        self._panels = _boxes([panel_plate(panel) for panel in shell.panels])
        self._members = _boxes([member_plate(member) for member in shell.members])
        self._supports = _boxes([support_plate(support) for support in shell.supports])
        self._openings = _boxes(
            [
                Plate(frame=o.frame, lower=o.outline, upper=o.outline, thickness=0.0)
                for o in shell.openings
            ]
        )
        self._services = {service.id: service for service in shell.penetrations}

    def of(self, joint: Joint, reach: float) -> Shell:
        """Return the shell with only the parts within `reach` of a joint's box. [m]"""
        wide = reach * math.sqrt(2)
        ends = (joint.line.start, joint.line.end)
        low = np.array([min(e[k] for e in ends) - wide for k in range(3)])
        high = np.array([max(e[k] for e in ends) + wide for k in range(3)])
        shell = self._shell
        return replace(
            shell,
            panels=_within(shell.panels, self._panels, low, high),
            members=_within(shell.members, self._members, low, high),
            supports=_within(shell.supports, self._supports, low, high),
            openings=_within(shell.openings, self._openings, low, high),
            penetrations=tuple(self._services[i] for i in joint.others if i in self._services),
        )


def _boxes(plates: Sequence[Plate]) -> NDArray[np.float64]:
    """Return the least and greatest corner of each body. (n, 2, 3) [m]"""
    boxes = np.empty((len(plates), 2, 3))
    for row, plate in enumerate(plates):
        corners: list[Vec3] = [plate.frame.point(p) for p in plate.lower]
        corners += [plate.frame.point(p, plate.thickness) for p in plate.upper]
        places = np.array(corners)
        boxes[row] = places.min(axis=0), places.max(axis=0)
    return boxes


def _within(
    parts: Sequence[Part],
    boxes: NDArray[np.float64],
    low: NDArray[np.float64],
    high: NDArray[np.float64],
) -> tuple[Part, ...]:
    hits = (boxes[:, 0] <= high).all(axis=1) & (boxes[:, 1] >= low).all(axis=1)
    return tuple(parts[int(row)] for row in np.flatnonzero(hits))
