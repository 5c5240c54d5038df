"""Limits of air leakage by rule, edition and climate zone, each with its source and mark.

The edition always stands beside the number: limits change from one to the next, and the edition
in force is for the authority having jurisdiction to say. The table is a default, to be replaced
row by row with `with_limit`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

from seamwright.errors import InputError, Problem
from seamwright.leakage.combine import EXPONENT, TEST_PRESSURE, flow_between
from seamwright.leakage.types import Target

Measure: TypeAlias = Literal["ach50", "q50"]
Mark: TypeAlias = Literal["seen", "from memory"]

_CFM_PER_SQUARE_FOOT = 0.3048 * 60.0
"""[m/h] One cubic foot a minute through one square foot, as m³/(h·m²)."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Limit:
    """One row: a rule, its editions and zones (empty: all), and the limit.

    `limit` is air changes in 1/h or flow per shell area in m³/(h·m²) at `pressure` [Pa]; `zones`
    are the numbers of climate zones; `condition` says for which buildings it holds.
    """

    rule: str
    editions: tuple[str, ...]
    zones: tuple[int, ...]
    measure: Measure
    limit: float
    source: str
    mark: Mark
    condition: str = ""
    pressure: float = TEST_PRESSURE


_EARLIER = ("IECC 2012", "IECC 2015", "IECC 2018")

LIMITS: tuple[Limit, ...] = (
    Limit(rule="IECC", editions=_EARLIER, zones=(1, 2), measure="ach50", limit=5.0,
          source="R402.4.1.2", mark="seen"),
    Limit(rule="IECC", editions=_EARLIER, zones=(3, 4, 5, 6, 7, 8), measure="ach50", limit=3.0,
          source="R402.4.1.2", mark="seen"),
    Limit(rule="IECC", editions=("IECC 2021",), zones=(0, 1, 2), measure="ach50", limit=5.0,
          source="R402.4.1.3, prescriptive", mark="seen"),
    Limit(rule="IECC", editions=("IECC 2021",), zones=(3, 4, 5, 6, 7, 8), measure="ach50",
          limit=3.0, source="R402.4.1.3, prescriptive", mark="seen"),
    Limit(rule="IECC", editions=("IECC 2021",), zones=(), measure="q50",
          limit=0.30 * _CFM_PER_SQUARE_FOOT, source="R402.4.1.3, exception",
          mark="from memory", condition="attached, or up to 1,500 ft² (139 m²)"),
    Limit(rule="IECC", editions=("IECC 2021 any path",), zones=(), measure="ach50", limit=5.0,
          source="R402.4.1.2, upper limit", mark="from memory"),
    Limit(rule="IECC", editions=("IECC 2024",), zones=(0, 1, 2), measure="ach50", limit=4.0,
          source="R402.5.1.3", mark="from memory"),
    Limit(rule="IECC", editions=("IECC 2024",), zones=(3, 4, 5), measure="ach50", limit=3.0,
          source="R402.5.1.3", mark="from memory"),
    Limit(rule="IECC", editions=("IECC 2024",), zones=(6, 7, 8), measure="ach50", limit=2.5,
          source="R402.5.1.3", mark="from memory"),
    Limit(rule="passive house", editions=("passive house",), zones=(), measure="ach50", limit=0.6,
          source="Passive House Institute criteria", mark="seen"),
    Limit(rule="IECC commercial", editions=("IECC C402.5",), zones=(), measure="q50",
          limit=0.40 * _CFM_PER_SQUARE_FOOT, source="whole building", mark="seen", pressure=75.0,
          condition="whole commercial buildings"),
    Limit(rule="USACE", editions=("USACE",), zones=(), measure="q50",
          limit=0.25 * _CFM_PER_SQUARE_FOOT, mark="seen", pressure=75.0,
          source="U.S. Army Corps of Engineers protocol (ASHRAE Journal, April 2009)"),
    Limit(rule="Germany", editions=("DIN 4108-7",), zones=(), measure="ach50", limit=1.5,
          source="with GEG", mark="from memory", condition="with mechanical ventilation"),
    Limit(rule="Germany", editions=("DIN 4108-7",), zones=(), measure="ach50", limit=3.0,
          source="with GEG", mark="from memory", condition="without mechanical ventilation"),
    Limit(rule="England", editions=("Part L 2021",), zones=(), measure="q50", limit=8.0,
          source="Approved Document L, volume 1, 2021", mark="from memory"),
    Limit(rule="Norway", editions=("TEK17",), zones=(), measure="ach50", limit=0.6,
          source="TEK17, § 14-2", mark="from memory", condition="dwellings, energy measures"),
    Limit(rule="Finland", editions=("Finland 1010/2017",), zones=(), measure="q50", limit=4.0,
          source="Finnish decree 1010/2017", mark="from memory"),
    Limit(rule="France", editions=("RE2020",), zones=(), measure="q50", limit=0.6, pressure=4.0,
          source="RT2012 and RE2020", mark="from memory", condition="single houses"),
    Limit(rule="Canada", editions=("R-2000",), zones=(), measure="ach50", limit=1.5,
          source="standard of the program", mark="from memory"),
)  # fmt: skip
"""Every limit carried with the program, newest edition of a rule last."""


def editions(table: Sequence[Limit] = LIMITS) -> tuple[str, ...]:
    """Return every edition the table knows, in its order."""
    return tuple(dict.fromkeys(edition for limit in table for edition in limit.editions))


def with_limit(limit: Limit, table: Sequence[Limit] = LIMITS) -> tuple[Limit, ...]:
    """Return the table with a limit of the user's own in front, so that it is found first."""
    return (limit, *table)


def target_for(
    zone: str | None,
    edition: str,
    measure: Measure | None = None,
    *,
    table: Sequence[Limit] = LIMITS,
) -> Target:
    """Return the limit of an edition in a climate zone, with its edition in the source.

    `zone` as on plans (``5B``, ``4 marine``); None where the rule knows no zones. The first row
    that fits wins, among those with the measure of the edition's first row unless `measure` names
    another. A limit at another pressure than
    50 Pa is brought there with an exponent of 0.65, and the source says so.

    Raises InputError for an edition that is not in the table, a zone that is missing or that the
    edition does not have, or a measure it does not limit.
    """
    known = {name.casefold(): name for name in editions(table)}
    name = known.get(" ".join(edition.casefold().split()))
    if name is None:
        raise _refused(
            f"no limit is known for the edition {edition!r}",
            f"take one of {', '.join(known.values())}, or give the limit itself",
        )
    rows = [row for row in table if name in row.editions]
    wanted = rows[0].measure if measure is None else measure
    rows = [row for row in rows if row.measure == wanted]
    if not rows:
        raise _refused(f"{name} sets no limit on {measure}", "leave the measure out")
    number = zone_number(zone)
    fitting = [row for row in rows if not row.zones or number in row.zones]
    if not fitting:
        zones = sorted({z for row in rows for z in row.zones})
        given = "no climate zone is given" if number is None else f"there is no zone {number} in it"
        raise _refused(
            f"{name} sets its limit by climate zone, and {given}",
            f"give the zone in the plan, one of {', '.join(map(str, zones))}",
        )
    return as_target(fitting[0], name, number)


def as_target(limit: Limit, edition: str, zone: int | None) -> Target:
    """Return a row as a target at 50 Pa, its source naming edition, zone, condition and mark."""
    words = [f"{edition}, {limit.source}"]
    if limit.zones and zone is not None:
        words.append(f"climate zone {zone}")
    if limit.condition:
        words.append(limit.condition)
    value = limit.limit
    if limit.pressure != TEST_PRESSURE:
        value = flow_between(value, limit.pressure, TEST_PRESSURE)
        words.append(f"brought from {limit.pressure:g} Pa with n = {EXPONENT}")
    if limit.mark != "seen":
        words.append(limit.mark)
    return Target(measure=limit.measure, limit=value, source="; ".join(words))


def zone_number(zone: str | None) -> int | None:
    """Return the number of a climate zone such as ``5B``, None without one."""
    found = None if zone is None else re.match(r"\s*([0-8])(?!\d)", zone)
    return None if found is None else int(found[1])


def _refused(sentence: str, remedy: str) -> InputError:
    return InputError([Problem(subject="target", sentence=sentence, remedy=remedy)])
