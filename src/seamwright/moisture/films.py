"""Strips and films: perms, permeance and sd, and the classes of vapor retarders of US codes.

One US perm is 57.2e-12 kg/(s·m²·Pa); sd is the still air that resists as much.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal, TypeAlias

from seamwright.errors import InputError, Problem
from seamwright.moisture.materials import DELTA_AIR, FILMS, PERM, sd_of_permeance
from seamwright.moisture.types import Flag

RetarderClass: TypeAlias = Literal["I", "II", "III", "open"]

_BOUNDS: tuple[tuple[RetarderClass, float], ...] = (("I", 0.1), ("II", 1.0), ("III", 10.0))


@dataclass(frozen=True, kw_only=True, slots=True)
class StripKind:
    """A sort of strip and the range of its permeance; `perms` is what a run takes. [US perm]"""

    name: str
    low: float
    high: float
    perms: float
    source: str
    flag: Flag

    @property
    def sd(self) -> float:
        """Still air that resists as much. [m]"""
        return sd_of_permeance(self.perms)


def _strip(name: str, low: float, high: float, perms: float) -> StripKind:
    return StripKind(
        name=name,
        low=low,
        high=high,
        perms=perms,
        source="common practice, no source",
        flag="common practice, no source",
    )


STRIPS: Mapping[str, StripKind] = MappingProxyType(
    {
        "butyl": _strip("butyl strip", 0.01, 0.3, 0.1),
        "bitumen": _strip("bitumen strip", 0.01, 0.3, 0.1),
        "foil": _strip("foil-faced strip", 0.001, 0.1, 0.02),
        "acrylic": _strip("acrylic strip on a film", 0.1, 2.0, 0.5),
        "open_acrylic": _strip("vapor-open acrylic strip", 5.0, 30.0, 10.0),
    }
)
"""Sorts of strip. Ranges are common practice, no source; a data sheet outranks them."""


@dataclass(frozen=True, kw_only=True, slots=True)
class RetarderRule:
    """What the residential code asks of the inner face of a framed wall in one climate zone.

    `required` and `barred` are classes; `insulated` is the continuous insulation outside 2x4 and
    2x6 framing with which class III serves, None where it always does. [m²·K/W]
    """

    zone: str
    required: tuple[RetarderClass, ...]
    barred: tuple[RetarderClass, ...]
    insulated: tuple[float, float] | None


_R_US = 0.176110
"""One h·ft²·°F/Btu. [m²·K/W]"""


def _row(
    zone: str, required: str, barred: str, insulated: tuple[float, float] | None
) -> RetarderRule:
    words: dict[str, tuple[RetarderClass, ...]] = {
        "": (), "I": ("I",), "I, II": ("I", "II")
    }  # fmt: skip
    si = None if insulated is None else (insulated[0] * _R_US, insulated[1] * _R_US)
    return RetarderRule(zone=zone, required=words[required], barred=words[barred], insulated=si)


_RULES: tuple[RetarderRule, ...] = (
    _row("1", "", "I, II", None),
    _row("2", "", "I, II", None),
    _row("3", "", "I", None),
    _row("4", "", "", None),
    _row("4C", "I, II", "", (2.5, 3.75)),
    _row("5", "I, II", "", (5.0, 7.5)),
    _row("6", "I, II", "", (7.5, 11.25)),
    _row("7", "I, II", "", (10.0, 15.0)),
    _row("8", "I, II", "", (12.5, 20.0)),
)

RETARDER_RULES: Mapping[str, RetarderRule] = MappingProxyType({r.zone: r for r in _RULES})
"""Inner vapor retarders by climate zone: IRC 2021, R702.7 (seen in summaries, which differ on what
is barred: check the edition adopted). Framed walls with cavities; panels have none."""


def retarder_class(perms: float) -> RetarderClass:
    """Return the class of a film by its permeance: I to 0.1 US perm, II to 1, III to 10.

    Source: IRC 2021, R702.7 (seen).

    >>> retarder_class(0.7), retarder_class(14.0)
    ('II', 'open')
    """
    return next((name for name, most in _BOUNDS if perms <= most), "open")


def retarder_rule(zone: str) -> RetarderRule | None:
    """Return the rule for a climate zone such as ``5A`` or ``4C``; None for one it has no row for.

    Zone 0 is not in the table: what holds for zone 1 is the nearest.
    """
    name = zone.strip().upper()
    exact = RETARDER_RULES.get(name)
    return exact if exact is not None else RETARDER_RULES.get(name[:1])


def permeance_of_perms(perms: float) -> float:
    """Return the permeance of so many US perms. [kg/(s·m²·Pa)]"""
    return perms * PERM


def perms_of_sd(sd: float) -> float:
    """Return the permeance in US perms of a film that resists like `sd` of still air [m].

    >>> round(perms_of_sd(3.5), 2)
    1.0
    """
    return DELTA_AIR / (_positive(sd, "sd", "m") * PERM)


def resistance_of_sd(sd: float) -> float:
    """Return the resistance to vapor of `sd` of still air [m]. [m²·s·Pa/kg]"""
    return sd / DELTA_AIR


def sd_of_permeance_si(permeance: float) -> float:
    """Return the still air that resists like a film of this permeance [kg/(s·m²·Pa)]. [m]"""
    return DELTA_AIR / _positive(permeance, "permeance", "kg/(s·m²·Pa)")


def sd_of_films(name: str) -> float:
    """Return the still air that resists like a film of the table of ISO 10456. [m]

    Raises
    ------
    InputError
        When the table has no such film; the message lists those it has.
    """
    found = FILMS.get(name)
    if found is None:
        told = f"there is no film called ‘{name[:40]}’"
        known = ", ".join(FILMS)
        raise InputError([Problem(subject="film", sentence=told, remedy=f"known films: {known}")])
    return found


def _positive(value: float, what: str, unit: str) -> float:
    if value > 0.0:
        return value
    told = f"{what} {value:g} {unit} is not above zero"
    raise InputError([Problem(subject=what, sentence=told, remedy="check the data sheet")])


@dataclass(frozen=True, kw_only=True, slots=True)
class Film:
    """A film or strip of the user's own: still air that resists as much [m], and its source."""

    id: str
    name: str
    sd: float
    source: str

    @property
    def perms(self) -> float:
        """Permeance. [US perm]"""
        return perms_of_sd(self.sd)

    @property
    def retarder(self) -> RetarderClass:
        """Class of vapor retarder."""
        return retarder_class(self.perms)


def strip_cautions(face: Literal["inner", "outer"], perms: float, zone: str) -> tuple[str, ...]:
    """Return what a designer should weigh about a strip of this permeance on a face, if anything.

    Sentences with their source in brackets. `zone` is a climate zone such as ``4C``; `perms` in US
    perm. A strip covers a tenth of a skin, so the code's rules for whole walls are told, not
    enforced.
    """
    found = []
    rule, kind = retarder_rule(zone), retarder_class(perms)
    if face == "inner" and rule is not None and kind in rule.barred:
        found.append(
            f"A strip of {perms:g} perm is class {kind}, which the code bars as inner retarder of "
            f"framed walls in zone {zone}: humid air from outdoors must be able to dry inward (IRC "
            "2021 R702.7; summaries differ on what is barred)."
        )
    cold = rule is not None and rule.required != ()
    if face == "outer" and cold and kind in {"I", "II"}:
        found.append(
            f"A strip of {perms:g} perm on the outer face closes the line where most water arrives "
            f"in zone {zone}; a vapor-open one, above 5 perm, lets the skin dry (common practice, "
            "no source)."
        )
    return tuple(found)
