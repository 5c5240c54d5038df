"""A plan text worked out once: the sealed house, and where to find each joint's part of it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TypeVar

from seamwright.draw.sectiontypes import SectionType, section_types
from seamwright.errors import InputError, Problem, SeamwrightError
from seamwright.io.desk.read import read_lone_plan
from seamwright.io.plan import PlanFile, with_place
from seamwright.joints.types import Joint, Node
from seamwright.report.house import SealedHouse
from seamwright.report.seal_types import JointSeal, joint_seals
from seamwright.report.words import STAGES
from seamwright.seals.catalog import default_catalog
from seamwright.seals.types import Finding, SealSchedule
from seamwright.shell.plan import Override
from seamwright.workflow import seal_house

_T = TypeVar("_T")
_GRAVEST = ("stop", "attention", "note")


@dataclass(frozen=True, kw_only=True, slots=True)
class Built:
    """A house worked out, with its look-ups. `stages` is when each joint's primary seal goes on."""

    plan_hash: str
    file: PlanFile
    house: SealedHouse
    joints: Mapping[str, Joint]
    seals: Mapping[str, JointSeal]
    nodes_of: Mapping[str, tuple[Node, ...]]
    findings_of: Mapping[str, tuple[Finding, ...]]
    overrides: Mapping[str, Override]
    section_types: Mapping[str, SectionType]
    stages: Mapping[str, str | None]

    def look(self, joint_id: str) -> str:
        """Return the gravest finding about a joint: ``stop``, ``attention`` or nothing."""
        found = {finding.severity for finding in self.findings_of.get(joint_id, ())}
        return next((word for word in _GRAVEST[:2] if word in found), "")

    def schedule_of(self, joint_id: str) -> SealSchedule:
        """Return the part of the schedule that is about one joint."""
        seal = self.seals[joint_id]
        return SealSchedule(
            sides=() if seal.side is None else (seal.side,),
            strips=seal.strips, beads=seal.beads, fills=seal.fills, dams=seal.dams,
            gaskets=seal.gaskets, patches=(), findings=self.findings_of.get(joint_id, ()),
        )  # fmt: skip


@contextmanager
def placed(file: PlanFile) -> Iterator[None]:
    """Give the problems that the core finds their line in the plan text."""
    try:
        yield
    except InputError as error:
        raise InputError(with_place(error.problems, file)) from error
    except SeamwrightError as error:
        problem = Problem(subject="house", sentence=str(error), remedy="look at the plan there")
        raise InputError([problem]) from error


def build(plan_hash: str, text: str) -> Built:
    """Return the house of a plan text.

    Raises
    ------
    InputError
        With every reason why the text describes no house, each with its line.
    """
    file = read_lone_plan(text)
    with placed(file):
        catalog = default_catalog() if file.catalog is None else file.catalog
        house = seal_house(file.plan, catalog)
    seals = {seal.joint.id: seal for seal in joint_seals(house.register, house.schedule)}
    types = section_types(house.register, house.sections, house.schedule)
    return Built(
        plan_hash=plan_hash,
        file=file,
        house=house,
        joints={joint.id: joint for joint in house.register.joints},
        seals=seals,
        nodes_of=_grouped((j, n) for n in house.register.nodes for j in n.joints),
        findings_of=_grouped((f.subject, f) for f in house.schedule.findings),
        overrides={one.joint: one for one in file.plan.overrides},
        section_types={joint_id: kind for kind in types for joint_id in kind.joint_ids},
        stages={joint_id: _stage(seal) for joint_id, seal in seals.items()},
    )


def _stage(seal: JointSeal) -> str | None:
    """Return when the primary strip goes on; without one, when the first other seal does."""
    primary = [strip.stage for strip in seal.strips if strip.primary]
    others = [one.stage for group in (seal.strips, seal.beads, seal.fills, seal.gaskets)
              for one in group]  # fmt: skip
    order = list(STAGES)
    found = primary or others
    return min(found, key=order.index) if found else None


def _grouped(pairs: Iterator[tuple[str, _T]]) -> dict[str, tuple[_T, ...]]:
    found: defaultdict[str, list[_T]] = defaultdict(list)
    for key, value in pairs:
        found[key].append(value)
    return {key: tuple(values) for key, values in found.items()}
