"""The hours of a run, compiled: residual, matrix, solution of a step, and the march.

Unknown in each volume are its temperature and `u`, which is relative humidity up to saturation and
counts free water beyond it, so that both storage and vapor pressure keep moderate slopes. What a
step's iteration leaves over is not lost: `kept` holds the heat and water that the flows really
brought, and the next step starts from there.
"""

from __future__ import annotations

from typing import NamedTuple

from seamwright.moisture.transient.compiled import compiled
from seamwright.moisture.transient.net import Net
from seamwright.moisture.transient.tables import (
    COARSE,
    COLDEST,
    FINE,
    FINEST,
    FIRST_FINER,
    MIDDLE,
    PER_KELVIN,
)
from seamwright.moisture.types import Floats

LATENT = 2.5e6
"""Heat of evaporation. [J/kg] EN 15026:2007 (from memory)."""

WATER_HEAT = 4187.0
"""Heat capacity of water. [J/(kg·K)] EN 15026:2007 (from memory)."""

AIR_HEAT = 1006.0
"""Heat capacity of dry air. [J/(kg·K)] ASHRAE Fundamentals 2017, chapter 1."""

RATIO = 0.621945
"""Molar mass of water over that of dry air. [-] ASHRAE Fundamentals 2017, chapter 1."""

_KELVIN = 273.15

_HAIR_T, _HAIR_P = 1e-5, 1e-3
"""Differences across a rim [K], [Pa] that count as moving, so that rims without resistance do not
ask for more than numbers can tell. Numbers of the method: common practice, no source."""


class Hour(NamedTuple):
    """What drives one step: airs (airs,), ways (ways,), and what the step holds fixed."""

    temperature: Floats
    face: Floats
    vapor: Floats
    rain: Floats
    flow: Floats
    share: Floats
    heat: Floats
    opening: Floats
    push: Floats
    drag: Floats
    wetting: Floats


class State(NamedTuple):
    """Temperature, u, and the heat and water kept so far; then what follows from the first two."""

    t: Floats
    u: Floats
    heat: Floats
    water: Floats
    held: Floats
    slope: Floats
    vapor: Floats
    vapor_t: Floats
    vapor_u: Floats
    potential: Floats
    potential_u: Floats
    left: Floats
    right: Floats


@compiled
def place_of(humidity: float) -> tuple[int, float, float]:
    """Return place in the humidity grid, share of the way to the next, and points per unit."""
    if humidity < 0.9:
        x, scale = humidity * COARSE, COARSE
    elif humidity < 0.99:
        x, scale = FIRST_FINER + (humidity - 0.9) * MIDDLE, MIDDLE
    else:
        x, scale = FINEST + (humidity - 0.99) * FINE, FINE
    k = min(max(int(x), 0), FINEST + 199)
    return k, x - k, scale


@compiled
def sorb(net: Net, s: State) -> None:
    """Set what temperature and u mean: water held, vapor pressure, liquid potential, slopes."""
    top = len(net.air) - 2
    for i in range(len(s.t)):
        x = (s.t[i] - COLDEST) * PER_KELVIN
        k = min(max(int(x), 0), top)
        rise = net.air[k + 1, 0] - net.air[k, 0]
        full = net.air[k, 0] + (x - k) * rise
        over = max(s.u[i] - 1.0, 0.0)
        wet = over > 0.0
        steep = net.above[i] if wet else 1.0
        humidity = 1.0 + over * net.above[i] if wet else s.u[i]
        s.vapor[i] = humidity * full
        s.vapor_t[i] = humidity * rise * PER_KELVIN
        s.vapor_u[i] = steep * full
        k, f, scale = place_of(min(s.u[i], 1.0))
        held, slope = over * net.swell[i], 0.0
        for q in range(net.part_start[i], net.part_start[i + 1]):
            m = net.part_material[q]
            low, high = net.tables[m, k, 0], net.tables[m, k + 1, 0]
            held += net.part_area[q] * (low + f * (high - low))
            slope += net.part_area[q] * (high - low) * scale
            low, high = net.tables[m, k, 2], net.tables[m, k + 1, 2]
            s.potential_u[q] = (high - low) * scale * steep
            s.potential[q] = low + f * (high - low) + over * s.potential_u[q]
        s.held[i] = held
        s.slope[i] = net.swell[i] if wet else slope


@compiled
def hold(net: Net, s: State, hour: Hour, part: Floats) -> None:
    """Set the conductances that a step holds at its start's moisture. `part` (3, parts) is room."""
    for i in range(len(s.t)):
        k, f, _ = place_of(min(max(s.u[i], 0.0), 1.0))
        x = (s.t[i] - COLDEST) * PER_KELVIN
        j = min(max(int(x), 0), len(net.air) - 1)
        for q in range(net.part_start[i], net.part_start[i + 1]):
            m = net.part_material[q]
            a, b = net.tables[m, k], net.tables[m, k + 1]
            part[0, q] = net.conductivity[m] + net.rise[m] * (a[0] + f * (b[0] - a[0]))
            part[1, q] = (a[1] + f * (b[1] - a[1])) * net.air[j, 1]
            part[2, q] = a[3] + f * (b[3] - a[3])
    hour.heat[:] = 0.0
    hour.opening[:] = 0.0
    for k in range(len(net.link_ratio)):
        half, a, b = 0.5 * net.link_ratio[k], net.link_a[k], net.link_b[k]
        heat, loose = half * (part[0, a] + part[0, b]), half * (part[1, a] + part[1, b])
        hour.heat[net.link_near[k]] += heat
        hour.opening[net.link_near[k]] += loose
    for i in range(len(s.t)):
        for k in range(net.pull_start[i], net.pull_start[i + 1]):
            half = 0.5 * net.pull_ratio[k]
            hour.push[k] = half * (s.t[i] + s.t[net.pull[k]] + 2.0 * _KELVIN)
            hour.drag[k] = half * (part[2, net.pull_own[k]] + part[2, net.pull_other[k]])


@compiled
def residual(net: Net, s: State, hour: Hour, dt: float) -> tuple[float, float]:
    """Set what heat and water of each volume are over after a step; return the two shares.

    Each share is the sum of what is over or lacking, over what moves in the step.
    """
    sorb(net, s)
    heat, water = 0.0, 0.0
    for i in range(len(s.t)):
        capacity = net.capacity[i] + WATER_HEAT * s.water[i]
        s.left[i] = capacity * s.t[i] - s.heat[i]
        s.right[i] = s.held[i] - s.water[i]
        heat += abs(s.left[i]) + 1e-2 * capacity
        water += abs(s.right[i]) + 1e-4 * s.slope[i]
    _through_links(net, s, hour, dt)
    rim_heat, rim_water = _through_rims(net, s, hour, dt)
    _with_air(net, s, hour, dt)
    warm, wet = 0.0, 0.0
    for i in range(len(s.t)):
        warm += abs(s.left[i])
        wet += abs(s.right[i])
    return warm / (heat + rim_heat), wet / (water + rim_water)


@compiled
def _through_links(net: Net, s: State, hour: Hour, dt: float) -> None:
    """Take from each volume what its neighbors bring, and from them what it brings."""
    for i in range(len(s.t)):
        t, vapor = s.t[i], s.vapor[i]
        heat, water = 0.0, 0.0
        for k in range(net.near_start[i], net.near_start[i + 1]):
            j = net.near[k]
            warmer = s.t[j] - t
            flow = hour.opening[k] * (s.vapor[j] - vapor)
            alike, brought = hour.heat[k] * warmer + LATENT * flow, WATER_HEAT * warmer
            heat += alike + max(flow, 0.0) * brought
            water += flow
            s.left[j] += dt * (alike + max(-flow, 0.0) * brought)
            s.right[j] += dt * flow
        for k in range(net.pull_start[i], net.pull_start[i + 1]):
            j = net.pull[k]
            warmer = s.t[j] - t
            wetter = s.potential[net.pull_other[k]] - s.potential[net.pull_own[k]]
            flow = hour.push[k] * wetter + hour.drag[k] * warmer
            brought = WATER_HEAT * warmer
            heat += max(flow, 0.0) * brought
            water += flow
            s.left[j] += dt * max(-flow, 0.0) * brought
            s.right[j] += dt * flow
        s.left[i] -= dt * heat
        s.right[i] -= dt * water


@compiled
def room_left(net: Net, s: State, k: int) -> float:
    """Return the share of arriving water that a rim's face keeps: all up to saturation, then less
    the fuller its film. [-]
    """
    over = s.u[net.rim_cell[k]] - 1.0
    return float(min(max(1.0 - over / net.rim_room[k], 0.0), 1.0))


@compiled
def _through_rims(net: Net, s: State, hour: Hour, dt: float) -> tuple[float, float]:
    heat, water = 0.0, 0.0
    for k in range(len(net.rim_cell)):
        c, a = net.rim_cell[k], net.rim_air[k]
        vapor = dt * net.rim_vapor[k] * (hour.vapor[a] - s.vapor[c])
        kept = room_left(net, s, k)
        rain, runs = dt * hour.wetting[k] * kept, max(vapor, 0.0) * (1.0 - kept)
        cold = WATER_HEAT * (max(vapor, 0.0) + rain) * (hour.temperature[a] - s.t[c])
        gain = dt * net.rim_heat[k] * (hour.face[a] - s.t[c]) + LATENT * vapor + cold
        s.left[c] -= gain
        s.right[c] -= vapor + rain - runs
        heat += abs(gain) + _HAIR_T * dt * net.rim_heat[k]
        water += abs(vapor) + rain + _HAIR_P * dt * net.rim_vapor[k]
    return heat, water


@compiled
def _with_air(net: Net, s: State, hour: Hour, dt: float) -> None:
    for w in range(len(net.way_first)):
        flow = abs(hour.flow[w]) * dt
        start, end, step = net.way_start[w], net.way_start[w + 1], 1
        inlet = net.way_first[w]
        if hour.flow[w] < 0.0:
            start, end, step, inlet = end - 1, start - 1, -1, net.way_last[w]
        warm, ratio = hour.temperature[inlet], ratio_of(hour.vapor[inlet], net.pressure)
        for k in range(start, end, step):
            c = net.way_cell[k]
            cooled = hour.share[k] * (warm - s.t[c])
            dried = hour.share[k] * (ratio - ratio_of(s.vapor[c], net.pressure))
            warm -= cooled
            ratio -= dried
            s.left[c] -= flow * (AIR_HEAT * cooled + LATENT * dried)
            s.right[c] -= flow * dried


@compiled
def ratio_of(vapor: float, pressure: float) -> float:
    """Return the mass of vapor per mass of dry air. [-]"""
    return RATIO * vapor / (pressure - min(vapor, 0.5 * pressure))


@compiled
def tally(net: Net, s: State, hour: Hour, dt: float, total: Floats) -> None:
    """Add to `total` heat in and out, water in and out, and what ran off, from a step's flows."""
    for k in range(len(net.rim_cell)):
        c, a = net.rim_cell[k], net.rim_air[k]
        vapor = dt * net.rim_vapor[k] * (hour.vapor[a] - s.vapor[c])
        kept = room_left(net, s, k)
        rain, runs = dt * hour.wetting[k] * kept, max(vapor, 0.0) * (1.0 - kept)
        carried = vapor * (hour.temperature[a] if vapor > 0.0 else s.t[c])
        heat = dt * net.rim_heat[k] * (hour.face[a] - s.t[c]) + LATENT * vapor
        _count(total, heat + WATER_HEAT * (carried + rain * hour.temperature[a]), vapor + rain)
        _count(total, -WATER_HEAT * runs * s.t[c], -runs)
        total[4] += runs + dt * hour.wetting[k] * (1.0 - kept)
    for w in range(len(net.way_first)):
        flow = abs(hour.flow[w]) * dt
        start, end, step = net.way_start[w], net.way_start[w + 1], 1
        inlet = net.way_first[w]
        if hour.flow[w] < 0.0:
            start, end, step, inlet = end - 1, start - 1, -1, net.way_last[w]
        warm, ratio = hour.temperature[inlet], ratio_of(hour.vapor[inlet], net.pressure)
        for k in range(start, end, step):
            c = net.way_cell[k]
            cooled = hour.share[k] * (warm - s.t[c])
            dried = hour.share[k] * (ratio - ratio_of(s.vapor[c], net.pressure))
            warm -= cooled
            ratio -= dried
            heat = AIR_HEAT * cooled + (LATENT + WATER_HEAT * s.t[c]) * dried
            _count(total, flow * heat, flow * dried)


@compiled
def _count(total: Floats, heat: float, water: float) -> None:
    total[0] += max(heat, 0.0)
    total[1] += max(-heat, 0.0)
    total[2] += max(water, 0.0)
    total[3] += max(-water, 0.0)
