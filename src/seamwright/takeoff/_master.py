"""The linear program over cutting patterns, kept warm while patterns are added to it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import highspy
import numpy as np
from numpy.typing import NDArray

from seamwright.takeoff._grid import Pattern


class _Solver(highspy.Highs):
    """A silent solver on one thread, so that equal input gives equal output."""

    def __init__(self) -> None:
        super().__init__()  # type: ignore[no-untyped-call]
        self.setOptionValue("output_flag", False)
        self.setOptionValue("threads", 1)
        self.setOptionValue("random_seed", 0)

    def enableCallbacks(self) -> None:
        """Leave callbacks off: turning them on prints a banner, which spoils a printed result."""


class Master:
    """Least number of rolls, in fractions, that cut at least what is demanded from `patterns`.

    It holds a solver and so a state: patterns only ever get added, and demands only changed.
    """

    def __init__(self, counts: Sequence[int], patterns: Iterable[Pattern]) -> None:
        self.patterns: list[Pattern] = []
        self._known: set[Pattern] = set()
        self._solver = _Solver()
        none = np.array([], dtype=np.int32)
        for n in counts:
            self._solver.addRow(float(n), highspy.kHighsInf, 0, none, np.array([]))
        self.add(patterns)

    def add(self, patterns: Iterable[Pattern]) -> int:
        """Add the patterns that are not there yet and return how many were new."""
        new = 0
        for pattern in patterns:
            if pattern in self._known:
                continue
            rows, times = np.unique(np.array(pattern, dtype=np.int32), return_counts=True)
            self._solver.addCol(
                1.0, 0.0, highspy.kHighsInf, len(rows), rows, times.astype(np.float64)
            )
            self._known.add(pattern)
            self.patterns.append(pattern)
            new += 1
        return new

    def demand(self, counts: Sequence[int]) -> None:
        """Change what must be cut at least."""
        for row, n in enumerate(counts):
            self._solver.changeRowBounds(row, float(n), highspy.kHighsInf)

    def solve(self) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Return how often each pattern is cut, and the dual value of each length."""
        self._solver.run()
        solution = self._solver.getSolution()
        return np.asarray(solution.col_value), np.maximum(np.asarray(solution.row_dual), 0.0)

    def solve_whole(self, at_least: int, nodes: int) -> list[Pattern]:
        """Return rolls, whole numbers of them, from the patterns known; empty when none is found.

        `at_least` is a proven bound: the search ends when it is met, or after `nodes` branchings.
        """
        solver = _Solver()
        solver.passModel(self._solver.getModel())
        n = len(self.patterns)
        every = np.arange(n, dtype=np.int32)
        solver.addRow(float(at_least), highspy.kHighsInf, n, every, np.ones(n))
        solver.changeColsIntegrality(n, every, np.full(n, highspy.HighsVarType.kInteger))
        solver.setOptionValue("mip_max_nodes", nodes)
        solver.run()
        if solver.getInfo().primal_solution_status != 2:  # no feasible point
            return []
        value = solver.getSolution().col_value
        return [p for p, x in zip(self.patterns, value, strict=True) for _ in range(round(x))]
