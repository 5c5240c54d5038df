# ruff: noqa: PLR0917 - compiled functions take their records by position
"""The march through the hours of a run, compiled: iterate a step, halve it if it will not settle.

A factored matrix is kept from step to step while the iteration settles quickly with it: most steps
cost a few residuals and solves. It is made anew where a step is slow, changes length, or where a
volume passes saturation.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from seamwright.moisture.transient.band import Band, Singles, factor, solve
from seamwright.moisture.transient.compiled import compiled
from seamwright.moisture.transient.kernel import (
    AIR_HEAT,
    LATENT,
    WATER_HEAT,
    Hour,
    State,
    hold,
    place_of,
    residual,
    tally,
)
from seamwright.moisture.transient.matrix import assemble
from seamwright.moisture.transient.net import Net
from seamwright.moisture.types import Counts, Floats

SLOW = 0.3
"""Share that one iteration may leave of the last one's residual before the matrix is made anew.
A number of the method, measured to be near the quickest: common practice, no source."""

WIDEST_T, WIDEST_U = 40.0, 2.0
"""Most that one iteration may change: temperature [K], u below saturation [-]. Numbers of the
method: common practice, no source."""

GAMMA = 1.0 - math.sqrt(0.5)
"""Length of a stage over that of a step of second order, so that both stages have one matrix and
stiff parts are damped out. R. Alexander, SIAM Journal on Numerical Analysis 14 (1977), 1006 to 1021
(from memory)."""

ROUGH = 100.0
"""Residual over tolerance above which an iteration of a stage of second order works conductances
out anew. A number of the method: what they then still lag is less than what is left over
(common practice, no source)."""

LAST = 1e-6
"""Tolerance of the last hour at the loosest, so that little is left over at the end, where the
balance is struck. A number of the method: common practice, no source."""

HOUR = 3600.0

MATRIX_STEP, STEPS, ITERATIONS, FACTORS, FAILED = range(5)
"""Places in `marks`."""


class Drives(NamedTuple):
    """What drives the hours: (hours, airs) four times, (hours, ways)."""

    temperature: Floats
    face: Floats
    vapor: Floats
    rain: Floats
    flow: Floats


class Rule(NamedTuple):
    """How finely to solve; see `Settings`."""

    step: float
    least: float
    tolerance: float
    most: int
    order: int


class Room(NamedTuple):
    """Room to work in: the band, changes of unknowns, start of a step, conductances
    of parts, `marks`, which count what was done, the totals of a step, and what flows brought to
    each volume in the last stage.
    """

    band: Band
    x: Singles
    t: Floats
    u: Floats
    heat: Floats
    water: Floats
    part: Floats
    marks: Floats
    total: Floats
    gain_heat: Floats
    gain_water: Floats


class Watch(NamedTuple):
    """What to note each hour: for each probe its parts and their areas, and the mass they have."""

    start: Counts
    part: Counts
    cell: Counts
    area: Floats
    free: Floats
    mass: Floats
    temperature: Floats
    humidity: Floats
    water: Floats


@compiled
def march(
    net: Net, s: State, hour: Hour, drives: Drives, rule: Rule, room: Room, watch: Watch,
    total: Floats,
) -> None:  # fmt: skip
    """Run all hours; `room.marks[FAILED]` is the hour that would not settle, or -1."""
    room.marks[FAILED] = -1.0
    hold(net, s, hour, room.part)
    for k in range(len(drives.temperature)):
        hour.temperature[:] = drives.temperature[k]
        hour.face[:] = drives.face[k]
        hour.vapor[:] = drives.vapor[k]
        hour.rain[:] = drives.rain[k]
        hour.flow[:] = drives.flow[k]
        touch(net, hour)
        if k == len(drives.temperature) - 1:
            finest = min(rule.tolerance, LAST)
            rule = Rule(rule.step, rule.least, finest, rule.most, rule.order)
        if not pass_hour(net, s, hour, rule, room, total):
            room.marks[FAILED] = float(k)
            return
        note(net, s, watch, k)


@compiled
def touch(net: Net, hour: Hour) -> None:
    """Set the share of its difference to the wall that passing air gives up at each cell [-], and
    the rain on each rim. [kg/(m·s)]
    """
    for w in range(len(net.way_first)):
        flow = abs(hour.flow[w]) * AIR_HEAT
        for k in range(net.way_start[w], net.way_start[w + 1]):
            contact = net.way_contact[k]
            full = contact > 40.0 * flow or math.isinf(contact)
            hour.share[k] = 1.0 if full else -math.expm1(-contact / max(flow, 1e-300))
            if contact <= 0.0:
                hour.share[k] = 0.0
    for k in range(len(net.rim_cell)):
        hour.wetting[k] = net.rim_rain[k] * hour.rain[net.rim_air[k]]


@compiled
def pass_hour(net: Net, s: State, hour: Hour, rule: Rule, room: Room, total: Floats) -> bool:
    """Take the steps of one hour; return whether all of them settled."""
    done, dt, ready, order = 0.0, rule.step, 0, rule.order
    while done < HOUR * (1.0 - 1e-9):
        room.t[:], room.u[:] = s.t, s.u
        room.heat[:], room.water[:] = s.heat, s.water
        if advance(net, s, hour, dt, rule, room, total, order, ready):
            room.marks[STEPS] += 1.0
            done += dt
            ready, order = order - 1, rule.order
            if dt < rule.step and round(done / dt) % 2 == 0:
                dt *= 2.0
                ready = 0
        else:
            go_back(s, room)
            ready = 0
            if order == 2:
                order = 1
                continue
            dt, order = 0.5 * dt, rule.order
            if dt < rule.least * (1.0 - 1e-9):
                return False
    return True


@compiled
def go_back(s: State, room: Room) -> None:
    """Return to the start of the step."""
    s.t[:], s.u[:] = room.t, room.u
    s.heat[:], s.water[:] = room.heat, room.water


@compiled
def advance(
    net: Net, s: State, hour: Hour, dt: float, rule: Rule, room: Room, total: Floats, order: int,
    ready: int,
) -> bool:  # fmt: skip
    """Take a step in one stage or two; return whether it settled without drying free water up.

    One is implicit Euler. Of two the flows of the first act over the share 1 - GAMMA of the step,
    those of the second over the rest; both are iterated with the conductances of their own end.
    `ready` is 1 when the step before was like this one, in the same hour.
    """
    part = GAMMA * dt if order == 2 else dt
    ratio = (1.0 - GAMMA) / GAMMA
    room.total[:] = 0.0
    if order == 1:
        hold(net, s, hour, room.part)
    for stage in range(order):
        if not settle(net, s, hour, part, rule, room, max(ready, stage), order - 1):
            return False
        if order == 2 and dried_up(s, room):
            return False
        first = order == 2 and stage == 0
        tally(net, s, hour, dt - part if first else part, room.total)
        gain(net, s, room)
        for i in range(len(s.t) if first else 0):
            s.heat[i] = room.heat[i] + ratio * (s.heat[i] - room.heat[i])
            s.water[i] = room.water[i] + ratio * (s.water[i] - room.water[i])
    for k in range(len(total)):
        total[k] += room.total[k]
    return True


@compiled
def gain(net: Net, s: State, room: Room) -> None:
    """Take over what the flows of a settled stage brought, and note it."""
    room.gain_heat[:] = s.heat
    room.gain_water[:] = s.water
    keep(net, s)
    for i in range(len(s.t)):
        room.gain_heat[i] = s.heat[i] - room.gain_heat[i]
        room.gain_water[i] = s.water[i] - room.gain_water[i]


@compiled
def go_on(net: Net, s: State, room: Room) -> None:
    """Set what `residual` would at the start of a stage whose flows are those of the last one."""
    for i in range(len(s.t)):
        own = (net.capacity[i] + WATER_HEAT * (s.water[i] + room.gain_water[i])) * s.t[i]
        s.left[i] = own - s.heat[i] - room.gain_heat[i]
        s.right[i] = s.held[i] - s.water[i] - room.gain_water[i]


@compiled
def dried_up(s: State, room: Room) -> bool:
    """Return whether free water of the step's start is gone, or a humidity fell below zero."""
    gone = 0
    for i in range(len(s.u)):
        gone += 1 if s.u[i] < 0.0 or (room.u[i] > 1.0 and s.u[i] <= 1.0) else 0
    return gone > 0


@compiled
def keep(net: Net, s: State) -> None:
    """Take over what the flows of a settled step brought, to the last bit."""
    for i in range(len(s.t)):
        s.water[i] = s.held[i] - s.right[i]
        s.heat[i] = (net.capacity[i] + WATER_HEAT * s.water[i]) * s.t[i] - s.left[i]


@compiled
def settle(
    net: Net, s: State, hour: Hour, dt: float, rule: Rule, room: Room, ready: int, anew: int
) -> bool:
    """Iterate one step from the state at hand; return whether it came to rest.

    `ready` is 1 when the flows at hand hold at its start; `anew` is 1 for conductances of its end.
    """
    worst = 1.0
    if ready == 1:
        go_on(net, s, room)
    else:
        warm, wet = residual(net, s, hour, dt)
        worst = max(warm, wet)
    stale = room.marks[MATRIX_STEP] != dt
    for _ in range(rule.most):
        if worst <= rule.tolerance:
            return True
        if stale:
            assemble(net, s, hour, dt, room.band)
            factor(room.band, net.last)
            room.marks[MATRIX_STEP] = dt
            room.marks[FACTORS] += 1.0
        passed = improve(net, s, room)
        if anew == 1 and worst > ROUGH * rule.tolerance:
            hold(net, s, hour, room.part)
        warm, wet = residual(net, s, hour, dt)
        before, worst = worst, max(warm, wet)
        stale = passed > 0 or not worst < SLOW * before
        room.marks[ITERATIONS] += 1.0
    room.marks[MATRIX_STEP] = 0.0
    return worst <= rule.tolerance


@compiled
def improve(net: Net, s: State, room: Room) -> int:
    """Change temperature and u by one solve; return how many volumes passed saturation."""
    room.x[:] = 0.0
    for i in range(len(s.t)):
        row = 2 * net.place[i]
        room.x[row] = -s.left[i]
        room.x[row + 1] = -LATENT * s.right[i]
    solve(room.band, net.first, net.last, room.x)
    passed = 0
    for i in range(len(s.t)):
        row = 2 * net.place[i]
        s.t[i] += min(max(room.x[row], -WIDEST_T), WIDEST_T)
        u = s.u[i] + room.x[row + 1]
        if (u > 1.0) != (s.u[i] > 1.0):
            passed += 1
            u = min(max(u, 1.0 - 1e-7), 1.0 + 1e-7)
        s.u[i] = u
    return passed


@compiled
def note(net: Net, s: State, watch: Watch, k: int) -> None:
    """Write down the means of each probe's parts at the end of hour k."""
    for p in range(len(watch.start) - 1):
        warm, wet, held, whole = 0.0, 0.0, 0.0, 0.0
        for q in range(watch.start[p], watch.start[p + 1]):
            c, area = watch.cell[q], watch.area[q]
            u = s.u[c]
            at, f, _ = place_of(min(max(u, 0.0), 1.0))
            m = net.part_material[watch.part[q]]
            low, high = net.tables[m, at, 0], net.tables[m, at + 1, 0]
            held += area * (low + f * (high - low) + max(u - 1.0, 0.0) * watch.free[q])
            warm += area * s.t[c]
            wet += area * min(u, 1.0)
            whole += area
        watch.temperature[k, p] = warm / whole
        watch.humidity[k, p] = wet / whole
        watch.water[k, p] = held / watch.mass[p]
