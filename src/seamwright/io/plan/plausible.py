"""Catch slips of units and contradictions that each value alone does not show.

The limits are far outside anything built (common practice, no source): they only tell a
forgotten or a wrong unit from a house.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from seamwright.io.plan.model import PlanFields
from seamwright.io.plan.reading import Reading
from seamwright.shell.plan import Footprint, PanelType

WALL = (Fraction(3, 10), Fraction(15))
"""Least and greatest height of a storey's wall. [m]"""

PANEL = (Fraction(3, 100), Fraction(1))
"""Least and greatest thickness of a panel. [m]"""

SIDE = Fraction(1, 10)
"""Least side of a footprint. [m]"""

PIECE = Fraction(3, 10)
"""Least width of the largest panel. [m]"""


def check_plausible(
    fields: PlanFields,
    panel_types: tuple[PanelType, ...],
    footprints: tuple[Footprint, ...],
    reading: Reading,
) -> None:
    """Tell sizes that only a slip of units explains, and decisions that contradict each other."""
    for i, storey in enumerate(fields.storeys):
        if not WALL[0] <= storey.height <= WALL[1]:
            _tell_size(reading, ("storeys", i, "height"), storey.height, "the height of a wall")
    order = [item.id for item in fields.panel_types]
    for item in panel_types:
        thickness = item.skin_inner + item.core + item.skin_outer
        at = order.index(item.id)
        if not PANEL[0] <= thickness <= PANEL[1]:
            _tell_size(reading, ("panel_types", at, ""), thickness, "the thickness of a panel")
        if max(item.max_width, item.max_length) < PIECE:
            _tell_size(reading, ("panel_types", at, ""), item.max_width, "the largest panel")
    named = [item.id for item in fields.footprints]
    for footprint in footprints:
        shortest = min(_sides(footprint))
        if shortest < SIDE:
            at = named.index(footprint.id)
            _tell_size(reading, ("footprints", at, ""), shortest, "the side of a house")
    _check_decisions(fields, reading)


def _tell_size(reading: Reading, place: tuple[str, int, str], size: Fraction, what: str) -> None:
    section, index, name = place
    told = f"{float(size):.4g} m cannot be {what}"
    reading.tell(section, index, told, "check the unit, here and in units: on top", name)


def _sides(footprint: Footprint) -> Iterator[Fraction]:
    """Yield the greater extent of each side along the axes, at least 0.7 of its length. [m]"""
    corners = footprint.corners
    for a, b in zip(corners, (*corners[1:], corners[0]), strict=True):
        yield max(abs(b[0] - a[0]), abs(b[1] - a[1]))


def _check_decisions(fields: PlanFields, reading: Reading) -> None:
    """Tell a joint kind, or single joint, that is signed for two different faces."""
    signed: dict[str, tuple[str, str]] = {}
    for i, decision in enumerate(fields.decisions):
        everything = () if decision.kinds or decision.joints else ("all joints",)
        for subject in (*decision.kinds, *decision.joints, *everything):
            face, by = signed.setdefault(subject, (decision.face, decision.signed_by))
            if face != decision.face:
                told = f"{subject}, signed by {by} for {face}, is signed here for {decision.face}"
                reading.tell("decisions", i, told, "keep the decision that holds", "face")
