"""What can be seen wrong in a plan before any shape is built: names, sizes, storeys, outlines."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from itertools import combinations

import shapely

from seamwright.errors import Problem
from seamwright.geometry.polygon import is_simple, signed_area
from seamwright.shell.check_roof import dormer_problems, roof_problems
from seamwright.shell.levels import letters, wall_id
from seamwright.shell.outline import plan_ring
from seamwright.shell.plan import Plan


def check_plan(plan: Plan) -> tuple[Problem, ...]:
    """Return every problem visible in the plan's records alone, in plan order."""
    checks: tuple[Callable[[Plan], Iterator[Problem]], ...] = (
        _empty,
        _repeated,
        _panel_types,
        _references,
        _base,
        _storeys,
        _footprints,
        _wall_rules,
        roof_problems,
        dormer_problems,
        _inner_walls,
        _holes,
        _timbers,
    )
    return tuple(problem for check in checks for problem in check(plan))


def _empty(plan: Plan) -> Iterator[Problem]:
    if not plan.footprints and not plan.panels and not plan.roof:
        yield Problem(
            subject="plan",
            sentence="the plan describes no house: it has no footprint, no roof and no panels",
            remedy="give at least one footprint or list the panels",
        )
    if plan.footprints and not plan.storeys:
        yield Problem(
            subject="plan",
            sentence="the plan has a footprint but no storeys",
            remedy="give at least one storey with its height",
        )


def _repeated(plan: Plan) -> Iterator[Problem]:
    groups: tuple[tuple[str, list[str]], ...] = (
        ("panel type", [x.id for x in plan.panel_types]),
        ("storey", [x.id for x in plan.storeys]),
        ("footprint", [x.id for x in plan.footprints]),
        ("roof part", [x.id for x in plan.roof] + [x.id for x in plan.dormers]),
        ("inner wall", [x.id for x in plan.inner_walls]),
        ("opening", [x.id for x in plan.openings]),
        ("penetration", [x.id for x in plan.penetrations]),
        ("timber", [x.id for x in plan.timbers]),
        ("panel", [x.id for x in plan.panels]),
        ("support", [x.id for x in plan.supports]),
    )
    for what, names in groups:
        for name, count in Counter(names).items():
            if count > 1:
                yield Problem(
                    subject=f"{what} {name}",
                    sentence=f"{count} entries share the id {name} for a {what}",
                    remedy="give each its own id",
                )


def _panel_types(plan: Plan) -> Iterator[Problem]:
    least = plan.preferences.min_width
    for kind in plan.panel_types:
        sizes = {
            "skin_inner": kind.skin_inner,
            "core": kind.core,
            "skin_outer": kind.skin_outer,
            "max_width": kind.max_width,
            "max_length": kind.max_length,
        }
        for word, size in sizes.items():
            if size <= 0:
                yield Problem(
                    subject=f"panel type {kind.id}",
                    sentence=f"panel type {kind.id} has {word} {float(size):g} m",
                    remedy="give a length greater than zero",
                )
        if 0 < kind.max_width < 2 * least:
            yield Problem(
                subject=f"panel type {kind.id}",
                sentence=f"panel type {kind.id} is at most {{width}} wide, less than two of the "
                "least width {least}: slivers cannot be avoided",
                remedy="lower layout min_width or use a wider panel type",
                lengths=(("width", float(kind.max_width)), ("least", float(least))),
            )
        if not 0 <= kind.edge_gap < kind.max_width:
            yield Problem(
                subject=f"panel type {kind.id}",
                sentence=f"panel type {kind.id} leaves a gap of {float(kind.edge_gap):g} m",
                remedy="give a gap from zero up to less than the panel's width",
            )


def _references(plan: Plan) -> Iterator[Problem]:
    kinds = [kind.id for kind in plan.panel_types]
    uses: list[tuple[str, str]] = [(f"storey {s.id}", s.panel_type) for s in plan.storeys]
    uses += [(f"wall {r.wall}", r.panel_type) for r in plan.wall_rules if r.panel_type is not None]
    uses += [(f"roof part {p.id}", p.panel_type) for p in plan.roof]
    for dormer in plan.dormers:
        uses += [
            (f"dormer {dormer.id}", name) for name in (dormer.panel_type, dormer.wall_panel_type)
        ]
    uses += [(f"panel {p.id}", p.panel_type) for p in plan.panels]
    if plan.base is not None and plan.base.panel_type is not None:
        uses.append(("base", plan.base.panel_type))
    for subject, name in uses:
        if name not in kinds:
            yield unknown(subject, "panel type", name, kinds)
    storeys = [storey.id for storey in plan.storeys]
    for footprint in plan.footprints:
        for name in footprint.storeys:
            if name not in storeys:
                yield unknown(f"footprint {footprint.id}", "storey", name, storeys)
    for wall in plan.inner_walls:
        if wall.storey not in storeys:
            yield unknown(f"inner wall {wall.id}", "storey", wall.storey, storeys)


def unknown(subject: str, what: str, name: str, known: Iterable[str]) -> Problem:
    """Return the problem of a name that nothing in the plan carries."""
    listed = ", ".join(known)
    return Problem(
        subject=subject,
        sentence=f"{subject} names {what} {name}, and there is none",
        remedy=f"use one of {listed}" if listed else f"define a {what} first",
    )


def _base(plan: Plan) -> Iterator[Problem]:
    base = plan.base
    if base is None:
        return
    if base.kind == "floor_panels" and base.panel_type is None:
        yield Problem(
            subject="base",
            sentence="the base is of floor panels but names no panel type",
            remedy="give its panel_type",
        )
    if base.thickness <= 0 or base.sill < 0:
        yield Problem(
            subject="base",
            sentence=f"the base is {float(base.thickness):g} m thick under a sill of "
            f"{float(base.sill):g} m",
            remedy="give a thickness greater than zero and a sill of zero or more",
        )


def _storeys(plan: Plan) -> Iterator[Problem]:
    for i, storey in enumerate(plan.storeys):
        subject = f"storey {storey.id}"
        if storey.height <= 0:
            yield Problem(
                subject=subject,
                sentence=f"storey {storey.id} is {float(storey.height):g} m high",
                remedy="give the wall height from bearing to plate, greater than zero",
            )
        if (i == 0) != (storey.floor == "base"):
            yield Problem(
                subject=subject,
                sentence=f"storey {storey.id} is number {i + 1} from below and has a "
                f"{storey.floor} floor",
                remedy="the lowest storey stands on the base, every other on a platform or a "
                "hanging floor",
            )
        if i > 0 and not 0 <= storey.deck < storey.floor_depth:
            yield Problem(
                subject=subject,
                sentence=f"the floor of storey {storey.id} is {float(storey.floor_depth):g} m deep "
                f"with a deck of {float(storey.deck):g} m",
                remedy="give floor_depth as joists and deck together, deeper than the deck",
            )


def _footprints(plan: Plan) -> Iterator[Problem]:
    sound: list[tuple[str, tuple[str, ...], shapely.Geometry]] = []
    for footprint in plan.footprints:
        ring = plan_ring(footprint.corners)
        subject = f"footprint {footprint.id}"
        if not is_simple(ring):
            yield Problem(
                subject=subject,
                sentence=f"footprint {footprint.id} crosses itself, repeats a corner or is empty",
                remedy="list its corners once, in order around the house",
            )
            continue
        if signed_area(ring) < 0.0:
            yield Problem(
                subject=subject,
                sentence=f"footprint {footprint.id} runs clockwise",
                remedy="list its corners counter-clockwise, seen from above",
            )
            continue
        if not footprint.storeys:
            yield Problem(
                subject=subject,
                sentence=f"footprint {footprint.id} rises through no storey",
                remedy="name the storeys it rises through",
            )
        sound.append((footprint.id, footprint.storeys, shapely.Polygon(ring)))
    for (one, low, a), (two, high, b) in combinations(sound, 2):
        shared = a.intersection(b).area
        if shared > 1e-6 and set(low) & set(high):
            yield Problem(
                subject=f"footprint {two}",
                sentence=f"footprints {one} and {two} cover the same {shared:.2f} m² on one storey",
                remedy="let them meet along an edge, or draw them as one footprint",
            )


def _wall_rules(plan: Plan) -> Iterator[Problem]:
    count = sum(len(f.corners) for f in plan.footprints)
    walls = [wall_id(letters(i), s) for s in range(len(plan.storeys)) for i in range(count)]
    for rule in plan.wall_rules:
        if rule.wall not in walls:
            yield unknown(f"wall {rule.wall}", "wall", rule.wall, walls)
        if rule.widths is not None and any(w <= 0 for w in rule.widths):
            yield Problem(
                subject=f"wall {rule.wall}",
                sentence=f"wall {rule.wall} has a panel width of zero or less",
                remedy="give widths greater than zero",
            )


def _inner_walls(plan: Plan) -> Iterator[Problem]:
    for wall in plan.inner_walls:
        if wall.start == wall.end or wall.thickness <= 0:
            yield Problem(
                subject=f"inner wall {wall.id}",
                sentence=f"inner wall {wall.id} has no length or no thickness",
                remedy="give two different ends and a thickness greater than zero",
            )


def _holes(plan: Plan) -> Iterator[Problem]:
    for opening in plan.openings:
        if opening.width <= 0 or opening.height <= 0:
            yield Problem(
                subject=f"opening {opening.id}",
                sentence=f"opening {opening.id} is {float(opening.width):g} m wide and "
                f"{float(opening.height):g} m high",
                remedy="give a width and a height greater than zero",
            )
    for service in plan.penetrations:
        round_one = service.diameter is not None and service.diameter > 0
        square = service.width is not None and service.height is not None
        if round_one == square or (square and min(service.width or 0, service.height or 0) <= 0):
            yield Problem(
                subject=f"penetration {service.id}",
                sentence=f"penetration {service.id} needs a diameter, or a width and a height",
                remedy="give one of the two, greater than zero",
            )


def _timbers(plan: Plan) -> Iterator[Problem]:
    for timber in plan.timbers:
        if timber.start == timber.end or min(timber.size.width, timber.size.depth) <= 0:
            yield Problem(
                subject=f"timber {timber.id}",
                sentence=f"timber {timber.id} has no length, width or depth",
                remedy="give two different ends and a size greater than zero",
            )
