"""Passes, fails, or cannot tell: a measure with its interval against a target."""

from __future__ import annotations

from seamwright.leakage.types import Interval, Outcome, Target

UNITS = {"ach50": "1/h", "q50": "m³/(h·m²)", "flow_50": "m³/h"}


def judge(
    target: Target | None,
    *,
    ach50: Interval | None,
    q50: Interval | None,
    flow_50: Interval,
    valid: bool,
) -> tuple[Outcome | None, str]:
    """Return the outcome against the target and the sentence that says why.

    The whole 95 % interval must stand on one side of the limit, and every rule of the standard
    must hold, before the answer is anything but ``cannot tell``. `flow_50` in m³/s.
    """
    if target is None:
        return None, "no target given"
    per_hour = Interval(
        value=flow_50.value * 3600, low=flow_50.low * 3600, high=flow_50.high * 3600
    )
    measure = {"ach50": ach50, "q50": q50, "flow_50": per_hour}[target.measure]
    if measure is None:
        need = "volume" if target.measure == "ach50" else "area of the shell"
        return "cannot tell", f"the target is {target.measure}, but the {need} is not given"
    unit = UNITS[target.measure]
    limit = target.limit if target.measure != "flow_50" else target.limit * 3600
    span = (
        f"{measure.value:.2f} ({measure.low:.2f} to {measure.high:.2f}) {unit} against "
        f"{limit:.2f} ({target.source})"
    )
    if not valid:
        return "cannot tell", f"{span}, but a rule of the standard does not hold"
    if measure.high <= limit:
        return "passes", span
    if measure.low > limit:
        return "fails", span
    return "cannot tell", f"{span}: the limit lies inside the interval"
