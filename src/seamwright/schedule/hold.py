"""Hold points: what somebody signs before the next step may hide a seal, and who signs.

The points follow the work from the drawings to handover. All are common practice, no source; a
code, a program or a contract may ask for more, and names the persons.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from seamwright.schedule.types import Network
from seamwright.sources import COMMON_PRACTICE

LEAD = "sealing lead"
DESIGNER = "building's designer"
MANAGER = "site manager"
TESTER = "fan tester"
INSPECTOR = "building inspector, where the code asks for it"


@dataclass(frozen=True, kw_only=True, slots=True)
class HoldPoint:
    """A stop in the work: the sentence to sign, and whose signature releases it."""

    id: str
    sentence: str
    released_by: str
    source: str = COMMON_PRACTICE


_ALL = (
    HoldPoint(
        id="sides",
        sentence="The face of the air seal is signed for every kind of joint, on the drawings in "
        "hand.",
        released_by=DESIGNER,
    ),
    HoldPoint(
        id="delivery",
        sentence="Panels are counted, dry and whole; damaged edges are written down and turned "
        "away.",
        released_by=MANAGER,
    ),
    HoldPoint(
        id="base",
        sentence="The bearing is level, square, dry and clean; what is out is shimmed or grouted.",
        released_by=MANAGER,
    ),
    HoldPoint(
        id="sill",
        sentence="Gasket and beads under the sill run through without a gap, photographed.",
        released_by=LEAD,
    ),
    HoldPoint(
        id="beads",
        sentence="Beads run through and are not skinned over, dams and plugs are in, photographed.",
        released_by=LEAD,
    ),
    HoldPoint(
        id="before_panel",
        sentence="The strip that the next panel hides is rolled and photographed.",
        released_by=LEAD,
    ),
    HoldPoint(
        id="ledger",
        sentence="The wall behind the ledger is sealed and photographed.",
        released_by=LEAD,
    ),
    HoldPoint(
        id="tee",
        sentence="The strip behind the inner wall runs through past both its faces, photographed.",
        released_by=LEAD,
    ),
    HoldPoint(
        id="plate",
        sentence="The top plate is bedded in its beads over its whole length, photographed.",
        released_by=LEAD,
    ),
    HoldPoint(
        id="drape",
        sentence="Strips lie over every timber that hides a seam, wings free, liner on, "
        "photographed.",
        released_by=LEAD,
    ),
    HoldPoint(
        id="wall_line",
        sentence="The seam is dammed over the wall line, photographed.",
        released_by=LEAD,
    ),
    HoldPoint(
        id="wedge",
        sentence="The wedge is filled to its full depth, trimmed and dry, photographed.",
        released_by=LEAD,
    ),
    HoldPoint(
        id="roof_seam",
        sentence="Outer strips of the roof are rolled over their whole width, photographed.",
        released_by=LEAD,
    ),
    HoldPoint(
        id="overnight",
        sentence="Nothing that was set today stands open tonight.",
        released_by=MANAGER,
    ),
    HoldPoint(
        id="channel",
        sentence="Every drilled hole of the seams is filled and plugged; the count is that of the "
        "plan.",
        released_by=LEAD,
    ),
    HoldPoint(
        id="buck",
        sentence="Beads in the recess run round all corners of the opening, photographed.",
        released_by=LEAD,
    ),
    HoldPoint(
        id="opening",
        sentence="The strip runs round the opening, corners stretched, not pieced, photographed.",
        released_by=LEAD,
    ),
    HoldPoint(
        id="outside",
        sentence="Outside strips and patches are rolled and looked at; skins are dry enough to "
        "cover.",
        released_by=LEAD,
    ),
    HoldPoint(
        id="inside",
        sentence="Inside strips, angles and patches are rolled over their whole width and looked "
        "at.",
        released_by=LEAD,
    ),
    HoldPoint(
        id="services",
        sentence="Every hole on the list of services is sealed, and there is no other hole.",
        released_by=LEAD,
    ),
    HoldPoint(
        id="release",
        sentence="The shell test is passed or every leak found is mended, tested again and "
        "written down; timbers and skins are dry enough to close.",
        released_by=f"{TESTER} and {LEAD}; {INSPECTOR}",
    ),
    HoldPoint(
        id="handover",
        sentence="The last fan test and the ventilation are measured and reported.",
        released_by=TESTER,
    ),
)

HOLDS: Mapping[str, HoldPoint] = MappingProxyType({point.id: point for point in _ALL})
"""Hold points by id, in the order of the work."""


@dataclass(frozen=True, kw_only=True, slots=True)
class BuryEvent:
    """A task that puts seals out of reach: which seals, who made them, what is signed before."""

    task_id: str
    title: str
    seals: tuple[str, ...]
    made_by: tuple[str, ...]
    holds: tuple[tuple[str, str], ...]
    reasons: tuple[str, ...]


def bury_events(network: Network) -> tuple[BuryEvent, ...]:
    """Return every task that hides seals, in the order of the network.

    `holds` pairs each hold point's sentence with who releases it, once each.
    """
    tasks = {task.id: task for task in network.tasks}
    links = [link for link in network.links if link.buries]
    events = []
    for task in network.tasks:
        found = [link for link in links if link.after == task.id]
        if not found:
            continue
        makers = [tasks[link.before] for link in found]
        holds = {
            (maker.hold_point, maker.released_by if maker.released_by is not None else LEAD)
            for maker in makers
            if maker.hold_point is not None
        }
        events.append(
            BuryEvent(
                task_id=task.id,
                title=task.title,
                seals=tuple(dict.fromkeys(seal for link in found for seal in link.buries)),
                made_by=tuple(dict.fromkeys(maker.id for maker in makers)),
                holds=tuple(sorted(holds)),
                reasons=tuple(dict.fromkeys(link.reason for link in found)),
            )
        )
    return tuple(events)
