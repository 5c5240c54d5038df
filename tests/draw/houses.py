"""Houses drawn whole, once per run: the built-in ones and the sample box."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from tests.samples import gable_box

import seamwright
from seamwright.draw.sheets import draw_sheets
from seamwright.draw.types import Drawing, Paper
from seamwright.io.plan import read_plan
from seamwright.joints.register import build_register
from seamwright.joints.section import cut_section
from seamwright.joints.types import Register, Section
from seamwright.report.house import SealedHouse
from seamwright.seals.catalog import default_catalog
from seamwright.seals.schedule import plan_seals
from seamwright.seals.types import SealSchedule
from seamwright.shell.types import Shell
from seamwright.units import System
from seamwright.workflow import seal_house

HOUSES = ("cypress_house", "heron_house")


@cache
def sealed(name: str) -> SealedHouse:
    """Return a built-in house, sealed from the default shelf."""
    place = Path(seamwright.__file__).parent / "data" / "houses" / f"{name}.yaml"
    return seal_house(read_plan(place).plan, default_catalog())


@cache
def drawn(name: str, system: System = "us", paper: Paper = "letter") -> dict[str, Drawing]:
    """Return every drawing of a built-in house."""
    house = sealed(name)
    return draw_sheets(
        house.shell, house.register, house.schedule, house.sections,
        system=system, paper=paper, title=house.plan.site.name,
    )  # fmt: skip


def box_parts(shell: Shell) -> tuple[Register, dict[str, Section], SealSchedule]:
    """Return register, sections and seals of a shell without a plan."""
    register = build_register(shell)
    sections = {
        joint.id: cut_section(shell, joint)
        for joint in register.joints
        if joint.kind != "penetration"
    }
    schedule = plan_seals(
        shell, register, sections, catalog=default_catalog(), decisions=(), overrides=(),
        climate_zone=None, zone_edition=None,
    )  # fmt: skip
    return register, sections, schedule


@cache
def drawn_box(system: System = "metric", paper: Paper = "a4") -> dict[str, Drawing]:
    """Return every drawing of the sample box."""
    shell = gable_box()
    register, sections, schedule = box_parts(shell)
    return draw_sheets(
        shell, register, schedule, sections, system=system, paper=paper, title="Sample box"
    )
