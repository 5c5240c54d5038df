"""Human output: problems, notes and tables; never meaning by color alone."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Iterator, Mapping

from rich.box import SIMPLE_HEAD
from rich.console import Console
from rich.table import Table as RichTable
from rich.text import Text

from seamwright.errors import Problem
from seamwright.report.types import Cell, Quantity, Table
from seamwright.seals.types import Finding, Sentence
from seamwright.units import System, fill, format_quantity

PLAIN_COLUMN = 60
"""Letters up to which plain columns are aligned; a longer cell pushes the rest of its row."""

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
    """Print a report table: framed on a terminal, elsewhere plain with one row to a line."""
    if not table.rows:
        return
    rows = [[cell_text(cell, system) for cell in row] for row in table.rows]
    if table.total is not None:
        rows.append([cell_text("" if c is None else c, system) for c in table.total])
    if sys.stdout.isatty():
        _frame(table, rows)
    else:
        say("\n".join([*([table.caption] if table.caption else []), *_aligned(table, rows)]))
    say()


def _frame(table: Table, rows: list[list[str]]) -> None:
    """Print a table that folds to the width of the terminal."""
    totaled = table.total is not None
    shown = RichTable(
        title=Text(table.caption) if table.caption else None,
        title_justify="left",
        title_style="bold",
        box=SIMPLE_HEAD,
        pad_edge=False,
        show_footer=totaled,
    )
    for index, name in enumerate(table.columns):
        shown.add_column(
            Text(name),
            footer=Text(rows[-1][index]) if totaled else "",
            justify="right" if index in table.right else "left",
            overflow="fold",
        )
    for row in rows[:-1] if totaled else rows:
        shown.add_row(*(Text(text) for text in row))
    Console(file=sys.stdout, highlight=False, emoji=False, markup=False).print(shown)


def _aligned(table: Table, rows: list[list[str]]) -> Iterator[str]:
    """Return the lines of a table with its columns aligned as far as `PLAIN_COLUMN` goes."""
    lines = [list(table.columns), *rows]
    widths = [min(PLAIN_COLUMN, max(map(len, column))) for column in zip(*lines, strict=True)]
    for line in lines:
        cells = (
            text.rjust(width) if index in table.right else text.ljust(width)
            for index, (text, width) in enumerate(zip(line, widths, strict=True))
        )
        yield "  ".join(cells).rstrip()


def cell_text(cell: Cell, system: System) -> str:
    """Return a cell as text in the wanted units; nothing known is a dash."""
    if cell is None:
        return "–"
    if isinstance(cell, Quantity):
        return format_quantity(cell, system)
    return _one_line(fill(cell, system) if isinstance(cell, Sentence) else cell)


def show_findings(findings: Iterable[Finding], system: System) -> None:
    """Print findings, the gravest first, each with its way out; like ones together."""
    order = list(SEVERITY)
    alike: dict[tuple[str, str, str], list[str]] = {}
    for finding in sorted(findings, key=lambda f: order.index(f.severity)):
        what, out = fill(finding.sentence, system), fill(finding.way_out, system)
        alike.setdefault((finding.severity, what, out), []).append(finding.subject)
    for (severity, what, out), subjects in alike.items():
        say(f"{SEVERITY[severity]:5}{_one_line(', '.join(dict.fromkeys(subjects)))}: "
            f"{_one_line(what)}")  # fmt: skip
        say(f"     Way out: {_one_line(out)}")


def _one_line(text: str) -> str:
    """Return the text with control characters shown, so that input cannot move the cursor."""
    return "".join(c if c.isprintable() else " " if c.isspace() else "�" for c in text)
