"""A register of the sample house written by hand, so that drawings are tested apart from search."""

from __future__ import annotations

import math

from seamwright.geometry.types import Segment, Vec3
from seamwright.joints.types import FaceLine, Joint, JointKind, Node, Register
from tests.samples import EAVE, HEIGHT, LENGTH, PITCH, RAKE, THICK, WIDTH

RIDGE = HEIGHT + PITCH * WIDTH / 2
MIDDLE = LENGTH / 2


def joint(
    name: str, kind: JointKind, start: Vec3, end: Vec3, *, storey: str | None = "1", length: float = -1
) -> Joint:
    """Return a joint on one line, its faces on the same line."""
    line = Segment(start=start, end=end)
    face = FaceLine(line=line, offset=0.0, reach="until_hidden", hidden_by="lining")
    panels = tuple(part for part in name.split("-") if "." in part)
    others = tuple(part for part in name.split("-") if "." not in part)
    return Joint(
        id=name,
        kind=kind,
        panels=panels,
        others=others,
        line=line,
        length=line.length if length < 0 else length,
        inner=face,
        outer=face,
        dihedral=math.pi,
        gap=0.003,
        storey=storey,
        contact="edge_edge",
        spline="surface" if kind in {"wall_spline", "roof_spline"} else None,
    )


def gable_register() -> Register:
    """Return the main joints of `tests.samples.gable_box`."""
    y0, y1, x0, x1 = 0.0, WIDTH, 0.0, LENGTH
    top, eave = HEIGHT, HEIGHT - PITCH * EAVE
    joints = [
        joint("A.1-slab", "sill", (x0, y0, 0), (MIDDLE, y0, 0)),
        joint("A.2-slab", "sill", (MIDDLE, y0, 0), (x1, y0, 0)),
        joint("B.1-slab", "sill", (x1, y0 + THICK, 0), (x1, y1 - THICK, 0)),
        joint("C.1-slab", "sill", (x1, y1, 0), (MIDDLE, y1, 0)),
        joint("C.2-slab", "sill", (MIDDLE, y1, 0), (x0, y1, 0)),
        joint("D.1-slab", "sill", (x0, y1 - THICK, 0), (x0, y0 + THICK, 0)),
        joint("A.1-A.2", "wall_spline", (MIDDLE, y0, 0), (MIDDLE, y0, top)),
        joint("C.1-C.2", "wall_spline", (MIDDLE, y1, 0), (MIDDLE, y1, top)),
        joint("A.2-B.1", "wall_corner", (x1, y0, 0), (x1, y0, top)),
        joint("B.1-C.1", "wall_corner", (x1, y1, 0), (x1, y1, top)),
        joint("C.2-D.1", "wall_corner", (x0, y1, 0), (x0, y1, top)),
        joint("A.1-D.1", "wall_corner", (x0, y0, 0), (x0, y0, top)),
        joint("A.1-W1", "opening", (0.75, y0, 0.9), (1.65, y0, 0.9), length=4.2),
        joint("A.1-R1.1", "eave", (x0, y0, top), (MIDDLE, y0, top)),
        joint("A.2-R1.2", "eave", (MIDDLE, y0, top), (x1, y0, top)),
        joint("C.1-R2.1", "eave", (x1, y1, top), (MIDDLE, y1, top)),
        joint("C.2-R2.2", "eave", (MIDDLE, y1, top), (x0, y1, top)),
        joint("B.1-R1.2", "rake", (x1, y0, top), (x1, WIDTH / 2, RIDGE)),
        joint("B.1-R2.1", "rake", (x1, WIDTH / 2, RIDGE), (x1, y1, top)),
        joint("D.1-R1.1", "rake", (x0, y0, top), (x0, WIDTH / 2, RIDGE)),
        joint("D.1-R2.2", "rake", (x0, WIDTH / 2, RIDGE), (x0, y1, top)),
        joint("R1.1-R2.2", "ridge", (-RAKE, WIDTH / 2, RIDGE), (MIDDLE, WIDTH / 2, RIDGE),
              storey=None),
        joint("R1.2-R2.1", "ridge", (MIDDLE, WIDTH / 2, RIDGE), (x1 + RAKE, WIDTH / 2, RIDGE),
              storey=None),
        joint("R1.1-R1.2", "roof_spline", (MIDDLE, -EAVE, eave), (MIDDLE, WIDTH / 2, RIDGE),
              storey=None),
        joint("R2.1-R2.2", "roof_spline", (MIDDLE, y1 + EAVE, eave), (MIDDLE, WIDTH / 2, RIDGE),
              storey=None),
        joint("P1-R1.1", "penetration", (0.9, 0.77, 2.9), (0.9, 0.77, 2.9), storey=None,
              length=0.3456),
    ]  # fmt: skip
    nodes = (
        Node(id="N1", kind="wall_corner+sill", at=(x0, y0, 0.0), joints=("A.1-D.1", "A.1-slab")),
        Node(id="N2", kind="ridge+roof_spline", at=(MIDDLE, WIDTH / 2, RIDGE),
             joints=("R1.1-R2.2", "R1.1-R1.2")),
    )  # fmt: skip
    return Register(joints=tuple(joints), nodes=nodes, ledger=(), breaks=())
