"""Named compositions: from the plan to the shell, to its joints, to the sealed house."""

from __future__ import annotations

from seamwright.joints.register import build_register
from seamwright.joints.section import cut_sections
from seamwright.joints.types import Register
from seamwright.report.house import SealedHouse
from seamwright.seals.schedule import plan_seals
from seamwright.seals.types import Catalog
from seamwright.shell.build import build_shell
from seamwright.shell.plan import Plan
from seamwright.shell.types import Shell
from seamwright.takeoff.order import make_order
from seamwright.tolerance import DEFAULT, Tolerance

SECTION_REACH = 0.40
"""How far from its joint a section shows the house: to the outer apex of a thick roof. [m]"""


def lay_out(plan: Plan) -> Shell:
    """Return the shell of a plan: its panels, timbers, bearings and holes in space.

    Raises
    ------
    InputError
        With every reason why the plan describes no house that can stand.
    """
    return build_shell(plan)


def register_joints(plan: Plan, *, tolerance: Tolerance = DEFAULT) -> tuple[Shell, Register]:
    """Return the shell of a plan and the register of all its joints and nodes."""
    shell = lay_out(plan)
    return shell, build_register(shell, plan.overrides, tolerance)


def seal_house(plan: Plan, catalog: Catalog, *, tolerance: Tolerance = DEFAULT) -> SealedHouse:
    """Return the house of a plan with every joint sealed from `catalog`, and what to buy for it."""
    shell, register = register_joints(plan, tolerance=tolerance)
    sections = cut_sections(shell, register.joints, SECTION_REACH)
    schedule = plan_seals(
        shell,
        register,
        sections,
        catalog=catalog,
        decisions=plan.decisions,
        overrides=plan.overrides,
        climate_zone=plan.site.climate_zone,
        zone_edition=plan.site.zone_edition,
    )
    return SealedHouse(
        plan=plan,
        catalog=catalog,
        shell=shell,
        register=register,
        sections=sections,
        schedule=schedule,
        order=make_order(schedule, register, catalog),
    )
