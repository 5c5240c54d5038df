"""Every drawing of a house: plans, elevations, roof plan, axonometric, sections."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from seamwright.draw.axonometric import draw_axonometric
from seamwright.draw.elevation import draw_elevation
from seamwright.draw.facing import find_facades, find_roof_planes
from seamwright.draw.plan import draw_plan
from seamwright.draw.roofplan import draw_roof_plan
from seamwright.draw.section import draw_section
from seamwright.draw.sectiontypes import section_types
from seamwright.draw.sheet import Head
from seamwright.draw.storeys import find_storeys
from seamwright.draw.types import Drawing, Paper
from seamwright.joints.types import Register, Section
from seamwright.seals.types import SealSchedule
from seamwright.shell.types import Shell
from seamwright.units import System


def draw_sheets(
    shell: Shell,
    register: Register,
    schedule: SealSchedule,
    sections: Mapping[str, Section],
    *,
    system: System,
    paper: Paper,
    title: str,
) -> dict[str, Drawing]:
    """Return every drawing of the house by name, in the order they lie in a packet.

    `plan-1`, `plan-2` ... one per storey; `elevation-south` ... one per direction walls face;
    `roof-plan`, and `roof-plane-R1` ... where the roof plan has no room for all its ids;
    `axonometric`; `section-<kind>` (numbered where a kind has several types).
    """
    drawn: list[Drawing] = []

    def head(name: str, sheet: str, caption: str) -> Head:
        return Head(
            name=name, title=sheet, subject=title, caption=caption, system=system, paper=paper
        )

    for storey in find_storeys(shell):
        name = storey.id if storey.id is not None else str(storey.number)
        caption = f"Plan of storey {name}: walls cut, joints by kind, ids and dimensions."
        made = head(f"plan-{storey.number}", f"Plan, storey {name}", caption)
        drawn.append(draw_plan(shell, register, storey, made))
    for facade in find_facades(shell):
        caption = f"{facade.title}: panels, openings and joints seen from outside."
        drawn.append(
            draw_elevation(shell, register, facade, head(facade.name, facade.title, caption))
        )
    caption = "Roof plan: planes with their fall, seams by kind, timbers beneath, wall line."
    roof = draw_roof_plan(shell, register, schedule, head("roof-plan", "Roof plan", caption))
    if roof is not None:
        drawn.append(roof)
        drawn += _roof_planes(shell, register, roof, head)
    caption = "The shell from above the south-east corner, visible joints by kind."
    drawn.append(draw_axonometric(shell, register, head("axonometric", "Axonometric", caption)))
    joints = {joint.id: joint for joint in register.joints}
    for kind in section_types(register, sections, schedule):
        caption = f"Section: {kind.title}. Stands for {len(kind.joint_ids)} of the joints."
        made = head(kind.name, f"Section: {kind.title}", caption)
        drawn.append(
            draw_section(joints[kind.joint_id], sections[kind.joint_id], kind, schedule, made)
        )
    return {drawing.name: drawing for drawing in drawn}


def _roof_planes(
    shell: Shell, register: Register, roof: Drawing, head: Callable[[str, str, str], Head]
) -> list[Drawing]:
    """Return a sheet per roof plane when the roof plan has no room for all its ids."""
    ids = {panel.id for panel in shell.panels if panel.role == "roof"}
    wanted = {joint.id for joint in register.joints if ids.intersection(joint.panels)}
    if wanted <= set(roof.shown):
        return []
    sheets = []
    for plane in find_roof_planes(shell):
        caption = f"{plane.title}: panels and joints, lengths true."
        made = head(plane.name, plane.title, caption)
        sheets.append(draw_elevation(shell, register, plane, made))
    return sheets
