"""The body of an element as triangles in metres, whatever way the model describes it."""

from __future__ import annotations

import numpy as np

from seamwright.io.ifc.types import Body, Entity, Floats

_CURVED = (
    "IfcCircle",
    "IfcEllipse",
    "IfcTrimmedCurve",
    "IfcIndexedPolyCurve",
    "IfcBSplineCurve",
    "IfcRevolvedAreaSolid",
)


class Bodies:
    """Asks the geometry kernel for bodies, once per element. `scale` corrects a missing unit."""

    def __init__(self, ifc: Entity, *, scale: float = 1.0) -> None:
        self._ifc = ifc
        self._scale = scale
        self._kept: dict[int, Body | None] = {}
        self._settings = ifc.geom.settings()
        self._settings.set("disable-opening-subtractions", True)
        self._shift = np.zeros(3)

    def rescale(self, scale: float) -> None:
        """Set the length of one model unit where the model names none. [m]"""
        self._scale = scale
        self._kept.clear()

    def shift(self, by: Floats) -> None:
        """Take `by` off every point from now on. [m]"""
        self._shift = by
        self._kept.clear()

    def of(self, element: Entity) -> Body | None:
        """Return the body of `element` with holes not cut, or None when it has no usable one."""
        key = int(element.id())
        if key not in self._kept:
            self._kept[key] = self._made(element)
        return self._kept[key]

    def _made(self, element: Entity) -> Body | None:
        if getattr(element, "Representation", None) is None:
            return None
        try:
            shape = self._ifc.geom.create_shape(self._settings, element)
        except (RuntimeError, ValueError, AttributeError):
            return None
        local = np.array(shape.geometry.verts, dtype=float).reshape(-1, 3)
        triangles = np.array(shape.geometry.faces, dtype=np.int64).reshape(-1, 3)
        placement = np.array(shape.transformation.matrix, dtype=float).reshape(4, 4).T.copy()
        if not len(triangles) or not np.isfinite(local).all() or not np.isfinite(placement).all():
            return None
        placement[:3, 3] = placement[:3, 3] * self._scale - self._shift
        points = local * self._scale @ placement[:3, :3].T + placement[:3, 3]
        return Body(points=points, triangles=triangles, placement=placement)


def has_curves(model: Entity, element: Entity) -> bool:
    """Return whether the element's shape is described with arcs or other curves."""
    if element.Representation is None:
        return False
    parts = model.traverse(element.Representation)
    for part in parts:
        if part.is_a("IfcIndexedPolyCurve"):
            segments = part.Segments
            if segments is not None and any(s.is_a("IfcArcIndex") for s in segments):
                return True
        elif any(part.is_a(name) for name in _CURVED) or part.is_a("IfcCircleProfileDef"):
            return True
    return False


def merged(bodies: list[Body]) -> Body:
    """Return several bodies as one; the placement is that of the first."""
    offsets = np.cumsum([0] + [len(body.points) for body in bodies[:-1]])
    return Body(
        points=np.vstack([body.points for body in bodies]),
        triangles=np.vstack(
            [body.triangles + offset for body, offset in zip(bodies, offsets, strict=True)]
        ),
        placement=bodies[0].placement,
    )
