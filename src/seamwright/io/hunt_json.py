"""The leak hunt as JSON: the order to search in, every place, the house, the advice."""

from __future__ import annotations

from collections.abc import Sequence

from seamwright.io.json_text import Json
from seamwright.leakage.hunt_types import Facts, Hunt, Spread, Standing
from seamwright.leakage.rank import Advice, Choice
from seamwright.report.hunt_sheet import advice_sentence, reason

_HOUR = 3600.0


def hunt_document(
    hunt: Hunt,
    choices: Sequence[Choice],
    advice: Advice,
    *,
    top: int,
    around: Sequence[Choice] = (),
    notes: Sequence[str] = (),
) -> Json:
    """Return where the hunt stands. Flows are at 50 Pa; intervals hold 90 %.

    `around` are the neighbors of the first choice that are worth a look while somebody is there.
    """
    return {
        "total": _spread(hunt.total),
        "crews": [
            {"crew": crew, "factor": factor.value, "factor_low": factor.low,
             "factor_high": factor.high}
            for crew, factor in hunt.crews.items()
        ],
        "method": hunt.method,
        "advice": {
            "word": advice.word.replace(" ", "_"),
            "sentence": advice_sentence(hunt, advice),
            "gain_m3_h_per_h": advice.per_hour * _HOUR,
            "limit_m3_h_per_h": advice.limit * _HOUR,
            "first_share": advice.first_share,
            "first_count": advice.first_count,
            "effective_places": advice.effective_places,
        },
        "next": [_choice(choice) for choice in choices[:top]],
        "while_there": [choice.standing.place.id for choice in around],
        "places": [_standing(standing) for standing in hunt.standings],
        "notes": list(notes),
    }  # fmt: skip


def _choice(choice: Choice) -> Json:
    return {
        "id": choice.standing.place.id,
        "kind": choice.standing.place.kind,
        "why": reason(choice.standing),
        "gain_m3_h": choice.gain * _HOUR,
        "time_min": choice.minutes,
        "gain_m3_h_per_h": choice.per_hour * _HOUR,
    }


def _standing(standing: Standing) -> Json:
    place = standing.place
    return {
        "id": place.id,
        "sort": place.sort,
        "kind": place.kind,
        "length_m": place.length,
        "height_m": place.height,
        "reachable": place.reachable,
        "leak_m3_h": standing.leak * _HOUR,
        "leak_low_m3_h": standing.low * _HOUR,
        "leak_high_m3_h": standing.high * _HOUR,
        "defect": standing.defect,
        "share": standing.share,
        "found": standing.found,
        "gain_m3_h": standing.gain * _HOUR,
        "looks": standing.looks,
        "mended": standing.mended,
        "beyond_m3_h": None if standing.beyond is None else standing.beyond * _HOUR,
        "relief_m3_h": None if standing.relief is None else standing.relief * _HOUR,
        "records": _facts(standing.facts),
    }


def _facts(facts: Facts) -> Json:
    return {
        "sealed": facts.sealed,
        "checked": facts.checked,
        "photo": facts.photo,
        "taped": facts.taped,
        "crew": facts.crew,
    }


def _spread(spread: Spread) -> Json:
    return {
        "leak_m3_h": spread.value * _HOUR,
        "leak_low_m3_h": spread.low * _HOUR,
        "leak_high_m3_h": spread.high * _HOUR,
    }
