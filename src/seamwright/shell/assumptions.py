"""What the layout had to assume, as sentences for the cover sheet."""

from __future__ import annotations

from seamwright.shell.plan import Plan


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
    if plan.inner_walls:
        found.append("Inner walls are taken as 1/2 in (12.7 mm) boards on a frame.")
    return tuple(found)
