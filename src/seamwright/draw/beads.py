"""Where beads lie in a section: on the lines where its parts touch.

The schedule says how many beads and on what; the section knows which parts touch where. Words of
the schedule ("skin", "core", "timber", "deck" ...) pick the touching pairs, and beads of one group
are spread over those, one each before any gets two. The approved detail of the job governs.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import shapely

from seamwright.draw.cutparts import Part
from seamwright.geometry.types import Vec2
from seamwright.seals.types import Bead

TOUCH = 0.005
"""Parts nearer than this touch; wider than the gap of a seam, thinner than a skin. [m]"""
FRACTIONS = (0.5, 0.25, 0.75, 0.12, 0.88, 0.37, 0.63)
WORDS: dict[str, tuple[str, ...]] = {
    "skin": ("skin",),
    "core": ("core",),
    "foam": ("core",),
    "spline": ("spline",),
    "flange": ("timber",),
    "web": ("timber", "core"),
    "beam": ("timber",),
    "timber": ("timber",),
    "plies": ("timber",),
    "plate": ("timber", "skin"),
    "sill": ("concrete", "deck", "timber"),
    "deck": ("deck",),
    "bevel": ("core", "skin", "gap"),
    "edge": ("core", "gap"),
    "wall face": ("skin",),
}


@dataclass(frozen=True, kw_only=True, slots=True)
class Contact:
    """A line where two parts touch. [mm]"""

    line: shapely.LineString
    materials: frozenset[str]
    owners: frozenset[str]


@dataclass(frozen=True, kw_only=True, slots=True)
class BeadSpot:
    """A bead on paper, and which group of the schedule it belongs to (from 0)."""

    at: Vec2
    radius: float
    group: int


def find_contacts(parts: Sequence[Part], mm_per_m: float, near: Vec2) -> list[Contact]:
    """Return the lines where parts of different owners touch, nearest to `near` first."""
    reach = TOUCH * mm_per_m
    found: list[Contact] = []
    for a, b in itertools.combinations(parts, 2):
        same = a.shape.owner == b.shape.owner
        if same and not (a.shape.material == b.shape.material == "timber"):
            continue
        tight = reach if "gap" not in {a.shape.material, b.shape.material} else 0.3
        for first, second in ((a, b), (b, a)):
            shared = first.area.boundary.intersection(second.area.buffer(tight, join_style="mitre"))
            lines = [g for g in shapely.get_parts(shapely.line_merge(shared))
                     if g.geom_type == "LineString" and g.length > 2.0]  # fmt: skip
            if lines:
                break
        found += [
            Contact(
                line=line,
                materials=frozenset({a.shape.material, b.shape.material}),
                owners=frozenset({a.shape.owner, b.shape.owner}),
            )
            for line in lines
        ]
    spot = shapely.Point(near)
    found.sort(key=lambda c: (round(c.line.distance(spot), 1), -round(c.line.length, 1),
                              c.line.coords[0]))  # fmt: skip
    return found


def bead_spots(
    beads: Sequence[Bead], contacts: Sequence[Contact], spare: Sequence[Vec2], mm_per_m: float
) -> list[BeadSpot]:
    """Return a place for every bead of a joint; `spare` points serve where nothing touches."""
    taken: list[tuple[Vec2, float]] = []
    found: list[BeadSpot] = []
    for group, bead in enumerate(beads):
        size = 0.009 if bead.diameter is None else bead.diameter
        radius = max(size / 2 * mm_per_m, 0.7)
        fitting = _fitting(bead.place, contacts)
        rest = [contact for contact in contacts if contact not in fitting]
        places = [*_places(fitting), *_places(rest), *spare]
        for _ in range(bead.count):
            at = next((p for p in places if _is_free(p, radius, taken)), None)
            if at is None:
                break
            taken.append((at, radius))
            found.append(BeadSpot(at=at, radius=radius, group=group))
    return found


def _fitting(place: str, contacts: Sequence[Contact]) -> list[Contact]:
    """Return the contacts that match most words of the place."""
    wanted = {m for word, materials in WORDS.items() if word in place.lower() for m in materials}
    if not wanted:
        return list(contacts)
    scored = [(len(wanted & contact.materials), contact) for contact in contacts]
    best = max((score for score, _ in scored), default=0)
    return [contact for score, contact in scored if score == best]


def _places(contacts: Sequence[Contact]) -> list[Vec2]:
    places: list[Vec2] = []
    for fraction in FRACTIONS:
        for contact in contacts:
            spot = contact.line.interpolate(fraction, normalized=True)
            places.append((float(spot.x), float(spot.y)))
    return places


def _is_free(at: Vec2, radius: float, taken: Sequence[tuple[Vec2, float]]) -> bool:
    return all(math.dist(at, other) > radius + r + 0.2 for other, r in taken)
