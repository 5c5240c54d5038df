"""Whether a case fits together, told in sentences before anything is run."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from seamwright.errors import InputError, Problem
from seamwright.moisture.transient.types import Case, Curve, HygroMaterial, Settings

_COLDEST, _HOTTEST = -60.0, 110.0
"""[°C] As far as the table of air goes: common practice, no source."""

_THINNEST = 1e-3
"""Least film on a rim. [kg/m²] To the method a thinner one is a jump: common practice, no
source."""


def check_case(case: Case, settings: Settings) -> None:
    """Pass a case that can be run.

    Raises
    ------
    InputError
        With everything that does not fit: arrays of unequal length, volumes, materials or airs
        that are not there, figures that are missing or out of range.
    """
    found = [*_sizes(case), *_steps(settings)]
    if not found:
        found = [*_figures(case), *(p for m in case.materials for p in _material(m))]
    if found:
        raise InputError(
            [Problem(subject=what, sentence=told, remedy=remedy) for what, told, remedy in found]
        )


_Told = tuple[str, str, str]


def _sizes(case: Case) -> Iterator[_Told]:
    mesh, d, n = case.mesh, case.drive, len(case.mesh.points)
    airs = d.temperature.shape[1] if d.temperature.ndim == 2 else 0
    kinds = len(case.materials)
    if any(a.shape != d.temperature.shape or a.ndim != 2 for a in (d.face, d.vapor, d.rain)):
        yield "drive", "the arrays of the drive differ in shape", "give (hours, airs) for each"
    if len(case.temperature) != n or len(case.humidity) != n:
        told = (
            f"the start has {len(case.temperature)} temperatures and {len(case.humidity)} "
            f"humidities for {n} volumes"
        )
        yield "start", told, "give one of each per volume"
    rows = (
        ("part", mesh.part_cell, n), ("link", mesh.link_a, n), ("link", mesh.link_b, n),
        ("rim", mesh.rim_cell, n), ("part", mesh.part_material, kinds),
        ("link", mesh.link_material, kinds), ("rim", mesh.rim_air, airs),
        *(("air way", w.cells, n) for w in case.ways),
        *(("air way", np.array([w.first, w.last]), airs) for w in case.ways),
        *((f"probe {p.name}", p.parts, len(mesh.part_cell)) for p in case.probes),
    )  # fmt: skip
    for what, given, count in rows:
        if len(given) and not (given.min() >= 0 and given.max() < count):
            yield (what, f"a {what} leads to number {given.max()}, but there are {count}",
                   "number from 0")  # fmt: skip
    yield from _joins(case)


def _joins(case: Case) -> Iterator[_Told]:
    mesh, d, n = case.mesh, case.drive, len(case.mesh.points)
    bare = np.setdiff1d(np.arange(n), mesh.part_cell)
    if len(bare):
        yield "mesh", f"volume {bare[0]} has no part", "give each volume a material"
    parts = set(zip(mesh.part_cell.tolist(), mesh.part_material.tolist(), strict=True))
    ends = (*zip(mesh.link_a.tolist(), mesh.link_material.tolist(), strict=True),
            *zip(mesh.link_b.tolist(), mesh.link_material.tolist(), strict=True))  # fmt: skip
    stray = next((end for end in ends if end not in parts), None)
    if stray is not None:
        told = f"a link through material {stray[1]} ends in volume {stray[0]}, which has none of it"
        yield "mesh", told, "give both ends a part of the link's material"
    for k, way in enumerate(case.ways):
        if len(way.contact) != len(way.cells) or len(way.flow) != len(d.temperature):
            told = (
                f"air way {k} has {len(way.contact)} contacts for {len(way.cells)} cells and "
                f"{len(way.flow)} flows for {len(d.temperature)} hours"
            )
            yield f"air way {k}", told, "give a contact per cell and a flow per hour"


def _steps(settings: Settings) -> Iterator[_Told]:
    share = 3600.0 / settings.step if settings.step > 0.0 else 0.0
    if not share >= 1.0 or abs(share - round(share)) > 1e-9:
        yield ("step", f"a step of {settings.step:g} s does not divide an hour",
               "give 3600, 1800, 1200, 900 s ...")  # fmt: skip
    if not 0.0 < settings.least_step <= settings.step:
        told = (
            f"the least step of {settings.least_step:g} s is not between 0 and the step of "
            f"{settings.step:g} s"
        )
        yield "least_step", told, "give a smaller one"
    if settings.order not in {1, 2}:
        yield "order", f"an order of {settings.order} is not to be had", "give 1 or 2"
    if not 1e-13 <= settings.tolerance <= 1e-2:
        yield ("tolerance", f"a tolerance of {settings.tolerance:g} is outside 1e-13 to 1e-2",
               "give 1e-8")  # fmt: skip


def _figures(case: Case) -> Iterator[_Told]:
    mesh, d = case.mesh, case.drive
    rows = (
        ("temperature of an air", d.temperature, _COLDEST, _HOTTEST, "°C"),
        ("face temperature", d.face, _COLDEST, _HOTTEST, "°C"),
        ("vapor pressure", d.vapor, 0.0, 0.3 * case.pressure, "Pa"),
        ("rain", d.rain, 0.0, 1.0, "kg/(m²·s)"),
        ("start temperature", case.temperature, _COLDEST, _HOTTEST, "°C"),
        ("start humidity", case.humidity, 0.0, 1.1, "parts of one"),
        ("area of a part", mesh.part_area, 0.0, 1e6, "m²"),
        ("ratio of a link", mesh.link_ratio, 0.0, 1e12, "-"),
        ("length of a rim", mesh.rim_length, 0.0, 1e6, "m"),
        ("share of rain", mesh.rim_rain, 0.0, 1.0, "-"),
        *((f"flow of air way {k}", w.flow, -1e3, 1e3, "kg/(s·m)")
          for k, w in enumerate(case.ways)),
    )  # fmt: skip
    for what, given, low, high, unit in rows:
        bad = given[~((given >= low) & (given <= high))]
        if bad.size:
            yield (what, f"{what} {bad.flat[0]:g} {unit} is outside {low:g} to {high:g}",
                   "check units and missing hours")  # fmt: skip
    for what, given, least, unit in (
        ("heat", mesh.rim_heat, 1e-6, "m²·K/W"), ("vapor", mesh.rim_vapor, 1e3, "m²·s·Pa/kg"),
    ):  # fmt: skip
        if not np.all(given >= least):
            told = f"the resistance of a rim to {what}, {given.min():g} {unit}, is below {least:g}"
            yield (f"rim {what}", told, "give that for none, infinity for a seal")
    if mesh.rim_film is not None and not np.all(mesh.rim_film >= _THINNEST):
        told = f"a film of {mesh.rim_film.min():g} kg/m² on a rim is below {_THINNEST:g}"
        yield ("rim film", told, "give that where all runs off, infinity where nothing does")


def _material(material: HygroMaterial) -> Iterator[_Told]:
    name = f"material {material.id}"
    base = (material.density, material.heat_capacity, material.conductivity)
    if not all(value > 0.0 for value in base) or not material.conductivity_rise >= 0.0:
        yield (name, f"{name} has a density, heat capacity or conductivity that is not above zero",
               "check its data sheet")  # fmt: skip
    curves = [("sorption", material.sorption), ("vapor factor", material.vapor_factor)]
    if material.liquid is not None:
        curves.append(("liquid conductivity", material.liquid))
    for what, curve in curves:
        if len(curve.x) < 2 or len(curve.x) != len(curve.y) or not np.all(np.diff(curve.x) > 0):
            yield name, f"{name}: points of its {what} do not rise", "sort them, two at least"
    if not _rises(material.sorption):
        yield (name, f"{name}: its sorption does not rise from 0 at 0 % to saturation at 100 %",
               "give water content over humidity from (0, 0) to (1, saturation)")  # fmt: skip
    if not min(material.vapor_factor.y) >= 1.0:
        least = min(material.vapor_factor.y)
        yield (
            name,
            f"{name}: a vapor factor of {least:g} is below that of still air",
            "give 1 or more",
        )


def _rises(curve: Curve) -> bool:
    from_zero = curve.x[0] == 0.0 and curve.y[0] == 0.0 and curve.x[-1] == 1.0
    return bool(from_zero and np.all(np.diff(curve.y) >= 0.0))
