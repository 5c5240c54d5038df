"""The options of ``seamwright dryness``, and what is asked from what they say."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from types import MappingProxyType
from typing import Annotated, Literal, TypeAlias, get_args

import typer

from seamwright.errors import InputError, Problem
from seamwright.io.explain import nearest
from seamwright.io.materials_file import OwnMaterials, read_materials
from seamwright.joints.types import JointKind
from seamwright.moisture.covers import (
    CLOSED_CLADDING,
    CLOSED_ROOFING,
    LINING,
    VENTED_CLADDING,
    VENTED_ROOFING,
    Cover,
    Covers,
)
from seamwright.moisture.materials import sd_of_permeance
from seamwright.report.dryness_types import Asked
from seamwright.shell.types import Shell

FaceOf: TypeAlias = Literal["inner", "outer", "both"]

WeatherFile: TypeAlias = Annotated[
    Path | None,
    typer.Option("--weather", metavar="FILE", show_default=False,
                 help="A year of weather (TMY3, EPW or hourly CSV); default: the plan's, else one "
                 "generated from the nearest station."),
]  # fmt: skip
ColdWinter: TypeAlias = Annotated[
    bool,
    typer.Option("--cold-winter", help="Generate a winter as cold as comes one year in six."),
]
Rooms: TypeAlias = Annotated[
    str, typer.Option("--rooms", metavar="RULE",
                      help="Air of the rooms: en 15026 normal, en 15026 high, ashrae 160, "
                      "iso 13788 class 1 to 5, fixed.")
]  # fmt: skip
RoomHumidity: TypeAlias = Annotated[
    float | None,
    typer.Option("--room-humidity", min=0.0, max=100.0, show_default=False,
                 help="Relative humidity with --rooms fixed, in percent."),
]  # fmt: skip
RoomTemperature: TypeAlias = Annotated[
    float | None,
    typer.Option("--room-temperature", show_default=False, help="With --rooms fixed, in °C."),
]
Kinds: TypeAlias = Annotated[
    list[str] | None,
    typer.Option("--joint", metavar="KIND", show_default=False,
                 help="Only this kind of joint, such as ridge; may be given more than once."),
]  # fmt: skip
InnerPerms: TypeAlias = Annotated[
    float | None,
    typer.Option("--inner-perms", metavar="PERMS", min=1e-3, max=1e3, show_default=False,
                 help="Vapor permeance of the strip on the inner face, in US perms by its data "
                 "sheet; default: 20 m of still air."),
]  # fmt: skip
OuterPerms: TypeAlias = Annotated[
    float | None,
    typer.Option("--outer-perms", metavar="PERMS", min=1e-3, max=1e3, show_default=False,
                 help="The same on the outer face; default: 5 m of still air."),
]  # fmt: skip
NeutralLevel: TypeAlias = Annotated[
    float,
    typer.Option("--neutral-level", metavar="SHARE", min=0.0, max=1.0,
                 help="Where no stack pressure stands, over the height of the house: a leaky roof "
                 "lifts it."),
]  # fmt: skip
WallCover: TypeAlias = Annotated[
    str, typer.Option("--wall-cover", metavar="COVER",
                      help="What covers walls outside: vented (on battens), closed, or what it is "
                      "worth against vapor, such as '5 perms' or '0.7 m'.")
]  # fmt: skip
RoofCover: TypeAlias = Annotated[
    str, typer.Option("--roof-cover", metavar="COVER", help="The same for roofs.")
]
Lining: TypeAlias = Annotated[
    str, typer.Option("--lining", metavar="COVER",
                      help="What lines walls and ceilings inside: painted (gypsum board), bare, or "
                      "what it is worth against vapor.")
]  # fmt: skip
WallSun: TypeAlias = Annotated[
    float | None,
    typer.Option("--wall-sun", metavar="SHARE", min=0.0, max=1.0, show_default=False,
                 help="How much sunlight the color of walls takes up; default: 0.6, weathered "
                 "wood. White about 0.3, dark 0.9."),
]  # fmt: skip
RoofSun: TypeAlias = Annotated[
    float | None,
    typer.Option("--roof-sun", metavar="SHARE", min=0.0, max=1.0, show_default=False,
                 help="The same of roofs; default: 0.85, dark shingles."),
]  # fmt: skip
RainShare: TypeAlias = Annotated[
    float,
    typer.Option("--rain-share", metavar="PERCENT", min=0.0, max=10.0,
                 help="How much of the rain on a wall gets behind its cladding; ASHRAE 160 takes "
                 "1."),
]  # fmt: skip
RoofRainShare: TypeAlias = Annotated[
    float,
    typer.Option("--roof-rain-share", metavar="PERCENT", min=0.0, max=10.0,
                 help="The same of a roof and its roofing, which should leak nothing."),
]  # fmt: skip
LooksTo: TypeAlias = Annotated[
    Literal["shaded", "real"],
    typer.Option("--facing", help="Every face away from the midday sun, or joints told apart by "
                 "the way they look (up to eight times the runs)."),
]  # fmt: skip
MaterialsFile: TypeAlias = Annotated[
    Path | None,
    typer.Option("--materials", metavar="FILE", show_default=False,
                 help="Your own boards, foams, strips and covers, from their data sheets; each "
                 "says under use: where it is."),
]  # fmt: skip
CacheFolder: TypeAlias = Annotated[
    Path | None,
    typer.Option("--cache", metavar="DIR", show_default=False,
                 help="Where answers are kept; default: the user's cache folder."),
]  # fmt: skip

_SHAPES: Mapping[str, tuple[Mapping[str, Cover], Cover]] = MappingProxyType(
    {
        "wall": ({"vented": VENTED_CLADDING, "closed": CLOSED_CLADDING}, VENTED_CLADDING),
        "roof": ({"vented": VENTED_ROOFING, "closed": CLOSED_ROOFING}, CLOSED_ROOFING),
        "lining": ({"painted": LINING, "bare": replace(LINING, name="bare panels", heat=0.0,
                                                       sd=0.0)}, LINING),
    }
)  # fmt: skip
_OPTIONS = {"wall": "--wall-cover", "roof": "--roof-cover", "lining": "--lining"}


@dataclass(frozen=True, kw_only=True, slots=True)
class Said:
    """What was said of strips, covers and materials."""

    inner_perms: float | None = None
    outer_perms: float | None = None
    wall: str = "vented"
    roof: str = "closed"
    lining: str = "painted"
    wall_sun: float | None = None
    roof_sun: float | None = None
    rain_share: float = 0.0
    roof_rain_share: float = 0.0
    materials: Path | None = None


def covered(asked: Asked, said: Said) -> Asked:
    """Return what is asked with the strips, covers and materials that were stated; an option
    outranks the materials file.

    Raises
    ------
    InputError
        With every word that cannot be used, and the lines of the file.
    """
    own = None if said.materials is None else read_materials(said.materials)
    if own is not None:
        asked = _with_file(asked, own, said.materials)
    if said.inner_perms is not None:
        asked = replace(asked, inner_sd=sd_of_permeance(said.inner_perms))
    if said.outer_perms is not None:
        asked = replace(asked, outer_sd=sd_of_permeance(said.outer_perms))
    covers = asked.covers
    wall = _cover("wall", said.wall, covers.wall)
    roof = _cover("roof", said.roof, covers.roof)
    return replace(
        asked,
        covers=replace(
            covers,
            wall=_under_sky(wall, said.wall_sun, said.rain_share),
            roof=_under_sky(roof, said.roof_sun, said.roof_rain_share),
            lining=_cover("lining", said.lining, covers.lining),
        ),
    )


def refuse_unknown_panels(asked: Asked, shell: Shell) -> None:
    """Raise InputError where materials of the user's own are for panel types that are not there."""
    known = {build.id for build in shell.builds}
    problems = [
        Problem(
            subject="--materials",
            sentence=f"{own.material.id} is for {own.where}, and the plan has no such panel type",
            remedy=f"its panel types are {', '.join(sorted(known))}",
        )
        for own in asked.parts
        if own.build and own.build not in known
    ]
    if problems:
        raise InputError(problems)


def kinds_of(given: list[str] | None) -> tuple[str, ...]:
    """Return the kinds of joint that words name.

    Raises
    ------
    InputError
        For a word that is no kind.
    """
    known = get_args(JointKind)
    found = []
    for word in given if given is not None else []:
        kind = word.strip().lower().replace(" ", "_").replace("-", "_")
        if kind not in known:
            told = f"there is no kind of joint called ‘{word[:30]}’"
            raise InputError([Problem(subject="--joint", sentence=told,
                                      remedy=nearest(kind, list(known)))])  # fmt: skip
        found.append(kind)
    return tuple(dict.fromkeys(found))


def _under_sky(cover: Cover, sun: float | None, rain: float) -> Cover:
    """Return a cover with the color and the share of rain [%] that were stated."""
    return replace(
        cover,
        absorptance=cover.absorptance if sun is None else sun,
        rain=rain / 100.0 if rain > 0.0 else cover.rain,
    )


def _cover(place: str, word: str, given: Cover) -> Cover:
    """Return the cover that a word means: one by name, or the usual one with its own sd."""
    known, usual = _SHAPES[place]
    plain = word.strip().lower()
    if plain in known:
        return given if known[plain] is usual else known[plain]
    number, _, unit = plain.partition(" ")
    try:
        value = float(number)
    except ValueError:
        value = -1.0
    if unit.strip() in {"perm", "perms"} and value > 0.0:
        sd = sd_of_permeance(value)
    elif unit.strip() == "m" and 0.0 <= value <= 1e4:
        sd = value
    else:
        words = ", ".join((*known, "5 perms", "0.7 m"))
        told = f"‘{word[:30]}’ is no cover"
        raise InputError([Problem(subject=_OPTIONS[place], sentence=f"{_OPTIONS[place]} {told}",
                                  remedy=f"take one of: {words}")])  # fmt: skip
    return replace(given, name=f"{given.name}, as stated", sd=sd, source="stated by the user")


def _with_file(asked: Asked, own: OwnMaterials, file: Path | None) -> Asked:
    """Return what is asked with all that a materials file puts to use."""
    if not own.parts and not own.covers and own.inner is None and own.outer is None:
        told = f"{file} says of nothing in it where it is used"
        remedy = "give materials and films use:, such as use: [skins] or use: [inner strip]"
        raise InputError([Problem(subject="--materials", sentence=told, remedy=remedy)])
    covers = asked.covers
    for place, film in own.covers.items():
        cover = covers.at(place)
        name = f"{cover.name}, vapor by {film.name}"
        covers = _placed(covers, place, replace(cover, name=name, sd=film.sd, source=film.source))
    return replace(
        asked,
        parts=own.parts,
        covers=covers,
        inner_sd=asked.inner_sd if own.inner is None else own.inner.sd,
        outer_sd=asked.outer_sd if own.outer is None else own.outer.sd,
    )


def _placed(covers: Covers, place: str, cover: Cover) -> Covers:
    if place == "wall":
        return replace(covers, wall=cover)
    if place == "roof":
        return replace(covers, roof=cover)
    return replace(covers, floor=cover) if place == "floor" else replace(covers, lining=cover)
