"""Running the solver: for so long, with news on the way, to be stopped at any time."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

from seamwright.schedule.greedy import Place
from seamwright.solve.library import Solver
from seamwright.solve.model import Model, places_of

WORKERS = 2
_LISTEN = 0.1
"""How often the wish to stop is asked for. [s]"""

Outcome: TypeAlias = Literal["optimal", "feasible", "infeasible", "unknown"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Progress:
    """News from the search: seconds since it began, the end found so far, and what is proven.

    `end` and `bound` are steps; `phase` names what is being made better.
    """

    seconds: float
    end: int
    bound: int
    phase: str


Listener: TypeAlias = Callable[[Progress], None]
Wish: TypeAlias = Callable[[], bool]


@dataclass(frozen=True, kw_only=True, slots=True)
class Run:
    """What one run of the solver found; `value` and `bound` are those of its objective.

    `core` are the switched-on rules that cannot all hold, where there is no answer.
    """

    outcome: Outcome
    places: Mapping[str, Place] | None
    value: int
    bound: int
    seconds: float
    stopped: bool
    core: frozenset[str] = frozenset()


def run_solver(
    made: Model,
    *,
    seconds: float,
    seed: int,
    tell: Callable[[int, int], None] | None = None,
    stop: Wish | None = None,
    workers: int = WORKERS,
) -> Run:
    """Return the best answer within `seconds`; `tell` hears value and bound of each better one."""
    cp = made.cp
    solver = cp.CpSolver()
    solver.parameters.max_time_in_seconds = max(0.1, seconds)
    solver.parameters.num_workers = workers
    solver.parameters.random_seed = seed
    solver.parameters.catch_sigint_signal = False  # Ctrl-C comes as a wish to stop
    began = time.monotonic()
    done = threading.Event()
    asked = threading.Event()
    if stop is not None:
        listener = threading.Thread(target=_listen, args=(solver, stop, done, asked), daemon=True)
        listener.start()
    status = solver.solve(made.model, _news(cp, tell))
    done.set()
    spent = time.monotonic() - began
    known: dict[int, Outcome] = {
        cp.OPTIMAL: "optimal",
        cp.FEASIBLE: "feasible",
        cp.INFEASIBLE: "infeasible",
    }
    outcome = known.get(status, "unknown")
    found = outcome in {"optimal", "feasible"}
    early = outcome == "feasible" and spent < 0.9 * seconds
    return Run(
        outcome=outcome,
        places=places_of(made, solver.value) if found else None,
        value=round(solver.objective_value) if found else 0,
        bound=round(solver.best_objective_bound) if found or outcome == "unknown" else 0,
        seconds=spent,
        stopped=asked.is_set() or early,
        core=_core(solver, made) if outcome == "infeasible" else frozenset(),
    )


def _core(solver: Solver, made: Model) -> frozenset[str]:
    if not made.switches:
        return frozenset()
    found = set(solver.sufficient_assumptions_for_infeasibility())
    return frozenset(name for name, literal in made.switches.items() if literal.index in found)


def _listen(solver: Solver, stop: Wish, done: threading.Event, asked: threading.Event) -> None:
    while not done.wait(_LISTEN):
        if stop():
            asked.set()
            solver.stop_search()
            return


def _news(cp: Solver, tell: Callable[[int, int], None] | None) -> Solver:
    if tell is None:
        return None
    heard = tell

    class News(cp.CpSolverSolutionCallback):  # type: ignore[misc]
        """Hears of every better answer."""

        def on_solution_callback(self) -> None:
            heard(round(self.objective_value), round(self.best_objective_bound))

    return News()
