"""What to buy and how to cut it, and tables as plain cells."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel

from seamwright.app.contract.told import Told


class OrderLineOut(BaseModel):
    """A thing to buy; amounts in metres, cubic metres or pieces, as `unit` says."""

    id: str
    description: Told
    unit: Literal["m", "m3", "piece"]
    width_m: float | None
    net: float
    reserve: float
    pack_size: float
    packs: int
    per_carton: int
    cartons: int
    included_in_other_lines: bool
    cost: float | None
    source: Told
    note: Told
    refs: list[str]


class CutOut(BaseModel):
    """One roll: the pieces cut from it in order, and what is left."""

    roll: int
    pieces: list[str]
    left_m: float


class CuttingOut(BaseModel):
    """How one stock is cut; `bound_rolls` is the fewest rolls there can be, proven."""

    stock: str
    roll_length_m: float
    rolls: int
    bound_rolls: int
    optimal: bool
    cuts: list[CutOut]


class PieceOut(BaseModel):
    """A length of strip to cut, and the joints or node it is for."""

    id: str
    stock: str
    length_m: float
    purpose: Literal["run", "patch", "fold"]
    refs: list[str]


class LaborOut(BaseModel):
    """Time of one kind of work, where its rate is known."""

    work: Told
    unit: Literal["m", "piece"]
    amount: float
    time_s: float | None
    cost: float | None


class LeftOutOut(BaseModel):
    """Something the order could not count: settle it before buying."""

    ref: str
    what: Told
    why: Told


class OrderOut(BaseModel):
    """The order of a house."""

    revision: int
    currency: str
    cost: float | None
    unpriced: list[str]
    lines: list[OrderLineOut]
    cutting: list[CuttingOut]
    pieces: list[PieceOut]
    labor: list[LaborOut]
    left_out: list[LeftOutOut]
