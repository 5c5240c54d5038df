"""What the layout had to assume, as sentences for the cover sheet."""

from __future__ import annotations

from fractions import Fraction

from seamwright.shell.plan import Plan, RoofPart

PLATE = Fraction(130, 1000)
"""Highest plate between a wall top and a roof; common practice, no source. [m]"""


def assumptions(plan: Plan) -> tuple[str, ...]:
    """Return what was assumed where the plan says nothing, in plan order."""
    found: list[str] = []
    if plan.footprints and plan.base is None:
        found.append("The plan names no base: walls start at elevation 0 with nothing below them.")
    if plan.footprints and not plan.roof:
        found.append("The plan names no roof: walls end level at their storey's height.")
    if any(storey.floor == "hanging" for storey in plan.storeys):
        found.append("Ledgers of hanging floors are taken as 1-1/2 in (38 mm) off the wall.")
    if any(p.ridge_beam or p.hip_beams or p.valley_beams for p in plan.roof):
        found.append(
            "Tops of ridge, hip and valley beams are taken as beveled to both roof undersides; "
            "they stop at the inner faces of the outside walls."
        )
    if any(p.purlins is not None or p.rafters is not None for p in plan.roof):
        found.append("Purlins and rafters stop at the inner faces of the outside walls.")
    if any(p.eave_plate > 0 for p in plan.roof):
        found.append(
            "Eave plates are taken as ripped to the roof's slope; their outer top edge meets the "
            "roof's underside."
        )
    found.extend(
        f"The eave plate of roof part {part.id} would stand more than 5-1/8 in (130 mm) high at "
        "the wall's inner face, which no plate closes: the line stays open there. Give eave_plate: "
        "0, and the wall top is cut to the slope."
        for part in plan.roof
        if part.eave_plate > 0 and part.eave_plate + _rise(plan, part) > PLATE
    )
    if plan.inner_walls:
        found.append("Inner walls are taken as 1/2 in (12.7 mm) boards on a frame.")
    return tuple(found)


def _rise(plan: Plan, part: RoofPart) -> Fraction:
    """Return how far the roof rises over the thickest outside wall. [m]"""
    kinds = {kind.id: kind for kind in plan.panel_types}
    walls = [kinds[storey.panel_type] for storey in plan.storeys if storey.panel_type in kinds]
    thick = max((w.skin_inner + w.core + w.skin_outer for w in walls), default=Fraction(0))
    pitches = [part.pitch]
    if part.kind == "saltbox" and part.second_pitch is not None:
        pitches.append(part.second_pitch)
    return thick * max(pitches)
