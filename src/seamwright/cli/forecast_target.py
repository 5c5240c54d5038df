"""From words on the command line to a target or a flow at 50 Pa."""

from __future__ import annotations

import re
from collections.abc import Sequence

from seamwright.errors import InputError, Problem
from seamwright.leakage.targets import LIMITS, Limit, target_for
from seamwright.leakage.types import Target

GIVEN = "given on the command line"

_NUMBER = re.compile(r"\s*([0-9]+(?:\.[0-9]+)?|\.[0-9]+)\s*(.*?)\s*")
_FLOWS = {"cfm": 0.3048**3 / 60.0, "m3/h": 1.0 / 3600.0, "l/s": 1e-3}
_PER_AREA = {"m3/hm2": 1.0, "cfm/ft2": 0.3048 * 60.0, "q": 1.0}
_AIR_CHANGES = {"ach", "n", "1/h"}


def parse_target(text: str, zone: str | None, table: Sequence[Limit] = LIMITS) -> Target:
    """Return the target that words name: a limit with its unit, or an edition in a climate zone.

    Raises
    ------
    InputError
        When they name neither.
    """
    match = _NUMBER.fullmatch(text)
    if match is None:
        return target_for(zone, text, table=table)
    value, unit = float(match[1]), _plain(match[2])
    if not value > 0.0:
        raise _refused(text, "is not above zero")
    if unit in _AIR_CHANGES:
        return Target(measure="ach50", limit=value, source=GIVEN)
    if unit in _PER_AREA:
        return Target(measure="q50", limit=value * _PER_AREA[unit], source=GIVEN)
    if unit in _FLOWS:
        return Target(measure="flow_50", limit=value * _FLOWS[unit], source=GIVEN)
    raise _refused(text, "has no unit of a limit at 50 Pa")


def parse_flow(text: str) -> float:
    """Return a measured flow at 50 Pa. [m³/s]

    Raises
    ------
    InputError
        When it is no number above zero with a unit of flow.
    """
    match = _NUMBER.fullmatch(text)
    unit = "" if match is None else _plain(match[2])
    if match is None or unit not in _FLOWS or not float(match[1]) > 0.0:
        problem = Problem(
            subject="measured",
            sentence=f"{text!r} is no flow at 50 Pa",
            remedy="write it as 640 cfm50, 1090 m3/h or 300 L/s",
        )
        raise InputError([problem])
    return float(match[1]) * _FLOWS[unit]


def plan_target(
    zone: str | None, edition: str | None, table: Sequence[Limit] = LIMITS
) -> tuple[Target | None, str]:
    """Return the target of the plan's edition and zone, and why there is none."""
    if zone is None or edition is None:
        return None, "No target: the plan gives no climate zone with its edition; add --target."
    try:
        return target_for(zone, edition, table=table), ""
    except InputError as error:
        return None, f"No target: {error.problems[0].sentence}; add --target."


def _plain(unit: str) -> str:
    """Return a unit without spaces, brackets, powers as digits, and the 50 of its pressure."""
    plain = unit.casefold().replace("³", "3").replace("²", "2")
    plain = re.sub(r"[\s()·*]", "", plain).removesuffix("at50pa").removesuffix("50pa")
    return plain.rstrip("@").replace("cfm50", "cfm").removesuffix("50")


def _refused(text: str, why: str) -> InputError:
    return InputError(
        [
            Problem(
                subject="target",
                sentence=f"the target {text!r} {why}",
                remedy="write it as 1.5 ACH50, 2.5 m3/(h m2), 900 cfm50 or an edition, IECC 2024",
            )
        ]
    )
