"""Human output: problems, notes and tables; never meaning by color alone."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Mapping

from rich.box import SIMPLE_HEAD
from rich.console import Console
from rich.table import Table as RichTable
from rich.text import Text

from seamwright.errors import Problem
from seamwright.report.types import Cell, Quantity, Table
from seamwright.seals.types import Finding, Sentence
from seamwright.units import System, fill, format_quantity

PLAIN_WIDTH = 240
"""Columns of output that goes to a file or another program: wide enough that rows stay whole."""

SEVERITY = {"stop": "STOP", "attention": "LOOK", "note": "note"}


def tell_problems(problems: Iterable[Problem]) -> None:
    """Print each problem as one sentence on standard error."""
    for problem in problems:
        sys.stderr.write(f"{_one_line(str(problem))}\n")


def say(text: str = "") -> None:
    """Print a line on standard output."""
    sys.stdout.write(f"{text}\n")


def say_json(document: Mapping[str, object]) -> None:
    """Print a document as JSON on standard output."""
    say(json.dumps(document, indent=2, allow_nan=False))


def show_table(table: Table, system: System) -> None:
    """Print a report table, framed on a terminal and plain elsewhere."""
    console = _console()
    framed = console.is_terminal
    if not table.rows:
        return
    shown = RichTable(
        title=Text(table.caption) if table.caption else None,
        title_justify="left",
        title_style="bold" if framed else "",
        box=SIMPLE_HEAD if framed else None,
        pad_edge=False,
        show_footer=table.total is not None,
    )
    total = [cell_text(c, system) for c in table.total] if table.total is not None else None
    for index, name in enumerate(table.columns):
        shown.add_column(
            Text(name),
            footer="" if total is None else Text(total[index]),
            justify="right" if index in table.right else "left",
            overflow="fold",
        )
    for row in table.rows:
        shown.add_row(*(Text(cell_text(cell, system)) for cell in row))
    console.print(shown)
    say()


def cell_text(cell: Cell, system: System) -> str:
    """Return a cell as text in the wanted units; nothing known is a dash."""
    if cell is None:
        return "–"
    if isinstance(cell, Quantity):
        return format_quantity(cell, system)
    return _one_line(fill(cell, system) if isinstance(cell, Sentence) else cell)


def show_findings(findings: Iterable[Finding], system: System) -> None:
    """Print findings, the gravest first, each with its way out."""
    order = list(SEVERITY)
    for finding in sorted(findings, key=lambda f: order.index(f.severity)):
        what, out = fill(finding.sentence, system), fill(finding.way_out, system)
        say(f"{SEVERITY[finding.severity]:5}{_one_line(what)}")
        say(f"     Way out: {_one_line(out)}")


def _console() -> Console:
    terminal = sys.stdout.isatty()
    return Console(
        file=sys.stdout,
        highlight=False,
        emoji=False,
        markup=False,
        width=None if terminal else PLAIN_WIDTH,
    )


def _one_line(text: str) -> str:
    """Return the text with control characters shown, so that input cannot move the cursor."""
    return "".join(c if c.isprintable() else " " if c.isspace() else "�" for c in text)
