"""Which volume, area and target a fan test is held against, and where each came from."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from seamwright.cli.forecast_target import parse_target, plan_target
from seamwright.cli.source import Source, read_source
from seamwright.errors import InputError, Problem
from seamwright.io.fan_units import Measure, to_si, unit_named
from seamwright.joints.enclosure import Enclosure, measure_enclosure
from seamwright.leakage.targets import LIMITS, Limit, target_for
from seamwright.leakage.types import Envelope, Target
from seamwright.shell.types import Shell
from seamwright.workflow import register_joints

APART = 0.05
"""Volumes of the plan and of the file further apart than this are told; our own choice."""

_SIZE = re.compile(r"\s*([0-9][0-9,]*(?:\.[0-9]*)?)\s*(\S.*?)\s*")


@dataclass(frozen=True, kw_only=True, slots=True)
class House:
    """The envelope a test is worked out with, what must be said about it, and the plan's source
    with its shell as measured.
    """

    envelope: Envelope
    notes: tuple[str, ...] = ()
    source: Source | None = None
    shell: Shell | None = None
    measured: Enclosure | None = None


def house_of(
    in_file: Envelope,
    *,
    plan: str | None,
    types: Path | None,
    volume: str | None,
    area: str | None,
    rule: str | None,
) -> House:
    """Return the envelope: options first, then the plan's shell, then the file of the test."""
    envelope, source, shell, measured = in_file, None, None, None
    notes: tuple[str, ...] = ()
    if plan is not None:
        source = read_source(plan, types=types)
        with source.placed():
            shell, register = register_joints(source.plan)
        measured = measure_enclosure(shell, register)
        notes = (*measured.warnings, *_apart(in_file, measured))
        envelope = Envelope(
            volume=measured.volume if measured.volume > 0.0 else None,
            area=measured.area if measured.area > 0.0 else None,
            floor_area=measured.floor_area if measured.floor_area > 0.0 else None,
            rule=measured.rule,
        )
    told = "rule not stated" if rule is None else rule
    if volume is not None:
        size = _size(volume, "volume")
        envelope = replace(envelope, volume=size, rule=_joined("Volume", told, envelope.rule))
    if area is not None:
        size = _size(area, "area")
        envelope = replace(envelope, area=size, rule=_joined("Area", told, envelope.rule))
    return House(envelope=envelope, notes=notes, source=source, shell=shell, measured=measured)


def target_of(
    house: House,
    *,
    target: str | None,
    zone: str | None,
    edition: str | None,
    table: Sequence[Limit] = LIMITS,
) -> Target | None:
    """Return the target asked for: a limit or edition in words, or an edition in a zone.

    The zone is the one given, else the plan's. Where nothing is asked for, the plan's own edition
    and zone, if it has them. `table` holds the limits by edition.
    """
    site = None if house.source is None else house.source.plan.site
    place = site.climate_zone if zone is None and site is not None else zone
    if target is not None and edition is not None:
        problem = Problem(
            subject="target",
            sentence="--target and --edition both name a limit",
            remedy="give one of them",
        )
        raise InputError([problem])
    if target is not None:
        return parse_target(target, place, table)
    if edition is not None:
        return target_for(place, edition, table=table)
    return None if site is None else plan_target(place, site.zone_edition, table)[0]


def flow_limit(target: Target | None, envelope: Envelope) -> float | None:
    """Return the flow at 50 Pa that a target allows, None where the house's size is missing.
    [m³/s]
    """
    if target is None:
        return None
    if target.measure == "flow_50":
        return target.limit
    size = envelope.volume if target.measure == "ach50" else envelope.area
    return None if size is None else target.limit * size / 3600.0


def _apart(in_file: Envelope, measured: Enclosure) -> tuple[str, ...]:
    if in_file.volume is None or not measured.volume > 0.0:
        return ()
    if abs(in_file.volume / measured.volume - 1.0) <= APART:
        return ()
    told = (
        f"The file says {in_file.volume:.1f} m³ ({in_file.rule}), the plan's shell encloses "
        f"{measured.volume:.1f} m³: the plan's is used; give --volume to use another"
    )
    return (told,)


def _joined(what: str, told: str, before: str) -> str:
    mine = f"{what} given on the command line: {told}."
    return f"{mine} The rest: {before}" if before else mine


def _size(text: str, measure: Measure) -> float:
    match = _SIZE.fullmatch(text)
    unit = None if match is None else unit_named(match[2], measure)
    if match is None or unit is None or not float(match[1].replace(",", "")) > 0.0:
        example = "17817 ft3 or 504.5 m3" if measure == "volume" else "4588 ft2 or 426.2 m2"
        problem = Problem(
            subject=measure, sentence=f"{text!r} is no {measure}", remedy=f"write it as {example}"
        )
        raise InputError([problem])
    return to_si(float(match[1].replace(",", "")), measure, unit)
