"""Corrections of single joints, kept in the plan with their reason."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query

from seamwright.app.contract.change import Changed
from seamwright.app.contract.joint import OverrideIn
from seamwright.app.correct import with_override, without_override
from seamwright.app.desk import HouseId, JointId, TheDesk
from seamwright.app.intake import Taken, form_of
from seamwright.app.joint_docs import known
from seamwright.app.revise import revise
from seamwright.app.spoken import SpokenRoute
from seamwright.app.taste import TheUnits
from seamwright.store.clash import missing

router = APIRouter(tags=["joints"], route_class=SpokenRoute)


@router.put("/houses/{house}/joints/{joint}/override")
def put_override(
    desk: TheDesk, units: TheUnits, house: HouseId, joint: JointId, body: OverrideIn
) -> Changed:
    """Correct a joint, with the reason, and say what that does."""
    row, built = desk.built(house, body.base)
    if joint not in built.overrides:
        known(built, joint)
    text = with_override(row.plan_text, built, joint, body, units)
    return revise(
        desk, house,
        Taken(text=text, origin="correction", origin_name=joint, form=form_of(row)),
        base=body.base, author=body.author, note=f"{joint}: {body.reason.strip()}",
        reason=body.change_reason, units=units,
    )  # fmt: skip


@router.delete("/houses/{house}/joints/{joint}/override")
def delete_override(
    desk: TheDesk,
    units: TheUnits,
    house: HouseId,
    joint: JointId,
    *,
    base: Annotated[int, Query(ge=1, le=2**31 - 1)],
    author: Annotated[str, Query(max_length=80)] = "",
    reason: Annotated[str, Query(max_length=2000)] = "",
) -> Changed:
    """Take the correction of a joint back, and say what that does."""
    row, built = desk.built(house, base)
    text = without_override(row.plan_text, built, joint)
    if text is None:
        raise missing("correction of the joint", joint)
    return revise(
        desk, house,
        Taken(text=text, origin="correction", origin_name=joint, form=form_of(row)),
        base=base, author=author, note=f"{joint}: correction taken back", reason=reason,
        units=units,
    )  # fmt: skip
