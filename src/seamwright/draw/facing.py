"""Walls by the direction they face: one elevation per direction, none hiding another."""

from __future__ import annotations

import math
from dataclasses import dataclass

import shapely
from shapely.geometry import Polygon

from seamwright.draw.hatch import as_area
from seamwright.draw.solids import corners, face, is_upright
from seamwright.draw.storeys import WALLS
from seamwright.draw.view import UP, Axes
from seamwright.geometry.types import Vec3, cross, dot
from seamwright.shell.types import Panel, Shell

COMPASS = ("north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west")
SAME_WAY = math.radians(1.0)
FLAT = 1e-3
"""A roof whose normal leans less than this lies flat and has no eave to turn to. [-]"""
HIDES = 0.02
"""Area by which one wall may cover another in a view before it gets a view of its own. [m²]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Facade:
    """Panels that face one way: the sheet's name, a title, the view's axes, walls or a roof."""

    name: str
    title: str
    axes: Axes
    panels: tuple[Panel, ...]
    of_roof: bool = False


def find_facades(shell: Shell) -> tuple[Facade, ...]:
    """Return one facade per outward direction, from south around by east; hidden walls apart.

    A plane that a nearer one covers in the view (a courtyard) goes to a further sheet.
    """
    walls = [p for p in shell.panels if p.role in WALLS and p.role != "partition"]
    groups: list[tuple[float, list[Panel]]] = []
    for panel in sorted((w for w in walls if is_upright(w)), key=lambda p: p.id):
        azimuth = _azimuth(panel.frame.n)
        for known, members in groups:
            if abs(math.remainder(azimuth - known, 2 * math.pi)) < SAME_WAY:
                members.append(panel)
                break
        else:
            groups.append((azimuth, [panel]))
    groups.sort(key=lambda item: math.fmod(math.pi - item[0] + 4 * math.pi + 1e-6, 2 * math.pi))
    found = []
    for azimuth, members in groups:
        axes = _axes(azimuth)
        layers = _layers(members, axes)
        for index, layer in enumerate(layers, start=1):
            word = _name(azimuth)
            name = f"elevation-{word}" if index == 1 else f"elevation-{word}-{index}"
            way = f"bearing {word}°" if word.isdigit() else word
            title = f"Elevation, facing {way}" + (f", part {index}" if len(layers) > 1 else "")
            found.append(Facade(name=name, title=title, axes=axes, panels=tuple(layer)))
    return tuple(found)


def find_roof_planes(shell: Shell) -> tuple[Facade, ...]:
    """Return one view per roof plane, square on it, eave below and slope upward."""
    planes: dict[str, list[Panel]] = {}
    for panel in shell.panels:
        if panel.role == "roof":
            planes.setdefault(panel.plane_id, []).append(panel)
    found = []
    for plane_id, panels in planes.items():
        n = panels[0].frame.n
        level = math.hypot(n[0], n[1])
        right = (-n[1] / level, n[0] / level, 0.0) if level > FLAT else panels[0].frame.u
        found.append(
            Facade(
                name=f"roof-plane-{plane_id}",
                title=f"Roof plane {plane_id}, square on",
                axes=Axes(right=right, up=cross(n, right)),
                panels=tuple(panels),
                of_roof=True,
            )
        )
    return tuple(found)


def _azimuth(n: Vec3) -> float:
    """Return the compass bearing of a normal, clockwise from north. [rad]"""
    return math.atan2(n[0], n[1])


def _axes(azimuth: float) -> Axes:
    look = (-math.sin(azimuth), -math.cos(azimuth), 0.0)
    right = cross(look, UP)
    return Axes(right=(_clean(right[0]), _clean(right[1]), 0.0), up=UP)


def _clean(value: float) -> float:
    whole = round(value)
    return float(whole) if abs(value - whole) < 1e-12 else value


def _name(azimuth: float) -> str:
    degrees = math.degrees(azimuth) % 360.0
    eighth = round(degrees / 45.0) % 8
    if abs(math.remainder(degrees - 45.0 * eighth, 360.0)) < 1.0:
        return COMPASS[eighth]
    return f"{round(degrees) % 360:03d}"


def _layers(panels: list[Panel], axes: Axes) -> list[list[Panel]]:
    """Split panels into layers whose planes do not cover one another, nearest first."""
    toward = cross(axes.right, axes.up)
    planes: dict[str, list[Panel]] = {}
    for panel in panels:
        planes.setdefault(panel.plane_id, []).append(panel)
    ordered = sorted(
        planes.values(), key=lambda ps: (-max(dot(c, toward) for c in corners(ps[0])), ps[0].id)
    )
    layers: list[tuple[list[Panel], shapely.Geometry]] = []
    for group in ordered:
        seen = shapely.unary_union([_flat(p, axes) for p in group])
        for index, (members, taken) in enumerate(layers):
            if taken.intersection(seen).area < HIDES:
                layers[index] = ([*members, *group], taken.union(seen))
                break
        else:
            layers.append((list(group), seen))
    return [members for members, _ in layers]


def _flat(panel: Panel, axes: Axes) -> Polygon:
    return as_area(tuple(axes.flat(c) for c in face(panel, outer=True)))
