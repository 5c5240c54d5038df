"""Sources on the plan of days and on working safely."""

from __future__ import annotations

from seamwright.sources.record import Source

SCHEDULE = (
    Source(
        key="kolisch-sprecher-1997",
        citation="R. Kolisch, A. Sprecher, PSPLIB - A project scheduling problem library, European "
        "Journal of Operational Research 96 (1997) 205-216 (1996 in the library itself; paper "
        "from memory), set j30; instances and list of optima seen in public copies of the library, "
        "not at its home.",
        used_for="checking the plan of days against proven optima",
    ),
    Source(
        key="osha-1926-501",
        citation="29 CFR 1926.501-503, Fall protection.",
        used_for="cautions",
    ),
)
