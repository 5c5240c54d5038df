"""A document as plain data for the typesetter: every cell already text, in the wanted units."""

from __future__ import annotations

import datetime as dt
import re
import unicodedata
from collections.abc import Iterable, Mapping
from typing import Any, Literal, TypeAlias
from urllib.parse import quote

import seamwright
from seamwright.report.types import (
    Block,
    Caution,
    Cell,
    Document,
    Figure,
    Heading,
    Paragraph,
    Quantity,
    Table,
)
from seamwright.seals.types import Sentence
from seamwright.units import System, fill, format_quantity

Data: TypeAlias = dict[str, Any]
Paper: TypeAlias = Literal["letter", "a4"]

PAPERS: Mapping[Paper, str] = {"letter": "us-letter", "a4": "a4"}
FOOT = "The building code, the product sheets and the building's designer outrank this sheet."
WIDE = 8
"""Tables with more columns than this are set in smaller type."""
UNITS: Mapping[System, str] = {"us": "feet and inches", "metric": "metres and millimetres"}


def prepared(document: Document, *, paper: Paper, system: System, date: dt.date) -> Data:
    """Return the packet as data: the document's blocks, its cover and what every sheet repeats."""
    first, blocks = _first_table(document.blocks)
    return {
        "title": printable(document.title),
        "subtitle": printable(document.subtitle),
        "date": [date.year, date.month, date.day],
        "shown-date": date.isoformat(),
        "paper": PAPERS[paper],
        "foot": FOOT,
        "made": f"{UNITS[system]} · Seamwright {seamwright.__version__}",
        "facts": [[printable(name), printable(value)] for name, value in document.facts],
        "first": None if first is None else _table(first, system),
        "blocks": _gathered(_block(block, system) for block in blocks),
    }


def figure_file(name: str) -> str:
    """Return the file name under which a drawing lies beside the template."""
    return f"figure-{quote(name, safe='')}.svg"


def printable(text: str) -> str:
    """Return the text on one line, without characters that move or turn what stands around them.

    Control characters and the marks that reverse the reading direction go; everything else stays.
    """
    kept = (c if c.isspace() or unicodedata.category(c)[0] != "C" else "" for c in text)
    return " ".join("".join(kept).split())


def cell_runs(cell: Cell, system: System, marks: Iterable[str] = ()) -> list[Data]:
    """Return a cell as stretches of text, those that are one of `marks` told apart."""
    if cell is None:
        text = "–"
    elif isinstance(cell, Quantity):
        text = format_quantity(cell, system)
    else:
        text = printable(fill(cell, system) if isinstance(cell, Sentence) else cell)
    words = sorted(marks, key=len, reverse=True)
    if not words or not text:
        return [{"text": text, "mark": False}]
    pattern = re.compile(rf"\b({'|'.join(re.escape(word) for word in words)})\b")
    parts = [part for part in pattern.split(text) if part]
    return [{"text": part, "mark": part in words} for part in parts]


def _first_table(blocks: tuple[Block, ...]) -> tuple[Table | None, tuple[Block, ...]]:
    """Return a table that opens the document apart from the rest: it stands on the cover."""
    if blocks and isinstance(blocks[0], Table):
        return blocks[0], blocks[1:]
    return None, blocks


def _block(block: Block, system: System) -> Data:
    if isinstance(block, Heading):
        return {"kind": "heading", "level": block.level, "text": printable(block.text)}
    if isinstance(block, Paragraph):
        return {"kind": "paragraph", "text": cell_runs(block.text, system, ("UNSIGNED",))}
    if isinstance(block, Caution):
        return {"kind": "cautions", "items": [_caution(block, system)]}
    if isinstance(block, Figure):
        return {
            "kind": "figure",
            "file": figure_file(block.name),
            "full": block.full_sheet,
            "title": printable(block.title or block.name),
            "group": printable(block.group),
            "caption": cell_runs(block.caption, system),
        }
    return _table(block, system)


def _caution(block: Caution, system: System) -> Data:
    lead, stop, rest = block.text.partition(".")
    return {"lead": printable(lead + stop), "rest": cell_runs(rest, system)}


def _table(block: Table, system: System) -> Data:
    def row(cells: Iterable[Cell]) -> list[list[Data]]:
        return [cell_runs(cell, system, block.marks) for cell in cells]

    return {
        "kind": "table",
        "caption": cell_runs(block.caption, system, block.marks) if block.caption else [],
        "columns": row(block.columns),
        "rows": [row(cells) for cells in block.rows],
        "total": None if block.total is None else row("" if c is None else c for c in block.total),
        "widths": list(block.widths),
        "right": list(block.right),
        "size": 8.0 if len(block.columns) > WIDE else 8.6,
        "form": block.form,
    }


def _gathered(blocks: Iterable[Data]) -> list[Data]:
    """Return the blocks, cautions that follow each other as one, first figures of groups told."""
    out: list[Data] = []
    for block in blocks:
        if block["kind"] == "cautions" and out and out[-1]["kind"] == "cautions":
            out[-1]["items"] += block["items"]
        else:
            out.append(block)
    seen: set[str] = set()
    for block in out:
        if block["kind"] == "cautions":
            block["left"] = _half(block["items"])
        if block["kind"] == "figure":
            block["opens-group"] = bool(block["group"]) and block["group"] not in seen
            seen.add(block["group"])
    return out


def _half(items: list[Data]) -> int:
    """Return how many items make the first of two columns of about the same height."""
    sizes = [sum(len(run["text"]) for run in item["rest"]) for item in items]
    places = range(1, len(items) + 1)
    return min(places, key=lambda n: abs(sum(sizes[:n]) - sum(sizes[n:])))
