"""The dryness of a house's joints as JSON, in SI with the unit in the key."""

from __future__ import annotations

from seamwright.io.json_text import Json
from seamwright.moisture.verdict.judge import worst
from seamwright.moisture.verdict.types import Criterion, FaceOption, Verdict
from seamwright.report.dryness_sheet import LIMITS, NOT_A_RULE
from seamwright.report.dryness_types import DryRun, HeightDryness, HouseDryness, JointDryness


def dryness_document(found: HouseDryness) -> Json:
    """Return everything found. `joints` has what each joint tolerates, as the leak hunt takes it:
    its largest leakage within limits under the best of the faces tried, the least of its heights.
    """
    return {
        "weather": found.origin,
        "generated": found.generated,
        "rooms": found.room,
        "years": found.asked.years,
        "proposal_only": NOT_A_RULE,
        "assumed": list(found.assumed),
        "limits_of_the_model": list(LIMITS),
        "volumes": found.cells,
        "runs": found.count,
        "joints": [
            {"id": joint_id, "type": one.joint.name, "tolerable_leak_m3_h_m": leak,
             "margin": margin}
            for one in found.joints
            for leak, margin in [_tolerated(one)]
            for joint_id in one.joint.joint_ids
        ],
        "types": [_type(one) for one in found.joints],
        "left_out": [
            {"type": one.name, "title": one.title, "joints": list(one.joint_ids),
             "why": one.why_not}
            for one in found.left_out
        ],
    }  # fmt: skip


def _tolerated(one: JointDryness) -> tuple[float | None, float | None]:
    leaks, margins = [], []
    for height in one.heights:
        levels = [_level(o) for o in height.options if o.leak is not None]
        if not levels:
            return None, None
        leaks.append(max(levels))
        margins.append(max(worst(o.verdicts).margin for o in height.options))
    return (min(leaks), min(margins)) if leaks else (None, None)


def _level(option: FaceOption) -> float:
    if option.leak is None or option.leak.level is None:
        return 0.0
    return option.leak.level


def _type(one: JointDryness) -> Json:
    joint = one.joint
    return {
        "type": joint.name,
        "title": joint.title,
        "drawn": joint.joint.id,
        "joints": list(joint.joint_ids),
        "length_m": joint.length,
        "undammed_height_m": joint.run,
        "heights": [_height(height) for height in one.heights],
    }


def _height(height: HeightDryness) -> Json:
    proposal = height.recommendation
    return {
        "height": height.height,
        "above_neutral_level_m": height.above,
        "proposed_face": None if proposal is None else proposal.face,
        "proposal": [] if proposal is None else list(proposal.sentences),
        "published_advice": [] if proposal is None else [
            {"holder": a.holder, "says": a.says, "source": a.source, "agrees": a.agrees}
            for a in proposal.advice
        ],
        "options": [_option(option) for option in height.options],
        "runs": [_run(run) for run in height.runs],
    }  # fmt: skip


def _option(option: FaceOption) -> Json:
    return {
        "face": option.face,
        "usual_leak_m3_h_m": option.leak_expected,
        "tolerable_leak_m3_h_m": None if option.leak is None else option.leak.level,
        "tolerable_leak_words": None if option.leak is None else option.leak.advice,
        "places": [_verdict(verdict) for verdict in option.verdicts],
    }


def _verdict(verdict: Verdict) -> Json:
    return {
        "place": verdict.place,
        "within": verdict.within,
        "margin": verdict.margin,
        "binding": verdict.binding,
        "trend": verdict.trend,
        "criteria": [_criterion(criterion) for criterion in verdict.criteria],
        "hours_over": [
            {"moisture_kg_kg": level, "hours": hours, "hours_of_worst_year": most}
            for level, hours, most in verdict.hours_over
        ],
    }


def _criterion(criterion: Criterion) -> Json:
    return {
        "name": criterion.name,
        "value": criterion.value,
        "limit": criterion.limit,
        "unit": criterion.unit,
        "margin": criterion.margin,
        "season": criterion.season,
        "source": criterion.source,
    }


def _run(run: DryRun) -> Json:
    wet = run.wettest
    return {
        "face": run.face,
        "leak_m3_h_m": run.leakage,
        "usual": run.expected,
        "converged": run.converged,
        "advice": run.advice,
        "margin": None if run.verdict is None else run.verdict.margin,
        "binding": None if run.verdict is None else run.verdict.binding,
        "wettest": None if wet is None else {
            "place": wet.place, "depth_share": wet.depth, "moisture_kg_kg": wet.moisture,
            "season": wet.season, "month": wet.month + 1,
        },
        "water_error": run.water_error,
        "heat_error": run.heat_error,
    }  # fmt: skip
