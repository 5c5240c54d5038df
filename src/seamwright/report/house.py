"""Everything worked out about one house, in one record: what a report is about."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from seamwright.joints.types import Register, Section
from seamwright.seals.types import Catalog, SealSchedule
from seamwright.shell.plan import Plan
from seamwright.shell.types import Shell
from seamwright.takeoff.types import Order


@dataclass(frozen=True, kw_only=True, slots=True)
class SealedHouse:
    """A house from plan to order. `sections` are keyed by joint id."""

    plan: Plan
    catalog: Catalog
    shell: Shell
    register: Register
    sections: Mapping[str, Section]
    schedule: SealSchedule
    order: Order
