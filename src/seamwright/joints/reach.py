"""Who can reach a joint's two faces, and what hides them: the access table of the trade.

Every entry is `common practice, no source`; the design and the shop drawings outrank it.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from seamwright.joints.types import JointKind, Reach

Access = tuple[Reach, str]
_OPEN: Reach = "until_hidden"

ACCESS: Mapping[JointKind, tuple[Access, Access]] = MappingProxyType(
    {
        "sill": ((_OPEN, "floor finish"), (_OPEN, "cladding or grade")),
        "wall_spline": ((_OPEN, "drywall or cabinets"), (_OPEN, "water layer")),
        "wall_corner": ((_OPEN, "drywall or cabinets"), (_OPEN, "water layer")),
        "end_joint": ((_OPEN, "drywall or ceiling"), (_OPEN, "water layer")),
        "wall_tee": (("before_panels_only", "partition"), ("never", "")),
        "floor_line": ((_OPEN, "floor finish"), (_OPEN, "water layer")),
        "floor_spline": ((_OPEN, "floor finish"), ("never", "ground or the room below")),
        "eave": ((_OPEN, "ceiling or drywall"), (_OPEN, "sub-fascia or soffit")),
        "rake": ((_OPEN, "ceiling or drywall"), (_OPEN, "sub-fascia or soffit")),
        "roof_spline": ((_OPEN, "ceiling"), (_OPEN, "underlayment")),
        "ridge": ((_OPEN, "ceiling"), (_OPEN, "ridge cap")),
        "hip": ((_OPEN, "ceiling"), (_OPEN, "hip cap")),
        "valley": ((_OPEN, "ceiling"), (_OPEN, "valley flashing")),
        "roof_step": ((_OPEN, "ceiling or drywall"), (_OPEN, "step flashing")),
        "opening": ((_OPEN, "window or door"), (_OPEN, "window or door")),
        "penetration": ((_OPEN, "linings"), (_OPEN, "water layer")),
    }
)
"""Inner and outer face of each kind: until when, and what ends it."""

RIM: tuple[Access, Access] = (("never", "floor joists and deck"), (_OPEN, "water layer"))
"""Where a rim closes a platform floor: joists and deck stand before its inner side."""

_AT_RIM = ("floor_line", "wall_spline", "wall_corner")

LEDGER: tuple[Access, Access] = (("before_panels_only", "ledger"), ("never", ""))
"""A ledger hides the wall behind it once it is fixed."""


def access(
    kind: JointKind, *, rim: bool, roof_end: bool, timber: str | None
) -> tuple[Access, Access]:
    """Return reach and what hides it for the inner and the outer face.

    `rim` marks a joint at a platform floor, `roof_end` an end joint in a roof. `timber` is the id
    of a member that covers the inner line (None: none), which then must be sealed before.
    """
    inner, outer = RIM if rim and kind in _AT_RIM else ACCESS[kind]
    if roof_end and kind == "end_joint":
        inner, outer = ACCESS["roof_spline"]
    if timber is not None:
        inner = ("before_panels_only", timber)
    return inner, outer
