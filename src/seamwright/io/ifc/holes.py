"""Openings and services: the voids of panels, and pipes and ducts that cross them."""

from __future__ import annotations

import math
from typing import TypeAlias

import numpy as np
import shapely

from seamwright.io.ifc.layers import exact
from seamwright.io.ifc.notches import in_axes_of, lies_within, notched, stands_between
from seamwright.io.ifc.notes import plain
from seamwright.io.ifc.place import Placed
from seamwright.io.ifc.source import Source
from seamwright.io.ifc.timbers import fit_stick
from seamwright.io.ifc.types import Entity, Floats
from seamwright.shell.plan import OpeningSpec, PenetrationSpec
from seamwright.shell.types import OpeningKind, PenetrationKind

_SERVICE_WORDS: tuple[tuple[str, PenetrationKind], ...] = (
    ("flue", "flue"),
    ("chimney", "flue"),
    ("duct", "duct"),
    ("chase", "chase"),
    ("conduit", "pipe"),
    ("cable", "pipe"),
    ("pipe", "pipe"),
    ("vent", "duct"),
    ("box", "box"),
    ("service", "pipe"),
)


_Plane: TypeAlias = tuple[str, list[Placed]]
"""The name openings are placed by, and the panels they may cut; the first gives the axes."""


class Holes:
    """Gathers openings and penetrations of one model; `panels` are the panels they have cut."""

    def __init__(self, source: Source, placed: list[Placed]) -> None:
        self._bodies, self._names = source.bodies, source.names
        self._defaults, self._notes = source.defaults, source.notes
        self.openings: list[OpeningSpec] = []
        self.penetrations: list[PenetrationSpec] = []
        self.ids: list[tuple[str, str]] = []
        self.panels = {item.panel.id: item.panel for item in placed}
        self._filled: set[int] = set()

    def take_voids(self, owner: Entity, hosts: list[Placed]) -> None:
        """Take every void of `owner`, whose panels are `hosts` (one, or its parts)."""
        for relation in getattr(owner, "HasOpenings", None) or ():
            void = relation.RelatedOpeningElement
            fillings = [r.RelatedBuildingElement for r in getattr(void, "HasFillings", None) or ()]
            self._filled.update(int(f.id()) for f in fillings)
            fill = fillings[0] if fillings else None
            body = self._bodies.of(void)
            if body is None:
                self._notes.leave("The hole has no usable body", void)
                continue
            plane = _plane_of(hosts, body.points)
            if plane is None:
                self._notes.leave("The hole lies outside its panel", void)
                continue
            self._take(void, fill, plane, body.points)

    def take_drawn(self, placed: Placed) -> None:
        """Take holes that are cut in the body itself and told by no opening element."""
        known = [(float(s.along), float(s.up)) for s in self.openings if s.host == placed.panel.id]
        for hole in placed.piece.plate.holes:
            flat = placed.local(hole)[:, :2]
            low = flat.min(axis=0)
            if any(math.dist(low, at) < 0.05 for at in known):
                continue
            self._notes.guess(
                "A hole drawn in the body without an opening element was taken as an opening",
                placed.piece.element,
            )
            plane = (placed.panel.id, [placed])
            self._take(placed.piece.element, None, plane, hole, drawn=True)

    def take_service(self, element: Entity, hosts: list[Placed]) -> None:
        """Take a pipe, duct or chimney where it passes through a panel; tell fills and the rest."""
        if int(element.id()) in self._filled:
            return
        if element.is_a("IfcWindow") or element.is_a("IfcDoor"):
            self._notes.leave("It fills no opening of a panel", element)
            return
        body = self._bodies.of(element)
        stick = fit_stick(body) if body is not None else None
        if body is None or stick is None:
            self._notes.leave("It is no straight pipe or duct", element)
            return
        axis = (stick.end - stick.start) / np.linalg.norm(stick.end - stick.start)
        middle = (body.points.max(axis=0) + body.points.min(axis=0)) / 2
        half = float(np.linalg.norm(stick.end - stick.start)) / 2
        ends = np.vstack([middle - half * axis, middle + half * axis])
        crossed = [host for host in hosts if self._crosses(element, host, ends, stick)]
        if not crossed:
            self._notes.leave("It passes through no panel", element)

    def _crosses(self, element: Entity, host: Placed, ends: Floats, stick: Entity) -> bool:
        a, b = host.local(ends)
        if min(a[2], b[2]) > 1e-3 or max(a[2], b[2]) < host.piece.plate.thickness - 1e-3:
            return False
        at = a + (b - a) * (-a[2] / (b[2] - a[2]))
        ring = [(float(u), float(v)) for u, v in host.panel.outline]
        if not shapely.contains_xy(shapely.Polygon(ring), at[0], at[1]):
            return False
        is_round = stick.fullness < 0.9 and abs(stick.width - stick.depth) < 0.02 * stick.width
        size = (stick.width, stick.depth)
        self._add_service(element, host.panel.id, at, size, is_round=is_round)
        self._notes.use("Taken as a service passing through a panel", element)
        return True

    def _take(
        self, void: Entity, fill: Entity, plane: _Plane, points: Floats, *, drawn: bool = False
    ) -> None:  # fmt: skip
        name, host = plane[0], plane[1][0]
        local = host.local(points)
        low, high = local.min(axis=0), local.max(axis=0)
        thick = host.piece.plate.thickness
        if not drawn and (low[2] > 1e-3 or high[2] < thick - 1e-3):
            self._notes.leave("The hole does not go through its panel", void)
            return
        size = high[:2] - low[:2]
        shape = shapely.MultiPoint(local[:, :2]).convex_hull
        share = shape.area / float(size[0] * size[1]) if size.min() > 1e-6 else 0.0
        service = _service(void, fill)
        small = max(size) <= float(self._defaults.most_service)
        windowlike = fill is not None and (fill.is_a("IfcWindow") or fill.is_a("IfcDoor"))
        if not windowlike and (service is not None or small):
            is_round = 0.7 < share < 0.9 and abs(size[0] - size[1]) < 0.03 * size[0]
            if service is None:
                self._notes.guess("A small hole that nothing fills was taken as a service", void)
            center, across = (low[:2] + high[:2]) / 2, tuple(size)
            if is_round:
                center = np.array([shape.centroid.x, shape.centroid.y])
                across = (2 * float(np.linalg.norm(local[:, :2] - center, axis=1).max()),)
            self._add_service(void, name, center, across, is_round=is_round)
            return
        if share < 0.98:
            self._notes.guess("Its outline was taken as the rectangle around it", void)
        self._add_opening(void, fill, host, plane=plane, low=low, high=high)

    def _add_opening(
        self, void: Entity, fill: Entity, host: Placed, *, plane: _Plane, low: Floats, high: Floats
    ) -> None:  # fmt: skip
        name, panels = plane
        if len(panels) == 1:
            low, high = np.maximum(low[:2], 0.0), np.minimum(high[:2], (host.width, host.height))
        if min(high[:2] - low[:2]) < 0.01:
            self._notes.leave("The hole lies outside its panel", void)
            return
        if not lies_within(self.panels[host.panel.id], low[:2], high[:2]):
            self._notch(void, host, panels, low[:2], high[:2])
        kind, told = _opening_kind(fill, host, low, high)
        if not told:
            self._notes.guess(
                f"A hole that nothing fills was taken as an opening for a {kind}", void
            )
        source = fill if fill is not None else void
        spec = OpeningSpec(
            id=self._names.of(source, kind.capitalize()),
            kind=kind,
            host=name,
            along=exact(low[0]),
            up=exact(low[1]),
            width=exact(high[0]) - exact(low[0]),
            height=exact(high[1]) - exact(low[1]),
        )
        self.openings.append(spec)
        self.ids.append((spec.id, plain(source.GlobalId)))
        self._notes.use(f"Taken as an opening ({kind})", source)

    def _notch(
        self, void: Entity, host: Placed, panels: list[Placed], low: Floats, high: Floats
    ) -> None:  # fmt: skip
        for item in panels:
            rect = in_axes_of(host, item, low, high)
            cut = notched(self.panels[item.panel.id], *rect)
            if cut is None:
                self._notes.guess(
                    f"The opening would cut panel {item.panel.id} in two or through a beveled "
                    "edge; the panel was left whole",
                    void,
                )
            else:
                self.panels[item.panel.id] = cut

    def _add_service(
        self, element: Entity, name: str, at: Floats, size: tuple[float, ...], *, is_round: bool
    ) -> None:  # fmt: skip
        kind = _service(element, None)
        if kind is None:
            kind = "pipe" if is_round else "duct"
        spec = PenetrationSpec(
            id=self._names.of(element, kind.capitalize()),
            kind=kind,
            host=name,
            along=exact(at[0]),
            up=exact(at[1]),
            diameter=exact(max(size)) if is_round else None,
            width=None if is_round else exact(size[0]),
            height=None if is_round else exact(size[1]),
        )
        self.penetrations.append(spec)
        self.ids.append((spec.id, plain(element.GlobalId)))


def _plane_of(hosts: list[Placed], points: Floats) -> _Plane | None:
    """Return the one panel a void lies in, by its own name, or its plane with all its panels.

    The void may stand free between the panels of a plane, where panels end at the opening's
    sides. None when it passes by all of them.
    """
    crossed = []
    for host in hosts:
        local = host.local(points)
        low, high = local.min(axis=0), local.max(axis=0)
        if len(hosts) == 1 or lies_within(host.panel, low[:2], high[:2]):
            return host.panel.id, [host]
        size = np.array([host.width, host.height, host.piece.plate.thickness])
        if (high > 1e-3).all() and (low < size - 1e-3).all():
            crossed.append(host)
    crossed = crossed or [host for host in hosts if stands_between(host, hosts, points)][:1]
    if not crossed:
        return None
    plane = crossed[0].panel.plane
    panels = [host for host in hosts if host.panel.plane == plane]
    return (str(plane) if len(panels) > 1 else panels[0].panel.id), panels


def _service(void: Entity, fill: Entity) -> PenetrationKind | None:
    """Return the kind of service that a name, type or class tells, None when none does."""
    sources = [item for item in (void, fill) if item is not None]
    words = " ".join(
        plain(getattr(item, name, None)).lower()
        for item in sources
        for name in ("Name", "ObjectType", "Description")
    )
    words += " " + " ".join(item.is_a().lower() for item in sources)
    return next((kind for word, kind in _SERVICE_WORDS if word in words), None)


def _opening_kind(
    fill: Entity, host: Placed, low: Floats, high: Floats
) -> tuple[OpeningKind, bool]:  # fmt: skip
    role = host.panel.role
    if role == "floor":
        return "hatch", fill is not None
    if fill is not None and fill.is_a("IfcDoor"):
        return "door", True
    if fill is not None and fill.is_a("IfcWindow"):
        return ("skylight" if role == "roof" else "window"), True
    if role == "roof":
        return "skylight", False
    tall = high[1] - low[1] > 1.8 and low[1] < 0.05
    return ("door" if tall else "window"), False
