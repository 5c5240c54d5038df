"""Records of a transient run: materials as curves, the mesh, what drives it, and what comes out."""

from __future__ import annotations

from dataclasses import dataclass, field

from seamwright.moisture.types import Counts, Flag, Floats

FILM = 0.1
"""Water that stands on an open face before it runs. [kg/m²] A tenth of a millimetre, as on the
walls of a gap (`materials.air_layer`): common practice, no source."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Curve:
    """A function given by points: `x` rises strictly; between points it is monotone.

    `logarithmic` interpolates the logarithm of `y`. Outside the points the end value holds.
    """

    x: tuple[float, ...]
    y: tuple[float, ...]
    logarithmic: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class HygroMaterial:
    """A material as a transient run needs it.

    Attributes
    ----------
    density, heat_capacity, conductivity
        Dry. [kg/m³], [J/(kg·K)], [W/(m·K)]
    conductivity_rise
        Rise of the conductivity with water content. [W·m²/(K·kg)]
    sorption
        Relative humidity [-] → water content [kg/m³], from (0, 0) to (1, saturation), rising.
    vapor_factor
        Relative humidity [-] → vapor resistance factor. [-]
    liquid
        Water content [kg/m³] → liquid conductivity, for the gradient of suction [s]; None where
        the material moves no liquid.
    source, flag
        Keys of the register, most important first; whether the figures were seen in print.
    """

    id: str
    name: str
    density: float
    heat_capacity: float
    conductivity: float
    conductivity_rise: float
    sorption: Curve
    vapor_factor: Curve
    liquid: Curve | None
    source: tuple[str, ...]
    flag: Flag
    note: str = ""


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Mesh:
    """Control volumes of a section, n of them, and what joins them.

    Attributes
    ----------
    points
        Where each volume's state is held (n, 2). [m]
    part_cell, part_material, part_area
        What the volumes are made of (p,): volume, material, area of it in the volume [m²]. A volume
        on the border of two materials has a part of each; all its parts share one temperature and
        one relative humidity.
    link_a, link_b, link_material, link_ratio
        Ways through a material between two volumes (m,): width over distance. [-]
    rim_cell, rim_air, rim_length, rim_heat, rim_vapor
        Where a volume meets air (k,): which air, how long [m], resistance to heat of film and
        covers [m²·K/W] and to vapor of film, strip and covers [m²·s·Pa/kg].
    rim_rain
        Share of each rim's rain that gets behind the covers to the volume. [-]
    rim_film
        Water that stands on each rim's face before the rest runs off, infinite where none can run.
        [kg/m²] None is `FILM` where rain gets, and infinite elsewhere.
    """

    points: Floats
    part_cell: Counts
    part_material: Counts
    part_area: Floats
    link_a: Counts
    link_b: Counts
    link_material: Counts
    link_ratio: Floats
    rim_cell: Counts
    rim_air: Counts
    rim_length: Floats
    rim_heat: Floats
    rim_vapor: Floats
    rim_rain: Floats
    rim_film: Floats | None = None


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class AirWay:
    """A way that leaking air takes: from air `first` along `cells` to air `last`.

    `contact` is the heat conductance between the moving air and the walls at each cell, per metre
    of joint [W/(m·K)]; vapor follows by the Lewis relation. Infinite contact is local equilibrium.
    `flow` is dry air per metre of joint for every hour, negative from last to first. [kg/(s·m)]
    """

    first: int
    last: int
    cells: Counts
    contact: Floats
    flow: Floats


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Drive:
    """What drives a run hour by hour, (hours, airs) each; air 0 is the room, air 1 outdoors.

    `temperature` is that of the air that leaks [°C]; `face` the one that a rim feels, with sun and
    sky in it [°C]; `vapor` the vapor pressure [Pa]; `rain` the water offered to a rim
    [kg/(m²·s)]. Entry k holds over hour k.
    """

    temperature: Floats
    face: Floats
    vapor: Floats
    rain: Floats


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Probe:
    """A place to watch: the mean over some parts (indices of a mesh's parts), by area."""

    name: str
    parts: Counts


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Case:
    """One run to do. `temperature` and `humidity` (n,) are the start. [°C], [-]"""

    mesh: Mesh
    materials: tuple[HygroMaterial, ...]
    drive: Drive
    ways: tuple[AirWay, ...] = ()
    temperature: Floats
    humidity: Floats
    probes: tuple[Probe, ...] = ()
    pressure: float = 101325.0


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Settings:
    """How finely to solve. `step` in seconds divides an hour; `tolerance` is that of the iteration,
    as a share of what moves in a step; steps that do not settle are halved down to `least_step`.
    What an iteration leaves over is carried into the next step, so a loose one loses nothing.

    `order` 1 is implicit Euler; 2 takes two stages a step, whose error falls with the square of
    the step, and falls back to Euler in steps in which free water dries up. With it a tolerance of
    3e-3 is enough for half-hour steps (measured). The defaults are common practice, no source.
    """

    step: float = 3600.0
    tolerance: float = 1e-6
    least_step: float = 3600.0 / 256.0
    most_iterations: int = 30
    order: int = 1


@dataclass(frozen=True, kw_only=True, slots=True)
class Balance:
    """What went in and out and stayed, per metre of joint: heat [J/m] and water [kg/m].

    `heat_error`, `water_error` are what is missing, over what passed through. [-] `ran_off` is the
    rain that found no room, and the dew that ran down. [kg/m]
    """

    heat_in: float
    heat_out: float
    heat_stored: float
    heat_error: float
    water_in: float
    water_out: float
    water_stored: float
    water_error: float
    ran_off: float = 0.0


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Run:
    """What a case did. `temperature` [°C], `humidity` [-] and `water` [kg/kg dry] of each probe at
    the end of each hour, (hours, probes). `end_temperature`, `end_humidity` (n,) are the last
    state. When `converged` is False the figures must not be used: `advice` says what to do.
    """

    temperature: Floats
    humidity: Floats
    water: Floats
    end_temperature: Floats
    end_humidity: Floats
    balance: Balance
    steps: int
    converged: bool
    advice: str = ""
    worst: dict[str, float] = field(default_factory=dict)
