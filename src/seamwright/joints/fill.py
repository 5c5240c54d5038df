"""Timbers as boxes: which of them fills a gap, and which lie against a panel's face."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from seamwright.geometry.search import Floats, Ints, near_boxes
from seamwright.joints.touch import Touches
from seamwright.shell.types import Member
from seamwright.tolerance import Tolerance


@dataclass(frozen=True, kw_only=True, slots=True)
class Boxes:
    """Members as boxes: middle of the box, unit axes along, across and up (n, 3), half sizes."""

    middle: Floats
    along: Floats
    across: Floats
    up: Floats
    half: Floats
    lower: Floats
    upper: Floats

    def corners(self) -> Floats:
        """Return the middles (n, 4, 3) of the four long arrises of each box. [m]"""
        a, u = self.across * self.half[:, 1:2], self.up * self.half[:, 2:3]
        signs = ((-1, -1), (1, -1), (1, 1), (-1, 1))
        return np.stack([self.middle + x * a + y * u for x, y in signs], axis=1)


def member_boxes(members: Sequence[Member], margin: float) -> Boxes:
    """Return the members as boxes, their bounding corners grown by `margin`. [m]"""
    start = np.array([m.start for m in members], dtype=float).reshape(-1, 3)
    end = np.array([m.end for m in members], dtype=float).reshape(-1, 3)
    up = np.array([m.up for m in members], dtype=float).reshape(-1, 3)
    width = np.array([m.width for m in members], dtype=float)
    depth = np.array([m.depth for m in members], dtype=float)
    run = end - start
    length = np.linalg.norm(run, axis=1)
    along = run / np.maximum(length, 1e-12)[:, None]
    middle = (start + end) / 2.0 - up * (depth / 2.0)[:, None]
    half = np.stack((length, width, depth), axis=1) / 2.0
    across = np.cross(up, along)
    reach = (
        np.abs(along) * half[:, :1] + np.abs(across) * half[:, 1:2] + np.abs(up) * half[:, 2:3]
    ) + margin
    return Boxes(
        middle=middle,
        along=along,
        across=across,
        up=up,
        half=half,
        lower=middle - reach,
        upper=middle + reach,
    )


def fill_gaps(touches: Touches, boxes: Boxes, tolerance: Tolerance) -> Touches:
    """Return the touches whose gap is small, or filled by a member (named in `member`)."""
    narrow = touches.gap <= tolerance.gap + tolerance.equal
    wide = np.flatnonzero(~narrow)
    point = touches.middle[wide]
    i, m = near_boxes(point, point, boxes.lower, boxes.upper)
    local = point[i] - boxes.middle[m]
    inside = np.ones(len(i), dtype=bool)
    for axis, half in ((boxes.along, 0), (boxes.across, 1), (boxes.up, 2)):
        reach = boxes.half[m, half] + tolerance.gap
        inside &= np.abs(np.einsum("ij,ij->i", local, axis[m])) <= reach
    member = np.full(len(touches), len(boxes.middle))
    np.minimum.at(member, wide[i[inside]], m[inside])
    found: Ints = np.where(member == len(boxes.middle), -1, member)
    keep = narrow | (found >= 0)
    return _with_member(touches, found).take(keep)


def _with_member(touches: Touches, member: Ints) -> Touches:
    names = {name: getattr(touches, name) for name in Touches.__slots__}
    return Touches(**{**names, "member": member})
