"""A house in a few numbers and sentences."""

from __future__ import annotations

import math

from seamwright.app.built import Built
from seamwright.app.contract.house import Counted, HouseOut, Validated
from seamwright.app.contract.problem import told
from seamwright.errors import InputError
from seamwright.seals.types import Sentence
from seamwright.store.houses import House
from seamwright.store.revisions import Revision
from seamwright.units import System, fill


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


def notes_of(built: Built, units: System) -> list[str]:
    """Return what the reader and the layout assumed, in sentences."""
    notes: tuple[Sentence, ...] = built.file.notes
    return [*(fill(note, units) for note in notes), *built.house.shell.assumptions]


def house_out(
    house: House, row: Revision, built: Built, *, units: System, has_draft: bool
) -> HouseOut:
    """Return a house as its own page shows it."""
    site = built.house.plan.site
    return HouseOut(
        id=house.id,
        name=house.name,
        head=house.head,
        made_at=house.made_at,
        changed_at=house.changed_at,
        place="" if site.place is None else site.place,
        climate_zone="" if site.climate_zone is None else site.climate_zone,
        plan_hash=row.plan_hash,
        origin=row.origin,
        counted=counted(built),
        findings_open=sum(f.severity != "note" for f in built.house.schedule.findings),
        lost_overrides=list(built.house.register.lost_overrides),
        notes=notes_of(built, units),
        can_undo=row.parent is not None,
        can_redo=row.next is not None,
        has_form=row.form is not None,
        has_draft=has_draft,
    )


def valid(text: str, built: Built, units: System) -> Validated:
    """Return the answer for a plan that can be used."""
    return Validated(
        usable=True, problems=[], notes=notes_of(built, units), text=text, counted=counted(built)
    )


def invalid(text: str, error: InputError, units: System) -> Validated:
    """Return the answer for a plan that cannot be used, with every reason."""
    problems = [told(problem, units) for problem in error.problems]
    return Validated(usable=False, problems=problems, notes=[], text=text, counted=None)
