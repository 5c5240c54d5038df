"""The hourly run: a joint-year, against SciPy's BDF on the same equations, growth, and cores.

BDF is given the same discretized equations as compiled functions, with the sparse matrix of their
derivatives, started anew at each hour, where the drive jumps. Errors are those of all volumes at
every thirteenth hour of ten winter days, against a tight BDF run. Both are timed on one core.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
from scipy.integrate import solve_ivp
from scipy.sparse import csc_matrix, csr_matrix, diags_array
from tests.moisture.walls import seam

from seamwright.moisture.transient import kernel, march, matrix
from seamwright.moisture.transient.band import half_of
from seamwright.moisture.transient.job import _drives, _hour, _room, _state
from seamwright.moisture.transient.net import lay_out
from seamwright.moisture.transient.run import run_case, run_cases, warm
from seamwright.moisture.transient.types import Case, Probe, Settings
from seamwright.moisture.types import Floats

TOLERANCES = (0.2, 0.1, 0.03, 1e-2, 1e-3, 1e-4)
TIGHT = 1e-6
WORTH = 1.0
EVERY = 13
OURS = ((1, 3600.0, 1e-5), (1, 900.0, 1e-5), (2, 3600.0, 1e-2), (2, 1800.0, 3e-3),
        (2, 1200.0, 3e-3), (2, 900.0, 1e-3), (2, 600.0, 1e-3))  # fmt: skip


RULES = (Settings(tolerance=1e-5), Settings(tolerance=3e-3, order=2))
"""As `dryness` runs, and of second order."""


def run(*, quick: bool = False) -> dict[str, Any]:
    """Return the figures, flat; `quick` runs two days."""
    start = time.perf_counter()
    warm()
    figures: dict[str, Any] = {"first call s": time.perf_counter() - start}
    hours = 48 if quick else 8760
    for leak, rule in ((a, b) for a in (0.0, 1e-5, 1e-4) for b in RULES):
        case = seam(hours, leak=leak)
        spent, done = clocked(lambda case=case, rule=rule: run_case(case, rule))
        name = f"{len(case.mesh.points)} volumes leak {leak:g} order {rule.order}"
        figures[f"{name} s"] = spent
        figures[f"{name} iterations a step"] = done.worst["iterations per step"]
        figures[f"{name} matrices"] = done.worst["matrices made"]
        figures[f"{name} heat, water error"] = (done.balance.heat_error, done.balance.water_error)
    figures |= against_bdf(24 if quick else 240)
    figures |= growth(48 if quick else 1000, quick=quick)
    cases = [seam(hours // 4, leak=leak) for leak in (0.0, 1e-6, 1e-5, 3e-5)]
    for workers in (1, 2):
        begun = time.perf_counter()
        run_cases(cases, workers=workers)
        figures[f"4 cases on {workers} s"] = time.perf_counter() - begun
    return figures


def clocked(work: Callable[[], Any]) -> tuple[float, Any]:
    """Return the processor seconds of some work, the least of two, and what it gave."""
    spent = []
    for _ in range(2):
        begun = time.process_time()
        found = work()
        spent.append(time.process_time() - begun)
    return min(spent), found


def growth(hours: int, *, quick: bool) -> dict[str, Any]:
    """Return seconds and exponents over volumes (finer both ways; along alone) and over steps."""
    figures: dict[str, Any] = {}
    rows = []
    for fine in (1, 2) if quick else (1, 2, 3):
        case = seam(hours, leak=1e-5, fine=fine)
        spent, _ = clocked(lambda case=case: run_case(case))
        rows.append((len(case.mesh.points), spent))
        figures[f"{rows[-1][0]} volumes {hours} h s"] = spent
    figures["exponent over volumes"] = exponent(rows)
    rows = []
    for along in (1, 2) if quick else (1, 2, 4, 8):
        case = seam(hours, leak=1e-5, along=along)
        rows.append((len(case.mesh.points), clocked(lambda case=case: run_case(case))[0]))
        figures[f"{rows[-1][0]} volumes, more along, {hours} h s"] = rows[-1][1]
    figures["exponent over volumes along"] = exponent(rows)
    rows = []
    for k in (1, 2, 4):
        case = seam(k * hours, leak=1e-5)
        rows.append((k * hours, clocked(lambda case=case: run_case(case))[0]))
    return figures | {"exponent over steps": exponent(rows)}


def exponent(rows: list[tuple[int, float]]) -> float:
    """Return the exponent of growth between the first row and the last."""
    (n, t), (m, u) = rows[0], rows[-1]
    return math.log(u / t) / math.log(m / n)


def against_bdf(hours: int) -> dict[str, Any]:
    """Return times and errors of our steps and of BDF, and their ratios at equal error.

    With a leak and without. The time that BDF takes for an error lies on a line between its
    tolerances, in logarithms; beyond its loosest one that still runs its time there is taken.
    """
    figures: dict[str, Any] = {}
    for leak in (1e-5, 0.0):
        case = watched(seam(hours, leak=leak))
        name = f"leak {leak:g}"
        exact, _ = bdf(case, TIGHT)
        rows = []
        for tolerance in TOLERANCES:
            states, used = bdf(case, tolerance)
            off = apart(states, exact)
            figures[f"{name}, BDF at {tolerance:g}: K, s"] = (off, used)
            if np.isfinite(off) and off < WORTH:
                rows.append((math.log(off), math.log(used)))
        for order, step, tolerance in OURS:
            rule = Settings(step=step, tolerance=tolerance, order=order)
            spent, done = clocked(lambda case=case, rule=rule: run_case(case, rule))
            off = apart(np.stack([done.temperature, done.humidity], axis=1), exact)
            used = math.exp(np.interp(math.log(off), *zip(*sorted(rows), strict=True)))
            figures[f"{name}, order {order}, {step:g} s, to {tolerance:g}: K, s, BDF over ours"] = (
                off, spent, used / spent,
            )  # fmt: skip
    return figures


def watched(case: Case) -> Case:
    """Return the case with a probe in each volume."""
    cells = case.mesh.part_cell
    probes = tuple(
        Probe(name=str(k), parts=np.flatnonzero(cells == k)) for k in range(len(case.mesh.points))
    )
    return replace(case, probes=probes)


def apart(states: Floats, exact: Floats) -> float:
    """Return the root mean square of the differences over all volumes and every thirteenth hour,
    1 % of humidity counting as 0.2 K. [K] `states` are temperature and humidity (hours, 2, n).
    """
    if states.shape != exact.shape:
        return math.inf
    off = (states - exact)[EVERY - 1 :: EVERY]
    return float(np.sqrt(np.mean(off[:, 0] ** 2 + (20.0 * off[:, 1]) ** 2)))


def bdf(case: Case, tolerance: float) -> tuple[Floats, float]:
    """Return temperature and humidity at the end of each hour, and the processor seconds."""
    system = _Rates(case)
    y = np.concatenate([case.temperature, case.humidity])
    scale = np.concatenate([np.full(system.n, 20.0), np.ones(system.n)])
    found, begun = [], time.process_time()
    for k in range(len(case.drive.temperature)):
        system.set_hour(k)
        done = solve_ivp(
            system.rates, (0.0, 3600.0), y, method="BDF", jac=system.slopes, rtol=tolerance,
            atol=tolerance * scale,
        )  # fmt: skip
        if not done.success:
            break
        y = done.y[:, -1]
        found.append(y.reshape(2, -1))
    return np.array(found), time.process_time() - begun


class _Rates:
    """The equations as rates of temperature and u, from the compiled residual of a second."""

    def __init__(self, case: Case) -> None:
        self.net = lay_out(case)
        self.state = _state(self.net, case)
        self.room = _room(self.net)
        self.hour = _hour(self.net, case)
        self.drives = _drives(case)
        self.n = len(case.mesh.points)

    def set_hour(self, k: int) -> None:
        """Take the drive of hour k."""
        for name in ("temperature", "face", "vapor", "rain", "flow"):
            getattr(self.hour, name)[:] = getattr(self.drives, name)[k]
        march.touch(self.net, self.hour)

    def at(self, y: Floats) -> tuple[Floats, Floats]:
        """Set the state and return heat and water capacities."""
        s, net = self.state, self.net
        s.t[:], s.u[:] = y.reshape(2, -1)
        kernel.hold(net, s, self.hour, self.room.part)
        kernel.sorb(net, s)
        s.water[:] = s.held
        capacity = net.capacity + kernel.WATER_HEAT * s.water
        s.heat[:] = capacity * s.t
        kernel.residual(net, s, self.hour, 1.0)
        return capacity, s.slope

    def rates(self, _: float, y: Floats) -> Floats:
        """Return dT/dt and du/dt."""
        capacity, slope = self.at(y)
        return np.concatenate([-self.state.left / capacity, -self.state.right / slope])

    def slopes(self, _: float, y: Floats) -> csc_matrix:
        """Return the sparse derivatives of the rates, moving air taken up by its walls."""
        capacity, slope = self.at(y)
        band, net = self.room.band, self.net
        matrix.assemble(net, self.state, self.hour, 1.0, band)
        half, rows = half_of(band), 2 * len(net.place)
        panel, column, lane = np.nonzero(band[:, : 2 * half + 8])
        row, col = 8 * panel + lane, column + 8 * panel - half
        full = csr_matrix((band[panel, column, lane].astype(float), (row, col)), (rows, rows))
        cells = np.concatenate([2 * net.place[: self.n], 2 * net.place[: self.n] + 1])
        scale = np.concatenate([capacity, kernel.LATENT * slope])
        own = full[cells][:, cells].tocsr()
        own.setdiag(own.diagonal() - scale)
        return (diags_array(-1.0 / scale) @ own).tocsc()
