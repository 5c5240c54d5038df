"""The shelf before the lead has entered a product sheet: common practice throughout."""

from __future__ import annotations

from seamwright.seals.tables import BEADS, FOAM_RESERVE, FOAMS, LAPS, SEALANTS, STRIPS
from seamwright.seals.types import COMMON_PRACTICE, Catalog, StripStock


def default_catalog() -> Catalog:
    """Return strips of 4, 12 and 18 in, sealant, foam, bead rules and laps of common practice.

    Lengths in metres, volumes in cubic metres, no prices and no work rates. Each row carries its
    source. A user's catalog file replaces rows; a product's data sheet outranks all of them.
    """
    return Catalog(
        strips=STRIPS,
        sealants=SEALANTS,
        foams=FOAMS,
        beads=BEADS,
        laps=LAPS,
        reserve_foam=FOAM_RESERVE,
        source=COMMON_PRACTICE,
    )


def smallest_covering(catalog: Catalog, required: float, tolerance: float) -> StripStock | None:
    """Return the narrowest strip at least `required` wide, None when there is none. [m]

    `tolerance` absorbs rounding: a strip short by no more than that still covers.
    """
    widths = sorted(catalog.strips, key=lambda stock: (stock.width, stock.id))
    return next((stock for stock in widths if stock.width >= required - tolerance), None)
