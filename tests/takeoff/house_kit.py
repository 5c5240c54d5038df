"""A hand-made register and schedule that the takeoff tests share; every figure is invented."""

from __future__ import annotations

import math

from seamwright.geometry.types import Segment, Vec3
from seamwright.joints.types import FaceLine, Joint, JointKind, Node, Register
from seamwright.seals.types import (
    BeadRule,
    Catalog,
    FoamStock,
    Laps,
    SealantStock,
    SealSchedule,
    Strip,
    StripStock,
)

CATALOG = Catalog(
    strips=(
        StripStock(id="s100", width=0.1, roll_length=20.0, per_carton=8, price=30.0),
        StripStock(id="s300", width=0.3, roll_length=15.0, per_carton=4),
    ),
    sealants=(SealantStock(id="tube", pack="cartridge", volume=0.0003, per_carton=12, price=6.0),),
    foams=(FoamStock(id="can", volume=0.02, per_carton=12),),
    beads=(BeadRule(kind="sill", spline=None, count=2, place="under the sill", diameter=0.006),),
    laps=Laps(
        land={"*": 0.05},
        closed_seam=0.003,
        placement=0.006,
        placement_overhead=0.01,
        handling=0.075,
        end_lap=0.08,
        end_lap_ridge=0.12,
        node_patch=0.15,
        fold=0.05,
    ),
)


def joint(
    joint_id: str,
    start: Vec3,
    end: Vec3,
    kind: JointKind = "sill",
    *,
    dihedral: float = math.pi / 2,
    storey: str | None = "1",
) -> Joint:
    """Return a joint whose two faces follow the line from start to end."""
    line = Segment(start=start, end=end)
    face = FaceLine(line=line, offset=0.0, reach="until_hidden", hidden_by="boards")
    return Joint(
        id=joint_id,
        kind=kind,
        panels=(joint_id,),
        others=(),
        line=line,
        length=line.length,
        inner=face,
        outer=face,
        dihedral=dihedral,
        gap=0.0,
        storey=storey,
        contact="edge_edge",
    )


def strip(of: Joint, stock_id: str | None = "s100", **changes: object) -> Strip:
    """Return a strip along the whole inner line of a joint."""
    fields: dict[str, object] = {
        "joint_id": of.id,
        "face": "inner",
        "span": 0.0,
        "terms": (),
        "required": 0.1,
        "stock_id": stock_id,
        "width": 0.1,
        "lap": 0.05,
        "length": of.length,
        "stage": "weathered_in",
        "primary": True,
    }
    return Strip(**{**fields, **changes})  # type: ignore[arg-type]


def register(joints: tuple[Joint, ...], nodes: tuple[Node, ...] = ()) -> Register:
    """Return a register of these joints and nodes with an empty ledger."""
    return Register(joints=joints, nodes=nodes, ledger=(), breaks=())


def schedule(strips: tuple[Strip, ...] = (), **parts: object) -> SealSchedule:
    """Return a schedule of these strips and parts, everything else empty."""
    fields: dict[str, object] = {
        "sides": (),
        "strips": strips,
        "beads": (),
        "fills": (),
        "dams": (),
        "gaskets": (),
        "patches": (),
        "findings": (),
    }
    return SealSchedule(**{**fields, **parts})  # type: ignore[arg-type]


def wall_line(n: int, width: float) -> tuple[tuple[Joint, ...], tuple[Node, ...]]:
    """Return the sill of n panels in a row, with a seam rising at every meeting of two."""
    sills = tuple(
        joint(f"A.{k}-slab", (k * width, 0.0, 0.0), ((k + 1) * width, 0.0, 0.0)) for k in range(n)
    )
    seams = tuple(
        joint(
            f"A.{k - 1}-A.{k}",
            (k * width, 0.0, 0.0),
            (k * width, 0.0, 2.5),
            "wall_spline",
            dihedral=math.pi,
        )
        for k in range(1, n)
    )
    nodes = tuple(
        Node(
            id=f"N{k}",
            kind="sill+wall_spline",
            at=(k * width, 0.0, 0.0),
            joints=(f"A.{k - 1}-slab", f"A.{k}-slab", f"A.{k - 1}-A.{k}"),
        )
        for k in range(1, n)
    )
    return (*sills, *seams), nodes
