"""Materials of a transient run, with a source for every figure.

A row's `flag` is that of its weakest figure that decides a result (sorption or vapor factor); the
`note` says which figures were seen in print and which were not. Curves stand at 20 °C; there is no
hysteresis. Sealants, butyl and the like are `sealant`, which next to nothing passes.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType

from seamwright.moisture.layers import cavity_conductivity
from seamwright.moisture.transient.sorption import (
    filled,
    liquid_of_absorption,
    liquid_of_diffusivity,
    wood_sorption,
)
from seamwright.moisture.transient.types import Curve, HygroMaterial
from seamwright.moisture.types import Flag

DRY_CUP = 0.25
"""Mean relative humidity of the dry cup, 0 to 50 %. [-] ISO 12572, set A (from memory)."""

WET_CUP = 0.75
"""Mean relative humidity of the wet cup, 50 to 100 %; ISO 12572 sets 93 %. [-] (from memory)."""

AIR_GAP = 0.003
"""Width of the air layer that stands for an open gap in a joint. [m] common practice, no source"""

_MEMORY: Flag = "from memory"
_SEEN: Flag = "seen"
_ISO = "iso-10456"
_ASHRAE = "ashrae-hof-2005-25"
_ANNEX = "annex-24-data"
_WOOD = "wood-handbook"
_TASK_3 = "iea-annex-24-task-3"
_KUENZEL = "kuenzel-1995"


def cup_curve(dry: float, wet: float) -> Curve:
    """Return the vapor resistance factor over humidity from dry and wet cup. [-]

    Constant up to the mean humidity of the dry cup, then falling evenly in its logarithm through
    the wet cup to saturation. Source: the reading of cups at their mean humidities is that of
    ISO 10456 (from memory); going on to saturation is common practice, no source.
    """
    rate = math.log(wet / dry) / (WET_CUP - DRY_CUP)
    end = max(1.0, wet * math.exp(rate * (1.0 - WET_CUP)))
    return Curve(x=(0.0, DRY_CUP, WET_CUP, 1.0), y=(dry, dry, wet, end), logarithmic=True)


def constant(value: float) -> Curve:
    """Return a curve over humidity that has one value."""
    return Curve(x=(0.0, 1.0), y=(value, value))


def air_layer(width: float = AIR_GAP, *, id: str = "air") -> HygroMaterial:  # noqa: A002 the record's own word
    """Return still air in a gap of this width [m], heat crossing it level.

    Holds the vapor of its own volume and, at saturation, a film of condensate on both walls
    of 0.1 mm (common practice, no source), so that water that condenses there stays there.
    """
    film = 2 * 1e-4 / width * 1000.0
    return HygroMaterial(
        id=id, name=f"still air, {width * 1000:g} mm", density=1.2, heat_capacity=1006.0,
        conductivity=cavity_conductivity(width), conductivity_rise=0.0,
        sorption=Curve(x=(0.0, 0.995, 1.0), y=(0.0, 0.0172, film)),
        vapor_factor=constant(1.0), liquid=None, source=("iso-6946",), flag=_MEMORY,
        note="conductivity by ISO 6946, annex D; vapor of its volume at 20 °C; film of condensate "
        "on the walls: common practice, no source",
    )  # fmt: skip


def _osb(key: str, name: str, cups: tuple[float, float], source: str, note: str) -> HygroMaterial:
    sorption = wood_sorption(650.0, 515.0, ((0.30, 0.05), (0.65, 0.10), (0.85, 0.15)))
    return HygroMaterial(
        id=key, name=name, density=650.0, heat_capacity=1700.0, conductivity=0.13,
        conductivity_rise=3.0e-4, sorption=sorption, vapor_factor=cup_curve(*cups),
        liquid=liquid_of_absorption(sorption, 0.002),
        source=("osb-industry-sheet", source, _ISO, _KUENZEL, _ANNEX), flag=_MEMORY,
        note="sorption through 5, 10 and 15 % at 30, 65 and 85 % (seen, industry sheet), beyond as "
        f"solid wood; {note}; saturation at nine tenths of the pores; liquid from a water "
        "absorption of 0.002 kg/(m²·s^0.5); conductivity, density and heat capacity ISO 10456 "
        "(from memory), rise with moisture that of plywood (seen)",
    )  # fmt: skip


def _softwood() -> HygroMaterial:
    sorption = wood_sorption(450.0, 600.0)
    return HygroMaterial(
        id="softwood", name="softwood, 450 kg/m³", density=450.0, heat_capacity=1600.0,
        conductivity=0.12, conductivity_rise=4.06e-4, sorption=sorption,
        vapor_factor=cup_curve(50.0, 20.0),
        liquid=liquid_of_diffusivity(sorption, _SPRUCE_LIQUID),
        source=(_WOOD, _ISO, _ANNEX), flag=_MEMORY,
        note="sorption by the Wood Handbook (seen); cups 50 and 20 by ISO 10456 (from memory), "
        "dense or dry lumber may resist ten times as much; rise of conductivity by the Wood "
        "Handbook (from memory); saturation and liquid diffusivity of spruce across the grain "
        "(seen)",
    )  # fmt: skip


_SPRUCE_LIQUID = ((0.0, 0.0), (20.0, 3.2e-13), (600.0, 9.2e-12))


def _spruce() -> HygroMaterial:
    tested = ((0.0, 0.0), (0.205, 25.935), (0.4465, 44.363), (0.653, 61.994), (0.83, 87.133),
              (0.9525, 119.665))  # fmt: skip
    sorption = filled(tested, 600.0)
    return HygroMaterial(
        id="spruce", name="spruce", density=455.0, heat_capacity=1500.0, conductivity=0.09,
        conductivity_rise=2.58e-4, sorption=sorption, vapor_factor=constant(130.0),
        liquid=liquid_of_diffusivity(sorption, _SPRUCE_LIQUID),
        source=(_ANNEX,), flag=_SEEN,
        note="all seen; one vapor factor for all humidities, so drying of wet wood is understated; "
        "how the pores fill above 95 % is from memory",
    )  # fmt: skip


def _plywood() -> HygroMaterial:
    tested = ((0.30, 0.06), (0.65, 0.11), (0.80, 0.15), (0.90, 0.19))
    sorption = wood_sorption(530.0, 500.0, tested)
    return HygroMaterial(
        id="plywood", name="plywood", density=530.0, heat_capacity=1880.0, conductivity=0.10,
        conductivity_rise=3.0e-4, sorption=sorption,
        vapor_factor=Curve(x=(0.0, 0.5, 1.0), y=(700.0, 200.0, 20.0), logarithmic=True),
        liquid=liquid_of_absorption(sorption, 0.003),
        source=(_ANNEX, _WOOD, _KUENZEL), flag=_MEMORY,
        note="vapor factors, conductivity, density, heat capacity and pores seen; sorption 6, "
        "11, 15 and 19 % at 30, 65, 80 and 90 % of the Wood Handbook's table of panels (from "
        "memory); liquid from a water absorption of 0.003 kg/(m²·s^0.5) (from memory)",
    )  # fmt: skip


def _foam(  # noqa: PLR0917 a row of a table
    key: str, name: str, base: tuple[float, float, float], mu: float, soaked: float,
    rise: float, source: str,
) -> HygroMaterial:  # fmt: skip
    conductivity, density, heat_capacity = base
    sorption = filled(
        ((0.0, 0.0), (0.5, 0.05 * density**0.5), (0.8, 0.10 * density**0.5),
         (0.95, 0.20 * density**0.5), (0.995, 0.25 * density**0.5)), soaked,
    )  # fmt: skip
    return HygroMaterial(
        id=key, name=name, density=density, heat_capacity=heat_capacity, conductivity=conductivity,
        conductivity_rise=rise, sorption=sorption, vapor_factor=constant(mu), liquid=None,
        source=(source, _ISO), flag=_MEMORY,
        note="conductivity, density and heat capacity seen unless the name says in a joint; vapor "
        "factor and rise of conductivity ISO 10456 (from memory); the little it holds below "
        f"saturation is common practice, no source (ISO 10456 has 0); {soaked:g} kg/m³ when "
        "soaked (from memory); no liquid flow: closed cells",
    )  # fmt: skip


def _gypsum() -> HygroMaterial:
    sorption = filled(
        ((0.0, 0.0), (0.113, 0.85), (0.328, 2.55), (0.432, 3.825), (0.576, 5.1), (0.786, 8.075),
         (0.843, 9.35), (0.936, 16.15), (0.973, 23.375)), 400.0,
    )  # fmt: skip
    moved = ((0.0, 0.0), (60.0, 3e-9), (100.0, 1e-7), (160.0, 1e-7), (240.0, 1.2e-7),
             (320.0, 2.2e-7), (360.0, 6e-7), (380.0, 9e-7), (400.0, 4.5e-7))  # fmt: skip
    return HygroMaterial(
        id="gypsum", name="gypsum board, 850 kg/m³", density=850.0, heat_capacity=850.0,
        conductivity=0.20, conductivity_rise=1.88e-3, sorption=sorption,
        vapor_factor=constant(8.3), liquid=liquid_of_diffusivity(sorption, moved),
        source=(_ANNEX,), flag=_SEEN,
        note="all seen; how the pores fill above 97 % is from memory",
    )  # fmt: skip


def _concrete() -> HygroMaterial:
    tested = ((0.0, 0.0), (0.25, 20.7), (0.447, 26.8), (0.648, 40.0), (0.798, 59.0), (0.896, 75.9),
              (0.978, 93.5))  # fmt: skip
    sorption = filled(tested, 150.0)
    return HygroMaterial(
        id="concrete", name="concrete", density=2200.0, heat_capacity=840.0, conductivity=1.16,
        conductivity_rise=0.0165, sorption=sorption,
        vapor_factor=Curve(
            x=(0.25, 0.50, 0.75, 0.95), y=(156.0, 141.0, 79.0, 31.0), logarithmic=True
        ),
        liquid=liquid_of_absorption(sorption, 0.01),
        source=(_TASK_3, _KUENZEL), flag=_SEEN,
        note="density, heat capacity, conductivity dry and at 4 %, sorption, saturation and vapor "
        "permeability at four humidities seen; water absorption 0.01 kg/(m²·s^0.5) and how the "
        "pores fill above 98 % are from memory",
    )  # fmt: skip


def _mineral_wool() -> HygroMaterial:
    sorption = filled(((0.0, 0.0), (0.5, 0.25), (0.8, 0.5), (0.95, 1.0), (0.995, 1.2)), 100.0)
    return HygroMaterial(
        id="mineral_wool", name="glass fiber", density=80.0, heat_capacity=840.0,
        conductivity=0.04, conductivity_rise=1.6e-4, sorption=sorption,
        vapor_factor=constant(1.25), liquid=None, source=(_ANNEX, _ISO), flag=_MEMORY,
        note="conductivity, density, heat capacity and vapor factor seen; what it holds is from "
        "memory; no liquid flow: water does not wick in treated fiber",
    )  # fmt: skip


def _sealant() -> HygroMaterial:
    return HygroMaterial(
        id="sealant", name="bead of sealant", density=1450.0, heat_capacity=1000.0,
        conductivity=0.35, conductivity_rise=0.0,
        sorption=Curve(x=(0.0, 1.0), y=(0.0, 5.0)), vapor_factor=constant(5000.0), liquid=None,
        source=(_ISO,), flag=_MEMORY,
        note="silicone of ISO 10456 (from memory); what it holds is common practice, no source",
    )  # fmt: skip


def _all() -> tuple[HygroMaterial, ...]:
    return (
        _osb("osb", "oriented strand board", (454.0, 159.0), "building-science-osb",
             "cups of 0.7 and 2 perm at 11 mm, boards of North America (from memory)"),
        _osb("osb_iso", "oriented strand board, cups of ISO 10456", (50.0, 30.0), _ISO,
             "cups 50 and 30 of ISO 10456 (from memory), on the open side of what boards do"),
        _plywood(), _softwood(), _spruce(),
        _foam("eps", "molded polystyrene, 16 kg/m³", (0.037, 16.0, 1210.0), 60.0, 50.0, 1.5e-4,
              _ASHRAE),
        _foam("xps", "extruded polystyrene", (0.029, 29.0, 1210.0), 150.0, 10.0, 7e-5, _ASHRAE),
        _foam("pur", "polyurethane, unfaced", (0.0245, 24.0, 1590.0), 60.0, 30.0, 1.5e-4, _ASHRAE),
        _foam("canned_foam", "one-part foam in a joint", (0.035, 25.0, 1400.0), 60.0, 60.0, 2e-4,
              _ISO),
        _gypsum(), _concrete(), _mineral_wool(), air_layer(), _sealant(),
    )  # fmt: skip


HYGRO: Mapping[str, HygroMaterial] = MappingProxyType({m.id: m for m in _all()})
"""Materials by id."""
