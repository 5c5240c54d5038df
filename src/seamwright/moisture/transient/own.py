"""Materials of the user's own: a built-in one with some figures replaced, and its ranges."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from seamwright.moisture.transient.sorption import filled, liquid_of_absorption
from seamwright.moisture.transient.types import Curve, HygroMaterial

SOLID = 2800.0
"""Density of the densest solid that pores stand in. [kg/m³] common practice, no source"""


def reweighed(base: HygroMaterial, density: float) -> HygroMaterial:
    """Return the material at another density [kg/m³], holding the same share of its own mass."""
    ratio = density / base.density
    liquid = base.liquid
    return replace(
        base,
        density=density,
        sorption=replace(base.sorption, y=tuple(ratio * w for w in base.sorption.y)),
        liquid=None if liquid is None else replace(liquid, x=tuple(ratio * w for w in liquid.x)),
    )


def with_sorption(
    base: HygroMaterial, points: Sequence[tuple[float, float]], saturation: float
) -> HygroMaterial:
    """Return the material with a sorption curve of its own.

    `points` are relative humidity between 0 and 1 and water content [kg/m³], rising; `saturation`
    is the water content with the pores full [kg/m³]. A liquid conductivity is carried over by the
    share of saturation.
    """
    sorption = filled([(0.0, 0.0), *points], saturation)
    ratio = saturation / base.sorption.y[-1]
    liquid = base.liquid
    return replace(
        base,
        sorption=sorption,
        liquid=None if liquid is None else replace(liquid, x=tuple(ratio * w for w in liquid.x)),
    )


def with_absorption(base: HygroMaterial, absorption: float) -> HygroMaterial:
    """Return the material with liquid flow by water absorption, none at 0. [kg/(m²·s^0.5)]"""
    liquid = None if absorption == 0.0 else liquid_of_absorption(base.sorption, absorption)
    return replace(base, liquid=liquid)


def faults(material: HygroMaterial) -> tuple[tuple[str, str, str], ...]:
    """Return what cannot be of a material: the group of figures, the fault, what to do.

    Groups are ``sorption`` and ``vapor``; the curves of each must rise or fall as matter does, and
    no pores hold more than there is room for.
    """
    found = []
    water, factor = material.sorption, material.vapor_factor
    if not _rises(water.x) or not _rises(water.y):
        told = "what it holds must rise with humidity, up to saturation"
        found.append(("sorption", told, "check the order of the points and the saturation"))
    if water.y[-1] > 1000.0 * max(1.0 - material.density / SOLID, 0.01):
        told = f"{water.y[-1]:g} kg/m³ when full is more than there is room for"
        found.append(("sorption", told, "check the saturation and its unit"))
    if min(factor.y) < 1.0:
        told = f"a vapor factor of {min(factor.y):.3g} is below that of still air"
        found.append(("vapor", told, "check the permeance, its unit and the thickness"))
    if any(dry < wet for dry, wet in pairwise(factor.y)):
        told = "it resists vapor more when wet than when dry"
        remedy = "check which cup is which, and whether perms or mu are meant"
        found.append(("vapor", told, remedy))
    return tuple(found)


def table_curve(points: Sequence[tuple[float, float]]) -> Curve:
    """Return a curve of vapor factors through points of humidity, in the logarithm between."""
    x, y = zip(*points, strict=True)
    return Curve(x=x, y=y, logarithmic=min(y) > 0.0)


def _rises(values: Sequence[float]) -> bool:
    return all(low < high for low, high in pairwise(values))
