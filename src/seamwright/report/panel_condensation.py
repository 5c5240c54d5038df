"""Monthly condensation in the bare panels with their covers, in the house's own climate."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from seamwright.moisture.condensation import (
    DAYS,
    Condensation,
    MonthlyAir,
    iso_saturation,
    monthly_condensation,
)
from seamwright.moisture.covers import Cover, Covers
from seamwright.moisture.outdoors import RunClimate
from seamwright.moisture.types import Floats, Layer
from seamwright.report.section_runs import panel_layers
from seamwright.report.types import Cell, Table
from seamwright.shell.types import Build, Shell

_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September",
           "October", "November", "December")  # fmt: skip
_YEAR = 8760
_STARTS = np.cumsum((0, *DAYS)) * 24


@dataclass(frozen=True, kw_only=True, slots=True)
class PanelWater:
    """What condenses in one panel type as wall or roof by diffusion alone, over the months."""

    build: Build
    where: str
    found: Condensation


def monthly_air(climate: RunClimate) -> MonthlyAir | None:
    """Return the monthly means of both airs, no wetter than saturation at the mean; None where the
    climate is no whole year.
    """
    weather = climate.weather
    if len(weather.air) != _YEAR or len(climate.temperature) != _YEAR:
        return None
    inside, outside = _means(climate.temperature), _means(weather.air)
    return MonthlyAir(
        inside=inside, outside=outside,
        vapor_inside=_held(_means(climate.vapor), inside),
        vapor_outside=_held(_means(weather.vapor), outside),
    )  # fmt: skip


def panel_waters(shell: Shell, air: MonthlyAir, covers: Covers) -> tuple[PanelWater, ...]:
    """Return what condenses in every panel type that stands in the shell. Source: ISO 13788."""
    used = sorted({(p.build_id, p.role) for p in shell.panels if p.role in {"wall", "roof"}})
    builds = {build.id: build for build in shell.builds}
    return tuple(
        PanelWater(
            build=builds[build_id],
            where=role,
            found=monthly_condensation(
                (
                    _layer(covers.lining),
                    *panel_layers(builds[build_id]),
                    _layer(covers.roof if role == "roof" else covers.wall),
                ),
                air,
            ),
        )
        for build_id, role in used
    )


def water_table(panels: Sequence[PanelWater]) -> Table:
    """Return the most water held, where, and whether it dries within the year."""
    return Table(
        caption="Panels: monthly condensation by diffusion alone, ISO 13788. Air leaks are not in "
        "it: they carry far more, see the joints",
        columns=("panel type", "where", "most water", "from", "between", "dries in the year"),
        widths=(2.0, 1.0, 1.4, 1.4, 3.0, 1.4),
        right=(2,),
        rows=tuple(_row(panel) for panel in panels),
        marks=("NO",),
    )


def _row(panel: PanelWater) -> tuple[Cell, ...]:
    found = panel.found
    if found.first_month is None or not found.planes:
        return (panel.build.id, panel.where, "none", None, None, "nothing to dry")
    wettest = max(found.planes, key=lambda plane: max(plane.held))
    return (
        panel.build.id, panel.where, f"{found.most * 1000.0:.0f} g/m²", _MONTHS[found.first_month],
        " and ".join(wettest.between), "yes" if found.dries else "NO",
    )  # fmt: skip


def _layer(cover: Cover) -> Layer:
    return Layer(name=cover.name, thickness=0.0, resistance=cover.heat, sd=cover.sd)


def _means(hourly: Floats) -> tuple[float, ...]:
    return tuple(float(hourly[a:b].mean()) for a, b in itertools.pairwise(_STARTS))


def _held(vapor: tuple[float, ...], warmth: tuple[float, ...]) -> tuple[float, ...]:
    return tuple(min(p, float(iso_saturation(t))) for p, t in zip(vapor, warmth, strict=True))
