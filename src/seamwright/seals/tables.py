"""Tables of the trade's defaults: stock, laps, beads. Every row says where it comes from.

Columns and units are those of the records in `seamwright.seals.types`; all lengths in metres and
all volumes in cubic metres, written as inches, feet or millilitres times their exact factor. A
job's approved details and product sheets outrank every row here.
"""

from __future__ import annotations

from seamwright.seals.types import (
    COMMON_PRACTICE,
    BeadRule,
    FoamStock,
    Laps,
    SealantStock,
    Stage,
    StripStock,
)

INCH = 0.0254
"""One inch, exact. [m]"""

FOOT = 12 * INCH
"""One foot, exact. [m]"""

MILLILITRE = 1e-6
"""One millilitre. [m³]"""

BEAD_SOURCE = (
    "count within the limit of six beads per joint and eight at the ridge in 'Air sealing "
    "structural insulated panel (SIP) seams', Building America Solution Center; where each bead "
    f"lies and its diameter: {COMMON_PRACTICE}"
)
"""Source of the bead counts."""

STRIPS: tuple[StripStock, ...] = (
    StripStock(id="strip-4", width=4 * INCH, roll_length=75 * FOOT, per_carton=8),
    StripStock(id="strip-12", width=12 * INCH, roll_length=50 * FOOT, per_carton=4),
    StripStock(id="strip-18", width=18 * INCH, roll_length=50 * FOOT, per_carton=4),
)

SEALANTS: tuple[SealantStock, ...] = (
    SealantStock(id="sealant-600", pack="sausage", volume=600 * MILLILITRE, per_carton=12),
    SealantStock(id="sealant-300", pack="cartridge", volume=300 * MILLILITRE, per_carton=12),
)

FOAMS: tuple[FoamStock, ...] = (
    FoamStock(
        id="foam-750",
        volume=30_000 * MILLILITRE * 0.75,
        per_carton=12,
        source=(
            "750 ml can: 30 litres of free rise (low end of 30 to 45) less 25 % lost in the void; "
            f"{COMMON_PRACTICE}"
        ),
    ),
)

LAPS = Laps(
    land={"*": 2 * INCH, "ridge": 3 * INCH, "hip": 3 * INCH, "valley": 3 * INCH},
    closed_seam=INCH / 8,
    placement=INCH / 4,
    placement_overhead=3 * INCH / 8,
    handling=3 * INCH,
    end_lap=3 * INCH,
    end_lap_ridge=4 * INCH,
    node_patch=6 * INCH,
    fold=2 * INCH,
)
"""`handling` is two wings of 1-1/2 in: 1 in of edge to hold and peel by, 1/2 in of panel drift."""

BEAD = 3 * INCH / 8
"""Diameter of a bead between wood parts, upper end of the usual 1/4 to 3/8 in. [m]"""

BEAD_ROUGH = INCH / 2
"""Diameter of a bead on concrete. [m]"""


def _rule(
    kind: str,
    count: int,
    place: str,
    *,
    spline: str | None = None,
    on: str | None = None,
    diameter: float = BEAD,
    stage: Stage = "at_setting",
) -> BeadRule:
    return BeadRule(
        kind=kind,
        spline=spline,
        count=count,
        place=place,
        diameter=diameter,
        source=BEAD_SOURCE,
        on=on,
        stage=stage,
    )


def _seam(kind: str) -> tuple[BeadRule, ...]:
    """Return the beads of an in-plane seam for every kind of spline, six at most."""
    skin = "skin contacts of the spline, one per panel on each skin line"
    return (
        _rule(kind, 4, skin, spline="surface"),
        _rule(kind, 2, "core edges, one per panel", spline="surface"),
        _rule(kind, 4, skin, spline="block"),
        _rule(kind, 2, "foam faces of the block, one each side", spline="block"),
        _rule(kind, 4, skin, spline="lumber"),
        _rule(kind, 1, "between the two plies", spline="lumber"),
        _rule(kind, 1, "timber to core", spline="lumber"),
        _rule(kind, 4, "flanges to skins, one per panel on each skin line", spline="i_joist"),
        _rule(kind, 2, "web packing, one each side", spline="i_joist"),
        _rule(kind, 4, "tongue shoulders and skin lines", spline="cam_lock"),
    )


BEADS: tuple[BeadRule, ...] = (
    *_seam("wall_spline"),
    *_seam("roof_spline"),
    *_seam("floor_spline"),
    *_seam("end_joint"),
    _rule("wall_corner", 4, "contact of wall face and end timber"),
    _rule("wall_corner", 2, "end timber in its recess, one per wall"),
    _rule("wall_tee", 2, "behind the first stud of the inner wall", stage="rough_in"),
    _rule("sill", 2, "under the sill", on="concrete", diameter=BEAD_ROUGH, stage="before_setting"),
    _rule("sill", 1, "sill to bottom plate", on="concrete", stage="before_setting"),
    _rule("sill", 2, "bottom plate to skins", on="concrete"),
    _rule("sill", 1, "bottom plate to core", on="concrete"),
    _rule("sill", 2, "bottom plate to deck", on="deck", stage="before_setting"),
    _rule("sill", 2, "bottom plate to skins", on="deck"),
    _rule("sill", 1, "bottom plate to core", on="deck"),
    _rule(
        "floor_line", 2, "plate to deck or to the wall below", on="plate", stage="before_setting"
    ),
    _rule("floor_line", 2, "plate to skins", on="plate"),
    _rule("floor_line", 1, "plate to core", on="plate"),
    _rule("floor_line", 2, "behind the ledger", on="ledger", stage="before_next_panel"),
    _rule("ridge", 4, "top of the beam, two each side", on="timber", stage="before_next_panel"),
    _rule("ridge", 4, "bevel faces, two per panel", on="timber"),
    _rule("ridge", 6, "bevel faces, three per panel", on="bare"),
    _rule("hip", 2, "top of the beam, one each side", on="timber", stage="before_next_panel"),
    _rule("hip", 4, "bevel faces, two per panel", on="timber"),
    _rule("hip", 6, "bevel faces, three per panel", on="bare"),
    _rule("valley", 2, "top of the beam, one each side", on="timber", stage="before_next_panel"),
    _rule("valley", 4, "bevel faces, two per panel", on="timber"),
    _rule("valley", 6, "bevel faces, three per panel", on="bare"),
    _rule("eave", 2, "top plate to wall skins"),
    _rule("eave", 2, "wedge or bevel to plate"),
    _rule("eave", 2, "roof panel to wedge or bevel"),
    _rule("rake", 2, "top plate to wall skins"),
    _rule("rake", 2, "wedge or bevel to plate"),
    _rule("rake", 2, "roof panel to plate"),
    _rule("roof_step", 4, "edge timber of the roof to the wall face"),
    _rule("opening", 2, "buck to skins in the recess, one each side"),
    _rule("opening", 1, "buck to core"),
    _rule("penetration", 2, "ring, one on each skin", on="pipe", stage="rough_in"),
    _rule("penetration", 2, "ring, one on each skin", on="duct", stage="rough_in"),
    _rule("penetration", 1, "ring at the cable entry", on="box", stage="rough_in"),
    _rule("penetration", 1, "ring at the mouth of the chase", on="chase", stage="rough_in"),
    _rule("penetration", 0, "none: the listed kit seals a flue", on="flue", stage="rough_in"),
)
"""Beads by joint kind, spline and what the joint stands on; several rows of one joint add up."""

MOST_BEADS = {"*": 6, "ridge": 8}
"""Published upper end of beads per joint kind; source as `BEAD_SOURCE`."""

FOAM_RESERVE = 0.10
"""Foam ordered beyond need; loss in the void is in the yield already. Common practice, no source.
"""
