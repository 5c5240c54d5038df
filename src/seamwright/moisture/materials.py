"""Materials with a source for every row.

Conductivities of foams and boards as seen in the ASHRAE Handbook; rows of EN ISO 10456 are from
memory. Vapor resistance factors are by dry and wet cup. Users' own materials are plain `Material`
records, checked by `checked`.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from seamwright.errors import InputError, Problem
from seamwright.moisture.types import Flag, Material

DELTA_AIR = 2e-10
"""Vapor permeability of still air. [kg/(m·s·Pa)] ISO 13788:2012 (from memory)."""

PERM = 57.2e-12
"""One US perm. [kg/(s·m²·Pa)] 57.2 ng, from memory."""

_ASHRAE = "ashrae-hof-2005-25"
_ISO = "iso-10456"
_ANNEX = "annex-24-data"
_MEMORY: Flag = "from memory"


def _row(  # noqa: PLR0917 a row of a table
    key: str, name: str, k: float, rho: float, c: float, mu: tuple[float, float] | None,
    source: str, flag: Flag, mu_source: str = "", mu_flag: Flag = _MEMORY,
) -> Material:  # fmt: skip
    dry, wet = (None, None) if mu is None else mu
    return Material(
        id=key, name=name, conductivity=k, density=rho, heat_capacity=c, mu_dry=dry, mu_wet=wet,
        source=source, flag=flag, mu_source=mu_source or source, mu_flag=mu_flag,
    )  # fmt: skip


_ALL = (
    _row("osb", "oriented strand board", 0.13, 650, 1700, (50, 30), _ISO, _MEMORY),
    _row("plywood", "plywood", 0.12, 540, 1210, (200, 70), _ASHRAE, "seen", _ISO),
    _row("softwood", "softwood, 450 kg/m³", 0.12, 450, 1600, (50, 20), _ISO, _MEMORY),
    _row("spruce", "spruce", 0.09, 455, 1500, (130, 130), _ANNEX, "seen", mu_flag="seen"),
    _row("eps", "molded polystyrene, 16 kg/m³", 0.037, 16, 1210, (60, 60), _ASHRAE, "seen", _ISO),
    _row("eps24", "molded polystyrene, 24 kg/m³", 0.035, 24, 1210, (60, 60), _ASHRAE, "seen",
         _ISO),
    _row("xps", "extruded polystyrene", 0.029, 29, 1210, (150, 150), _ASHRAE, "seen", _ISO),
    _row("pur", "polyurethane, unfaced", 0.0245, 24, 1590, (60, 60), _ASHRAE, "seen", _ISO),
    _row("gypsum", "gypsum board, 700 kg/m³", 0.21, 700, 1000, (10, 4), _ISO, _MEMORY),
    _row("concrete", "concrete", 1.6, 2300, 850, (180, 180), _ANNEX, "seen", mu_flag="seen"),
    _row("canned_foam", "one-part foam in a joint", 0.035, 25, 1400, (60, 60), _ISO, _MEMORY),
    _row("mineral_wool", "glass fiber", 0.04, 80, 840, (1.25, 1.25), _ANNEX, "seen",
         mu_flag="seen"),
)  # fmt: skip

MATERIALS: Mapping[str, Material] = MappingProxyType({m.id: m for m in _ALL})
"""Materials by id."""

CORES: Mapping[str, str] = MappingProxyType(
    {"EPS": "eps", "XPS": "xps", "PUR": "pur", "PIR": "pur", "PU": "pur"}
)
"""The material of a panel's core by the word of its build."""

FILMS: Mapping[str, float] = MappingProxyType(
    {
        "polyethylene 0.15 mm": 50.0,
        "polyethylene 0.25 mm": 100.0,
        "polyethylene 0.15 mm, stapled": 8.0,
        "polyester film 0.2 mm": 50.0,
        "PVC foil": 30.0,
        "aluminum foil 0.05 mm": 1500.0,
        "aluminum paper 0.4 mm": 10.0,
        "breather membrane": 0.2,
        "bituminous paper 0.1 mm": 2.0,
        "emulsion paint": 0.1,
        "gloss paint": 3.0,
        "vinyl wallpaper": 2.0,
    }
)
"""Thickness of still air that resists vapor as much as the film does. [m] EN ISO 10456:2007,
table 5 (from memory)."""


def checked(material: Material) -> Material:
    """Return the material when its figures are within what materials can be.

    Raises
    ------
    InputError
        With every figure that cannot be: conductivity outside 0.005 to 500 W/(m·K), density
        outside 1 to 12,000 kg/m³, heat capacity outside 100 to 5,000 J/(kg·K), or a vapor
        resistance factor below that of still air, which is 1.
    """
    rows = (
        ("conductivity", material.conductivity, 0.005, 500.0, "W/(m·K)"),
        ("density", material.density, 1.0, 12_000.0, "kg/m³"),
        ("heat capacity", material.heat_capacity, 100.0, 5_000.0, "J/(kg·K)"),
        ("dry-cup vapor resistance factor", material.mu_dry, 1.0, 1e7, "times still air"),
        ("wet-cup vapor resistance factor", material.mu_wet, 1.0, 1e7, "times still air"),
    )
    problems = [
        Problem(
            subject=material.id,
            sentence=f"material {material.id}: {what} {value:g} {unit} is outside {low:g} to "
            f"{high:g}",
            remedy="check the unit on the data sheet",
        )
        for what, value, low, high, unit in rows
        if value is not None and not low <= value <= high
    ]
    if problems:
        raise InputError(problems)
    return material


def sd_of_permeance(perms: float) -> float:
    """Return the equivalent air layer of a film of so many US perms. [m]

    >>> round(sd_of_permeance(1.0), 2)
    3.5
    """
    return DELTA_AIR / (perms * PERM)
