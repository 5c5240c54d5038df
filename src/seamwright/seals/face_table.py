"""Which face to propose for the primary air seal, by climate zone. A proposal, never a decision.

Zones are those of ASHRAE Standard 169 and the IECC: a number from 0 (hottest) to 8 (coldest) and a
letter for moisture (A moist, B dry, C marine); 7 and 8 have none. The choice per row is our reading
of published advice that does not agree with itself; `DISAGREEMENT` says how.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from seamwright.seals.types import FaceChoice

SYNTHESIS = (
    "read together from the Building America Solution Center's guide to panel seams and the Panel "
    "Association's 2002 report on the Juneau roofs; the choice per zone is common practice, no "
    "source"
)
"""Where the rows come from."""

DISAGREEMENT = (
    "published advice differs: panel makers hold that a well sealed panel needs no further air "
    "layer; builders in cold climates want strips on the inside as well; some building scientists "
    "seal both faces"
)
"""What the designer must know before signing."""

ROOF_LINES = frozenset({"ridge", "hip", "valley", "eave", "rake"})
"""Lines where a warm humid house wants the inner face as well."""


@dataclass(frozen=True, kw_only=True, slots=True)
class ZoneRow:
    """One row: the zones it covers, the face of most joints, that of roof lines, and why."""

    zones: tuple[str, ...]
    face: FaceChoice
    roof_lines: FaceChoice
    reason: str
    source: str = SYNTHESIS


ROWS: tuple[ZoneRow, ...] = (
    ZoneRow(
        zones=("7", "7A", "7B", "7C", "8", "8A", "8B"),
        face="inner",
        roof_lines="inner",
        reason="very cold: room air that enters a joint wets the outer skin, above all at the "
        "ridge; the outside must be able to dry",
    ),
    ZoneRow(
        zones=("3C", "4C", "5C", "6C"),
        face="inner",
        roof_lines="inner",
        reason="marine: room air that rises in the joints wets the outer skin and little dries",
    ),
    ZoneRow(
        zones=("4B", "5B", "6B"),
        face="inner",
        roof_lines="inner",
        reason="cold and dry: the moisture comes from the room",
    ),
    ZoneRow(
        zones=("5A", "6A"),
        face="inner",
        roof_lines="inner",
        reason="cold: the moisture comes from the room for most of the year",
    ),
    ZoneRow(
        zones=("3A", "4A"),
        face="inner",
        roof_lines="inner",
        reason="mixed: moisture drives both ways; inner for the roof, and both faces are a "
        "sensible second line (in the warm humid south of zone 3A the outer face is usual)",
    ),
    ZoneRow(
        zones=("0A", "1A", "2A"),
        face="outer",
        roof_lines="both",
        reason="hot and humid: humid outdoor air that leaks in meets cooled surfaces; at the ridge "
        "and the eaves the inner face as well",
    ),
    ZoneRow(
        zones=("0B", "1B", "2B", "3B"),
        face="inner",
        roof_lines="inner",
        reason="hot and dry: either face serves; inside for workmanship and no sun on the strip",
    ),
)
"""Every zone of the two standards once."""

NO_ZONE = ZoneRow(
    zones=(),
    face="inner",
    roof_lines="inner",
    reason="no climate zone is given, and the inner face can be inspected for longest",
    source="common practice, no source",
)
"""What is proposed while the climate zone is unknown."""


def row_for(zone: str | None) -> ZoneRow | None:
    """Return the row of a climate zone (``4C``, ``zone 5a``), None when it names no known zone."""
    if zone is None:
        return None
    found = re.fullmatch(r"(?:zone\s*)?([0-8])\s*([ABC]?)", zone.strip(), flags=re.IGNORECASE)
    if found is None:
        return None
    name = found.group(1) + found.group(2).upper()
    return next((row for row in ROWS if name in row.zones), None)
