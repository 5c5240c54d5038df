"""A section of one joint type, true to scale: parts, strips with laps, beads, foam."""

from __future__ import annotations

import math
from collections.abc import Sequence

import shapely

from seamwright.draw.beads import BeadSpot, bead_spots, find_contacts
from seamwright.draw.cutparts import Part, cropped_parts, draw_parts, solid_area
from seamwright.draw.hatch import hatch_lines
from seamwright.draw.ink import BLACK, GREY, SMALL, THIN, WHITE, Pen
from seamwright.draw.labels import Label, Placer
from seamwright.draw.scale import DETAIL, fitting_scale
from seamwright.draw.sectionnotes import write_notes
from seamwright.draw.sectiontypes import STEP, SectionType
from seamwright.draw.sheet import Head, Sheet, draw_scale_bar
from seamwright.draw.strips import StripWay, draw_strip, label_strip, lay_strip, strip_track
from seamwright.draw.types import Drawing, Rect
from seamwright.draw.view import View
from seamwright.geometry.types import Vec2
from seamwright.joints.types import Joint, Section
from seamwright.seals.types import Bead, SealSchedule
from seamwright.units import format_width

AROUND = 0.09
"""How much of the parts a section shows beyond strips and joint. [m]"""
LABELS = (46.0, 40.0)
"""Room kept around the cut for its dimensions and labels, both sides together. [mm]"""


def draw_section(
    joint: Joint, section: Section, kind: SectionType, schedule: SealSchedule, head: Head
) -> Drawing:
    """Return the section sheet of one joint type, drawn on its longest joint."""
    sheet = Sheet(head, side=58.0)
    low, high = _crop(joint, section, schedule)
    size = (high[0] - low[0], high[1] - low[1])
    scale = fitting_scale(DETAIL[head.system], size, sheet.window, LABELS)
    middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
    view = View(right=section.frame.u, up=section.frame.v, scale=scale, middle=middle,
                paper=sheet.window.center)  # fmt: skip
    a, b = view.on_paper(low), view.on_paper(high)
    crop = Rect(x0=a[0], y0=b[1], x1=b[0], y1=a[1])
    placer = Placer(window=sheet.window)
    parts = cropped_parts(section, view, crop)
    draw_parts(sheet.page, placer, parts, crop)
    _draw_foam(sheet, parts, joint, schedule)
    ways = _lay(joint, section, schedule, view, parts)
    for way in ways:
        draw_strip(sheet.page, placer, way, head.system)
    spots = _draw_beads(sheet, view, parts, joint, section, schedule)
    _label_sides(sheet, placer, view, section, parts)
    signed = any(s.joint_id == joint.id and s.signed for s in schedule.sides)
    for way in ways:
        label_strip(sheet.page, placer, way, head.system, signed=signed)
    _label_beads(sheet, placer, spots)
    _label_parts(sheet, placer, parts)
    _label_gap(sheet, placer, view, joint, section)
    write_notes(sheet, joint, kind, schedule)
    draw_scale_bar(sheet, scale)
    return sheet.finish(scale.text, kind.joint_ids)


def _crop(joint: Joint, section: Section, schedule: SealSchedule) -> tuple[Vec2, Vec2]:
    """Return the corners of what the section shows: joint, strips and a margin. [m]"""
    points: list[Vec2] = [(0.0, 0.0)]
    for path in (section.inner, section.outer):
        if path is not None:
            points += [p for p in path.path if max(abs(p[0]), abs(p[1])) <= section.reach]
    for strip in schedule.strips:
        path = section.inner if strip.face == "inner" else section.outer
        if strip.joint_id == joint.id and path is not None:
            points += strip_track(path, max(strip.lap, 0.0))
    for shape in section.shapes:
        if shape.material in {"spline", "gap"} or shape.owner in joint.others:
            points += [p for p in shape.outline if math.hypot(*p) < 0.8 * section.reach]
    reach = section.reach

    def kept(value: float) -> float:
        return min(max(value, -reach), reach)

    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return (
        (kept(min(xs) - AROUND), kept(min(ys) - AROUND)),
        (kept(max(xs) + AROUND), kept(max(ys) + AROUND)),
    )


def _lay(
    joint: Joint, section: Section, schedule: SealSchedule, view: View, parts: Sequence[Part]
) -> list[StripWay]:
    solid = solid_area(parts)
    ways = []
    for strip in schedule.strips:
        path = section.inner if strip.face == "inner" else section.outer
        if strip.joint_id == joint.id and path is not None:
            ways.append(lay_strip(view, strip, path, solid))
    return ways


def _draw_foam(
    sheet: Sheet, parts: Sequence[Part], joint: Joint, schedule: SealSchedule
) -> None:
    if not any(fill.joint_id == joint.id for fill in schedule.fills):
        return
    pen = Pen(width=0.18, color=BLACK)
    solid = shapely.unary_union(
        [p.area for p in parts if p.shape.material in {"spline", "timber"}]
    )
    for part in parts:
        if part.shape.material == "gap":
            area = part.area.difference(solid)
            sheet.page.lines(hatch_lines(area, 0.9, 45.0), pen)
            sheet.page.lines(hatch_lines(area, 0.9, -45.0), pen)


def _beads(joint: Joint, schedule: SealSchedule) -> list[Bead]:
    return [bead for bead in schedule.beads if bead.joint_id == joint.id and bead.count > 0]


def _draw_beads(
    sheet: Sheet, view: View, parts: Sequence[Part], joint: Joint, section: Section,
    schedule: SealSchedule,
) -> list[BeadSpot]:  # fmt: skip
    beads = _beads(joint, schedule)
    center = view.on_paper((0.0, 0.0))
    contacts = find_contacts(parts, view.scale.mm_per_m, center)
    spare = [
        view.on_paper(p)
        for path in (section.inner, section.outer)
        if path is not None
        for p in (path.path[0], path.path[-1])
    ]
    spots = bead_spots(beads, contacts, spare, view.scale.mm_per_m)
    for spot in spots:
        sheet.page.circle(spot.at, spot.radius, THIN.with_width(0.2), BLACK)
        sheet.page.circle(spot.at, 0.22, None, WHITE)
    return spots


def _label_beads(sheet: Sheet, placer: Placer, spots: Sequence[BeadSpot]) -> None:
    for spot in spots:
        x, y = spot.at
        for shift in (-0.5, 0.0, 0.5):
            placer.draw_ink((x - spot.radius, y + shift), (x + spot.radius, y + shift), 4.0)
    named: set[int] = set()
    for spot in spots:
        if spot.group in named:
            continue
        named.add(spot.group)
        placer.place(sheet.page, Label(text=f"B{spot.group + 1}", start=spot.at, end=spot.at,
                                       kind="bead", bold=True, keyed=False))  # fmt: skip


def _label_sides(
    sheet: Sheet, placer: Placer, view: View, section: Section, parts: Sequence[Part]
) -> None:
    """Write "inside" and "outside" off the two faces, well clear of the parts."""
    solid = solid_area(parts).buffer(2.0)
    for word, path in (("inside", section.inner), ("outside", section.outer)):
        if path is None:
            continue
        way = strip_track(path, 0.08)
        a, b = view.on_paper(way[0]), view.on_paper(way[-1])
        lands = [(b[0] - a[0]), (b[1] - a[1])]
        length = math.hypot(*lands)
        if length < 1e-6:
            continue
        middle = view.on_paper(path.path[len(path.path) // 2])
        best = _clear_point(middle, (-lands[1] / length, lands[0] / length), solid)
        placer.place(
            sheet.page,
            Label(text=word.upper(), start=best, end=best, size=2.8, color=GREY, on_point=True,
                  kind="side", keyed=False),
        )  # fmt: skip


def _clear_point(at: Vec2, normal: Vec2, solid: shapely.Geometry) -> Vec2:
    """Return the nearest point off `at` along ±normal that lies clear of the parts."""
    for distance in range(20, 120, 2):
        for sign in (1.0, -1.0):
            p = (at[0] + normal[0] * distance * sign, at[1] + normal[1] * distance * sign)
            line = shapely.LineString([
                (at[0] + normal[0] * 2.5 * sign, at[1] + normal[1] * 2.5 * sign), p])  # fmt: skip
            if solid.intersection(line).length < 1.5 and not solid.contains(shapely.Point(p)):
                return p
    return at


def _label_parts(sheet: Sheet, placer: Placer, parts: Sequence[Part]) -> None:
    done: set[str] = set()
    for part in sorted(parts, key=lambda p: (-p.area.area, p.shape.owner)):
        owner = part.shape.owner
        if owner in done or part.shape.material in {"skin", "gap"}:
            continue
        done.add(owner)
        spot = shapely.maximum_inscribed_circle(_largest(part.area), tolerance=0.3).coords[0]
        inside = part.shape.material in {"core", "concrete", "timber"}
        placer.place(sheet.page, Label(text=owner, start=spot, end=spot, size=SMALL, bold=True,
                                       on_point=inside, kind="part", keyed=False))  # fmt: skip


def _largest(area: shapely.Geometry) -> shapely.Geometry:
    return max(shapely.get_parts(area), key=lambda part: part.area)


def _label_gap(
    sheet: Sheet, placer: Placer, view: View, joint: Joint, section: Section
) -> None:
    """Lead the gap and the steps of the skins to their place in the cut."""
    system = sheet.head.system
    for path, face, word in (
        (section.inner, joint.inner, "inside"),
        (section.outer, joint.outer, "outside"),
    ):
        if path is None or len(path.path) < 2:
            continue
        a, b = (view.on_paper(p) for p in (path.path[0], path.path[-1]))
        at = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        if abs(face.offset) > STEP:
            text = f"step {word} {format_width(abs(face.offset), system)}"
        elif word == "outside" and joint.gap > 1e-4:
            text = f"gap {format_width(joint.gap, system)}"
        else:
            continue
        placer.place(sheet.page, Label(text=text, start=at, end=at, size=SMALL, kind="gap",
                                       keyed=False))  # fmt: skip
