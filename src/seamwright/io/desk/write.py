"""Write plan text: sizes as a builder writes them, exactly, one thing to a line."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import TypeAlias

from seamwright.units import INCH, System, format_length

Written: TypeAlias = "str | Raw | Sequence[Written] | Mapping[str, Written]"

_FINEST = 64
"""Sizes in inches are written in steps of one to this many."""
_PLAIN = re.compile(r"[A-Za-z_][\w .()/-]*")
_WORDS_OF_YAML = {"yes", "no", "true", "false", "on", "off", "null", "y", "n"}
_WIDEST = 96


class Raw(str):
    """Text that goes into the plan as it is: a size, a number, a date."""

    __slots__ = ()


def size(metres: float | Fraction, units: System) -> Raw:
    """Return a length as plan text, exact to a millionth of a metre.

    Feet and inches where the length is a whole number of 64ths of an inch, millimetres otherwise.
    """
    exact = Fraction(metres)
    parts = exact / INCH * _FINEST
    near = Fraction(round(parts))
    if units == "us" and abs(parts - near) * INCH / _FINEST < Fraction(1, 1_000_000):
        return Raw(format_length(near / _FINEST * INCH, "us", _FINEST).replace("'-0 ", "' "))
    return Raw(f"{_decimal(exact * 1000)} mm")


def flow(value: Written) -> str:
    """Return a value on one line: ``{id: W1, width: 4'}``."""
    if isinstance(value, Raw):
        return str(value)
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, Mapping):
        return f"{{{', '.join(f'{key}: {flow(held)}' for key, held in value.items())}}}"
    return f"[{', '.join(flow(held) for held in value)}]"


def block(name: str, rows: Sequence[Mapping[str, Written]]) -> str:
    """Return a section of the plan: its name and one row to a line, long rows over several."""
    if not rows:
        return f"{name}: []\n"
    return f"{name}:\n{''.join(item(row, '  ') for row in rows)}"


def item(row: Mapping[str, Written], indent: str) -> str:
    """Return one row of a section with its dash."""
    short = f"{indent}- {flow(row)}\n"
    if len(short) <= _WIDEST:
        return short
    lines = [f"{key}: {flow(held)}" for key, held in row.items()]
    return f"{indent}- " + f"\n{indent}  ".join(lines) + "\n"


def quoted(text: str) -> str:
    """Return words as YAML text that reads back as the same words."""
    plain = _PLAIN.fullmatch(text) is not None and text == text.strip()
    if plain and text.lower() not in _WORDS_OF_YAML:
        return text
    return json.dumps(text, ensure_ascii=False)


def _decimal(value: Fraction) -> str:
    """Return a decimal with at most four places after the point."""
    shown = f"{float(round(value * 10000)) / 10000:.4f}".rstrip("0").rstrip(".")
    return "0" if shown in {"", "-0"} else shown
