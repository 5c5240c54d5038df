"""What a record of weather means for the faces of a house: skins, their water, and their boards."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import pi
from typing import Literal, TypeAlias

from seamwright.climate.arrays import Floats
from seamwright.climate.face import Face, FaceHours, face_hours
from seamwright.climate.sun import Place
from seamwright.climate.weather import HourlyWeather
from seamwright.errors import InputError
from seamwright.schedule.skin import board_water

DryingRule: TypeAlias = Literal["board", "film"]

INSIDE = Face(id="inside", azimuth=0.0, tilt=pi / 2, inner=True)

TIMBERS = Face(id="timbers", azimuth=0.0, tilt=0.0)
"""The tops of beams and purlins before the roof: they lie flat in the rain. The run takes them for
board, which lumber is not."""

BY_BOARD = (
    "After rain and dew, outer strips and the beads on standing walls wait until a run of moisture "
    "through the bare OSB finds its outer 2 mm dry enough. Measure before you tape."
)
BY_FILM = (
    "How soon skins dry after rain is the estimate of a film of water, hours too early after long "
    "rain, because {why}. Measure the board."
)


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Outlook:
    """A record of weather on some faces.

    `hours` holds each face, the inside and the timbers; `boards` the water of the outermost board
    at the end of each hour [kg/kg], empty where the rule is that of the film. `told` says which
    rule and why.
    """

    weather: HourlyWeather
    place: Place | None
    hours: Mapping[str, FaceHours]
    boards: Mapping[str, Floats] = field(default_factory=dict)
    rule: DryingRule = "film"
    told: str = ""

    def faces(self) -> tuple[Face, ...]:
        """Return the outer faces of the house in their order."""
        own = (INSIDE.id, TIMBERS.id)
        return tuple(row.face for name, row in self.hours.items() if name not in own)


def outlook_of(
    weather: HourlyWeather,
    faces: Sequence[Face],
    place: Place | None = None,
    *,
    bare: Sequence[str] | None = None,
) -> Outlook:
    """Return what the weather does to the faces, with the run of moisture where it can be made.

    `bare` names the faces whose boards are wanted, ``timbers`` among them; None: all. Without the
    moisture engine, and where it does not come to rest, the estimate of the film of water stands
    alone, and `told` says so.
    """
    rows = {face.id: face_hours(weather, face, place) for face in (*faces, INSIDE, TIMBERS)}
    chosen = [face for face in (*faces, TIMBERS) if bare is None or face.id in bare]
    if not chosen:
        return Outlook(weather=weather, place=place, hours=rows)
    try:
        found = board_water(weather, chosen, place)
    except InputError as error:
        why = error.problems[0].sentence
        return Outlook(weather=weather, place=place, hours=rows, told=BY_FILM.format(why=why))
    boards = {face.id: water for face, water in zip(chosen, found, strict=True)}
    return Outlook(
        weather=weather, place=place, hours=rows, boards=boards, rule="board", told=BY_BOARD
    )
