"""Records of the moisture room: materials, layers, sections as plain numbers, and results."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np
import numpy.typing as npt

Floats: TypeAlias = npt.NDArray[np.float64]
Counts: TypeAlias = npt.NDArray[np.int64]
Flags: TypeAlias = npt.NDArray[np.bool_]
Point: TypeAlias = tuple[float, float]
Outline: TypeAlias = tuple[Point, ...]
Flag: TypeAlias = Literal["seen", "from memory", "common practice, no source"]
SideName: TypeAlias = Literal["inside", "outside"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Material:
    """One building material, dry or at the moisture its source states.

    Conductivity [W/(m·K)], density [kg/m³], heat capacity [J/(kg·K)]; `mu_dry` and `mu_wet` are
    vapor resistance factors by the dry and wet cup, None where the source gives none [-]. `source`
    is a key of the register; `flag` says whether the row was seen in print; `mu_flag` the same of
    the vapor resistance, which often comes from another table (`mu_source`).
    """

    id: str
    name: str
    conductivity: float
    density: float
    heat_capacity: float
    mu_dry: float | None
    mu_wet: float | None
    source: str
    flag: Flag
    mu_source: str = ""
    mu_flag: Flag = "from memory"


@dataclass(frozen=True, kw_only=True, slots=True)
class Layer:
    """One layer of a construction, named from inside out.

    Thickness [m], thermal resistance [m²·K/W] and `sd`, the thickness of still air that resists
    vapor as much [m].
    """

    name: str
    thickness: float
    resistance: float
    sd: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Region:
    """One part of a section: its outline [m], conductivity [W/(m·K)] and what it is.

    `material` is a material's id; `owner` says whose part it is, empty for a void. Both are empty
    where only heat is asked for.
    """

    outline: Outline
    conductivity: float
    name: str
    material: str = ""
    owner: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Exposure:
    """A straight stretch of a section's edge that meets air. [m]

    `side` names the air; `resistance` is that of the surface, 0 where the face itself is held
    at the air's temperature. [m²·K/W]
    """

    start: Point
    end: Point
    side: str
    resistance: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Flank:
    """A plane element that runs into a joint: its U-value [W/(m²·K)] and the length counted [m]."""

    name: str
    u_value: float
    length: float


@dataclass(frozen=True, kw_only=True, slots=True)
class PlainSection:
    """A section as plain numbers. Where regions overlap the first counts.

    Edges without exposure are adiabatic.

    `flanks` are what a linear transmittance leaves out. `probes` are named points at which the
    temperature is asked for. [m] `notes` say what had to be assumed.
    """

    regions: tuple[Region, ...]
    exposures: tuple[Exposure, ...]
    flanks: tuple[Flank, ...] = ()
    probes: tuple[tuple[str, Point], ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Grid:
    """Triangles that keep to every outline of a section.

    `points` (n, 2) [m]; `triangles` (m, 3) counter-clockwise; `region` (m,) the index of each
    triangle's region. `borders` (k, 2) are edges that meet air, `exposure` (k,) which of the
    section's. `misfit` is the share of area that fell to a wrong region (0 when every outline is
    kept), `strays` the outline stretches that the triangles cross, `bare` the share of the
    exposures' length that no triangle reaches.
    """

    section: PlainSection
    points: Floats
    triangles: Counts
    region: Counts
    borders: Counts
    exposure: Counts
    misfit: float
    strays: int
    bare: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Field:
    """The steady temperatures of a section between airs.

    `temperature` (n,) at the grid's points [°C]; `flow` per side the heat that enters the section
    from it, per length of joint [W/m]; `imbalance` is the sum of the flows over the largest, 0 in
    the exact solution [-].
    """

    grid: Grid
    airs: Mapping[str, float]
    temperature: Floats
    flow: Mapping[str, float]
    imbalance: float


@dataclass(frozen=True, kw_only=True, slots=True)
class JointHeat:
    """What steady conduction says of one section between room and outdoors.

    Attributes
    ----------
    conductance
        Heat per kelvin and length of joint. [W/(m·K)]
    psi
        Linear thermal transmittance: `conductance` less what the flanks pass. [W/(m·K)]
    factor
        Lowest temperature factor of the inner surfaces, at the surface resistance for mold. [-]
    coldest
        Where that is. [m]
    probes
        Temperature factor at each named point, at the surface resistances for heat. [-]
    change, factor_change
        What the last halving of the grid changed: `conductance` as a share, `factor`. [-]
    imbalance
        Heat in less heat out, over heat in. [-]
    converged
        Whether grid and balance are within the limits; if not, `advice` says what to do.
    """

    conductance: float
    psi: float
    factor: float
    coldest: Point
    probes: tuple[tuple[str, float], ...]
    change: float
    factor_change: float
    imbalance: float
    converged: bool
    advice: str
    field: Field
