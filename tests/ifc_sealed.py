"""A small sealed house by hand, for tests of what is written out."""

from __future__ import annotations

import math

from seamwright.geometry.types import Segment
from seamwright.joints.types import Break, FaceLine, Joint, JointKind, Node, Register
from seamwright.seals.types import (
    Bead,
    Finding,
    NodePatch,
    SealSchedule,
    Sentence,
    SidePlan,
    Strip,
    Term,
)
from seamwright.shell.types import Shell
from tests.samples import GAP, HEIGHT, LENGTH, PITCH, THICK, WIDTH, gable_box


def small_house() -> tuple[Shell, Register, SealSchedule]:
    """Return the one-room house with four joints, one node, one break and three findings."""
    return gable_box(), small_register(), small_schedule()


def small_register() -> Register:
    """Return a seam, the ridge, a sill and a pipe, with the node where seam and sill meet."""
    middle = LENGTH / 2
    ridge = HEIGHT + PITCH * WIDTH / 2
    seam = _joint(
        "A.1-A.2", "wall_spline", ("A.1", "A.2"), (),
        ((middle, THICK, 0.0), (middle, THICK, HEIGHT)),
        outer=((middle, 0.0, 0.0), (middle, 0.0, HEIGHT)), dihedral=math.pi,
    )  # fmt: skip
    top = _joint(
        "R1.1-R2.2", "ridge", ("R1.1", "R2.2"), ("ridge-beam",),
        ((0.0, WIDTH / 2, ridge), (middle, WIDTH / 2, ridge)), dihedral=1.966,
    )  # fmt: skip
    sill = _joint(
        "A.1-slab", "sill", ("A.1",), ("slab",), ((0.0, THICK, 0.0), (middle, THICK, 0.0)),
        outer=((0.0, 0.0, 0.0), (middle, 0.0, 0.0)), dihedral=math.pi / 2,
    )  # fmt: skip
    at = (0.9, 0.7, 2.9)
    pipe = _joint("R1.1-P1", "penetration", ("R1.1",), ("P1",), (at, at), dihedral=math.pi)
    node = Node(
        id="N1", kind="sill+wall_spline", at=(middle, THICK, 0.0), joints=("A.1-A.2", "A.1-slab")
    )
    gap = Break(
        face="inner", panel_id="D.1", line=Segment(start=(0.2, 1.0, 0.0), end=(0.2, 2.0, 0.0)),
        reason="the lower edge meets nothing", remedy="give the slab under it",
    )  # fmt: skip
    return Register(joints=(seam, top, sill, pipe), nodes=(node,), ledger=(), breaks=(gap,))


def small_schedule() -> SealSchedule:
    """Return a signed seam with a strip and beads, an unsigned ridge that no strip fits."""
    sides = tuple(
        SidePlan(joint_id=name, face="inner", signed=name == "A.1-A.2", by="R. Sample",
                 reason="cold and wet climate")
        for name in ("A.1-A.2", "R1.1-R2.2", "A.1-slab", "R1.1-P1")
    )  # fmt: skip
    strip = Strip(
        joint_id="A.1-A.2", face="inner", span=0.003,
        terms=(Term(label="lap", value=0.05, count=2),),
        required=0.1, stock_id="S4", width=0.1016, lap=0.0508, length=HEIGHT,
        stage="weathered_in", primary=True,
    )  # fmt: skip
    wide = Strip(
        joint_id="R1.1-R2.2", face="inner", span=0.6, terms=(Term(label="span", value=0.6),),
        required=0.75, stock_id=None, width=None, lap=0.0, length=LENGTH / 2, stage="before_roof",
        primary=True, wings_open=True,
    )  # fmt: skip
    bead = Bead(
        joint_id="A.1-A.2", place="spline faces", count=4, diameter=0.01, length=HEIGHT,
        stage="at_setting", source="common practice, no source",
    )  # fmt: skip
    patch = NodePatch(
        node_id="N1", kind="sill+wall_spline", face="inner", side=0.15, how="folded boot",
        stage="weathered_in",
    )  # fmt: skip
    findings = (
        _finding("F1", "stop", "R1.1-R2.2", "no stock strip covers {need}", {"need": 0.75}),
        _finding("F2", "attention", "R1.1-R2.2", "the seam cannot be reached later", {}),
        _finding("F3", "note", "A.1-A.2", "a remark only", {}),
    )
    return SealSchedule(
        sides=sides, strips=(strip, wide), beads=(bead,), fills=(), dams=(), gaskets=(),
        patches=(patch,), findings=findings,
    )  # fmt: skip


def _finding(
    name: str, severity: str, subject: str, text: str, lengths: dict[str, float]
) -> Finding:
    return Finding(
        id=name,
        severity=severity,  # type: ignore[arg-type]
        subject=subject,
        sentence=Sentence(text=text, lengths=lengths),
        way_out=Sentence(text="ask the designer"),
    )


Ends = tuple[tuple[float, float, float], tuple[float, float, float]]


def _joint(
    name: str,
    kind: JointKind,
    panels: tuple[str, ...],
    others: tuple[str, ...],
    line: Ends,
    *,
    dihedral: float,
    outer: Ends | None = None,
) -> Joint:
    segment = Segment(start=line[0], end=line[1])
    far = None if outer is None else Segment(start=outer[0], end=outer[1])
    faces = [
        FaceLine(line=s, offset=0.0, reach="until_hidden", hidden_by="linings")
        for s in (segment, far)
    ]
    return Joint(
        id=name,
        kind=kind,
        panels=panels,
        others=others,
        line=segment,
        length=segment.length if segment.length > 0 else 0.3456,
        inner=faces[0],
        outer=faces[1],
        dihedral=dihedral,
        gap=GAP,
        storey="1",
        contact="edge_edge",
    )
