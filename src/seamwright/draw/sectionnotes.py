"""The side column of a section: which face, the strip's arithmetic, beads, foam, stage, joints."""

from __future__ import annotations

import math
from collections.abc import Sequence

from seamwright.draw.cutparts import Part, draw_swatch
from seamwright.draw.ink import GREY, RED, SMALL
from seamwright.draw.sectiontypes import STEP, SectionType
from seamwright.draw.sheet import ROW, Sheet, packed
from seamwright.draw.strips import distinct_strips
from seamwright.draw.types import Rect
from seamwright.joints.types import Joint
from seamwright.seals.types import SealSchedule, SidePlan, Stage, Strip
from seamwright.units import System, format_width

FACE = {"inner": "inside", "outer": "outside", "both": "inside and outside"}
MATERIALS = {
    "skin": "skin",
    "core": "foam core",
    "spline": "spline",
    "timber": "timber",
    "concrete": "concrete",
    "deck": "deck",
}
STAGES: dict[Stage, str] = {
    "before_setting": "before the panel is set",
    "at_setting": "as the panel is set",
    "before_next_panel": "before the next panel",
    "before_roof": "over the timber, before the roof panels",
    "same_day": "the same day",
    "weathered_in": "once weathered in",
    "rough_in": "at rough-in",
}


def write_notes(
    sheet: Sheet,
    joint: Joint,
    kind: SectionType,
    schedule: SealSchedule,
    parts: Sequence[Part],
) -> None:
    """Write everything a lead reads beside the cut, from which face to which joints."""
    system = sheet.head.system
    side = next((s for s in schedule.sides if s.joint_id == joint.id), None)
    _write_side(sheet, side)
    for strip, stages in distinct_strips(schedule, joint.id):
        _write_strip(sheet, strip, stages, system)
    _write_beads(sheet, joint, schedule, system)
    _write_joint(sheet, joint, system)
    _write_materials(sheet, parts)
    _write_ids(sheet, kind.joint_ids)


def _write_side(sheet: Sheet, side: SidePlan | None) -> None:
    sheet.heading("air seal")
    if side is None:
        sheet.row("side not decided: UNSIGNED", color=RED)
    else:
        sheet.row(f"primary face: {FACE[side.face]}")
        if side.signed:
            sheet.notes(f"signed by {side.by}")
        else:
            sheet.row("UNSIGNED: proposed only", color=RED)
    sheet.gap(1.2)


def _write_strip(sheet: Sheet, strip: Strip, stages: Sequence[Stage], system: System) -> None:
    first = "" if strip.primary else ", second line"
    sheet.heading(f"strip, {FACE[strip.face]}{first}")
    for index, term in enumerate(strip.terms):
        value = format_width(term.value, system)
        count = f"{term.count} × " if term.count != 1 else ""
        sign = "  " if index == 0 else "+ "
        sheet.notes(f"{sign}{count}{value}  {sheet.say(term.label)}".strip())
    sheet.row(f"= {format_width(strip.required, system)} needed")
    if strip.width is None:
        sheet.row("no stock width covers it", color=RED)
    else:
        sheet.row(f"→ stock {format_width(strip.width, system)}")
        sheet.notes(f"lap on each skin {format_width(strip.lap, system)}")
    sheet.notes("; in part ".join(STAGES[stage] for stage in stages))
    if strip.wings_open:
        sheet.notes("liner stays on the wings until the panels are set")
    sheet.gap(1.2)


def _write_beads(sheet: Sheet, joint: Joint, schedule: SealSchedule, system: System) -> None:
    beads = [b for b in schedule.beads if b.joint_id == joint.id and b.count > 0]
    fills = [f for f in schedule.fills if f.joint_id == joint.id]
    gaskets = [g for g in schedule.gaskets if g.joint_id == joint.id]
    if not (beads or fills or gaskets):
        return
    sheet.heading("beads and fill")
    for number, bead in enumerate(beads, start=1):
        size = "SIZE MISSING" if bead.diameter is None else format_width(bead.diameter, system)
        sheet.notes(f"B{number}: {bead.count} × {size}, {bead.place}; {STAGES[bead.stage]}")
    for fill in fills:
        sheet.notes(f"foam in the void; {STAGES[fill.stage]}")
    for gasket in gaskets:
        sheet.notes(f"gasket: {gasket.place}; {STAGES[gasket.stage]}")
    sheet.gap(1.2)


def _write_joint(sheet: Sheet, joint: Joint, system: System) -> None:
    sheet.heading("joint")
    sheet.row(f"gap {format_width(joint.gap, system)}")
    for word, face in (("inside", joint.inner), ("outside", joint.outer)):
        if face.line is not None:
            step = abs(face.offset)
            shown = f"step {format_width(step, system)}" if step > STEP else "flush"
            sheet.row(f"{word}: {shown}")
    if joint.contact == "edge_edge":
        sheet.row(f"between inner faces {math.degrees(joint.dihedral):.1f}°")
    sheet.gap(1.2)


def _write_materials(sheet: Sheet, parts: Sequence[Part]) -> None:
    """Write a swatch for every material in the cut, two to a row."""
    present = {part.shape.material for part in parts}
    names = [(material, name) for material, name in MATERIALS.items() if material in present]
    sheet.heading("materials")
    half, y = (sheet.side.width - 4.0) / 2, 0.0
    for index, (material, name) in enumerate(names):
        y = sheet.take(ROW + 1.2) if index % 2 == 0 else y
        x = sheet.side.x0 + 2.0 + half * (index % 2)
        draw_swatch(sheet.page, material, Rect(x0=x, y0=y + 0.3, x1=x + 9.0, y1=y + 3.5))
        sheet.page.text((x + 10.5, y + 2.6), sheet.say(name), SMALL)
    sheet.gap(1.2)


def _write_ids(sheet: Sheet, ids: Sequence[str]) -> None:
    """Write the joints this section stands for, as many as there is room for."""
    sheet.heading(f"stands for {len(ids)} joint{'s' if len(ids) != 1 else ''}")
    rows = max(int((sheet.room - 6.0) / ROW), 1)
    lines = packed(ids, sheet.columns)
    shown = lines if len(lines) <= rows else lines[: rows - 1]
    for line in shown:
        sheet.row("  ".join(line))
    left = len(ids) - sum(len(line) for line in shown)
    if left:
        sheet.row(f"and {left} more: see the register", color=GREY)
