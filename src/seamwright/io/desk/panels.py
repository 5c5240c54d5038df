"""Panels given one by one, written into a plan text."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import cast, get_args

from seamwright.errors import InputError, Problem
from seamwright.io.desk.edit import replace_section
from seamwright.io.desk.write import Raw, Written, block
from seamwright.io.panel_list import read_panel_list
from seamwright.io.yaml_text import read_yaml
from seamwright.shell.plan import GivenPanel, Point2
from seamwright.units import LengthUnit


def with_panel_list(types: str, panels: str, *, name: str) -> str:
    """Return the plan text `types` with the panels of a CSV list written into it.

    Raises
    ------
    InputError
        With every wrong cell of the list, or when the plan already has panels.
    """
    yaml = read_yaml(types.encode("utf-8", "surrogatepass"), what="plan", name="types")
    tree = yaml.tree if isinstance(yaml.tree, dict) else {}
    if tree.get("panels") not in (None, []):
        remedy = "take panels: out of the plan, or leave the list out"
        told = "the plan of the panel types has panels of its own"
        raise InputError([Problem(subject="panels", sentence=told, remedy=remedy, file="types")])
    units = tree.get("units")
    known = cast("LengthUnit", units) if units in get_args(LengthUnit) else None
    given = read_panel_list(panels.encode("utf-8", "surrogatepass"), default_unit=known, name=name)
    return replace_section(types, "panels", panels_section(given))


def panels_section(panels: Sequence[GivenPanel]) -> str:
    """Return the section of a plan that lists panels one by one, exactly."""
    return block("panels", [panel_row(panel) for panel in panels])


def panel_row(panel: GivenPanel) -> dict[str, Written]:
    """Return one panel as a row of the plan."""
    row: dict[str, Written] = {
        "id": panel.id,
        "type": panel.panel_type,
        "role": panel.role,
        "origin": [exact(x) for x in panel.origin],
        "along": direction(panel.along),
        "up": direction(panel.up),
        "outline": outline(panel.outline),
    }
    if panel.outer_outline is not None:
        row |= {"outer_outline": outline(panel.outer_outline)}
    if panel.bevels_deg is not None and any(panel.bevels_deg):
        row |= {"bevels": [Raw(f"{angle:.12g}") for angle in panel.bevels_deg]}
    if panel.storey is not None:
        row |= {"storey": panel.storey}
    if panel.plane is not None:
        row |= {"plane": panel.plane}
    return row | ({"lay_out": Raw("yes")} if panel.lay_out else {})


def exact(metres: Fraction) -> Raw:
    """Return a length in millimetres with all its digits, to a trillionth of a metre."""
    shown = f"{float(metres * 1000):.9f}".rstrip("0").rstrip(".")
    return Raw(f"{'0' if shown in {'', '-0'} else shown} mm")


def outline(points: Sequence[Point2]) -> list[Written]:
    """Return an outline as rows of two lengths."""
    return [[exact(u), exact(v)] for u, v in points]


def direction(vector: tuple[float, float, float]) -> list[Written]:
    """Return a direction as three numbers that read back as the same floats."""
    return [Raw(repr(part + 0.0)) for part in vector]
