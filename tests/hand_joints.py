"""Joint records made by hand, for tests that must not lean on the search for joints."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from seamwright.geometry.types import Segment, Vec3
from seamwright.joints.types import FaceLine, Joint
from tests.samples import EAVE, GAP, HEIGHT, LENGTH, PITCH, RAKE, THICK, WIDTH


def face(start: Vec3, end: Vec3, **changes: Any) -> FaceLine:
    """Return a face line that can be reached until it is hidden."""
    line = FaceLine(
        line=Segment(start=start, end=end), offset=0.0, reach="until_hidden", hidden_by="lining"
    )
    return replace(line, **changes)


def joint(joint_id: str, kind: str, start: Vec3, end: Vec3, **changes: Any) -> Joint:
    """Return a joint along a line, both of whose faces lie on that line."""
    made = Joint(
        id=joint_id,
        kind=kind,  # type: ignore[arg-type]
        panels=tuple(joint_id.split("-")),
        others=(),
        line=Segment(start=start, end=end),
        length=math.dist(start, end),
        inner=face(start, end),
        outer=face(start, end, hidden_by="cladding"),
        dihedral=math.pi,
        gap=0.0,
        storey="1",
        contact="edge_edge",
    )
    return replace(made, **changes)


RIDGE_Z = HEIGHT + PITCH * WIDTH / 2


def spline_joint(gap: float = GAP, spline: str = "surface") -> Joint:
    """Return the seam of `tests.samples.flush_pair`."""
    x = 1.2 + gap / 2
    return joint("A.1-A.2", "wall_spline", (x, THICK, 0.0), (x, THICK, 2.4), gap=gap, spline=spline)


def corner_joint() -> Joint:
    """Return the corner of `tests.samples.corner_pair`."""
    x = 1.2 - THICK
    return joint(
        "A.1-B.1",
        "wall_corner",
        (x, THICK, 0.0),
        (x, THICK, 2.4),
        contact="edge_face",
        dihedral=math.pi / 2,
    )


def ridge_joint(*, beam: bool = True) -> Joint:
    """Return one half of the ridge of `tests.samples.gable_box`."""
    start, end = (-RAKE, WIDTH / 2, RIDGE_Z), (LENGTH / 2 - GAP / 2, WIDTH / 2, RIDGE_Z)
    inside = (THICK, WIDTH / 2, RIDGE_Z)
    timbers = ("ridge-beam",) if beam else ()
    return joint(
        "R1.1-R2.2",
        "ridge",
        start,
        end,
        dihedral=math.pi - 2 * math.atan(PITCH),
        inner=face(
            inside, end, timbers=timbers, reach="before_panels_only" if beam else "until_hidden"
        ),
        storey=None,
    )


def eave_joint() -> Joint:
    """Return the eave over wall panel A.1 of `tests.samples.gable_box`."""
    end = LENGTH / 2 - GAP / 2
    z = HEIGHT + PITCH * THICK
    return joint(
        "A.1-R1.1",
        "eave",
        (THICK, THICK, z),
        (end, THICK, z),
        contact="edge_face",
        outer=face((0.0, 0.0, HEIGHT), (end, 0.0, HEIGHT), hidden_by="sub-fascia"),
        dihedral=math.pi / 2 + math.atan(PITCH),
    )


def roof_seam() -> Joint:
    """Return the seam of the south roof of `tests.samples.gable_box`."""
    x = LENGTH / 2
    inside = (x, THICK, HEIGHT + PITCH * THICK)
    low = (x, -EAVE, HEIGHT - PITCH * EAVE)
    top = (x, WIDTH / 2, RIDGE_Z)
    return joint(
        "R1.1-R1.2",
        "roof_spline",
        low,
        top,
        gap=GAP,
        spline="surface",
        inner=face(inside, top),
        storey=None,
    )


def sill_joint() -> Joint:
    """Return the sill of wall panel A.1 of `tests.samples.gable_box`."""
    end = LENGTH / 2 - GAP / 2
    return joint(
        "A.1-slab",
        "sill",
        (THICK, THICK, 0.0),
        (end, THICK, 0.0),
        panels=("A.1",),
        others=("slab",),
        contact="edge_support",
        outer=face((0.0, 0.0, 0.0), (end, 0.0, 0.0)),
    )


def opening_joint() -> Joint:
    """Return the sill of the window of `tests.samples.gable_box`."""
    return joint(
        "A.1-W1",
        "opening",
        (0.75, THICK, 0.9),
        (1.65, THICK, 0.9),
        panels=("A.1",),
        others=("W1",),
        contact="opening",
    )
