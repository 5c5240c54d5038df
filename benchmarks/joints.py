"""How the search for joints grows with the number of panels, and how it compares with all pairs.

Run with ``python -m benchmarks.joints`` (``--quick`` for a short run). Times are processor seconds
on one core of the machine at hand; what counts is the ratio and the exponent, both from one run.
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from collections.abc import Iterator

import numpy as np
from benchmarks.estate import estate

from seamwright.geometry.search import Ints
from seamwright.joints.fill import Boxes, fill_gaps, member_boxes
from seamwright.joints.find import find_touches
from seamwright.joints.gather import (
    Edges,
    Surfaces,
    gather_edges,
    gather_surfaces,
    in_natural_order,
)
from seamwright.joints.meet import meet_pairs
from seamwright.joints.register import build_register
from seamwright.joints.rest import rest_pairs
from seamwright.joints.settle import settle
from seamwright.joints.touch import Touches, joined
from seamwright.shell.types import Shell
from seamwright.tolerance import DEFAULT, Tolerance

QUICK, FULL = (100, 300), (1_000, 3_000, 10_000, 30_000, 100_000)
_BLOCK = 500_000


def run(*, quick: bool) -> dict[str, object]:
    """Return rows of (panels, seconds to find, seconds for the whole register, joints), the fitted
    exponents, and the ratio of all pairs to the search; raise if any joint differs.
    """
    rows = [_measure(n) for n in (QUICK if quick else FULL)]
    ratio_at = 100 if quick else 2_000
    ratio, same = _ratio(ratio_at)
    if not same:
        raise RuntimeError(f"the search and all pairs differ at {ratio_at} panels")
    return {
        "rows": rows,
        "find_exponent": _exponent([(row["panels"], row["find_s"]) for row in rows]),
        "register_exponent": _exponent([(row["panels"], row["register_s"]) for row in rows]),
        "ratio_at": ratio_at,
        "ratio_to_all_pairs": ratio,
    }


def all_pairs_touches(
    edges: Edges, surfaces: Surfaces, boxes: Boxes, tolerance: Tolerance = DEFAULT
) -> Touches:
    """Return the contacts found by holding every edge against every edge and every face."""
    n = len(edges.panel)
    parts = [meet_pairs(edges, i, j, tolerance) for i, j in _blocks(n, n)]
    faces = _blocks(n, len(surfaces.owner))
    parts += [rest_pairs(edges, surfaces, i, k, tolerance) for i, k in faces]
    return settle(edges, fill_gaps(joined(parts), boxes, tolerance), tolerance)


def contact_keys(touches: Touches) -> Counter[tuple[int, ...]]:
    """Return what meets what and where, to the millimetre, for comparing two searches."""
    columns = (touches.edge, touches.other, touches.surface)
    ends = (np.round(touches.start, 3) * 1000, np.round(touches.end, 3) * 1000)
    table = np.stack([*columns, *(end.astype(np.int64) for end in ends)], axis=1)
    return Counter(tuple(row) for row in table.tolist())


def gathered(shell: Shell) -> tuple[Edges, Surfaces, Boxes]:
    """Return a shell as the arrays that the search works on."""
    panels = in_natural_order(shell)
    surfaces = gather_surfaces(shell, panels, DEFAULT.equal)
    return gather_edges(panels), surfaces, member_boxes(shell.members, DEFAULT.gap)


def expected_kinds(shell: Shell) -> dict[str, int]:
    """Return how many corners and sides of windows an estate must show, by its making."""
    houses = len(shell.supports)
    return {"wall_corner": 4 * houses, "opening": 4 * houses}


def _measure(n: int) -> dict[str, float]:
    shell = estate(n)
    arrays = gathered(shell)
    begin = time.process_time()
    find_touches(*arrays, DEFAULT)
    found = time.process_time()
    register = build_register(shell)
    done = time.process_time()
    kinds = Counter(joint.kind for joint in register.joints)
    for kind, count in expected_kinds(shell).items():
        if kinds[kind] != count:
            raise RuntimeError(f"{kinds[kind]} joints of kind {kind} at {n} panels, not {count}")
    if register.breaks:
        raise RuntimeError(f"{len(register.breaks)} breaks in an estate of closed houses")
    return {
        "panels": len(shell.panels),
        "find_s": found - begin,
        "register_s": done - found,
        "joints": len(register.joints),
    }


def _ratio(n: int) -> tuple[float, bool]:
    arrays = gathered(estate(n))
    begin = time.process_time()
    near = find_touches(*arrays, DEFAULT)
    middle = time.process_time()
    every = all_pairs_touches(*arrays)
    end = time.process_time()
    same = contact_keys(near) == contact_keys(every)
    return (end - middle) / (middle - begin), same


def _blocks(rows: int, columns: int) -> Iterator[tuple[Ints, Ints]]:
    """Yield all index pairs of a rows × columns table, a block at a time."""
    step = max(1, _BLOCK // max(columns, 1))
    for at in range(0, rows, step):
        block = np.arange(at, min(at + step, rows))
        yield np.repeat(block, columns), np.tile(np.arange(columns), len(block))


def _exponent(points: list[tuple[float, float]]) -> float:
    """Return the slope of log time over log size, fitted by least squares."""
    x = np.log([p[0] for p in points])
    y = np.log([p[1] for p in points])
    return float(np.polyfit(x, y, 1)[0])


def main() -> None:
    """Print the table."""
    result = run(quick="--quick" in sys.argv)
    print(f"{'panels':>8} {'find [s]':>9} {'register [s]':>13} {'joints':>8}")
    rows = result["rows"]
    assert isinstance(rows, list)
    for row in rows:
        print(
            f"{row['panels']:>8} {row['find_s']:>9.2f} {row['register_s']:>13.2f} "
            f"{row['joints']:>8}"
        )
    print(f"growth of the search: n^{result['find_exponent']:.2f}")
    print(f"growth of the whole register: n^{result['register_exponent']:.2f}")
    ratio = result["ratio_to_all_pairs"]
    assert isinstance(ratio, float)
    print(f"all pairs takes {ratio:.0f} times as long at {result['ratio_at']} panels")


if __name__ == "__main__":
    main()
