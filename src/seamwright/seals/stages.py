"""When each seal goes on: before what buries it, and not before what carries it.

The order of work is common practice, no source: sill, walls, strips over timbers, roof, same-day
cover, weathered-in, rough-in.
"""

from __future__ import annotations

from seamwright.joints.types import FaceName, Joint
from seamwright.seals.types import Stage

_SAME_DAY = frozenset({"roof_spline", "ridge", "hip", "valley", "eave", "rake", "roof_step"})


def strip_stage(joint: Joint, face: FaceName, *, is_roof: bool) -> Stage:
    """Return the stage of a strip on a face that stays within reach.

    The outer side of a roof is covered the day it is set; strips around services wait for them;
    the top of a floor joint is stood upon by the next wall, and an inner wall hides the strip
    behind it; the rest waits until the shell is weathered in, when skins are dry and clean.
    """
    if joint.kind == "penetration":
        return "rough_in"
    if joint.kind == "wall_tee" or (joint.kind == "floor_spline" and face == "inner"):
        return "before_next_panel"
    if face == "outer" and (is_roof or joint.kind in _SAME_DAY):
        return "same_day"
    return "weathered_in"


def early_stage(joint: Joint, *, is_roof: bool) -> Stage:
    """Return the stage of a strip that must lie before the panels that hide its place."""
    if joint.kind == "floor_line":
        return "before_next_panel"
    return "before_roof" if is_roof else "before_setting"
