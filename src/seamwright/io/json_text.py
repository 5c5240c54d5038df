"""How this package writes JSON: SI numbers as they are, points as lists, stable ids."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Mapping
from pathlib import Path
from typing import Any, TypeAlias

from seamwright.geometry.types import Segment, Vec3
from seamwright.seals.types import Sentence

Json: TypeAlias = dict[str, Any]

_NUMBERS = re.compile(r"\[\n\s+([-+.\deE]+(?:,\n\s+[-+.\deE]+)*)\n\s+\]")
"""A list of nothing but numbers; strings cannot match, because JSON holds no line break in them."""


def write_json(document: Mapping[str, Any], path: Path | str) -> None:
    """Write a document as JSON text, points on one line, the same bytes for the same document."""
    Path(path).write_text(to_text(document), encoding="utf-8", newline="\n")


def to_text(document: Mapping[str, Any]) -> str:
    """Return a document as JSON text, indented, lists of numbers on one line each."""
    text = json.dumps(document, indent=2, ensure_ascii=False, allow_nan=False)
    return (
        _NUMBERS.sub(lambda found: "[" + ", ".join(found[1].replace(",", " ").split()) + "]", text)
        + "\n"
    )


def point(p: Vec3) -> list[float]:
    """Return a point as a list. [m]"""
    return [number(x) for x in p]


def ends(line: Segment) -> Json:
    """Return both ends of a line. [m]"""
    return {"start_m": point(line.start), "end_m": point(line.end)}


def number(value: float) -> float:
    """Return the number unrounded, with negative zero made zero."""
    return value + 0.0


def sentence(words: Sentence) -> Json:
    """Return a sentence with its lengths beside it, still as numbers. [m]"""
    lengths = {name: number(value) for name, value in sorted(words.lengths.items())}
    return {"text": words.text, "lengths_m": lengths}


def numbered(name: str, names: Counter[str]) -> str:
    """Return the name, numbered from its second use on."""
    names[name] += 1
    return name if names[name] == 1 else f"{name}+{names[name]}"


def _on_one_line(numbers: re.Match[str]) -> str:
    """Return a list of numbers without its line breaks."""
    return f"[{', '.join(numbers[1].replace(',', ' ').split())}]"
