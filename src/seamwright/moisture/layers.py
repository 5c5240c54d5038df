"""Layered constructions after ISO 6946: resistances of surfaces and layers, U-value, temperatures.

Layers run from inside out. Air layers follow a simple sum of radiation and the larger of conduction
and convection.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Literal, TypeAlias

import numpy as np

from seamwright.errors import InputError, Problem
from seamwright.moisture.types import Floats, Layer, Material

HeatWay: TypeAlias = Literal["up", "level", "down"]

RSI: Mapping[HeatWay, float] = MappingProxyType({"up": 0.10, "level": 0.13, "down": 0.17})
"""Resistance of an inner surface by the way the heat goes. [m²·K/W] ISO 6946:2017, table 7 (0.13
and 0.17 seen second-hand, 0.10 from memory)."""

RSE = 0.04
"""Resistance of an outer surface in wind. [m²·K/W] ISO 6946:2017, table 7 (seen second-hand)."""

RSI_MOLD = 0.25
"""Resistance of an inner surface in a corner or behind furniture, for the risk of mold. [m²·K/W]
ISO 13788:2012 (from memory)."""

_STEFAN = 5.670374e-8


def heat_way(upward: float) -> HeatWay:
    """Return which way heat goes through a surface.

    `upward` is the rise of the way from warm to cold, as the sine of its angle to the level:
    within 30° it counts as level, as ISO 6946 has it. [-]
    """
    if abs(upward) <= 0.5 + 1e-9:
        return "level"
    return "up" if upward > 0 else "down"


def layer_of(material: Material, thickness: float, *, wet: bool = False) -> Layer:
    """Return a layer of a material. [m] Vapor resistance by the dry cup, or the `wet` one.

    Raises
    ------
    InputError
        When the thickness is not above zero or the material has no vapor resistance factor.
    """
    mu = material.mu_wet if wet else material.mu_dry
    if not thickness > 0.0:
        raise InputError([_problem(material, f"thickness {thickness:g} m is not above zero",
                                   "give a thickness")])  # fmt: skip
    if mu is None:
        raise InputError([_problem(material, "has no vapor resistance factor",
                                   "add mu from its data sheet")])  # fmt: skip
    return Layer(
        name=material.name,
        thickness=thickness,
        resistance=thickness / material.conductivity,
        sd=mu * thickness,
    )


def film_of(name: str, sd: float) -> Layer:
    """Return a film that stops vapor but no heat; `sd` in metres of still air. [m]"""
    return Layer(name=name, thickness=0.0, resistance=0.0, sd=sd)


def resistance(layers: Sequence[Layer], rsi: float, rse: float = RSE) -> float:
    """Return the thermal resistance from air to air. [m²·K/W] Source: ISO 6946, 6.7.1.1."""
    return rsi + math.fsum(layer.resistance for layer in layers) + rse


def u_value(layers: Sequence[Layer], rsi: float = RSI["level"], rse: float = RSE) -> float:
    """Return the thermal transmittance of plane layers. [W/(m²·K)] Source: ISO 6946.

    >>> osb = Layer(name="OSB", thickness=0.013, resistance=0.1, sd=0.65)
    >>> round(u_value([osb, Layer(name="EPS", thickness=0.111, resistance=3.0, sd=6.7), osb]), 4)
    0.2967
    """
    return 1.0 / resistance(layers, rsi, rse)


def temperatures(
    layers: Sequence[Layer], inside: float, outside: float, rsi: float, rse: float = RSE
) -> Floats:
    """Return the temperatures from the inner surface over every interface to the outer. [°C]

    (n + 1,) for n layers.
    """
    steps = np.cumsum([rsi, *(layer.resistance for layer in layers)])
    return np.asarray(inside + (outside - inside) * steps / (steps[-1] + rse))


def cavity_conductivity(width: float, mean: float = 10.0, emissivity: float = 0.9) -> float:
    """Return the conductivity that stands for an air layer of this width across the heat. [W/(m·K)]

    Valid while the layer is closed and at most some 0.3 m wide. Source: ISO 6946:2017, annex D,
    level heat: the larger of 1.25 W/(m²·K) and 0.025/d, with radiation between two grey plates
    (from memory).
    """
    convection = max(1.25, 0.025 / width)
    radiation = 4 * _STEFAN * (mean + 273.15) ** 3 / (2 / emissivity - 1)
    return width * (convection + radiation)


def _problem(material: Material, what: str, remedy: str) -> Problem:
    return Problem(subject=material.id, sentence=f"material {material.id}: {what}", remedy=remedy)
