"""What stays out of the register."""

from __future__ import annotations

from seamwright.io.plan import builtin_house, read_plan
from seamwright.joints.register import build_register
from seamwright.shell.build import build_shell

HIP_HOUSE = build_register(build_shell(read_plan(builtin_house("cypress_house")).plan))


def test_a_hip_house_has_eaves_and_no_rakes() -> None:
    """The ends of through walls under a hip lie inside the corner and are no joint of their own."""
    kinds = {joint.kind for joint in HIP_HOUSE.joints}
    assert "eave" in kinds
    assert "rake" not in kinds


def test_what_lies_inside_the_corner_is_explained_in_the_ledger() -> None:
    """The four tops are not lost: the ledger says what they are."""
    reasons = [use for use in HIP_HOUSE.ledger if "inside the corner" in use.reason]
    assert len(reasons) == 4
    assert all(use.fate == "explained" for use in reasons)
    assert HIP_HOUSE.breaks == ()
