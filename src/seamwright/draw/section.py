"""A section of one joint type, true to scale: parts, strips with laps, beads, foam."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TypeAlias

import shapely

from seamwright.draw.beads import BeadSpot, bead_spots, find_contacts
from seamwright.draw.cutparts import Part, cropped_parts, draw_parts, solid_area
from seamwright.draw.hatch import hatch_lines
from seamwright.draw.ink import BLACK, GREY, SMALL, WHITE, Pen
from seamwright.draw.labels import Label
from seamwright.draw.scale import DETAIL, Scale, fitting_scale
from seamwright.draw.sectionnotes import write_notes
from seamwright.draw.sectiontypes import STEP, SectionType
from seamwright.draw.sheet import Head, Sheet, draw_scale_bar
from seamwright.draw.strips import (
    StripWay,
    distinct_strips,
    draw_strip,
    faces_off,
    label_strip,
    lay_track,
    strip_track,
)
from seamwright.draw.types import Drawing, Rect
from seamwright.draw.view import View
from seamwright.geometry.types import Vec2
from seamwright.joints.types import Joint, Section
from seamwright.seals.types import Bead, SealSchedule
from seamwright.units import format_width

Box: TypeAlias = tuple[Vec2, Vec2]
LEVER = 0.08
"""How far along the skins the words inside and outside may look for a clear place. [m]"""
APART = 20.0
"""The words inside and outside stand at least this far apart, or only inside is written. [mm]"""
AROUND = 0.07
"""How much of the parts a section shows beyond strips and joint. [m]"""
LABELS = (50.0, 56.0)
"""Room kept around the cut for its dimensions and labels, both sides together. [mm]"""


def draw_section(
    joint: Joint, section: Section, kind: SectionType, schedule: SealSchedule, head: Head
) -> Drawing:
    """Return the section sheet of one joint type, drawn on its longest joint."""
    sheet = Sheet(head, side=58.0)
    wanted = _wanted(joint, section, schedule)
    size = (wanted[1][0] - wanted[0][0], wanted[1][1] - wanted[0][1])
    scale = fitting_scale(DETAIL[head.system], size, sheet.window, LABELS)
    low, high = _grown(wanted, scale, sheet.window, section)
    middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
    view = View(right=section.frame.u, up=section.frame.v, scale=scale, middle=middle,
                paper=sheet.window.center)  # fmt: skip
    a, b = view.on_paper(low), view.on_paper(high)
    crop = Rect(x0=a[0], y0=b[1], x1=b[0], y1=a[1])
    parts = cropped_parts(section, view, crop)
    draw_parts(sheet, parts, crop, _limit(view, section.reach))
    _draw_foam(sheet, parts, joint, schedule)
    ways = _lay(joint, section, schedule, view, parts)
    for way in ways:
        draw_strip(sheet, way, head.system)
    spots = _draw_beads(sheet, view, parts, section, _beads(joint, schedule))
    _label_sides(sheet, view, section, parts)
    signed = any(s.joint_id == joint.id and s.signed for s in schedule.sides)
    for way in ways:
        label_strip(sheet, way, head.system, signed=signed)
    _label_beads(sheet, spots)
    _label_parts(sheet, parts)
    _label_gap(sheet, view, joint, section)
    write_notes(sheet, joint, kind, schedule, parts)
    sheet.gap()
    draw_scale_bar(sheet, scale)
    return sheet.finish(scale.text, kind.joint_ids)


def _limit(view: View, reach: float) -> Rect:
    """Return on paper how far the section itself reaches. [mm]"""
    low, high = view.on_paper((-reach, -reach)), view.on_paper((reach, reach))
    return Rect(x0=low[0], y0=high[1], x1=high[0], y1=low[1])


def _wanted(joint: Joint, section: Section, schedule: SealSchedule) -> Box:
    """Return the corners of what the section must show: joint and strips, with a margin. [m]"""
    points: list[Vec2] = [(0.0, 0.0)]
    for path in (section.inner, section.outer):
        if path is not None:
            points += [p for p in path.path if max(abs(p[0]), abs(p[1])) <= section.reach]
    for strip, _ in distinct_strips(schedule, joint.id):
        path = section.inner if strip.face == "inner" else section.outer
        if path is not None:
            points += strip_track(path, max(strip.lap, 0.0))
    for shape in section.shapes:
        if shape.material in {"spline", "gap"} or shape.owner in joint.others:
            points += [p for p in shape.outline if math.hypot(*p) < 0.8 * section.reach]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return _within(
        ((min(xs) - AROUND, min(ys) - AROUND), (max(xs) + AROUND, max(ys) + AROUND)), section
    )


def _within(box: Box, section: Section) -> Box:
    """Return the part of a box where the section has anything to show. [m]"""
    points = [p for shape in section.shapes for p in shape.outline]
    points = points or [(-0.1, -0.1), (0.1, 0.1)]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    (x0, y0), (x1, y1) = box
    return (max(x0, min(xs)), max(y0, min(ys))), (min(x1, max(xs)), min(y1, max(ys)))


def _grown(box: Box, scale: Scale, room: Rect, section: Section) -> Box:
    """Return the box grown on all sides as far as the sheet allows at this scale. [m]"""
    (x0, y0), (x1, y1) = box
    wide = max((room.width - LABELS[0]) / scale.mm_per_m - (x1 - x0), 0.0) / 2
    tall = max((room.height - LABELS[1]) / scale.mm_per_m - (y1 - y0), 0.0) / 2
    reach = section.reach

    def kept(value: float) -> float:
        return min(max(value, -reach), reach)

    grown = ((kept(x0 - wide), kept(y0 - tall)), (kept(x1 + wide), kept(y1 + tall)))
    return _within(grown, section)


def _lay(
    joint: Joint, section: Section, schedule: SealSchedule, view: View, parts: Sequence[Part]
) -> list[StripWay]:
    solid = solid_area(parts)
    ways: list[StripWay] = []
    for strip, _ in distinct_strips(schedule, joint.id):
        path = section.inner if strip.face == "inner" else section.outer
        if path is not None:
            layer = sum(1 for w in ways if w.strip is not None and w.strip.face == strip.face)
            ways.append(lay_track(view, path, max(strip.lap, 0.0), solid, strip=strip, layer=layer))
    return ways


def _draw_foam(sheet: Sheet, parts: Sequence[Part], joint: Joint, schedule: SealSchedule) -> None:
    if not any(fill.joint_id == joint.id for fill in schedule.fills):
        return
    pen = Pen(width=0.18, color=BLACK)
    solid = shapely.unary_union([p.area for p in parts if p.shape.material in {"spline", "timber"}])
    for part in parts:
        if part.shape.material == "gap":
            area = part.area.difference(solid)
            sheet.page.lines(hatch_lines(area, 0.9, 45.0), pen)
            sheet.page.lines(hatch_lines(area, 0.9, -45.0), pen)


def _beads(joint: Joint, schedule: SealSchedule) -> list[Bead]:
    return [bead for bead in schedule.beads if bead.joint_id == joint.id and bead.count > 0]


def _draw_beads(
    sheet: Sheet, view: View, parts: Sequence[Part], section: Section, beads: Sequence[Bead]
) -> list[BeadSpot]:
    center = view.on_paper((0.0, 0.0))
    contacts = find_contacts(parts, view.scale.mm_per_m, center)
    spare = [
        view.on_paper(p)
        for path in (section.inner, section.outer)
        if path is not None
        for p in (path.path[0], path.path[-1])
    ]
    solid = solid_area(parts).buffer(2.0)
    spare = [p for p in spare if solid.contains(shapely.Point(p))]
    spots = bead_spots(beads, contacts, spare, view.scale.mm_per_m)
    for spot in spots:
        sheet.page.circle(spot.at, spot.radius, Pen(width=0.25, color=WHITE), BLACK)
    return spots


def _label_beads(sheet: Sheet, spots: Sequence[BeadSpot]) -> None:
    for spot in spots:
        x, y = spot.at
        for shift in (-0.5, 0.0, 0.5):
            sheet.placer.draw_ink((x - spot.radius, y + shift), (x + spot.radius, y + shift), 4.0)
    named: set[int] = set()
    for spot in spots:
        if spot.group in named:
            continue
        named.add(spot.group)
        sheet.label(Label(text=f"B{spot.group + 1}", start=spot.at, end=spot.at,
                                       kind="bead", bold=True, keyed=False))  # fmt: skip


def _label_sides(sheet: Sheet, view: View, section: Section, parts: Sequence[Part]) -> None:
    """Write "inside" and "outside" off the two faces, well clear of the parts."""
    solid = solid_area(parts)
    placed: list[Vec2] = []
    for word, path in (("INSIDE", section.inner), ("OUTSIDE", section.outer)):
        if path is None:
            continue
        spots = faces_off(lay_track(view, path, LEVER, solid))
        at = _clear_point(spots, solid, sheet.window.shrunk(12.0))
        if at is None or any(math.dist(at, other) < APART for other in placed):
            continue
        placed.append(at)
        sheet.label(
            Label(text=sheet.say(word), start=at, end=at, size=2.8, color=GREY, on_point=True,
                  kind="side", keyed=False),
        )  # fmt: skip


def _clear_point(
    spots: Sequence[tuple[Vec2, Vec2]], solid: shapely.Geometry, room: Rect
) -> Vec2 | None:
    """Return the nearest point off one of the spots that lies clear of the parts and in `room`."""
    for distance in range(12, 90, 3):
        for at, out in spots:
            p = (at[0] + out[0] * distance, at[1] + out[1] * distance)
            near = (at[0] + out[0] * 2.0, at[1] + out[1] * 2.0)
            seen = not solid.intersects(shapely.LineString([near, p]))
            if seen and room.holds(p) and solid.distance(shapely.Point(p)) > 7.0:
                return p
    return None


def _label_parts(sheet: Sheet, parts: Sequence[Part]) -> None:
    done: set[str] = set()
    for part in sorted(parts, key=lambda p: (-p.area.area, p.shape.owner)):
        owner = part.shape.owner
        if owner in done or part.shape.material in {"skin", "gap"}:
            continue
        done.add(owner)
        spot = shapely.maximum_inscribed_circle(_largest(part.area), tolerance=0.3).coords[0]
        inside = part.shape.material in {"core", "concrete", "timber"}
        name = sheet.say(owner) if " " in owner else owner
        sheet.label(Label(text=name, start=spot, end=spot, size=SMALL, bold=True,
                                       on_point=inside, kind="part", keyed=False))  # fmt: skip


def _largest(area: shapely.Geometry) -> shapely.Geometry:
    return max(shapely.get_parts(area), key=lambda part: part.area)


def _label_gap(sheet: Sheet, view: View, joint: Joint, section: Section) -> None:
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
        sheet.label(Label(text=sheet.say(text), start=at, end=at, size=SMALL, kind="gap",
                                       led=True, keyed=False))  # fmt: skip
