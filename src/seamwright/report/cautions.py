"""The usual cautions, printed where the work they belong to is in the packet."""

from __future__ import annotations

from seamwright.report.house import SealedHouse
from seamwright.report.types import Caution, Paragraph
from seamwright.seals.types import Sentence

HEIGHTS = (
    "Heights. Roof panels are smooth, steep and slick with dew. Sealing at a ridge, a rake or an "
    "eave is leading-edge work: guardrails, nets or personal fall arrest from 6 ft (1.8 m) in the "
    "United States (29 CFR 1926.501), anchors in structure and never in a skin alone, openings "
    "covered. Taping takes two hands: work from staging, not from a ladder. Local rules may ask "
    "for more."
)
LIFTING = (
    "Lifting. Nobody stands under a hanging panel or reaches into a joint while the panel can "
    "move. Tag lines, rated lifting gear, the crane operator's wind limit. A panel is let go only "
    "when it bears and is fastened."
)
CHEMICALS = (
    "Solvents and isocyanates. Primers and sealants give off flammable and harmful vapor; "
    "one-component foam holds isocyanates that can make a person allergic for life. Ventilate, "
    "keep flames and sparks away, wear gloves and eye protection, respirator as the safety data "
    "sheet says. Some solvents dissolve the foam core: try them on scrap first."
)
WET_ROOF = (
    "Wet panels. Do not set roof panels that cannot be covered the same day. A vapor-closed strip "
    "or cover over wet skins keeps the water in. Measure the skins, dry them, then seal."
)
FLUE = (
    "Flues. Keep strips, foam and core clear of every flue by the distance in its listing, and "
    "close the gap with a noncombustible plate and high-temperature sealant as the listing says. "
    "A tight house can pull flue gas back into the rooms: have fuel-burning appliances checked."
)
STRUCTURE = (
    "Structure. Nothing here is a structural design. Do not cut a skin, a spline or a timber, move "
    "a fastener or leave one out to make room for a seal without the engineer's word."
)
FIRE = (
    "Fire. The foam core needs a thermal barrier on the room side before anybody moves in. No open "
    "flame near bare core or fresh foam."
)
FRESH_AIR = (
    "Fresh air. A house sealed as tightly as this needs mechanical ventilation, designed and "
    "commissioned by someone qualified."
)
DEFERRAL = (
    "What outranks this packet: the building and energy code and the authority having "
    "jurisdiction; the panel maker's evaluation report and the approved shop drawings; the data "
    "sheet of each strip, sealant and foam; the building's designer and engineer. Where they "
    "differ from a figure here, they are right."
)
MEANING = (
    "What this packet does not do: it does not decide on which face the air seal goes, it does not "
    "replace flashing and the water layer, and general-purpose tape is not a seal."
)


def cautions(house: SealedHouse) -> tuple[Caution, ...]:
    """Return the cautions that belong to the work in this house."""
    roles = {panel.role for panel in house.shell.panels}
    flues = any(p.kind == "flue" for p in house.shell.penetrations)
    chosen = (
        (HEIGHTS, True),
        (LIFTING, True),
        (CHEMICALS, True),
        (WET_ROOF, "roof" in roles),
        (FLUE, flues),
        (STRUCTURE, True),
        (FIRE, True),
        (FRESH_AIR, True),
    )
    return tuple(Caution(text=text) for text, applies in chosen if applies)


def deferral() -> tuple[Paragraph, ...]:
    """Return what outranks the packet and what the packet does not do."""
    return tuple(Paragraph(text=Sentence(text=text)) for text in (DEFERRAL, MEANING))
