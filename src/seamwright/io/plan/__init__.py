"""The plan file: read it, check it, and turn it into exact records.

>>> planfile = read_plan(builtin_house("first_house"))
>>> [wall.id for wall in planfile.plan.footprints]
['room']
"""

from __future__ import annotations

from seamwright.io.plan.houses import builtin_house, builtin_house_names
from seamwright.io.plan.model import plan_schema
from seamwright.io.plan.place import PlanFile, with_place
from seamwright.io.plan.read import read_plan

__all__ = [
    "PlanFile",
    "builtin_house",
    "builtin_house_names",
    "plan_schema",
    "read_plan",
    "with_place",
]
