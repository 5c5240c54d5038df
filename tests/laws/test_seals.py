"""Laws of the seal schedule."""

from __future__ import annotations

import math
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.hand_joints import (
    eave_joint,
    opening_joint,
    ridge_joint,
    roof_seam,
    sill_joint,
)
from tests.samples import gable_box

from seamwright.joints.section import cut_section
from seamwright.joints.types import Joint, Register
from seamwright.seals.catalog import default_catalog
from seamwright.seals.schedule import plan_seals
from seamwright.seals.types import SealSchedule
from seamwright.seals.widths import size_strip, total
from seamwright.shell.plan import Decision
from seamwright.shell.types import Shell

KINDS = st.sampled_from(["wall_spline", "ridge", "hip", "valley", "eave", "sill", "opening"])
SPANS = st.floats(min_value=0.0, max_value=0.6)
JOINTS = [ridge_joint(), eave_joint(), roof_seam(), sill_joint(), opening_joint()]


def schedule(shell: Shell, joints: list[Joint], face: str | None = None) -> SealSchedule:
    """Return the schedule of joints in zone 5A, or with a face signed for all."""
    decisions = []
    if face is not None:
        decisions = [Decision(face=face, signed_by="D", role="designer", date="2025-01-01")]  # type: ignore[arg-type]
    return plan_seals(
        shell,
        Register(joints=tuple(joints), nodes=(), ledger=(), breaks=()),
        {j.id: cut_section(shell, j) for j in joints},
        catalog=default_catalog(),
        decisions=decisions,
        overrides=(),
        climate_zone="5A",
        zone_edition=None,
    )


@settings(derandomize=True, max_examples=100, deadline=None)
@given(KINDS, SPANS, SPANS, st.booleans(), st.booleans())
def test_a_wider_span_never_gets_a_narrower_strip(
    kind: str, a: float, b: float, overhead: bool, early: bool
) -> None:
    """The sum grows with the span, and so does the stock chosen."""
    catalog = default_catalog()
    narrow, wide = (
        size_strip(catalog, kind, span, overhead=overhead, before_panels=early)
        for span in sorted((a, b))
    )
    assert wide.required >= narrow.required
    if wide.stock is not None:
        assert narrow.stock is not None
        assert wide.stock.width >= narrow.stock.width


@settings(derandomize=True, max_examples=100, deadline=None)
@given(KINDS, SPANS, st.booleans(), st.booleans())
def test_the_terms_sum_to_what_is_required_and_the_strip_laps_enough(
    kind: str, span: float, overhead: bool, early: bool
) -> None:
    """The printed arithmetic adds up exactly, and the lap is never under the land."""
    catalog = default_catalog()
    sizing = size_strip(catalog, kind, span, overhead=overhead, before_panels=early)
    assert math.fsum(t.value * t.count for t in sizing.terms) == sizing.required
    assert total(sizing.terms) == sizing.required
    land = catalog.laps.land.get(kind, catalog.laps.land["*"])
    assert sizing.lap >= land - 1e-6


@settings(derandomize=True, max_examples=25, deadline=None)
@given(st.permutations(range(10)), st.permutations(range(len(JOINTS))))
def test_the_schedule_does_not_depend_on_order(panels: list[int], joints: list[int]) -> None:
    """Panels and joints in any order give the same schedule."""
    shell = gable_box()
    turned = replace(shell, panels=tuple(shell.panels[i] for i in panels))
    assert schedule(turned, [JOINTS[i] for i in joints]) == schedule(shell, JOINTS)


@settings(derandomize=True, max_examples=25, deadline=None)
@given(
    st.lists(st.sampled_from(JOINTS), unique_by=lambda j: j.id),
    st.sampled_from([None, "inner", "outer", "both"]),
)
def test_every_joint_has_a_seal_or_a_finding(joints: list[Joint], face: str | None) -> None:
    """No joint falls through: each is sealed, or a finding names it."""
    made = schedule(gable_box(), joints, face)
    sealed = {s.joint_id for s in made.strips} | {b.joint_id for b in made.beads}
    named = {f.subject for f in made.findings}
    assert {j.id for j in joints} <= sealed | named


@settings(derandomize=True, max_examples=25, deadline=None)
@given(st.sampled_from(["inner", "outer", "both"]))
def test_strips_run_as_long_as_their_skin_lines(face: str) -> None:
    """The strips of a face add up to the skin lines of that face."""
    made = schedule(gable_box(), JOINTS, face)
    for name in ("inner", "outer"):
        run = math.fsum(s.length for s in made.strips if s.face == name and s.primary)
        if face in {name, "both"}:
            lines = [(j.inner if name == "inner" else j.outer).length for j in JOINTS]
            assert math.isclose(run, math.fsum(lines), abs_tol=1e-9)
        else:
            assert run == 0.0
