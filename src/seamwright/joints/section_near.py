"""The part of a house that may come into a section, so that a cut does not look at all of it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Generic, TypeVar

import numpy as np
import shapely
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
        self._panels = _Boxed(shell.panels, [panel_plate(panel) for panel in shell.panels])
        self._members = _Boxed(shell.members, [member_plate(member) for member in shell.members])
        self._supports = _Boxed(shell.supports, [support_plate(one) for one in shell.supports])
        self._openings = _Boxed(
            shell.openings,
            [
                Plate(frame=o.frame, lower=o.outline, upper=o.outline, thickness=0.0)
                for o in shell.openings
            ],
        )
        self._services = {service.id: service for service in shell.penetrations}

    def of(self, joint: Joint, reach: float) -> Shell:
        """Return the shell with only the parts within `reach` of a joint's box. [m]"""
        wide = reach * math.sqrt(2)
        ends = (joint.line.start, joint.line.end)
        low = [min(e[k] for e in ends) - wide for k in range(3)]
        high = [max(e[k] for e in ends) + wide for k in range(3)]
        return replace(
            self._shell,
            panels=self._panels.within(low, high),
            members=self._members.within(low, high),
            supports=self._supports.within(low, high),
            openings=self._openings.within(low, high),
            penetrations=tuple(self._services[i] for i in joint.others if i in self._services),
        )


class _Boxed(Generic[Part]):
    """Parts with a box around each, found by their place in plan, then by their height."""

    def __init__(self, parts: Sequence[Part], plates: Sequence[Plate]) -> None:
        self._parts = parts
        boxes = _boxes(plates)
        self._low, self._high = boxes[:, 0, 2].tolist(), boxes[:, 1, 2].tolist()
        (x0, y0), (x1, y1) = boxes[:, 0, :2].T, boxes[:, 1, :2].T
        self._tree = shapely.STRtree(shapely.box(x0, y0, x1, y1))

    def within(self, low: Sequence[float], high: Sequence[float]) -> tuple[Part, ...]:
        """Return the parts whose box meets another, in their own order. [m]"""
        if len(self._parts) == 0:
            return ()
        found = self._tree.query(shapely.box(low[0], low[1], high[0], high[1])).tolist()
        return tuple(
            self._parts[row]
            for row in sorted(found)
            if self._low[row] <= high[2] and self._high[row] >= low[2]
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
