"""Where a joint is cut, and which way up the cut is looked at."""

from __future__ import annotations

import math

from seamwright.geometry.types import Frame, Segment, Vec3, cross, dot
from seamwright.joints.types import Joint
from seamwright.shell.types import Panel, Shell

STATIONS = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82)
"""Shares of a joint's length tried in this order; the middle is best."""

_LEVEL = 0.999


def view_at(joint: Joint, panels: tuple[Panel, ...], shell: Shell, share: float) -> Frame:
    """Return the frame of a cut square to `joint` at `share` of its length.

    The normal runs along the joint. A joint that stands plumb is cut level and looked at from
    above, with v to the outside of its first panel; any other cut has v as near to up as it can
    and, where the panels have an outside that shows, the outside on the left.
    """
    outward = _outward(joint, panels, shell)
    along = _along(joint, panels, shell)
    origin = _point(_stretch(joint), share)
    if abs(along[2]) > _LEVEL:
        n = (0.0, 0.0, 1.0)
        up = panels[0].frame.n if panels else outward
    else:
        n, up = along, (0.0, 0.0, 1.0)
    v = _unit(_square(up, n))
    u = cross(v, n)
    sideways = dot(outward, u)
    turn = abs(along[2]) <= _LEVEL and (
        sideways > 0.05 or (abs(sideways) <= 0.05 and _points_back(n))
    )
    return Frame(origin=origin, u=(-u[0], -u[1], -u[2]) if turn else u, v=v)


def farthest_stations(joint: Joint) -> tuple[Vec3, Vec3]:
    """Return where the first and the last cut that may be tried stand on a joint. [m]"""
    stretch = _stretch(joint)
    return _point(stretch, min(STATIONS)), _point(stretch, max(STATIONS))


def _stretch(joint: Joint) -> Segment:
    """Return the part of the joint's line that its inner line covers, or all of it.

    A seam that runs on under an overhang is cut within the air boundary.
    """
    line, inner = joint.line, joint.inner.line
    if inner is None or line.length < 1e-9:
        return line
    return Segment(start=_drop(inner.start, line), end=_drop(inner.end, line))


def _drop(point: Vec3, line: Segment) -> Vec3:
    d = _unit(_minus(line.end, line.start))
    t = dot(_minus(point, line.start), d)
    t = min(max(t, 0.0), line.length)
    return (line.start[0] + t * d[0], line.start[1] + t * d[1], line.start[2] + t * d[2])


def _along(joint: Joint, panels: tuple[Panel, ...], shell: Shell) -> Vec3:
    """Return the direction of the joint; around a penetration, the one that shows it upright."""
    if joint.line.length > 1e-9:
        return _unit(_minus(joint.line.end, joint.line.start))
    axis = _outward(joint, panels, shell)
    level = cross(axis, (0.0, 0.0, 1.0))
    return (1.0, 0.0, 0.0) if math.hypot(*level) < 1e-6 else _unit(level)


def _outward(joint: Joint, panels: tuple[Panel, ...], shell: Shell) -> Vec3:
    """Return the mean of the panels' outward directions, or the axis of the penetration."""
    axes = [p.axis for p in shell.penetrations if p.id in joint.others]
    normals = axes if joint.contact == "penetration" and axes else [p.frame.n for p in panels]
    total = (
        math.fsum(n[0] for n in normals),
        math.fsum(n[1] for n in normals),
        math.fsum(n[2] for n in normals),
    )
    return (0.0, 1.0, 0.0) if math.hypot(*total) < 1e-6 else _unit(total)


def _points_back(n: Vec3) -> bool:
    """Return whether `n` points to the south or west half, to settle a view with no outside."""
    return n[1] < -1e-9 or (abs(n[1]) <= 1e-9 and n[0] < 0)


def _point(line: Segment, share: float) -> Vec3:
    a, b = line.start, line.end
    return (
        a[0] + share * (b[0] - a[0]),
        a[1] + share * (b[1] - a[1]),
        a[2] + share * (b[2] - a[2]),
    )


def _minus(a: Vec3, b: Vec3) -> Vec3:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def _unit(a: Vec3) -> Vec3:
    size = math.hypot(*a)
    return (a[0] / size, a[1] / size, a[2] / size)


def _square(a: Vec3, n: Vec3) -> Vec3:
    """Return the part of `a` square to the unit vector `n`; any such vector when none is left."""
    d = dot(a, n)
    part = (a[0] - d * n[0], a[1] - d * n[1], a[2] - d * n[2])
    if math.hypot(*part) > 1e-6:
        return part
    return cross(n, (1.0, 0.0, 0.0)) if abs(n[0]) < 0.9 else cross(n, (0.0, 1.0, 0.0))
