"""Strips: one on each primary face of a joint, and those that go over timbers before the panels."""

from __future__ import annotations

import math
from dataclasses import dataclass

from seamwright.geometry.types import Segment, Vec3, cross, dot
from seamwright.joints.types import FaceName, Joint, SkinPath
from seamwright.seals.facts import Facts, finding, line_of, plain, primary_faces
from seamwright.seals.stages import early_stage, strip_stage
from seamwright.seals.types import Finding, SidePlan, Stage, Strip
from seamwright.seals.widths import Sizing, size_strip
from seamwright.shell.types import Member
from seamwright.tolerance import DEFAULT

_STRAIGHT = -0.985
"""Cosine between two laps beyond which a strip lies flat (within 10 degrees)."""

_SQUARE = 0.1
"""Least sine of the angle at which a timber is taken to cross a line."""

_NO_STRIP = frozenset({"flue", "chase"})
"""Services that take no collar of strip: a flue by law, a chase because it is plugged."""


@dataclass(frozen=True, kw_only=True, slots=True)
class _Lay:
    """How a strip is laid: on which face, when, whether before the panels, and whether primary."""

    face: FaceName
    stage: Stage
    early: bool
    primary: bool
    wings_open: bool = False


def plan_strips(
    facts: Facts, joint: Joint, side: SidePlan
) -> tuple[tuple[Strip, ...], tuple[Finding, ...]]:
    """Return the strips of a joint, and what stands in their way.

    One on each primary face; along a timber that hides a roof seam from below, always one over the
    timber before the roof; a short one over each timber that crosses a primary inner line. Behind a
    ledger the wall's skin runs by unbroken, and the strip of the wall on a deck reaches over the
    deck's edge to the rim below, so those lines take beads only.
    """
    service = facts.service(joint)
    if joint.kind == "penetration" and service is not None and service.kind in _NO_STRIP:
        return (), ()
    if facts.is_ledger(joint) or facts.is_under_deck(joint):
        return (), ()
    strips: list[Strip] = []
    findings: list[Finding] = []
    for lay in _lays(facts, joint, side):
        strip, found = _strip(facts, joint, lay)
        strips += [] if strip is None else [strip]
        findings += found
    if "inner" in primary_faces(joint, side) and not joint.inner.timbers:
        for crossing in joint.inner.crossings:
            strip, found = _crossing(facts, joint, crossing)
            strips += [] if strip is None else [strip]
            findings += found
    findings += _out_of_reach(joint, side)
    return tuple(strips), tuple(findings)


def _lays(facts: Facts, joint: Joint, side: SidePlan) -> list[_Lay]:
    primary = primary_faces(joint, side)
    is_roof = facts.is_roof(joint)
    lays = []
    for face in ("inner", "outer"):
        line = line_of(joint, face)
        over = face == "inner" and bool(facts.bearing_timbers(line.timbers))
        over = over and line.line is not None
        if line.reach == "never" or (face not in primary and not (over and is_roof)):
            continue
        early = over or (line.reach == "before_panels_only" and joint.kind != "wall_tee")
        stage = (
            early_stage(joint, is_roof=is_roof)
            if early
            else strip_stage(joint, face, is_roof=is_roof)
        )
        lays.append(
            _Lay(
                face=face,
                stage=stage,
                early=early,
                primary=face in primary,
                wings_open=over,
            )
        )
    return lays


def _strip(facts: Facts, joint: Joint, lay: _Lay) -> tuple[Strip | None, list[Finding]]:
    path = facts.path(joint, lay.face)
    override = facts.overrides.get(joint.id)
    given = None if override is None else override.span
    at_rim = joint.kind in {"opening", "penetration"}
    if path is None and given is None and not at_rim:
        return None, [_no_span(joint, lay.face)]
    span = float(given) if given is not None else (0.0 if path is None else path.span)
    sizing = size_strip(
        facts.catalog,
        joint.kind,
        span,
        overhead=facts.is_roof(joint) and lay.face == "inner",
        before_panels=lay.early,
        span_label="developed span" if given is None else "developed span, as corrected",
    )
    length = joint.length if joint.kind == "penetration" else line_of(joint, lay.face).length
    return _made(facts, joint, lay, sizing, length=length, fold=_is_creased(path))


def _made(
    facts: Facts, joint: Joint, lay: _Lay, sizing: Sizing, *, length: float, fold: bool
) -> tuple[Strip, list[Finding]]:
    stock, lap, findings = sizing.stock, sizing.lap, []
    override = facts.overrides.get(joint.id)
    if override is not None and override.strip_width is not None:
        wanted = float(override.strip_width)
        fits = [s for s in facts.catalog.strips if abs(s.width - wanted) <= DEFAULT.equal]
        stock = fits[0] if fits else None
        lap = (wanted - sizing.counted) / 2
        findings += _corrected(joint, lay.face, wanted, sizing.required, sold=bool(fits))
    elif stock is None:
        findings.append(_too_wide(facts, joint, lay.face, sizing))
    strip = Strip(
        joint_id=joint.id,
        face=lay.face,
        span=sizing.span,
        terms=sizing.terms,
        required=sizing.required,
        stock_id=None if stock is None else stock.id,
        width=None if stock is None else stock.width,
        lap=lap,
        length=length,
        stage=lay.stage,
        primary=lay.primary,
        wings_open=lay.wings_open,
        fold=fold,
    )
    return strip, findings


def _crossing(facts: Facts, joint: Joint, member_id: str) -> tuple[Strip | None, list[Finding]]:
    """Return the short strip where a timber crosses the inner line.

    Over a timber that stands before the panels, wings open; behind a ledger, that comes after them,
    an ordinary piece laid before it.
    """
    member = facts.members.get(member_id)
    line = joint.inner.line
    path = facts.path(joint, "inner")
    if member is None or line is None:
        return None, []
    is_roof = facts.is_roof(joint)
    before = member.kind != "ledger"
    sizing = size_strip(
        facts.catalog,
        joint.kind,
        0.0 if path is None else path.span,
        overhead=is_roof,
        before_panels=before,
    )
    length = covered_length(line, member) + 2 * facts.catalog.laps.end_lap
    stage = early_stage(joint, is_roof=is_roof) if before else "before_next_panel"
    lay = _Lay(face="inner", stage=stage, early=before, primary=True, wings_open=before)
    return _made(facts, joint, lay, sizing, length=length, fold=False)


def covered_length(line: Segment, member: Member) -> float:
    """Return how much of a line a timber that crosses it covers. [m]

    The line passes over the timber's top or along its side, whichever it crosses more squarely.
    """
    way, axis = _unit(_minus(line.end, line.start)), _unit(_minus(member.end, member.start))
    over = abs(dot(way, cross(axis, member.up)))
    beside = abs(dot(way, member.up))
    if over >= beside:
        return member.width / max(over, _SQUARE)
    return member.depth / max(beside, _SQUARE)


def _is_creased(path: SkinPath | None) -> bool:
    """Return whether a strip on this way is folded along its length."""
    if path is None:
        return False
    (ax, ay), (bx, by) = path.lands
    return bool(ax * bx + ay * by > _STRAIGHT)


def _out_of_reach(joint: Joint, side: SidePlan) -> list[Finding]:
    way_out = (
        "Lay an apron strip around the deck's edge before the upper wall stands, or have the "
        "designer sign the outer face for this line."
        if joint.kind == "floor_line"
        else "Have the designer sign the other face, hold the panels off with packers so that a "
        "strip can pass, or close it with beads and a dam and record them by photo."
    )
    return [
        finding(
            f"reach-{face}",
            "stop",
            joint.id,
            f"The {face} line of this joint carries the primary seal and can never be reached "
            f"({plain(line_of(joint, face).hidden_by)}).",
            way_out,
        )
        for face in primary_faces(joint, side)
        if line_of(joint, face).reach == "never"
    ]


def _no_span(joint: Joint, face: FaceName) -> Finding:
    return finding(
        f"span-{face}",
        "attention",
        joint.id,
        f"The way between sound skins on the {face} face could not be measured.",
        "Measure it on the approved detail and give it as span under overrides.",
    )


def _too_wide(facts: Facts, joint: Joint, face: FaceName, sizing: Sizing) -> Finding:
    widest = max((stock.width for stock in facts.catalog.strips), default=0.0)
    return finding(
        f"width-{face}",
        "stop",
        joint.id,
        f"No stock strip covers this joint on the {face} face: it needs {{required}} over a span "
        "of {span}, and the widest strip is {widest}.",
        "Order a wider strip, lay two side by side with a lap of {lap} between them, or fill the "
        "span with backing that bonds and give the new span under overrides.",
        required=sizing.required,
        span=sizing.span,
        widest=widest,
        lap=facts.catalog.laps.end_lap,
    )


def _corrected(
    joint: Joint, face: FaceName, wanted: float, required: float, *, sold: bool
) -> list[Finding]:
    """Return what to know about a width set by hand."""
    found = []
    if not sold:
        found.append(
            finding(
                f"width-not-sold-{face}",
                "attention",
                joint.id,
                "The width set for this joint, {wanted}, is no stock width of the catalog.",
                "Add that strip to the catalog, or set a width that is in it.",
                wanted=wanted,
            )
        )
    if wanted < required - DEFAULT.equal:
        found.append(
            finding(
                f"width-narrow-{face}",
                "attention",
                joint.id,
                "The width set for this joint, {wanted}, is less than the sum needs, {required}.",
                "Check the laps on the approved detail, or drop the correction.",
                wanted=wanted,
                required=required,
            )
        )
    return found


def _minus(a: Vec3, b: Vec3) -> Vec3:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def _unit(a: Vec3) -> Vec3:
    size = math.hypot(*a)
    return (a[0] / size, a[1] / size, a[2] / size)
