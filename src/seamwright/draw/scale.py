"""Standard scales, and the one that fits.

Metric steps are those of ISO 5455 with the 1:75, 1:125 and 1:150 that building drawings add
(common practice, no source). US steps are those of an architect's scale: inches on paper to a foot
(common practice, no source).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from seamwright.draw.types import Rect
from seamwright.geometry.types import Vec2
from seamwright.units import System


@dataclass(frozen=True, kw_only=True, slots=True)
class Scale:
    """`ratio` is how many times smaller than real; `text` is how the sheet says it."""

    ratio: Fraction
    text: str

    @property
    def mm_per_m(self) -> float:
        """Millimetres on paper for one metre of house. [mm/m]"""
        return float(1000 / self.ratio)


def _metric(*ratios: str) -> tuple[Scale, ...]:
    return tuple(Scale(ratio=Fraction(ratio), text=f"1:{ratio}") for ratio in ratios)


def _us(*inches: str) -> tuple[Scale, ...]:
    return tuple(
        Scale(ratio=12 / _inches(text), text=f'{text}" = 1\'-0"' if text != "12" else "full size")
        for text in inches
    )


def _inches(text: str) -> Fraction:
    return sum((Fraction(part) for part in text.split("-")), Fraction(0))


HOUSE: dict[System, tuple[Scale, ...]] = {
    "metric": _metric("20", "25", "50", "75", "100", "125", "150", "200", "250", "500", "1000",
                      "2000", "5000"),
    "us": _us("3/4", "1/2", "3/8", "1/4", "3/16", "1/8", "3/32", "1/16", "1/32", "1/64", "1/128",
              "1/256"),
}  # fmt: skip
DETAIL: dict[System, tuple[Scale, ...]] = {
    "metric": _metric("1", "2", "2.5", "5", "10", "20", "50"),
    "us": _us("12", "6", "3", "1-1/2", "1", "3/4", "1/2", "1/4"),
}


def fitting_scale(
    scales: tuple[Scale, ...], size: Vec2, room: Rect, margin: Vec2 = (0.0, 0.0)
) -> Scale:
    """Return the largest scale at which `size` [m] plus `margin` [mm] fits into `room`.

    When nothing fits, the smallest scale of the list.
    """
    for scale in scales:
        wide = size[0] * scale.mm_per_m + margin[0]
        tall = size[1] * scale.mm_per_m + margin[1]
        if wide <= room.width and tall <= room.height:
            return scale
    return scales[-1]
