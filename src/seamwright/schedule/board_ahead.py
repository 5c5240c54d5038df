"""The board at the seam in the hours ahead, begun with what was read of it."""

from __future__ import annotations

from seamwright.climate.arrays import Floats
from seamwright.climate.face import FaceHours
from seamwright.climate.sun import Place
from seamwright.errors import InputError
from seamwright.moisture.transient.types import FILM
from seamwright.schedule.outlook import BY_FILM
from seamwright.schedule.skin import PINS, balanced_humidity, board_water
from seamwright.schedule.tape_types import TapeReadings


def board_ahead(
    readings: TapeReadings, ahead: FaceHours, place: Place | None = None
) -> tuple[Floats | None, tuple[str, ...]]:
    """Return what a meter would read of the board in the hours ahead [kg/kg], and what to say.

    The run begins with the whole board as damp as it was read, and a film where it is seen wet. It
    is made for faces outdoors, and only where the board was read; None otherwise, and without the
    moisture engine.
    """
    if ahead.face.inner or readings.board is None:
        return None, ()
    try:
        (water,) = board_water(
            ahead.weather, [ahead.face], place,
            at_first=balanced_humidity(readings.board.value), film=FILM if readings.wet else 0.0,
            depth=PINS,
        )  # fmt: skip
    except InputError as error:
        return None, (BY_FILM.format(why=error.problems[0].sentence),)
    return water, ()
