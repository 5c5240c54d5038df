"""The width of a strip: what must be covered, as a sum, and the narrowest stock that covers it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from seamwright.seals.catalog import smallest_covering
from seamwright.seals.types import Catalog, StripStock, Term
from seamwright.tolerance import DEFAULT


@dataclass(frozen=True, kw_only=True, slots=True)
class Sizing:
    """A strip's arithmetic: `terms` sum to `required`; `stock` is None when nothing covers it.

    `counted` is the part of the span that the sum counts, 0 for a closed seam. [m]
    """

    span: float
    counted: float
    terms: tuple[Term, ...]
    required: float
    stock: StripStock | None

    @property
    def lap(self) -> float:
        """Lap on each skin of the chosen stock, centered; of the bare sum without stock. [m]"""
        width = self.required if self.stock is None else self.stock.width
        return (width - self.counted) / 2


def size_strip(
    catalog: Catalog,
    kind: str,
    span: float,
    *,
    overhead: bool = False,
    before_panels: bool = False,
    span_label: str = "developed span",
) -> Sizing:
    """Return the width a strip needs and the stock that gives it.

    .. math:: w = s + 2 l + p + h

    with the span s counted when it is wider than a closed seam, the land l twice, the placement
    allowance p where the span is open or not yet to be seen, and the handling allowance h where
    the strip goes on before the panels it will bond to.

    Parameters
    ----------
    catalog
        Laps and stock widths.
    kind
        Joint kind, for the land.
    span
        Developed way between sound skins. [m]
    overhead
        The strip is set overhead or from staging.
    before_panels
        The strip is laid before the panels.
    span_label
        Words for the span in the sum.

    Source
    ------
    Common practice, no source; see ``docs/decisions/strip-width.md``.
    """
    laps = catalog.laps
    is_open = span > laps.closed_seam + DEFAULT.equal
    terms = []
    if is_open:
        terms.append(Term(label=span_label, value=span))
    elif span > DEFAULT.equal:
        terms.append(Term(label="closed seam, strip centered on it", value=0.0))
    land = laps.land[kind] if kind in laps.land else laps.land["*"]
    terms.append(Term(label="lap on sound skin", value=land, count=2))
    if is_open or before_panels:
        placing = laps.placement_overhead if overhead else laps.placement
        terms.append(Term(label="placement allowance", value=placing))
    if before_panels:
        terms.append(Term(label="handling allowance, laid before the panels", value=laps.handling))
    required = total(terms)
    return Sizing(
        span=span,
        counted=span if is_open else 0.0,
        terms=tuple(terms),
        required=required,
        stock=smallest_covering(catalog, required, DEFAULT.equal),
    )


def total(terms: tuple[Term, ...] | list[Term]) -> float:
    """Return the sum of the terms, each times its count. [m]"""
    return math.fsum(term.value * term.count for term in terms)
