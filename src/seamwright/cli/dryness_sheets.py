"""An answer about dryness written down for the packet, and read back for the house it is about."""

from __future__ import annotations

import hashlib
import json
from dataclasses import asdict
from pathlib import Path

from seamwright.cli.dryness_cache import FORM, Answer
from seamwright.errors import InputError, Problem
from seamwright.report.house import SealedHouse

SHEETS_FILE = "dryness-sheets.json"


def mark_of(house: SealedHouse, units: str) -> str:
    """Return a hash of what an answer's sheets must agree with: the house, its seals, the units."""
    digest = hashlib.sha256()
    for part in (FORM, units, house.plan, house.schedule):
        digest.update(repr(part).encode())
    return digest.hexdigest()


def sheets_text(answer: Answer, house: SealedHouse, units: str) -> str:
    """Return an answer as the text of a file that `read_sheets` takes for the same house."""
    document = {"about": mark_of(house, units), "answer": asdict(answer)}
    return json.dumps(document, ensure_ascii=False, allow_nan=False) + "\n"


def read_sheets(path: Path, house: SealedHouse, units: str) -> Answer:
    """Return the answer a file holds.

    Raises
    ------
    InputError
        When the file cannot be read, is no such file, or is about another plan, another way of
        sealing it, or other units.
    """
    try:
        document = json.loads(path.read_text(encoding="utf-8"))
        about, answer = document["about"], Answer(**document["answer"])
    except OSError as error:
        raise _refused(path, f"it cannot be read: {error.strerror}") from error
    except (ValueError, TypeError, KeyError) as error:
        told = f"it is not a {SHEETS_FILE} that dryness --out has written"
        raise _refused(path, told) from error
    if about != mark_of(house, units):
        told = "it is about another plan, another way of sealing it, or in other units"
        raise _refused(path, told)
    return answer


def _refused(path: Path, told: str) -> InputError:
    remedy = (
        "run seamwright dryness on this plan with --out and the units of the packet, and give the "
        f"{SHEETS_FILE} it writes; or give none, main or all"
    )
    return InputError([Problem(subject="--dryness", sentence=told, remedy=remedy, file=str(path))])
