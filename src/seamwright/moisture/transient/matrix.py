# ruff: noqa: PLR0917 - compiled functions take their records by position
"""How what each volume lacks after a step changes with the unknowns: the band matrix, compiled.

Rows and columns of a node are 2 · place (heat, temperature) and 2 · place + 1 (water, u). Rows of
water are multiplied by the latent heat, so that both are in joules.
"""

from __future__ import annotations

from seamwright.moisture.transient.band import Band, add
from seamwright.moisture.transient.compiled import compiled
from seamwright.moisture.transient.kernel import (
    AIR_HEAT,
    LATENT,
    RATIO,
    WATER_HEAT,
    Hour,
    State,
    room_left,
)
from seamwright.moisture.transient.net import Net


@compiled
def assemble(net: Net, s: State, hour: Hour, dt: float, band: Band) -> None:
    """Set the matrix at the state that `residual` last worked out."""
    band[:] = 0.0
    for i in range(len(s.t)):
        row = 2 * net.place[i]
        add(band, row, row, net.capacity[i] + WATER_HEAT * s.water[i])
        add(band, row + 1, row + 1, LATENT * s.slope[i])
    for i in range(len(s.t)):
        for k in range(net.near_start[i], net.near_start[i + 1]):
            j, heat, water = net.near[k], dt * hour.heat[k], dt * LATENT * hour.opening[k]
            _leave(net, s, i, j, heat, water, band)
            _leave(net, s, j, i, heat, water, band)
        for k in range(net.pull_start[i], net.pull_start[i + 1]):
            j, push, by_t = net.pull[k], dt * LATENT * hour.push[k], dt * LATENT * hour.drag[k]
            _seep(net, i, j, by_t, push * s.potential_u[net.pull_own[k]], band)
            _seep(net, j, i, by_t, push * s.potential_u[net.pull_other[k]], band)
    for k in range(len(net.rim_cell)):
        c = net.rim_cell[k]
        row, water = 2 * net.place[c], dt * LATENT * net.rim_vapor[k]
        add(band, row, row, dt * net.rim_heat[k])
        _vapor(band, row, row, water * s.vapor_t[c], water * s.vapor_u[c])
        kept, arrives = room_left(net, s, k), dt * hour.wetting[k]
        inward = dt * net.rim_vapor[k] * (hour.vapor[net.rim_air[k]] - s.vapor[c])
        if kept < 1.0 and inward > 0.0:
            arrives += inward
            add(band, row + 1, row, -water * s.vapor_t[c] * (1.0 - kept))
            add(band, row + 1, row + 1, -water * s.vapor_u[c] * (1.0 - kept))
        if 0.0 < kept < 1.0:
            add(band, row + 1, row + 1, LATENT * arrives / net.rim_room[k])
    _with_air(net, s, hour, dt, band)


@compiled
def _leave(net: Net, s: State, i: int, j: int, heat: float, water: float, band: Band) -> None:
    """Add heat and vapor that go from volume i to volume j."""
    own, other = 2 * net.place[i], 2 * net.place[j]
    add(band, own, own, heat)
    add(band, other, own, -heat)
    _vapor(band, own, own, water * s.vapor_t[i], water * s.vapor_u[i])
    _vapor(band, other, own, -water * s.vapor_t[i], -water * s.vapor_u[i])


@compiled
def _seep(net: Net, i: int, j: int, by_t: float, by_u: float, band: Band) -> None:
    """Add liquid that goes from volume i to volume j."""
    own, other = 2 * net.place[i], 2 * net.place[j]
    add(band, own + 1, own, by_t)
    add(band, own + 1, own + 1, by_u)
    add(band, other + 1, own, -by_t)
    add(band, other + 1, own + 1, -by_u)


@compiled
def _vapor(band: Band, row: int, column: int, by_t: float, by_u: float) -> None:
    """Add vapor that leaves a row's volume: its latent heat and itself, alike in joules."""
    add(band, row, column, by_t)
    add(band, row, column + 1, by_u)
    add(band, row + 1, column, by_t)
    add(band, row + 1, column + 1, by_u)


@compiled
def _with_air(net: Net, s: State, hour: Hour, dt: float, band: Band) -> None:
    n = len(s.t)
    for w in range(len(net.way_first)):
        flow = abs(hour.flow[w]) * dt
        back = hour.flow[w] < 0.0
        start, end = net.way_start[w], net.way_start[w + 1]
        for k in range(start, end):
            c = net.way_cell[k]
            row, node, share = 2 * net.place[c], 2 * net.place[n + k], hour.share[k]
            dry = net.pressure - min(s.vapor[c], 0.5 * net.pressure)
            lift = RATIO * net.pressure / (dry * dry)
            by_t, by_u = lift * s.vapor_t[c], lift * s.vapor_u[c]
            add(band, node, node, 1.0)
            add(band, node + 1, node + 1, 1.0)
            add(band, node, row, -share)
            add(band, node + 1, row, -share * by_t)
            add(band, node + 1, row + 1, -share * by_u)
            add(band, row, row, flow * share * AIR_HEAT)
            water = flow * share * LATENT
            _vapor(band, row, row, water * by_t, water * by_u)
            before = k + 1 if back else k - 1
            if start <= before < end:
                up = 2 * net.place[n + before]
                add(band, node, up, share - 1.0)
                add(band, node + 1, up + 1, share - 1.0)
                add(band, row, up, -flow * share * AIR_HEAT)
                add(band, row, up + 1, -water)
                add(band, row + 1, up + 1, -water)
