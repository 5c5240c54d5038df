"""A house in a few numbers and sentences."""

from __future__ import annotations

import math

from pydantic import BaseModel

from seamwright.app.built import Built, placed
from seamwright.app.contract.house import Counted, Measured, Validated
from seamwright.app.contract.problem import told
from seamwright.errors import InputError
from seamwright.io.desk.read import read_lone_plan
from seamwright.io.plan import PlanFile
from seamwright.shell.plan import Site
from seamwright.shell.types import Shell
from seamwright.units import System, fill
from seamwright.workflow import register_joints


def counted(built: Built) -> Counted:
    """Return a house in a few numbers."""
    register, findings = built.house.register, built.house.schedule.findings
    return Counted(
        panels=len(built.house.shell.panels),
        joints=len(register.joints),
        nodes=len(register.nodes),
        joint_length_m=math.fsum(joint.length for joint in register.joints),
        breaks=len(register.breaks),
        stops=sum(finding.severity == "stop" for finding in findings),
        looks=sum(finding.severity == "attention" for finding in findings),
        unsigned=sum(not side.signed for side in built.house.schedule.sides),
    )


def notes_of(file: PlanFile, shell: Shell, units: System) -> list[str]:
    """Return what the reader and the layout assumed, in sentences."""
    return [*(fill(note, units) for note in file.notes), *shell.assumptions]


class Summary(BaseModel):
    """What a plan alone says of a house."""

    place: str
    climate_zone: str
    counted: Counted
    findings_open: int
    lost_overrides: list[str]
    notes: list[str]
    has_climate: bool


def summary_of(built: Built, units: System) -> Summary:
    """Return what a plan alone says of a house."""
    site = built.house.plan.site
    return Summary(
        place="" if site.place is None else site.place,
        climate_zone="" if site.climate_zone is None else site.climate_zone,
        counted=counted(built),
        findings_open=sum(f.severity != "note" for f in built.house.schedule.findings),
        lost_overrides=list(built.house.register.lost_overrides),
        notes=notes_of(built.file, built.house.shell, units),
        has_climate=_has_climate(site),
    )


def _has_climate(site: Site) -> bool:
    """Return whether a plan says where its house stands, so that there are hours of weather."""
    point = site.latitude_deg is not None and site.longitude_deg is not None
    county = site.county is not None and site.state is not None
    return point or county or site.station is not None or site.weather is not None


def checked(text: str, units: System) -> Validated:
    """Return what is wrong with a plan text, or what it makes; joints found, nothing sealed yet."""
    try:
        file = read_lone_plan(text)
        with placed(file):
            shell, register = register_joints(file.plan)
    except InputError as error:
        return invalid(text, error, units)
    measured = Measured(
        panels=len(shell.panels),
        joints=len(register.joints),
        nodes=len(register.nodes),
        joint_length_m=math.fsum(joint.length for joint in register.joints),
        breaks=len(register.breaks),
    )
    notes = notes_of(file, shell, units)
    return Validated(usable=True, problems=[], notes=notes, text=text, counted=measured)


def invalid(text: str, error: InputError, units: System) -> Validated:
    """Return the answer for a plan that cannot be used, with every reason."""
    problems = [told(problem, units) for problem in error.problems]
    return Validated(usable=False, problems=problems, notes=[], text=text, counted=None)
