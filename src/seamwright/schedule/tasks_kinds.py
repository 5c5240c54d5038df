"""The kinds of task: what each is called, who does it, in which weather, what is signed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from seamwright.schedule.types import Work

WINDOWS: Mapping[str, str] = MappingProxyType(
    {
        "bead": "sealant, gaskets and dams laid outdoors before a panel closes on them",
        "foam": "can foam in a wedge or a drilled seam",
        "tape/inner": "strips and patches indoors, once the shell is weathered in",
        "tape/outer/wall": "strips on walls, floors and decks outdoors",
        "tape/outer/roof": "strips on the roof, and over its timbers before it",
        "lift": "lifting panels and timbers: wind",
        "roof_open": "the roof may stand open: no rain until it is covered",
        "fan_test": "wind low enough for a fan test",
    }
)
"""Classes of hours a task may ask for, and what each is for."""


@dataclass(frozen=True, kw_only=True, slots=True)
class TaskKind:
    """What tasks of one prefix have in common. `title` holds ``{key}``."""

    work: Work
    title: str
    skill: str
    crew_size: int
    window: str | None = None
    hold: str | None = None


def _kind(  # noqa: PLR0917 (a row of the table below)
    work: Work,
    title: str,
    skill: str,
    crew_size: int,
    window: str | None = None,
    hold: str | None = None,
) -> TaskKind:
    return TaskKind(
        work=work, title=title, skill=skill, crew_size=crew_size, window=window, hold=hold
    )


KINDS: Mapping[str, TaskKind] = MappingProxyType(
    {
        "sides": _kind("inspect", "Sign the faces of the air seal", "managing", 1, None, "sides"),
        "delivery": _kind("inspect", "Count and check the panels", "managing", 1, None, "delivery"),
        "base": _kind(
            "inspect", "Check the bearing: level, square, dry", "managing", 1, None, "base"
        ),
        "gasket": _kind("gasket", "Gasket and beads under {key}", "sealing", 2, "bead", "sill"),
        "seam": _kind(
            "tape",
            "Strips on the floor seams of {key}",
            "sealing",
            2,
            "tape/outer/wall",
            "before_panel",
        ),
        "beads": _kind("lay_beads", "Beads and dams for {key}", "sealing", 2, "bead", "beads"),
        "plug": _kind("plug_chase", "Plug the chases at {key}", "sealing", 1, "bead", "beads"),
        "dam": _kind("dam", "Dams over the wall line for {key}", "sealing", 1, "bead", "wall_line"),
        "set": _kind("set_panel", "Set {key}", "setting", 4),
        "lay": _kind("apron", "Seal the wall behind {key}", "sealing", 2, "bead", "ledger"),
        "apron": _kind(
            "apron",
            "Strips that {key} will stand on",
            "sealing",
            2,
            "tape/outer/wall",
            "before_panel",
        ),
        "tee": _kind("apron", "Strip behind {key}", "sealing", 2, "tape/inner", "tee"),
        "stand": _kind("milestone", "Walls of storey {key} stand, plumb and braced", "setting", 2),
        "plate": _kind(
            "lay_beads", "Bed the top plate of wall {key}", "sealing", 2, "bead", "plate"
        ),
        "drape": _kind(
            "drape_strip", "Drape strips over {key}", "sealing", 2, "tape/outer/roof", "drape"
        ),
        "roof_ready": _kind("milestone", "Ready for the first roof panel", "setting", 2),
        "fill": _kind("fill", "Fill the wedge at {key}", "sealing", 2, "foam", "wedge"),
        "top": _kind("tape", "Outer strips of {key}", "sealing", 2, "tape/outer/roof", "roof_seam"),
        "cover": _kind(
            "cover_roof", "Cover {key} before tonight", "roofing", 2, "roof_open", "overnight"
        ),
        "cap": _kind("cover_roof", "Close the {key} with its cap", "roofing", 2, "roof_open"),
        "recess": _kind("lay_beads", "Beads in the recess of {key}", "sealing", 1, "bead", "buck"),
        "buck": _kind("set_buck", "Set the buck of {key}", "setting", 2),
        "mask": _kind("other", "Close the openings against rain", "setting", 2),
        "weathered_in": _kind("milestone", "The shell is weathered in", "managing", 1),
        "channel": _kind(
            "fill", "Drill and fill the seams of {key}", "sealing", 2, "foam", "channel"
        ),
        "dry": _kind("dry", "Dry the skins: {key}", "sealing", 1),
        "clean": _kind("clean", "Clean the skins: {key}", "sealing", 2),
        "prime": _kind(
            "prime", "Prime where strips meet concrete: {key}", "sealing", 1, "tape/inner"
        ),
        "tape": _kind("tape", "Strip on {key}", "sealing", 2, "tape/inner"),
        "press": _kind("tape", "Press up the wings at {key}", "sealing", 2, "tape/inner", "inside"),
        "patch": _kind(
            "patch_node", "Patch the nodes of {key}", "sealing", 2, "tape/inner", "inside"
        ),
        "window": _kind("other", "Set {key} in its buck", "finishing", 2),
        "rough_in": _kind("other", "Services pass through the shell", "trades", 2),
        "seal": _kind("seal_service", "Seal around {key}", "sealing", 1, "tape/inner", "services"),
        "look": _kind("inspect", "Look at every strip: {key}", "sealing", 1),
        "look_services": _kind(
            "inspect", "Walk the list of services", "sealing", 1, None, "services"
        ),
        "fan_test": _kind("fan_test", "Fan test of the shell, leak hunt", "testing", 2, "fan_test"),
        "mend": _kind("mend", "Mend what the test found", "sealing", 2, "tape/inner"),
        "retest": _kind(
            "fan_test", "Test again; release to close", "testing", 2, "fan_test", "release"
        ),
        "clad": _kind("finish", "Water layer and cladding on {key}", "finishing", 2),
        "soffit": _kind("finish", "Sub-fascia and soffit of {key}", "finishing", 2),
        "finish": _kind("finish", "Finish: {key}", "finishing", 2),
        "handover": _kind(
            "fan_test", "Last fan test, ventilation, handover", "testing", 2, "fan_test", "handover"
        ),
    }
)
"""Kinds of task by the first part of their id, in the order of the work."""

ALONE = frozenset(kind for kind, row in KINDS.items() if "{key}" not in row.title)
"""Kinds of which a house has one task; its id is the kind."""


def kind_of(task_id: str) -> str:
    """Return the kind of a task from its id: the word before the first dot."""
    return task_id.split(".", maxsplit=1)[0]


def key_of(task_id: str) -> str:
    """Return what a task is about from its id: all that follows the first dot."""
    return task_id.split(".", maxsplit=1)[1] if "." in task_id else ""
