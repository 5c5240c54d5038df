"""Answers about dryness kept by what they were worked out from, so that asking again costs nothing.

An answer is text, data and charts; the name of its file is a hash of everything it rests on.
"""

from __future__ import annotations

import hashlib
import json
import os
from dataclasses import asdict, dataclass, field
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import seamwright
from seamwright.io.json_text import Json
from seamwright.moisture.outdoors import RunClimate
from seamwright.report.dryness_types import Asked
from seamwright.report.house import SealedHouse

FORM = 5
"""Raised when answers are written another way."""

ROOMS = ("climate", "shell", "joints", "seals", "leakage", "moisture", "report", "draw", "units",
         "cli")  # fmt: skip
"""Parts of the program that an answer about an unchanged house rests on."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Answer:
    """What `dryness` says: text for people, data, exit status, charts by name, and for the packet
    its sheets as blocks with their `sheets` of charts, and the mark of each joint (verdict, the
    leak within limits, and the words that bound it).
    """

    text: str
    data: Json
    status: int
    charts: dict[str, str]
    sheets: dict[str, str] = field(default_factory=dict)
    sheet: list[Json] = field(default_factory=list)
    marks: dict[str, tuple[str, float | None, str]] = field(default_factory=dict)


def cache_folder(given: Path | None) -> Path:
    """Return where answers are kept: the folder given, else the user's own cache."""
    if given is not None:
        return given
    home = os.environ.get("XDG_CACHE_HOME", "")
    base = Path(home) if home else Path.home() / ".cache"
    return base / "seamwright" / "dryness"


def key_of(house: SealedHouse, climate: RunClimate, asked: Asked, units: str) -> str:
    """Return the name of an answer: a hash of house, climate, question, units and program."""
    weather = climate.weather
    digest = hashlib.sha256()
    for part in (FORM, _program(), units, house.plan, house.schedule, asked,
                 climate.room, climate.place, weather.source):  # fmt: skip
        digest.update(repr(part).encode())
    for array in (weather.air, weather.humidity, weather.wind, weather.rain, weather.cloud,
                  climate.temperature, climate.vapor):  # fmt: skip
        digest.update(array.tobytes())
    for known in (weather.sun, weather.direction):
        digest.update(b"" if known is None else known.tobytes())
    return digest.hexdigest()


@cache
def _program() -> str:
    """Return a hash of this program's own text: another version of it answers anew."""
    digest = hashlib.sha256(seamwright.__version__.encode())
    folder = Path(seamwright.__file__).parent
    for name in ROOMS:
        for path in sorted((folder / name).rglob("*.py")):
            digest.update(path.read_bytes())
    return digest.hexdigest()


def recall(folder: Path, key: str) -> Answer | None:
    """Return an answer kept before, None where there is none or it cannot be read."""
    try:
        found = json.loads((folder / f"{key}.json").read_text(encoding="utf-8"))
        return Answer(**found)
    except (OSError, ValueError, TypeError):
        return None


def keep(folder: Path, key: str, answer: Answer) -> None:
    """Keep an answer; a folder that cannot be written is passed over in silence."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with TemporaryDirectory(dir=folder, prefix=".part-") as name:
            spare = Path(name) / "answer.json"
            spare.write_text(json.dumps(asdict(answer), allow_nan=False), encoding="utf-8")
            spare.replace(folder / f"{key}.json")
    except OSError:
        return
