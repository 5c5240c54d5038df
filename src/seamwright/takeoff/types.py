"""Pieces, cuts and order lines; every line points to the joints it comes from."""

from __future__ import annotations

import math
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
    `unit`; `packs` whole rolls, cans or packs; `cartons` whole cartons. Both are 0 for what is cut
    from another line's rolls and for what is sold by length. Cost is that of the whole cartons,
    None without a price. `width` is that of a strip. [m] `note` says what to know before buying;
    `included` marks what other lines already hold.
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
    width: float | None = None
    note: str = ""
    included: bool = False

    @property
    def amount(self) -> float:
        """What the house takes and the reserve together, in `unit`."""
        return self.net + self.reserve


@dataclass(frozen=True, kw_only=True, slots=True)
class Labor:
    """Time of one kind of work, when the user gave its rate; cost when also the wage. [s]"""

    work: str
    amount: float
    unit: Literal["m", "piece"]
    time: float | None
    cost: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class LeftOut:
    """Something the order could not count: the joint or node, what it needs, and why it is out."""

    ref: str
    what: str
    why: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Order:
    """What to buy, how to cut it, and the time it takes.

    `left_out` lists what is not in the lines because a width or size is missing: buying the lines
    alone leaves these joints without their seal.
    """

    pieces: tuple[Piece, ...]
    cutting: tuple[CuttingPlan, ...]
    lines: tuple[OrderLine, ...]
    labor: tuple[Labor, ...]
    currency: str = ""
    left_out: tuple[LeftOut, ...] = ()

    @property
    def cost(self) -> float | None:
        """Cost of all lines that have a price, None when none has; see `unpriced`."""
        known = [line.cost for line in self.lines if line.cost is not None]
        return math.fsum(known) if known else None

    @property
    def unpriced(self) -> tuple[str, ...]:
        """Items whose price is not known and which the cost therefore leaves out."""
        return tuple(line.item for line in self.lines if line.cost is None and not line.included)
