"""Read materials, films and strips of the user's own, over the built-in ones."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from types import MappingProxyType

from pydantic import ValidationError

from seamwright.errors import InputError, Problem
from seamwright.io.explain import explain, problem_at
from seamwright.io.materials_model import (
    R_PER_INCH,
    FilmFields,
    MaterialFields,
    MaterialsFields,
    VaporFields,
)
from seamwright.io.yaml_text import YamlText, read_yaml
from seamwright.moisture.covers import Place
from seamwright.moisture.films import Film
from seamwright.moisture.materials import DELTA_AIR, PERM, sd_of_permeance
from seamwright.moisture.transient.materials import HYGRO, cup_curve
from seamwright.moisture.transient.own import (
    faults,
    reweighed,
    table_curve,
    with_absorption,
    with_sorption,
)
from seamwright.moisture.transient.types import Curve, HygroMaterial
from seamwright.report.joint_cut import OwnPart

NOT_STATED = "user's materials file, source not stated"

_INCH = 0.0254


@dataclass(frozen=True, kw_only=True, slots=True)
class OwnMaterials:
    """What a materials file gives, by id; and by `use`: materials in parts of the house, the strips
    of both faces, and the covers by place.
    """

    materials: Mapping[str, HygroMaterial]
    films: Mapping[str, Film]
    parts: tuple[OwnPart, ...] = ()
    inner: Film | None = None
    outer: Film | None = None
    covers: Mapping[Place, Film] = field(default_factory=dict)


def read_materials(path_or_text: Path | str | bytes, *, name: str | None = None) -> OwnMaterials:
    """Return the materials and films of a file.

    Each material begins as the built-in one named by `like`; what the file gives replaces it, and
    its note says what did. A string with a line break, or bytes, is the text itself.

    Raises
    ------
    FormatError
        When the file is missing, too large, binary, empty or not YAML.
    InputError
        With every wrong value, its line and a remedy.
    """
    yaml = read_yaml(path_or_text, what="materials", name=name)
    if not isinstance(yaml.tree, dict):
        told = "the file is a list or a single word, not sections with names"
        raise InputError([problem_at(yaml, (), told, "start with materials: or films:")])
    try:
        fields = MaterialsFields.model_validate(yaml.tree)
    except ValidationError as error:
        raise InputError(explain(error, yaml, MaterialsFields)) from None
    problems = [*_unclear(fields, yaml), *_used_twice(fields, yaml), *_in_one_place(fields, yaml)]
    if problems:
        raise InputError(problems)
    return _own(fields, yaml)


def _own(fields: MaterialsFields, yaml: YamlText) -> OwnMaterials:
    source = NOT_STATED if fields.source is None else fields.source
    materials, problems = {}, []
    for i, item in enumerate(() if fields.materials is None else fields.materials):
        material = material_from(item, source)
        materials[item.id] = material
        problems += [
            problem_at(yaml, ("materials", i, group), told, remedy)
            for group, told, remedy in faults(material)
        ]
    if problems:
        raise InputError(problems)
    films = {
        item.id: film_from(item, source) for item in (() if fields.films is None else fields.films)
    }
    at = {
        where: films[item.id]
        for item in (() if fields.films is None else fields.films)
        for where in (() if item.use is None else item.use)
    }
    return OwnMaterials(
        materials=MappingProxyType(materials),
        films=MappingProxyType(films),
        parts=_parts(fields, materials),
        inner=at.get("inner_strip"),
        outer=at.get("outer_strip"),
        covers=MappingProxyType({_COVERS[use]: film for use, film in at.items() if use in _COVERS}),
    )


_COVERS: Mapping[str, Place] = MappingProxyType(
    {"wall_cover": "wall", "roof_cover": "roof", "lining": "lining", "floor_finish": "floor"}
)


def _parts(fields: MaterialsFields, made: Mapping[str, HygroMaterial]) -> tuple[OwnPart, ...]:
    """Return the materials that are put to use, by part and panel type."""
    return tuple(
        OwnPart(part=part, build=build, material=made[item.id], like=item.like)
        for item in (() if fields.materials is None else fields.materials)
        for part, build in (() if item.use is None else item.use)
    )


def material_from(fields: MaterialFields, source: str = NOT_STATED) -> HygroMaterial:
    """Return checked fields laid over the built-in material they name."""
    base = HYGRO[fields.like]
    made = base if fields.density is None else reweighed(base, fields.density)
    if fields.sorption is not None:
        by = made.density if fields.sorption.per == "mass" else 1.0
        points = [(h, by * held) for h, held in fields.sorption.points if h > 0.0]
        full = fields.sorption.saturation
        made = with_sorption(made, points, made.sorption.y[-1] if full is None else full)
    if fields.absorption is not None:
        made = with_absorption(made, fields.absorption)
    own = [word for word in MaterialFields.model_fields if word not in _NAMES]
    given = [word for word in own if getattr(fields, word) is not None]
    origin = source if fields.source is None else fields.source
    told = ", ".join(word.replace("_", " ") for word in given)
    return replace(
        made,
        id=fields.id,
        name=fields.id if fields.title is None else fields.title,
        heat_capacity=_kept(fields.heat_capacity, made.heat_capacity),
        conductivity=_conductivity(fields, made.conductivity),
        vapor_factor=made.vapor_factor if fields.vapor is None else _vapor(fields.vapor),
        note=(f"{told}: {origin}; " if given else "") + f"all else as {fields.like}: {base.note}",
    )


def film_from(fields: FilmFields, source: str = NOT_STATED) -> Film:
    """Return a checked film."""
    sd = 0.0 if fields.sd is None else float(fields.sd)
    return Film(
        id=fields.id,
        name=fields.id if fields.title is None else fields.title,
        sd=sd if fields.perms is None else sd_of_permeance(fields.perms),
        source=source if fields.source is None else fields.source,
    )


_NAMES = ("id", "title", "like", "use", "source")


def _kept(value: float | None, default: float) -> float:
    return default if value is None else value


def _conductivity(fields: MaterialFields, default: float) -> float:
    if fields.r_per_inch is not None:
        return R_PER_INCH / fields.r_per_inch
    return _kept(fields.conductivity, default)


def _vapor(fields: VaporFields) -> Curve:
    """Return the vapor resistance factor over humidity."""
    if fields.points is not None:
        return table_curve([(h, _factor(value, fields)) for h, value in fields.points])
    dry = _kept(fields.dry, _kept(fields.wet, 1.0))
    wet = _kept(fields.wet, dry)
    return cup_curve(_factor(dry, fields), _factor(wet, fields))


def _factor(value: float, fields: VaporFields) -> float:
    """Return a figure of the sheet as vapor resistance factor; 0 where it cannot be. [-]"""
    thickness = _INCH if fields.thickness is None else float(fields.thickness)
    if fields.unit == "mu":
        return value
    if value <= 0.0:
        return 0.0
    if fields.unit == "sd":
        return value / thickness
    if fields.unit == "perm_inch":
        return DELTA_AIR / (value * PERM * _INCH)
    return sd_of_permeance(value) / thickness


def _unclear(fields: MaterialsFields, yaml: YamlText) -> list[Problem]:
    """Return what is given twice or by half."""
    found: list[Problem] = []
    for i, item in enumerate(() if fields.materials is None else fields.materials):
        at: tuple[str | int, ...] = ("materials", i)
        if item.conductivity is not None and item.r_per_inch is not None:
            told = "conductivity and r_per_inch are both given"
            found.append(problem_at(yaml, (*at, "r_per_inch"), told, "keep one of them"))
        if item.sorption is not None and item.sorption.points[-1][0] >= 1.0:
            told = "its points reach 100 %, where pores are full"
            remedy = "give what it holds when full as saturation"
            found.append(problem_at(yaml, (*at, "sorption"), told, remedy))
        if item.vapor is not None:
            found += _unclear_vapor(item.vapor, yaml, (*at, "vapor"))
    for i, film in enumerate(() if fields.films is None else fields.films):
        if (film.perms is None) == (film.sd is None):
            told = "it needs either perms or sd"
            found.append(problem_at(yaml, ("films", i), told, "give one of the two"))
    return found


def _unclear_vapor(vapor: VaporFields, yaml: YamlText, at: tuple[str | int, ...]) -> list[Problem]:
    found = []
    cups = vapor.dry is not None or vapor.wet is not None
    if cups == (vapor.points is not None):
        told = "its vapor needs dry and wet, or points"
        found.append(problem_at(yaml, at, told, "give the cups, or points over humidity"))
    if vapor.unit in {"perms", "sd"} and vapor.thickness is None:
        told = f"vapor in {vapor.unit} belongs to one thickness, and none is given"
        found.append(problem_at(yaml, at, told, "add thickness: as tested"))
    return found


def _in_one_place(fields: MaterialsFields, yaml: YamlText) -> list[Problem]:
    """Return the places that two materials or films say they are in."""
    found: list[Problem] = []
    seen: dict[object, str] = {}
    for section in ("materials", "films"):
        items = getattr(fields, section)
        for i, item in enumerate(() if items is None else items):
            for use in () if item.use is None else item.use:
                words = " of ".join(w for w in use if w) if isinstance(use, tuple) else use
                other = seen.setdefault(use, item.id)
                if other != item.id:
                    told = f"{words.replace('_', ' ')}: ‘{other}’ is said to be there too"
                    remedy = "let one of the two have this use"
                    found.append(problem_at(yaml, (section, i, "use"), told, remedy))
    return found


def _used_twice(fields: MaterialsFields, yaml: YamlText) -> list[Problem]:
    found: list[Problem] = []
    seen: set[str] = set()
    for section in ("materials", "films"):
        items = getattr(fields, section)
        for i, item in enumerate(() if items is None else items):
            if item.id in seen:
                told = f"the id ‘{item.id}’ is used before"
                found.append(problem_at(yaml, (section, i, "id"), told, "give each its own id"))
            seen.add(item.id)
    return found
