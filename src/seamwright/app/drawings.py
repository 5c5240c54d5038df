"""Drawings of the packet, made one by one for a page."""

from __future__ import annotations

from dataclasses import replace

from seamwright.app.built import Built
from seamwright.app.joint_docs import known
from seamwright.draw.axonometric import draw_axonometric
from seamwright.draw.section import draw_section
from seamwright.draw.sheet import Head
from seamwright.draw.types import Paper
from seamwright.store.clash import missing
from seamwright.units import System
from seamwright.words import Language


def picture_svg(built: Built, units: System, paper: Paper, language: Language) -> str:
    """Return the house seen from above a corner, its visible joints by kind."""
    head = Head(
        name="axonometric",
        title="Axonometric",
        subject=built.house.plan.site.name,
        caption="The shell from above the south-east corner, visible joints by kind.",
        system=units,
        paper=paper,
        language=language,
    )
    return draw_axonometric(built.house.shell, built.house.register, head).svg


def section_svg(
    built: Built, joint_id: str, units: System, paper: Paper, language: Language
) -> str:
    """Return the section through one joint, to scale, as the packet draws its type."""
    joint = known(built, joint_id)
    section, kind = built.house.sections.get(joint_id), built.section_types.get(joint_id)
    if section is None or kind is None:
        raise missing("section of the joint", joint_id)
    head = Head(
        name=f"section-{joint_id}",
        title=f"{joint_id}: {kind.title}",
        subject=built.house.plan.site.name,
        caption=f"Section through {joint_id}.",
        system=units,
        paper=paper,
        language=language,
    )
    own = replace(kind, joint_id=joint_id, joint_ids=(joint_id,))
    return draw_section(joint, section, own, built.schedule_of(joint_id), head).svg
