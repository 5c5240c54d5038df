"""Pieces to cut: runs with their end laps and folds, and the patches of the nodes."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence

from seamwright.errors import InputError, Problem
from seamwright.geometry.types import Segment
from seamwright.joints.types import FaceName, Node, Register
from seamwright.seals.types import Catalog, Laps, NodePatch, SealSchedule, Strip, StripStock
from seamwright.takeoff._grid import SAME
from seamwright.takeoff.runs import Run, lay_runs
from seamwright.takeoff.types import Piece
from seamwright.tolerance import Tolerance

LONG_LAP_KINDS = frozenset({"ridge", "hip", "valley"})
"""Joint kinds whose strips take the longer end lap (common practice, no source)."""

_LEAST_LAPS = 3
"""The last part of a split run is at least as long as this many end laps."""


def cut_pieces(
    schedule: SealSchedule, register: Register, catalog: Catalog, tolerance: Tolerance
) -> tuple[Piece, ...]:
    """Return every piece of strip of the house, none longer than its roll. [m]

    A run takes one end lap at each end where it meets other strips of its face at a node, and a
    strip creased along its length the fold there too. A ring around a penetration laps once. A
    strip that covers only a part of its joint (over a crossing timber) comes with its laps. A run
    longer than a roll is split, each split with one more end lap. Strips without a stock are left
    out, and so are nodes that take liquid flashing or a boot.

    Raises
    ------
    InputError
        If a roll is no longer than two end laps.
    """
    _check_rolls(catalog)
    stocks = {stock.id: stock for stock in catalog.strips}
    strips = [s for s in schedule.strips if s.stock_id in stocks and s.length > SAME]
    kinds = {joint.id: joint.kind for joint in register.joints}
    meeting = _Meeting(strips, register.nodes)
    names: Counter[str] = Counter()
    pieces: list[Piece] = []
    for run in lay_runs(strips, register, tolerance):
        stock = stocks[str(run.strips[0].stock_id)]
        ring = kinds.get(run.joint_ids[0]) == "penetration"
        lap = _end_lap(run, kinds, catalog.laps)
        length = math.fsum([run.length, *_additions(run, lap, catalog.laps, meeting, ring=ring)])
        name = _unique(_name(run, ring=ring), names)
        pieces += _split(name, length, lap, run, stock)
    cut = [patch for patch in schedule.patches if is_cut_from_strip(patch)]
    return (*pieces, *(_patches(cut, catalog) if catalog.strips else ()))


def _check_rolls(catalog: Catalog) -> None:
    """Raise for every roll too short to be lapped onto the next."""
    least = 2 * max(catalog.laps.end_lap, catalog.laps.end_lap_ridge)
    problems = [
        Problem(
            subject=stock.id,
            sentence=f"strip {stock.id}: a roll of {stock.roll_length:.3f} m is no longer than two "
            f"end laps, {least:.3f} m",
            remedy="correct its roll_length in the catalog, or the end laps",
        )
        for stock in catalog.strips
        if stock.roll_length <= least
    ]
    if problems:
        raise InputError(problems)


def is_cut_from_strip(patch: NodePatch) -> bool:
    """Return whether a node's patch is a piece of strip; liquid flashing and boots are not."""
    return not patch.how.startswith("liquid")


class _Meeting:
    """Answers whether a run meets other strips at one of its tips."""

    def __init__(self, strips: Iterable[Strip], nodes: Iterable[Node]) -> None:
        self._taped: dict[FaceName, set[str]] = {"inner": set(), "outer": set()}
        for strip in strips:
            self._taped[strip.face].add(strip.joint_id)
        self._nodes: dict[str, list[Node]] = defaultdict(list)
        for node in nodes:
            for joint_id in node.joints:
                self._nodes[joint_id].append(node)

    def at(self, tip: Segment, strip: Strip, run: Run) -> bool:
        """Return whether a node at the end of line `tip` has another strip on this face."""
        own = set(run.joint_ids)
        return any(
            (set(node.joints) - own) & self._taped[strip.face]
            for node in self._nodes[strip.joint_id]
            if math.dist(node.at, tip.end) < math.dist(node.at, tip.start)
        )


def _additions(run: Run, lap: float, laps: Laps, meeting: _Meeting, *, ring: bool) -> list[float]:
    """Return the end laps and folds of a run. [m]"""
    fold = laps.fold if run.strips[0].fold else 0.0
    if run.tips is None:
        return [lap] if ring else []
    ends = zip(run.tips, (run.strips[0], run.strips[-1]), strict=True)
    return [lap + fold for tip, strip in ends if meeting.at(tip, strip, run)]


def _end_lap(run: Run, kinds: Mapping[str, str], laps: Laps) -> float:
    """Return the lap of a run onto its neighbors and over its own splits. [m]"""
    long = any(kinds.get(joint_id) in LONG_LAP_KINDS for joint_id in run.joint_ids)
    return laps.end_lap_ridge if long else laps.end_lap


def _split(name: str, length: float, lap: float, run: Run, stock: StripStock) -> list[Piece]:
    """Return a run as pieces no longer than the roll: whole rolls first, then what is left.

    A last part shorter than three end laps takes from the part before it.
    """
    purpose = "fold" if run.strips[0].fold else "run"
    parts = [length]
    while parts[-1] > stock.roll_length:
        rest = math.fsum([parts[-1], -stock.roll_length, lap])
        parts[-1:] = [stock.roll_length, rest]
    if len(parts) > 1 and parts[-1] < _LEAST_LAPS * lap:
        half = (parts[-2] + parts[-1]) / 2
        parts[-2:] = [half, half]
    return [
        Piece(
            id=name if len(parts) == 1 else f"{name}/{k}",
            stock_id=stock.id,
            length=part,
            joint_ids=run.joint_ids,
            purpose="fold" if purpose == "fold" else "run",
        )
        for k, part in enumerate(parts, start=1)
    ]


def _patches(patches: Iterable[NodePatch], catalog: Catalog) -> list[Piece]:
    """Return the pieces that node patches are cut from, as many abreast as the width allows.

    The stock is the one that takes the least area for a patch, the narrower of equals. Where no
    stock is as wide as the patch, it is pieced from strips of the widest side by side, each lapping
    the next by the end lap.
    """
    groups: dict[float, list[NodePatch]] = defaultdict(list)
    for patch in sorted(patches, key=lambda p: (p.node_id, p.face)):
        groups[patch.side].append(patch)
    pieces: list[Piece] = []
    names: Counter[str] = Counter()
    for side in sorted(groups):
        stock, abreast, deep = _patch_stock(side, catalog.strips, catalog.laps.end_lap)
        waiting = groups[side]
        for at in range(0, len(waiting), abreast):
            share = waiting[at : at + abreast]
            ids = tuple(dict.fromkeys(patch.node_id for patch in share))
            for _ in range(deep):
                name = _unique(f"{ids[0]}/{share[0].face}/patch", names)
                piece = Piece(
                    id=name, stock_id=stock.id, length=side, joint_ids=ids, purpose="patch"
                )
                pieces.append(piece)
    return pieces


def _patch_stock(
    side: float, stocks: Sequence[StripStock], lap: float
) -> tuple[StripStock, int, int]:
    """Return the stock for patches of a side, how many lie abreast, and strips to one patch."""
    near = 1e-9
    wide = [stock for stock in stocks if stock.width >= side - near]
    if wide:
        across = {stock.id: int((stock.width + near) / side) for stock in wide}
        best = min(wide, key=lambda s: (round(s.width / across[s.id], 9), s.width, s.id))
        return best, across[best.id], 1
    widest = max(stocks, key=lambda stock: (stock.width, stock.id))
    step = max(widest.width - lap, widest.width / 2)
    return widest, 1, 1 + math.ceil((side - widest.width) / step - near)


def _name(run: Run, *, ring: bool) -> str:
    """Return the name of a run from its joints and face: ``A.1-A.2/inner``; a short strip where a
    timber crosses the joint says so.
    """
    first, last = run.joint_ids[0], run.joint_ids[-1]
    joints = first if first == last else f"{first}..{last}"
    short = "/crossing" if run.tips is None and not ring else ""
    return f"{joints}/{run.strips[0].face}{short}"


def _unique(name: str, names: Counter[str]) -> str:
    """Return the name, numbered when it was given before."""
    names[name] += 1
    return name if names[name] == 1 else f"{name}+{names[name]}"
