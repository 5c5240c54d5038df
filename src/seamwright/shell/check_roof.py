"""What can be seen wrong in roof parts and dormers before any shape is built."""

from __future__ import annotations

import math
from collections.abc import Iterator

from seamwright.errors import Problem
from seamwright.geometry.polygon import is_convex, is_simple, signed_area
from seamwright.geometry.types import Ring
from seamwright.shell.outline import plan_ring
from seamwright.shell.plan import Dormer, Plan, RoofPart

EAVES = {"gable": 2, "gambrel": 2, "saltbox": 2, "shed": 1}
"""How many area edges of each kind carry an eave; a hip may have any number."""


def roof_problems(plan: Plan) -> Iterator[Problem]:
    """Yield what is wrong with the roof parts."""
    for part in plan.roof:
        ring = plan_ring(part.area)
        outline = _outline(part, ring)
        if outline is not None:
            yield outline
            continue
        yield from _edges(part, ring)
        yield from _pitches(part, ring)


def dormer_problems(plan: Plan) -> Iterator[Problem]:
    """Yield what is wrong with the dormers."""
    parts = {part.id: part for part in plan.roof}
    for dormer in plan.dormers:
        part = parts.get(dormer.part)
        if part is None:
            yield _problem(
                f"dormer {dormer.id}",
                f"dormer {dormer.id} stands on roof part {dormer.part}, and there is none",
                f"use one of {', '.join(parts)}" if parts else "describe the roof first",
            )
            continue
        yield from _dormer(dormer, part)


def _dormer(dormer: Dormer, part: RoofPart) -> Iterator[Problem]:
    subject = f"dormer {dormer.id}"
    if dormer.eave not in part.eaves:
        yield _problem(
            subject,
            f"dormer {dormer.id} stands above edge {dormer.eave} of roof part {part.id}, which "
            "carries no eave",
            f"use one of the eaves {', '.join(map(str, part.eaves))}",
        )
        return
    if min(dormer.width, dormer.pitch, dormer.back) <= 0 or dormer.along < 0:
        yield _problem(
            subject,
            f"dormer {dormer.id} needs a width, a pitch and a distance back from the eave",
            "give all three greater than zero",
        )
    ring = plan_ring(part.area)
    length = math.dist(ring[dormer.eave], ring[(dormer.eave + 1) % len(ring)])
    end = float(dormer.along + dormer.width)
    if end > length + 1e-9:
        yield _problem(
            subject,
            f"dormer {dormer.id} ends {{end}} along an eave that is {{length}} long",
            "move the dormer or make it narrower",
            end=end,
            length=length,
        )


def _outline(part: RoofPart, ring: Ring) -> Problem | None:
    subject = f"roof part {part.id}"
    if not is_simple(ring):
        return _problem(
            subject,
            f"the area of roof part {part.id} crosses itself, repeats a corner or has no area",
            "list its corners once, in order around the part",
        )
    if signed_area(ring) < 0.0:
        return _problem(
            subject,
            f"the area of roof part {part.id} runs clockwise",
            "list its corners counter-clockwise, seen from above",
        )
    if not is_convex(ring):
        return _problem(
            subject,
            f"the area of roof part {part.id} has an inside corner",
            "divide it into convex parts that run on into each other (open_end)",
        )
    if part.kind != "hip" and not _is_rectangle(ring):
        return _problem(
            subject,
            f"roof part {part.id} is a {part.kind} but its area is no rectangle",
            "give four square corners, or use a hip",
        )
    return None


def _edges(part: RoofPart, ring: Ring) -> Iterator[Problem]:
    subject = f"roof part {part.id}"
    bad = [i for i in (*part.eaves, *part.open_end) if not 0 <= i < len(ring)]
    if bad:
        yield _problem(
            subject,
            f"roof part {part.id} names edge {bad[0]}, but its area has edges 0 to {len(ring) - 1}",
            "count the edges from 0 at the first corner",
        )
        return
    both = [i for i in part.eaves if i in part.open_end]
    if both or len(set(part.eaves)) != len(part.eaves):
        yield _problem(
            subject,
            f"roof part {part.id} names an edge twice among its eaves and open ends",
            "let each edge be an eave, an open end, or neither",
        )
    wanted = EAVES.get(part.kind)
    if not part.eaves or (wanted is not None and len(part.eaves) != wanted):
        yield _problem(
            subject,
            f"roof part {part.id} is a {part.kind} with {len(part.eaves)} eaves",
            f"name {wanted if wanted is not None else 'at least one'} of its edges as eaves",
        )
    elif wanted == 2 and (part.eaves[1] - part.eaves[0]) % 4 != 2:
        yield _problem(
            subject,
            f"the two eaves of roof part {part.id} are not opposite each other",
            "name opposite edges",
        )


def _pitches(part: RoofPart, ring: Ring) -> Iterator[Problem]:
    subject = f"roof part {part.id}"
    if part.pitch <= 0:
        yield _problem(
            subject,
            f"roof part {part.id} has a pitch of {float(part.pitch):g}",
            "give a rise over run greater than zero",
        )
    if part.kind in {"gambrel", "saltbox"} and (
        part.second_pitch is None or part.second_pitch <= 0
    ):
        yield _problem(
            subject,
            f"roof part {part.id} is a {part.kind} without a second pitch",
            "give second_pitch greater than zero",
        )
    if min(part.overhang_eave, part.overhang_rake, part.eave_plate) < 0:
        yield _problem(
            subject,
            f"roof part {part.id} has an overhang or an eave plate below zero",
            "give zero or more",
        )
    if part.kind == "gambrel" and part.eaves and 0 <= part.eaves[0] < len(ring):
        yield from _gambrel(part, ring)


def _gambrel(part: RoofPart, ring: Ring) -> Iterator[Problem]:
    i = part.eaves[0]
    half = math.dist(ring[i - 1], ring[i]) / 2.0
    run = 0.0 if part.break_run is None else float(part.break_run)
    if not 0.0 < run < half:
        yield _problem(
            f"roof part {part.id}",
            f"the break of gambrel {part.id} lies {{run}} in from the eave; it must lie between 0 "
            "and the ridge at {half}",
            "give break_run within these limits",
            run=run,
            half=half,
        )
    if part.second_pitch is not None and part.second_pitch >= part.pitch:
        yield _problem(
            f"roof part {part.id}",
            f"the upper pitch {float(part.second_pitch):g} of gambrel {part.id} is not flatter "
            f"than its lower pitch {float(part.pitch):g}",
            "give the steep lower slope as pitch and the flat upper one as second_pitch",
        )


def _is_rectangle(ring: Ring) -> bool:
    if len(ring) != 4:
        return False
    for i in range(4):
        a, b, c = ring[i - 1], ring[i], ring[(i + 1) % 4]
        product = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1])
        if abs(product) > 1e-6 * math.dist(a, b) * math.dist(b, c):
            return False
    return True


def _problem(subject: str, sentence: str, remedy: str, **lengths: float) -> Problem:
    return Problem(
        subject=subject, sentence=sentence, remedy=remedy, lengths=tuple(lengths.items())
    )
