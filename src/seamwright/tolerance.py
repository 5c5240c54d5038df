"""One frozen record of the tolerances of the geometry, passed in and never global."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class Tolerance:
    """How near counts as touching. Lengths in metres, angles in radians.

    Every value is `common practice, no source` for site carpentry except `equal`, which is only
    there to absorb floating-point rounding.
    """

    equal: float = 1e-6
    """Two coordinates nearer than this are the same point. [m]"""

    gap: float = 0.020
    """Widest opening between two panels that still makes a joint with nothing in it. [m]"""

    bridged_gap: float = 0.130
    """Widest opening filled by a timber, plate or spline that still makes a joint. [m]"""

    node: float = 0.060
    """Joint ends nearer than this meet at one node. [m]"""

    min_length: float = 0.010
    """A contact shorter than this is a touch, not a joint. [m]"""

    angle: float = 0.010
    """Directions within this angle are parallel. [rad]"""

    step: float = 0.003
    """Skins offset by more than this are stepped, not flush. [m]"""


DEFAULT = Tolerance()
