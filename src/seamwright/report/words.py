"""The trade's words for kinds, stages and faces, and the order in which sheets take them."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from seamwright.joints.types import JointKind
from seamwright.seals.types import SidePlan, Stage, Strip

KINDS: Mapping[JointKind, str] = MappingProxyType(
    {
        "sill": "sill",
        "floor_spline": "floor spline",
        "floor_line": "floor line",
        "wall_spline": "wall spline",
        "wall_corner": "wall corner",
        "wall_tee": "wall tee",
        "end_joint": "end joint",
        "eave": "eave",
        "rake": "rake",
        "roof_spline": "roof spline",
        "ridge": "ridge",
        "hip": "hip",
        "valley": "valley",
        "roof_step": "roof step",
        "opening": "opening",
        "penetration": "penetration",
    }
)
"""Joint kinds from the ground up, in words."""

STAGES: Mapping[Stage, str] = MappingProxyType(
    {
        "before_setting": "Before the panels are set",
        "at_setting": "As each panel is set",
        "before_next_panel": "Before the next panel goes up",
        "before_roof": "Before the roof panels",
        "same_day": "The same day, before rain",
        "weathered_in": "Once the shell is weathered in",
        "rough_in": "At rough-in, as each service goes through",
    }
)
"""Stages in the order of the work."""

STAGE_ENDS: Mapping[Stage, str] = MappingProxyType(
    {
        "before_setting": "The panel that comes down on it hides it for good.",
        "at_setting": "The joint closes on it; nothing can be added or looked at afterwards.",
        "before_next_panel": "The next panel closes the channel or the edge.",
        "before_roof": "The roof panels cover it. Liner stays on the wings until they are set.",
        "same_day": "Rain tonight, or the cover that keeps it out.",
        "weathered_in": "Linings, ceilings and fitted pieces. Skins must be dry, clean and warm.",
        "rough_in": "Boxing-in and linings.",
    }
)
"""What takes a seal of each stage out of reach: `common practice, no source`."""

STAGE_SHORT: Mapping[Stage, str] = MappingProxyType(
    {
        "before_setting": "before setting",
        "at_setting": "at setting",
        "before_next_panel": "before next panel",
        "before_roof": "before roof",
        "same_day": "same day",
        "weathered_in": "weathered in",
        "rough_in": "rough-in",
    }
)
"""Stages for narrow columns."""

FACES: Mapping[str, str] = MappingProxyType(
    {"inner": "inside", "outer": "outside", "both": "both faces"}
)
"""Faces as the crew says them."""

REACH: Mapping[str, str] = MappingProxyType(
    {
        "until_hidden": "until",
        "before_panels_only": "only before panels",
        "never": "never",
    }
)
"""Who can reach a face until when."""

UNSIGNED = "UNSIGNED"
NO_STOCK = "NO STOCK"
NO_SIZE = "NO SIZE"
MARKS = (UNSIGNED, NO_STOCK, NO_SIZE, "STOP")
"""Words that must stand out wherever they are printed."""


def kind_word(kind: str) -> str:
    """Return a joint kind in words."""
    return kind.replace("_", " ")


def node_word(kind: str) -> str:
    """Return a node kind in words: ``wall_corner+sill`` reads ``wall corner + sill``."""
    return " + ".join(kind_word(part) for part in kind.split("+"))


def side_word(side: SidePlan | None) -> str:
    """Return the face of the primary air seal, marked where nobody has signed for it."""
    if side is None:
        return UNSIGNED
    return FACES[side.face] if side.signed else f"{FACES[side.face]} {UNSIGNED}"


def strip_manner(strip: Strip) -> str:
    """Return how a strip goes on, beyond its width and lap."""
    manners = (
        "over the timber, wings open" if strip.wings_open else "",
        "folded into the angle" if strip.fold else "",
        "" if strip.primary else "second line",
    )
    return ", ".join(m for m in manners if m)


def listed(ids: tuple[str, ...]) -> str:
    """Return ids as one cell of text; a dash when there is none."""
    return ", ".join(ids) if ids else "–"
