"""From a plan to a sealed house in twelve lines; the numbers at the end are tested."""

from __future__ import annotations

from seamwright.io.plan import builtin_house, read_plan
from seamwright.seals.catalog import default_catalog
from seamwright.units import format_length
from seamwright.workflow import seal_house

house = seal_house(read_plan(builtin_house("first_house")).plan, default_catalog())

kinds = sorted({joint.kind for joint in house.register.joints})
length = sum(joint.length for joint in house.register.joints)
rolls = {line.item: line.packs for line in house.order.lines if line.item.startswith("strip")}

if __name__ == "__main__":
    for joint in house.register.joints:
        print(joint.id, joint.kind, format_length(joint.length, "us"))  # noqa: T201 - an example
    print(format_length(length, "us"), "of joints;", rolls)  # noqa: T201 - an example
