"""One case on its way through the compiled march: room for it, and the record of what it did."""

from __future__ import annotations

import numpy as np

from seamwright.moisture.transient.band import ROWS, room_for
from seamwright.moisture.transient.kernel import WATER_HEAT, Hour, State, sorb
from seamwright.moisture.transient.march import (
    FACTORS,
    FAILED,
    ITERATIONS,
    STEPS,
    Drives,
    Room,
    Rule,
    Watch,
    keep,
    march,
)
from seamwright.moisture.transient.net import Net, lay_out, slots_of
from seamwright.moisture.transient.types import Balance, Case, Run, Settings
from seamwright.moisture.types import Floats


class Job:
    """A case that fits together, ready to run once."""

    def __init__(self, case: Case, settings: Settings) -> None:
        self.case = case
        self.settings = settings

    def done(self) -> Run:
        """Run the case and return its record."""
        case, settings = self.case, self.settings
        net = lay_out(case)
        state = _state(net, case)
        start = _content(net, state)
        room, watch, total = _room(net), _watch(net, case), np.zeros(5)
        rule = Rule(
            float(settings.step), float(settings.least_step), float(settings.tolerance),
            int(settings.most_iterations), int(settings.order),
        )  # fmt: skip
        hour = _hour(net, case)
        march(net, state, hour, _drives(case), rule, room, watch, total)
        marks = room.marks
        failed = int(marks[FAILED])
        for field in (watch.temperature, watch.humidity, watch.water) if failed >= 0 else ():
            field[failed:] = np.nan
        return Run(
            temperature=watch.temperature,
            humidity=watch.humidity,
            water=watch.water,
            end_temperature=state.t,
            end_humidity=np.where(state.u > 1.0, 1.0 + (state.u - 1.0) * net.above, state.u),
            balance=_balance(total, _content(net, state) - start),
            steps=int(marks[STEPS]),
            converged=failed < 0,
            advice=_advice(failed, settings) if failed >= 0 else "",
            worst={
                "iterations per step": marks[ITERATIONS] / max(marks[STEPS], 1.0),
                "matrices made": marks[FACTORS],
            },
        )


def _state(net: Net, case: Case) -> State:
    n, parts = len(case.mesh.points), len(net.part_area)
    humidity = np.asarray(case.humidity, dtype=np.float64)
    u = np.where(humidity > 1.0, 1.0 + (humidity - 1.0) / net.above, humidity)
    start = [np.array(case.temperature, dtype=np.float64), u]
    sizes = (*(n,) * 7, parts, parts, n, n)
    state = State._make([*start, *(np.zeros(size) for size in sizes)])
    sorb(net, state)
    state.water[:] = state.held
    keep(net, state)
    return state


def _content(net: Net, state: State) -> Floats:
    """Return heat and water of the state itself, not of what was kept of the flows (2,)."""
    sorb(net, state)
    heat = (net.capacity + WATER_HEAT * state.held) * state.t
    return np.array([heat.sum(), state.held.sum()])


def _hour(net: Net, case: Case) -> Hour:
    airs, ways = case.drive.temperature.shape[1], len(case.ways)
    near, pull = len(net.near), len(net.pull)
    sizes = (*(airs,) * 4, ways, len(net.way_cell), near, near, pull, pull, len(net.rim_cell))
    return Hour._make([np.zeros(size) for size in sizes])


def _drives(case: Case) -> Drives:
    d = case.drive
    hours = len(d.temperature)
    flow = np.zeros((hours, len(case.ways)))
    for k, way in enumerate(case.ways):
        flow[:, k] = way.flow
    airs = (np.ascontiguousarray(a, dtype=np.float64)
            for a in (d.temperature, d.face, d.vapor, d.rain))  # fmt: skip
    return Drives._make([*airs, flow])


def _room(net: Net) -> Room:
    band, n = room_for(len(net.place), net.reach), len(net.capacity)
    x = np.zeros(ROWS * (len(band) + 1), dtype=np.float32)
    t, u, heat, water, gain_heat, gain_water = np.zeros((6, n))
    return Room(
        band=band, x=x, t=t, u=u, heat=heat, water=water, part=np.zeros((3, len(net.part_area))),
        marks=np.zeros(5), total=np.zeros(5), gain_heat=gain_heat, gain_water=gain_water,
    )  # fmt: skip


def _watch(net: Net, case: Case) -> Watch:
    slots, mesh, hours = slots_of(case.mesh), case.mesh, len(case.drive.temperature)
    density = np.array([m.density for m in case.materials])
    parts = [np.asarray(p.parts, dtype=np.int64) for p in case.probes]
    every = np.concatenate([np.zeros(0, dtype=np.int64), *parts])
    cell = np.asarray(mesh.part_cell[every], dtype=np.int64)
    mass = [(density[mesh.part_material[p]] * mesh.part_area[p]).sum() for p in parts]
    shape = (hours, len(parts))
    return Watch(
        np.cumsum([0, *(len(p) for p in parts)]), slots[every], cell,
        np.asarray(mesh.part_area[every], dtype=np.float64), (net.swell / _areas(net))[cell],
        np.array(mass, dtype=np.float64), np.zeros(shape), np.zeros(shape), np.zeros(shape),
    )  # fmt: skip


def _areas(net: Net) -> Floats:
    """Return the area of each volume (n,). [m²]"""
    return np.asarray(np.add.reduceat(net.part_area, net.part_start[:-1].astype(np.int64)))


def _balance(total: Floats, stored: Floats) -> Balance:
    heat_in, heat_out, water_in, water_out, ran_off = (float(x) for x in total)
    heat, water = (float(x) for x in stored)
    return Balance(
        heat_in=heat_in,
        heat_out=heat_out,
        heat_stored=heat,
        heat_error=_share(heat_in - heat_out - heat, max(heat_in, heat_out)),
        water_in=water_in,
        water_out=water_out,
        water_stored=water,
        water_error=_share(water_in - water_out - water, max(water_in, water_out)),
        ran_off=ran_off,
    )


def _share(missing: float, passed: float) -> float:
    return abs(missing) / passed if passed > 0.0 else abs(missing)


def _advice(failed: int, settings: Settings) -> str:
    return (
        f"hour {failed + 1} did not come to rest in {settings.most_iterations} iterations at steps "
        f"down to {settings.least_step:g} s; give a smaller least_step, or a finer mesh where air "
        "enters or water condenses"
    )
