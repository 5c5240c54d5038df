"""What products ask for before anybody has entered a data sheet: common practice throughout.

A product's own data sheet outranks every figure here. Limits known as 15, 40, 50, 90, 100 and
120 °F stand in °C to a tenth.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from seamwright.schedule.tape_types import TapeProduct

_DEW = "ISO 8502-4, a coatings rule, borrowed: common practice, no source for strips"
_BOARD = "common practice, no source; codes ask 18 to 19 % of framing before it is covered"
_LABELS = "label ranges as read in trade articles; no source for your product"
_SUN = "common practice, no source; sheets say 30 to 180 days"
_SPEC = "upper bound of a military guide specification as read second-hand; lower from memory"

_SHARED = {
    "dew_margin": _DEW,
    "board_hold": _BOARD,
    "board_stop": _BOARD,
    "sun_caution": _SUN,
    "sun_stop": _SUN,
}

_ALL = (
    TapeProduct(
        id="acrylic",
        title="acrylic strip",
        kind="strip",
        surface_min=-9.4,
        surface_max=48.9,
        air_min=-9.4,
        air_max=48.9,
        primer="rough_or_cold",
        primer_below=4.4,
        sources={
            **_SHARED,
            "surface_min": _LABELS,
            "surface_max": _LABELS,
            "air_min": _LABELS,
            "air_max": _LABELS,
        },
    ),
    TapeProduct(
        id="butyl",
        title="butyl strip",
        kind="strip",
        surface_min=4.4,
        surface_max=48.9,
        air_min=4.4,
        air_max=48.9,
        primer="rough",
        sources={**_SHARED, "surface_min": _LABELS, "air_min": _LABELS},
    ),
    TapeProduct(
        id="bitumen",
        title="rubberized asphalt strip",
        kind="strip",
        surface_min=10.0,
        surface_max=37.8,
        air_min=10.0,
        air_max=37.8,
        primer="rough_or_cold",
        primer_below=15.0,
        sun_caution=20.0,
        sun_stop=30.0,
        sources={**_SHARED, "surface_min": _LABELS, "air_min": _LABELS},
    ),
    TapeProduct(
        id="sealant",
        title="gunned elastomeric sealant",
        kind="sealant",
        surface_min=4.4,
        surface_max=32.2,
        air_min=4.4,
        air_max=32.2,
        primer="never",
        dry_hours=24.0,
        cure_hours=72.0,
        sources={
            **_SHARED,
            "surface_min": _SPEC,
            "surface_max": _SPEC,
            "air_min": _SPEC,
            "air_max": _SPEC,
        },
    ),
    TapeProduct(
        id="foam",
        title="one-component foam",
        kind="foam",
        surface_min=5.0,
        surface_max=30.0,
        air_min=5.0,
        air_max=30.0,
        dew_margin=0.0,
        primer="never",
        sun_caution=None,
        sun_stop=None,
        dry_hours=2.0,
        cure_hours=24.0,
        wet_ok=True,
        sources={"board_hold": _BOARD, "board_stop": _BOARD},
    ),
)

PRODUCTS: Mapping[str, TapeProduct] = MappingProxyType({p.id: p for p in _ALL})
"""Products by their plain name; none is anybody's brand."""
