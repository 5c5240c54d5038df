"""What lies over the skins of a panel, and the strip over its joint: heat, vapor and rain.

Every default is an assumption about a plan that does not say what covers its panels; it is stated
wherever a verdict rests on it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal, TypeAlias

from seamwright.moisture.materials import DELTA_AIR

Place: TypeAlias = Literal["wall", "roof", "underside", "lining", "floor", "bare"]

FILMS: Mapping[str, float] = MappingProxyType({"room": 2.5, "outdoors": 20.0})
"""Heat transfer by convection at a face, for its transfer of vapor. [W/(m²·K)] ISO 6946, annex C
(from memory)."""

LEWIS = 7e-9
"""Vapor transfer per heat transfer by convection. [s/m per W/(m²·K)] Lewis relation (from
memory)."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Cover:
    """Layers over a skin taken as thin: heat [m²·K/W], vapor as still air [m], share of the rain
    offered that reaches the skin [-], how much of sun and night sky it feels [-], and how much
    sunlight its color takes up [-].
    """

    name: str
    heat: float
    sd: float
    rain: float = 0.0
    sky: float = 1.0
    absorptance: float = 0.6
    source: str = "common practice, no source"


RAIN_SHARE = 0.01
"""Share of the rain on a wall that gets behind its cladding where nothing better is known. [-]
ASHRAE 160, 4.6 (from memory)."""

CLADDING_SUN, ROOFING_SUN = 0.6, 0.85
"""Absorptance of sunlight, weathered cladding and dark roofing. [-] common practice, no source"""

VENTED_CLADDING = Cover(
    name="cladding on battens, open to outdoor air, over a breather membrane",
    heat=0.09, sd=0.2, sky=0.3, absorptance=CLADDING_SUN,
    source="ISO 6946, 6.9.4: still-air surface behind a well ventilated layer (from memory); "
    "membrane 0.2 m, ISO 10456 (from memory); three tenths of the sun: common practice, no source",
)  # fmt: skip
CLOSED_CLADDING = Cover(
    name="board cladding straight on the membrane", heat=0.10, sd=1.2, absorptance=CLADDING_SUN,
    source="12 mm of wood and a membrane, ISO 10456 (from memory)",
)  # fmt: skip
VENTED_ROOFING = Cover(
    name="roofing on battens, open to outdoor air, over a vapor-open underlay",
    heat=0.09, sd=0.2, sky=0.5, absorptance=ROOFING_SUN,
    source="as vented cladding; half of the sun and sky: common practice, no source",
)  # fmt: skip
CLOSED_ROOFING = Cover(
    name="shingles on an underlay, straight on the skin", heat=0.03, sd=5.0,
    absorptance=ROOFING_SUN,
    source="common practice, no source: between bituminous paper, 2 m (ISO 10456, from memory), "
    "and a roofing membrane, which is tight",
)  # fmt: skip
LINING = Cover(
    name="gypsum board and emulsion paint", heat=0.06, sd=0.2,
    source="12.7 mm at 0.21 W/(m·K) and mu 8, paint 0.1 m, ISO 10456 (from memory)",
)  # fmt: skip
FLOOR_FINISH = Cover(
    name="wood floor", heat=0.10, sd=1.0, source="15 mm of hardwood, ISO 10456 (from memory)"
)
BARE = Cover(name="bare", heat=0.0, sd=0.0)
OPEN_BELOW = Cover(name="bare, in the shade", heat=0.0, sd=0.0, sky=0.0)


@dataclass(frozen=True, kw_only=True, slots=True)
class Covers:
    """What covers the skins, by where they face."""

    wall: Cover = VENTED_CLADDING
    roof: Cover = CLOSED_ROOFING
    underside: Cover = OPEN_BELOW
    lining: Cover = LINING
    floor: Cover = FLOOR_FINISH

    def at(self, place: Place) -> Cover:
        """Return the cover of a place."""
        return {
            "wall": self.wall, "roof": self.roof, "underside": self.underside,
            "lining": self.lining, "floor": self.floor, "bare": BARE,
        }[place]  # fmt: skip

    def sentences(self) -> tuple[str, ...]:
        """Return what is assumed, one sentence for each place, and one on rain."""
        wet = [(where, cover.rain) for where, cover in (("walls", self.wall), ("roofs", self.roof))]
        shares = [f"{share:.1%} of the rain that reaches {where}" for where, share in wet if share]
        rain = f"{' and '.join(shares)} gets behind their covers." if shares else (
            "No rain gets behind the covers."
        )  # fmt: skip
        return (
            f"Walls outside: {_told(self.wall, sunny=True)}.",
            f"Roof outside: {_told(self.roof, sunny=True)}.",
            f"Undersides outdoors: {_told(self.underside)}.",
            f"Walls and ceilings inside: {_told(self.lining)}.",
            f"Floors inside: {_told(self.floor)}.",
            rain,
        )


def _told(cover: Cover, *, sunny: bool = False) -> str:
    """Return a cover in words: its name, what it is worth against vapor, and its color."""
    sun = f", takes up {cover.absorptance:.0%} of the sun" if sunny else ""
    return f"{cover.name} ({cover.sd:.3g} m of still air{sun})" if cover.sd else cover.name


@dataclass(frozen=True, kw_only=True, slots=True)
class Strip:
    """A strip over a joint line: how wide [m], and how it resists vapor, as still air. [m]"""

    width: float
    sd: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Strips:
    """The strips of a joint by face; None where there is none."""

    inner: Strip | None = None
    outer: Strip | None = None

    sources: tuple[str, ...] = field(default=("common practice, no source",))


def vapor_resistance(sd: float, air: Literal["room", "outdoors"]) -> float:
    """Return the vapor resistance of a surface with layers worth `sd` [m]. [m²·s·Pa/kg]"""
    return sd / DELTA_AIR + 1.0 / (LEWIS * FILMS[air])
