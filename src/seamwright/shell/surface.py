"""Surfaces: whole wall, roof and floor planes before they are split into panels."""

from __future__ import annotations

from dataclasses import dataclass

from seamwright.geometry.plate import Plate
from seamwright.geometry.types import Frame, Ring
from seamwright.shell.plan import End
from seamwright.shell.types import OpeningKind, PanelRole


@dataclass(frozen=True, kw_only=True, slots=True)
class Region:
    """One connected piece of a surface.

    `clear` is the stretch along u that is free for openings, None for no limit but the outline.
    [m]
    """

    plate: Plate
    clear: tuple[float, float] | None = None
    cuts: tuple[Cut, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Cut:
    """A rough opening in a surface, square through it, in the surface's axes. [m]"""

    opening: str
    kind: OpeningKind
    ring: Ring

    @property
    def low(self) -> tuple[float, float]:
        """Least u and v. [m]"""
        return min(p[0] for p in self.ring), min(p[1] for p in self.ring)

    @property
    def high(self) -> tuple[float, float]:
        """Greatest u and v. [m]"""
        return max(p[0] for p in self.ring), max(p[1] for p in self.ring)


@dataclass(frozen=True, kw_only=True, slots=True)
class Surface:
    """A plane of one panel type.

    `fixed_widths` are panel widths along u the user insists on; `whole` keeps every region in one
    panel; `plane` names the plane its panels belong to (None: this surface); `lengthwise` splits
    along u by the type's length instead of its width (rim panels).
    """

    id: str
    role: PanelRole
    storey: str | None
    frame: Frame
    type_id: str
    regions: tuple[Region, ...]
    layout_from: End = "start"
    fixed_widths: tuple[float, ...] = ()
    plane: str | None = None
    lengthwise: bool = False
    whole: bool = False
