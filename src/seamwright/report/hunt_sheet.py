"""The leak hunt on paper: where to look next and why, places with ids to tick, when to stop."""

from __future__ import annotations

from collections.abc import Sequence

from seamwright.joints.types import Register
from seamwright.leakage.hunt_types import Facts, Hunt, Standing
from seamwright.leakage.rank import Advice, Choice
from seamwright.report.cautions import HEIGHTS
from seamwright.report.fan_cautions import FAN_CAUTIONS
from seamwright.report.types import (
    Block,
    Caution,
    Cell,
    Heading,
    Paragraph,
    Quantity,
    Table,
)
from seamwright.seals.types import Sentence

SMOKE = (
    "Smoke. Use water-based fog or a smoke pencil, never a flame or incense near foam, solvent or "
    "sealant vapor; tell everybody in the house and anybody with asthma first, and expect alarms."
)
LADDERS = (
    "Ladders. Search from staging where both hands are busy; a held fan and a gust can slam a door "
    "or hatch against a ladder. Nobody searches alone at a height."
)
_TAPED = {
    "good": "taped in good conditions",
    "cold": "taped cold",
    "wet": "taped wet",
    "dusty": "taped on dust",
}


def hunt_sheet(
    hunt: Hunt,
    choices: Sequence[Choice],
    advice: Advice,
    *,
    top: int = 20,
    notes: Sequence[str] = (),
) -> tuple[Block, ...]:
    """Return the sheet for the site: what to look at in order, to be ticked, with the cautions."""
    told = [*notes, advice_sentence(hunt, advice)]
    return (
        Heading(text="Leak hunt: where to look next", level=1),
        *(Caution(text=text) for text in (*FAN_CAUTIONS, SMOKE, LADDERS, HEIGHTS)),
        *(Paragraph(text=Sentence(text=text)) for text in told),
        house_table(hunt),
        tick_table(choices[:top]),
        Paragraph(text=Sentence(text=_METHOD)),
    )


_METHOD = (
    "Every figure is an expectation from a forecast, the records, what the searchers saw and the "
    "fan tests; chances to find and times are estimates (common practice, no source). Hold the fan "
    "at 50 Pa, look in this order, write what you saw (nothing, or 1 a whisper to 5 a gale), mend, "
    "look again, and run the list again after each find."
)


def first_line(choice: Choice) -> str:
    """Return where to look next, with the reason, in one line without units of flow."""
    minutes = f"{choice.minutes:.0f} min"
    return f"{place_words(choice.standing)}, {reason(choice.standing)}; {minutes}"


def neighbors(register: Register) -> dict[str, tuple[str, ...]]:
    """Return, by id, what can be searched from the same spot: a joint's nodes and the joints that
    meet there; a node's joints; the joints around a window or door, which is ``<its id>/unit``.
    """
    found: dict[str, dict[str, None]] = {}
    for joint in register.joints:
        for unit in (f"{other}/unit" for other in joint.others if joint.kind == "opening"):
            found.setdefault(unit, {})[joint.id] = None
            found.setdefault(joint.id, {})[unit] = None
    for node in register.nodes:
        for joint_id in node.joints:
            found.setdefault(node.id, {})[joint_id] = None
            near = found.setdefault(joint_id, {})
            near[node.id] = None
            near.update((other, None) for other in node.joints if other != joint_id)
    return {place: tuple(near) for place, near in found.items()}


def place_words(standing: Standing) -> str:
    """Return a place as people say it: ``ridge R1.2-R2.2``."""
    return f"{standing.place.kind.replace('_', ' ').replace('+', ' + ')} {standing.place.id}"


def reason(standing: Standing) -> str:
    """Return why a place is worth a look: its records, its share, the chance of a defect."""
    share = f"{standing.share * 100:.1f} % of the expected leak"
    chance = f"{standing.defect * 100:.0f} % chance of a defect"
    return ", ".join([*known_words(standing), share, chance])


def known_words(standing: Standing) -> tuple[str, ...]:
    """Return what the records say of a place and what was done there, in words."""
    seen = []
    if standing.looks:
        seen.append(f"looked at {_times(standing.looks)}")
    if standing.mended:
        seen.append(f"mended {_times(standing.mended)}")
    return (*facts_words(standing.facts), *seen)


def facts_words(facts: Facts) -> tuple[str, ...]:
    """Return what the records say of a place, in words."""
    told = []
    if facts.sealed is False:
        told.append("not sealed yet")
    if facts.photo is False:
        told.append("no photo")
    if facts.checked is True:
        told.append("checked")
    if facts.taped is not None:
        told.append(_TAPED[facts.taped])
    return tuple(told)


def advice_sentence(hunt: Hunt, advice: Advice) -> str:
    """Return whether to go on, in one sentence."""
    best = (
        f"the best place promises {_per_cent(advice.per_hour, hunt)} of the leak per hour of work"
    )
    spread = (
        f"the {advice.first_count} best places hold {advice.first_share * 100:.0f} % of all there "
        f"is to gain, which is spread as if over {advice.effective_places:.0f} equal places"
    )
    if advice.word == "good enough":
        return "Stop: the whole 90 % interval of the leak lies below the target."
    if advice.word == "little to gain":
        limit = _per_cent(advice.limit, hunt)
        return f"Stop: {best}, less than the {limit} that is worth an hour; {spread}."
    if advice.word == "spread thin":
        return f"Stop hunting one by one: {spread}. Work over a whole kind of joint instead."
    return f"Go on: {best}; {spread}."


def house_table(hunt: Hunt) -> Table:
    """Return the whole leak now and each crew's factor, with 90 % intervals."""
    total = hunt.total
    rows: list[tuple[Cell, ...]] = [
        ("Leak of the house now, at 50 Pa", _flow(total.value), _flow(total.low), _flow(total.high))
    ]
    for crew, factor in hunt.crews.items():
        name = f"Factor of crew {crew}" if crew else "Factor of the crew, 1 as forecast"
        rows.append((name, *(f"{v:.2f}" for v in (factor.value, factor.low, factor.high))))
    return Table(
        columns=("", "Expected", "90 % from", "to"),
        rows=tuple(rows),
        widths=(6, 2, 2, 2),
        right=(1, 2, 3),
        caption="The house as it stands",
    )


def rank_table(choices: Sequence[Choice]) -> Table:
    """Return the order to search in: leak with interval, chances, gain and minutes.

    Where moisture results are known, also the leak beyond what the place tolerates.
    """
    wet = any(choice.standing.beyond is not None for choice in choices)
    columns, widths = list(_RANKED), [0.6, 2.2, 2.2, 1.4, 1.4, 1.4, 1.1, 1.1, 1.4, 1.2, 3.0]
    if wet:
        columns.insert(_BEYOND_AT, "Too much")
        widths.insert(_BEYOND_AT, 1.4)
    return Table(
        columns=tuple(columns),
        rows=tuple(
            (
                str(k),
                c.standing.place.id,
                c.standing.place.kind.replace("_", " ").replace("+", " + "),
                _flow(c.standing.leak),
                _flow(c.standing.low),
                _flow(c.standing.high),
                *((_too_much(c.standing),) if wet else ()),
                _share(c.standing.defect),
                _share(c.standing.found),
                _flow(c.gain),
                f"{c.minutes:.0f}",
                ", ".join(known_words(c.standing)),
            )
            for k, c in enumerate(choices, 1)
        ),
        widths=tuple(widths),
        right=(0, *range(3, len(columns) - 1)),
        caption="Where to look, most gain per minute first",
    )


_RANKED = (
    "",
    "Place",
    "Kind",
    "Leak",
    "90 % from",
    "to",
    "Defect",
    "Find",
    "Gain",
    "Minutes",
    "Why",
)


_BEYOND_AT = 6


def tick_table(choices: Sequence[Choice]) -> Table:
    """Return the same order for the site: ids, a box to tick, room for what was seen."""
    return Table(
        columns=("", "Place", "Kind", "Why", "Defect", "Minutes", "Saw 0–5", "Mended", "By, day"),
        rows=tuple(
            (
                f"☐ {k}",
                c.standing.place.id,
                c.standing.place.kind.replace("_", " ").replace("+", " + "),
                ", ".join(known_words(c.standing)),
                _share(c.standing.defect),
                f"{c.minutes:.0f}",
                "",
                "",
                "",
            )
            for k, c in enumerate(choices, 1)
        ),
        widths=(0.8, 2.2, 2.4, 3, 1, 1, 1.2, 1.2, 2),
        right=(4, 5),
        caption="Look here, in this order",
    )


def _too_much(standing: Standing) -> Quantity | None:
    return None if standing.beyond is None else _flow(standing.beyond)


def _per_cent(flow: float, hunt: Hunt) -> str:
    return f"{flow / hunt.total.value * 100:.1f} %"


def _times(count: int) -> str:
    return "once" if count == 1 else f"{count} times"


def _flow(value: float) -> Quantity:
    return Quantity(value=value, dimension="flow")


def _share(value: float) -> Quantity:
    return Quantity(value=value, dimension="share")
