"""A mesh along a line: layers one behind another, with air at both ends."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from seamwright.moisture.transient.types import Mesh
from seamwright.moisture.types import Floats

SEALED = float("inf")
"""Resistance of an end that nothing passes."""


def line_mesh(
    points: Floats,
    material: Sequence[int],
    *,
    heat: tuple[float, float] = (SEALED, SEALED),
    vapor: tuple[float, float] = (SEALED, SEALED),
    rain: tuple[float, float] = (0.0, 0.0),
    film: tuple[float, float] | None = None,
) -> Mesh:
    """Return a strip one metre wide along a line, with a volume around each point.

    Parameters
    ----------
    points
        Rising places along the line (n,). [m]
    material
        Index of the material of each of the n - 1 stretches between points.
    heat, vapor, rain, film
        Resistances, share of rain and film of the two ends: the first meets air 0, the last air 1.
        [m²·K/W], [m²·s·Pa/kg], [-], [kg/m²] No film given: as `Mesh.rim_film` has it.
    """
    n = len(points)
    step = np.diff(points)
    kinds = np.asarray(material, dtype=np.int64)
    cell = np.repeat(np.arange(n - 1), 2) + np.tile([0, 1], n - 1)
    return Mesh(
        points=np.column_stack([points, np.zeros(n)]),
        part_cell=cell,
        part_material=np.repeat(kinds, 2),
        part_area=np.repeat(step / 2.0, 2),
        link_a=np.arange(n - 1),
        link_b=np.arange(1, n),
        link_material=kinds,
        link_ratio=1.0 / step,
        rim_cell=np.array([0, n - 1]),
        rim_air=np.array([0, 1]),
        rim_length=np.ones(2),
        rim_heat=np.array(heat),
        rim_vapor=np.array(vapor),
        rim_rain=np.array(rain),
        rim_film=None if film is None else np.array(film),
    )
