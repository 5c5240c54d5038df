"""Pieces, cuts and order lines; every line points to the joints it comes from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, kw_only=True, slots=True)
class Piece:
    """One length of strip to cut. `joint_ids` are the joints it runs along, or the node."""

    id: str
    stock_id: str
    length: float
    joint_ids: tuple[str, ...]
    purpose: Literal["run", "patch", "fold"] = "run"


@dataclass(frozen=True, kw_only=True, slots=True)
class RollCut:
    """The pieces cut from one roll, in order, and what is left of it. [m]"""

    stock_id: str
    roll: int
    piece_ids: tuple[str, ...]
    left: float


@dataclass(frozen=True, kw_only=True, slots=True)
class CuttingPlan:
    """All rolls of one stock. `bound` is the proven least number of rolls; `optimal` when reached.

    `lp_bound` is the linear-programming bound before rounding up.
    """

    stock_id: str
    roll_length: float
    cuts: tuple[RollCut, ...]
    lp_bound: float
    bound: int
    optimal: bool

    @property
    def rolls(self) -> int:
        """Number of rolls cut into."""
        return len(self.cuts)


@dataclass(frozen=True, kw_only=True, slots=True)
class OrderLine:
    """One thing to buy. `net` is what the house takes, `reserve` what is added for loss, both in
    `unit`; `packs` whole rolls, cans or packs; `cartons` whole cartons. Cost None without price.
    """

    item: str
    description: str
    unit: Literal["m", "m3", "piece"]
    net: float
    reserve: float
    pack_size: float
    packs: int
    per_carton: int
    cartons: int
    source: str
    refs: tuple[str, ...]
    cost: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Labor:
    """Time of one kind of work, when the user gave its rate; cost when also the wage. [s]"""

    work: str
    amount: float
    unit: Literal["m", "piece"]
    time: float | None
    cost: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Order:
    """What to buy, how to cut it, and the time it takes."""

    pieces: tuple[Piece, ...]
    cutting: tuple[CuttingPlan, ...]
    lines: tuple[OrderLine, ...]
    labor: tuple[Labor, ...]
    currency: str = ""
