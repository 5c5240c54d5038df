"""A small sealed house made by hand, with one of everything a packet has to show. All invented."""

from __future__ import annotations

import math
from fractions import Fraction

from seamwright.geometry.types import Segment, Vec3
from seamwright.joints.types import Break, EdgeUse, FaceLine, Joint, JointKind, Node, Register
from seamwright.report.house import SealedHouse
from seamwright.seals.types import (
    Bead,
    Catalog,
    Dam,
    Fill,
    Finding,
    Gasket,
    Laps,
    NodePatch,
    SealSchedule,
    Sentence,
    SidePlan,
    Strip,
    Term,
)
from seamwright.shell.plan import Decision, PanelType, Plan, Site
from seamwright.shell.types import Penetration, Shell
from seamwright.takeoff.types import CuttingPlan, Order, OrderLine, Piece, RollCut
from tests.samples import flush_pair

INCH = 0.0254
NASTY = '#panic("x") $a^2$ \\ "quoted" <label> @ref *bold* _it_ [b] {c} 漢 \u202eturned\u202c `raw`'


def face(start: Vec3, end: Vec3) -> FaceLine:
    """Return a face line reachable until the lining."""
    return FaceLine(
        line=Segment(start=start, end=end), offset=0.0, reach="until_hidden", hidden_by="lining"
    )


def joint(joint_id: str, kind: JointKind, length: float) -> Joint:
    """Return a level joint of the given length."""
    start, end = (0.0, 0.0, 1.0), (length, 0.0, 1.0)
    return Joint(
        id=joint_id,
        kind=kind,
        panels=tuple(joint_id.split("-")),
        others=(),
        line=Segment(start=start, end=end),
        length=length,
        inner=face(start, end),
        outer=face(start, (length + 0.1, 0.0, 1.0)),
        dihedral=math.pi,
        gap=INCH / 8,
        storey="1",
        contact="edge_edge",
        spline="surface" if kind == "wall_spline" else None,
    )


def strip(of: Joint, *, width: float | None = 4 * INCH) -> Strip:
    """Return the inside strip of a joint; no stock covers it when `width` is None."""
    lap = Term(label="lap", value=2 * INCH, count=2)
    span = Term(label="span", value=0.0 if width else 16 * INCH)
    required = span.value + 2 * lap.value
    return Strip(
        joint_id=of.id,
        face="inner",
        span=span.value,
        terms=(span, lap) if span.value else (lap,),
        required=required,
        stock_id=None if width is None else "strip-4",
        width=width,
        lap=2 * INCH,
        length=of.length,
        stage="weathered_in" if width else "before_roof",
        primary=True,
        wings_open=width is None,
    )


JOINTS = (
    joint("A.1-A.2", "wall_spline", 2.4384),
    joint("A.2-A.3", "wall_spline", 2.4384),
    joint("A.1-base", "sill", 1.2192),
    joint("R1.1-R2.1", "ridge", 7.3152),
)


def register() -> Register:
    """Return a register of four joints, one node, one break and one lost correction."""
    return Register(
        joints=JOINTS,
        nodes=(
            Node(id="N1", kind="sill+wall_spline", at=(0, 0, 0), joints=("A.1-A.2", "A.1-base")),
        ),
        ledger=(
            EdgeUse(
                panel_id="A.1", edge=0, start=0.0, end=1.2, fate="joint", ref="A.1-base", reason=""
            ),
            EdgeUse(panel_id="A.1", edge=1, start=0.0, end=0.3, fate="free", ref="", reason=""),
        ),
        breaks=(
            Break(
                face="inner",
                panel_id="A.1",
                line=Segment(start=(0, 0, 0), end=(0.3, 0, 0)),
                reason="the panel's end meets nothing",
                remedy="add the neighboring wall",
            ),
        ),
        lost_overrides=("A.9-A.10",),
    )


def schedule() -> SealSchedule:
    """Return a schedule with one signed face, the rest unsigned, and a ridge no stock covers."""
    no_size = None
    return SealSchedule(
        sides=tuple(
            SidePlan(
                joint_id=j.id,
                face="inner",
                signed=j.kind == "sill",
                by="J. Hollis" if j.kind == "sill" else "",
                reason="zone 4C: inside is usual in a marine climate",
            )
            for j in JOINTS
        ),
        strips=tuple(strip(j, width=None if j.kind == "ridge" else 4 * INCH) for j in JOINTS),
        beads=tuple(
            Bead(
                joint_id=j.id,
                place="on the spline",
                count=4,
                diameter=no_size if j.kind == "ridge" else 3 * INCH / 8,
                length=j.length,
                stage="at_setting",
                source="common practice, no source",
            )
            for j in JOINTS
        ),
        fills=(Fill(joint_id="R1.1-R2.1", area=0.004, length=7.3152, stage="same_day"),),
        dams=(
            Dam(joint_id="A.1-A.2", at=(0, 0, 0), why="panel_end", volume=1e-4, stage="at_setting"),
        ),
        gaskets=(
            Gasket(
                joint_id="A.1-base", place="under the sill", length=1.2192, stage="before_setting"
            ),
        ),
        patches=(
            NodePatch(
                node_id="N1",
                kind="sill+wall_spline",
                face="inner",
                side=6 * INCH,
                how="slit to the center, stretched into the corner",
                stage="weathered_in",
            ),
        ),
        findings=tuple(
            Finding(
                id=f"F{n}",
                severity=severity,  # type: ignore[arg-type]
                subject=subject,
                sentence=Sentence(text="needs {need}, wider than any stock", lengths={"need": 0.5}),
                way_out=Sentence(
                    text="two strips side by side, lapped {lap}", lengths={"lap": 0.05}
                ),
            )
            for n, (severity, subject) in enumerate(
                (("note", "N1"), ("stop", "R1.1-R2.1"), ("stop", "A.1-base")), start=1
            )
        ),
    )


def order(*, price: float | None = None) -> Order:
    """Return an order of one stock, two pieces on one roll."""
    pieces = (
        Piece(id="P1", stock_id="strip-4", length=2.5146, joint_ids=("A.1-A.2",)),
        Piece(id="P2", stock_id="strip-4", length=0.1524, joint_ids=("N1",), purpose="patch"),
    )
    used = math.fsum(p.length for p in pieces)
    return Order(
        pieces=pieces,
        cutting=(
            CuttingPlan(
                stock_id="strip-4",
                roll_length=22.86,
                cuts=(
                    RollCut(stock_id="strip-4", roll=1, piece_ids=("P1", "P2"), left=22.86 - used),
                ),
                lp_bound=0.117,
                bound=1,
                optimal=True,
            ),
        ),
        lines=(
            OrderLine(
                item="strip-4",
                description="strip",
                unit="m",
                net=used,
                reserve=0.08 * used,
                pack_size=22.86,
                packs=1,
                per_carton=8,
                cartons=1,
                source="common practice, no source",
                refs=("A.1-A.2", "N1"),
                cost=price,
            ),
        ),
        labor=(),
        currency="USD" if price is not None else "",
    )


def house(name: str = "Test cabin", *, price: float | None = None) -> SealedHouse:
    """Return the small house under the given project name."""
    panel = PanelType(
        id="P6",
        skin_inner=Fraction(11, 1000),
        core=Fraction(143, 1000),
        skin_outer=Fraction(11, 1000),
        max_width=Fraction(12, 10),
        max_length=Fraction(73, 10),
        spline="surface",
        spline_width=Fraction(76, 1000),
        edge_gap=Fraction(3, 1000),
    )
    signed = Decision(
        face="inner", signed_by="J. Hollis", role="designer", date="2026-03-02", kinds=("sill",)
    )
    pair = flush_pair()
    flue = Penetration(
        id="F1",
        kind="flue",
        plane_id="R1",
        panel_id=None,
        at=(0, 0, 3),
        axis=(0, 0, 1),
        diameter=0.2,
    )
    return SealedHouse(
        plan=Plan(
            site=Site(name=name, climate_zone="4C", zone_edition="IECC 2021"),
            panel_types=(panel,),
            decisions=(signed,),
        ),
        catalog=Catalog(
            strips=(),
            sealants=(),
            foams=(),
            beads=(),
            laps=Laps(
                land={"*": 2 * INCH},
                closed_seam=INCH / 8,
                placement=INCH / 4,
                placement_overhead=INCH / 4,
                handling=INCH,
                end_lap=3 * INCH,
                end_lap_ridge=4 * INCH,
                node_patch=6 * INCH,
                fold=2 * INCH,
            ),
        ),
        shell=Shell(
            builds=pair.builds,
            panels=pair.panels,
            penetrations=(flue,),
            assumptions=("The sill plate is taken as 1-1/2 in thick.",),
        ),
        register=register(),
        sections={},
        schedule=schedule(),
        order=order(price=price),
    )
