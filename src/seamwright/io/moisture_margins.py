"""Read what each joint tolerates, as the moisture verdicts write it: one entry to a joint."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from seamwright.errors import FormatError, Problem
from seamwright.io.json_text import Json
from seamwright.io.yaml_text import read_text
from seamwright.leakage.margins import Margin

_HOUR = 3600.0
_LEAK, _MARGIN = "tolerable_leak_m3_h_m", "margin"


def margins_document(margins: Mapping[str, Margin]) -> Json:
    """Return what joints tolerate as a document that `read_margins` reads."""
    return {
        "joints": [
            {"id": at, _LEAK: margin.tolerates * _HOUR, _MARGIN: margin.margin}
            for at, margin in sorted(margins.items())
        ]
    }


def read_margins(source: Path | str | bytes, *, name: str | None = None) -> dict[str, Margin]:
    """Return what each joint tolerates, by its id.

    The file holds ``joints``, a list with ``id``, ``tolerable_leak_m3_h_m`` (largest leakage at
    50 Pa with which the joint still passes; null where nobody could say, and the joint is left
    out) and, where known, ``margin``. Other words are passed over.

    Raises FormatError with every entry that cannot be used.
    """
    text, given = read_text(source, "moisture margins", name)
    label = "the text" if given is None else given
    try:
        document = json.loads(text)
    except json.JSONDecodeError as error:
        raise FormatError([_problem(label, "this is not JSON", error.lineno)]) from None
    joints = document.get("joints") if isinstance(document, dict) else None
    if not isinstance(joints, list):
        raise FormatError([_problem(label, "there is no list of joints in it")])
    found: dict[str, Margin] = {}
    problems = []
    for number, entry in enumerate(joints, start=1):
        told = _fault(entry, found)
        if told is not None:
            problems.append(_problem(label, f"joint no. {number} {told}"))
        elif entry[_LEAK] is not None:
            margin = entry.get(_MARGIN)
            found[entry["id"]] = Margin(
                tolerates=float(entry[_LEAK]) / _HOUR,
                margin=None if margin is None else float(margin),
            )
    if problems:
        raise FormatError(problems)
    return found


def _fault(entry: Any, found: Mapping[str, Margin]) -> str | None:  # noqa: ANN401 anything JSON holds
    """Return what is wrong with one entry, None when it can be used."""
    if not isinstance(entry, dict) or not isinstance(entry.get("id"), str):
        return "has no id"
    if entry["id"] in found:
        return f"is {entry['id'][:40]} once more"
    if _LEAK not in entry:
        return f"says no {_LEAK}"
    leak, margin = entry[_LEAK], entry.get(_MARGIN)
    if leak is not None and not (_is_number(leak) and leak >= 0.0):
        return f"has a {_LEAK} that is no number from 0"
    if margin is not None and not _is_number(margin):
        return "has a margin that is no number"
    return None


def _is_number(value: Any) -> bool:  # noqa: ANN401 anything JSON holds
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)


def _problem(label: str, what: str, line: int | None = None) -> Problem:
    return Problem(
        subject=label,
        sentence=f"{label} tells no moisture margins: {what}",
        remedy='write {"joints": [{"id": "S1", "tolerable_leak_m3_h_m": 0.8, "margin": 0.3}]}',
        file=label,
        line=line,
    )
