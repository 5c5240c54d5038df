"""Passes, fails, or cannot tell: a measure with its interval against a target."""

from __future__ import annotations

from collections.abc import Sequence

from seamwright.leakage.accuracy import scaled
from seamwright.leakage.types import Check, Interval, Outcome, Target

UNITS = {"ach50": "1/h", "q50": "m³/(h·m²)", "flow_50": "m³/h"}


def judge(
    target: Target | None,
    *,
    ach50: Interval | None,
    q50: Interval | None,
    flow_50: Interval,
    broken: Sequence[Check] = (),
) -> tuple[Outcome | None, str]:
    """Return the outcome against the target and the sentence that says why.

    The whole 95 % interval must stand on one side of the limit, and every rule of the standard
    must hold, before the answer is anything but ``cannot tell``. A code usually asks only for the
    value, so the sentence also says on which side the value alone stands. `flow_50` in m³/s;
    `broken` are the required rules that do not hold.
    """
    if target is None:
        return None, "no target given"
    measure = {"ach50": ach50, "q50": q50, "flow_50": scaled(flow_50, 3600.0)}[target.measure]
    if measure is None:
        need = "volume" if target.measure == "ach50" else "area of the shell"
        return "cannot tell", f"the target is {target.measure}, but the {need} is not given"
    unit = UNITS[target.measure]
    limit = target.limit if target.measure != "flow_50" else target.limit * 3600
    span = (
        f"{measure.value:.2f} ({measure.low:.2f} to {measure.high:.2f}) {unit} against "
        f"{limit:.2f} ({target.source})"
    )
    alone = "within" if measure.value <= limit else "above"
    if broken:
        rules = "; ".join(dict.fromkeys(check.rule for check in broken))
        return "cannot tell", (
            f"{span}; the value alone is {alone} it, but a rule of the standard does not hold: "
            f"{rules}"
        )
    if measure.high <= limit:
        return "passes", span
    if measure.low > limit:
        return "fails", span
    return "cannot tell", (
        f"{span}: the limit lies inside the interval; the value alone is {alone} it"
    )
