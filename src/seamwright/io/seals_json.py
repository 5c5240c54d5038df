"""The seal schedule as JSON: every seal with its joint or node, its stage and its figures."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable
from typing import TypeVar

from seamwright.io.json_text import Json, numbered, point, sentence
from seamwright.seals.types import (
    Bead,
    Dam,
    Fill,
    Finding,
    Gasket,
    NodePatch,
    SealSchedule,
    SidePlan,
    Strip,
)

_Seal = TypeVar("_Seal", Bead, Fill, Dam, Gasket)


def seals_document(schedule: SealSchedule) -> Json:
    """Return the seal schedule: every seal with its joint or node, its stage and its figures."""
    return {
        "sides": [_side(side) for side in schedule.sides],
        "strips": _strips(schedule.strips),
        "beads": _rows(schedule.beads, "beads", _bead),
        "fills": _rows(schedule.fills, "fill", _fill),
        "dams": _rows(schedule.dams, "dam", _dam),
        "gaskets": _rows(schedule.gaskets, "gasket", _gasket),
        "patches": [_patch(patch) for patch in schedule.patches],
        "findings": [_finding(finding) for finding in schedule.findings],
    }


def _side(side: SidePlan) -> Json:
    return {
        "id": f"{side.joint_id}/side",
        "joint": side.joint_id,
        "face": side.face,
        "signed": side.signed,
        "status": "signed" if side.signed else "UNSIGNED",
        "by": side.by,
        "reason": side.reason,
    }


def _patch(patch: NodePatch) -> Json:
    return {
        "id": f"{patch.node_id}/{patch.face}/patch",
        "node": patch.node_id,
        "kind": patch.kind,
        "face": patch.face,
        "side_m": patch.side,
        "how": patch.how,
        "stage": patch.stage,
    }


def _finding(finding: Finding) -> Json:
    return {
        "id": finding.id,
        "severity": finding.severity,
        "subject": finding.subject,
        "sentence": sentence(finding.sentence),
        "way_out": sentence(finding.way_out),
    }


def _rows(seals: Iterable[_Seal], what: str, body: Callable[[_Seal], Json]) -> list[Json]:
    """Return rows with the id and joint of each seal in front of what `body` says of it."""
    names: Counter[str] = Counter()
    return [
        {
            "id": numbered(f"{seal.joint_id}/{what}", names),
            "joint": seal.joint_id,
            **body(seal),
        }
        for seal in seals
    ]


def _strips(strips: Iterable[Strip]) -> list[Json]:
    names: Counter[str] = Counter()
    return [
        {
            "id": numbered(f"{strip.joint_id}/{strip.face}", names),
            "joint": strip.joint_id,
            "face": strip.face,
            "span_m": strip.span,
            "terms": [
                {"label": term.label, "count": term.count, "value_m": term.value}
                for term in strip.terms
            ],
            "required_m": strip.required,
            "stock": strip.stock_id,
            "width_m": strip.width,
            "lap_m": strip.lap,
            "length_m": strip.length,
            "stage": strip.stage,
            "primary": strip.primary,
            "wings_open": strip.wings_open,
            "fold": strip.fold,
        }
        for strip in strips
    ]


def _bead(bead: Bead) -> Json:
    return {
        "place": bead.place,
        "count": bead.count,
        "diameter_m": bead.diameter,
        "length_m": bead.length,
        "stage": bead.stage,
        "source": bead.source,
    }


def _fill(fill: Fill) -> Json:
    return {
        "area_m2": fill.area,
        "length_m": fill.length,
        "volume_m3": fill.volume,
        "stage": fill.stage,
    }


def _dam(dam: Dam) -> Json:
    return {"at_m": point(dam.at), "why": dam.why, "volume_m3": dam.volume, "stage": dam.stage}


def _gasket(gasket: Gasket) -> Json:
    return {"place": gasket.place, "length_m": gasket.length, "stage": gasket.stage}
