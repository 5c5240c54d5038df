"""Write a document as PDF, with the typesetter's own fonts, no packages and no network."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from importlib.resources import files
from pathlib import Path
from tempfile import TemporaryDirectory

import typst

from seamwright.pdf.prepare import Paper, figure_file, prepared
from seamwright.report.types import Document, Figure
from seamwright.units import System

TEMPLATE = "packet.typ"


def write_pdf(
    document: Document,
    drawings: Mapping[str, str],
    path: Path,
    *,
    paper: Paper,
    system: System,
    date: dt.date,
) -> None:
    """Write the document to `path`; `drawings` holds the SVG text of each figure by its name.

    The same arguments give the same bytes: `date` is also the only time in the file.

    Raises
    ------
    KeyError
        If the document shows a figure that is not among the drawings.
    """
    path.write_bytes(pdf_bytes(document, drawings, paper=paper, system=system, date=date))


def pdf_bytes(
    document: Document,
    drawings: Mapping[str, str],
    *,
    paper: Paper,
    system: System,
    date: dt.date,
) -> bytes:
    """Return the document as the bytes of a PDF file; see `write_pdf`."""
    data = prepared(document, paper=paper, system=system, date=date)
    midnight = dt.datetime(date.year, date.month, date.day, tzinfo=dt.UTC)
    with TemporaryDirectory(prefix="seamwright-") as name:
        folder = Path(name)
        template = files("seamwright.pdf").joinpath(TEMPLATE).read_text(encoding="utf-8")
        (folder / TEMPLATE).write_text(template, encoding="utf-8")
        (folder / "packet.json").write_text(json.dumps(data), encoding="utf-8")
        for block in document.blocks:
            if isinstance(block, Figure):
                svg = drawings[block.name]
                (folder / figure_file(block.name)).write_text(svg, encoding="utf-8")
        return typst.compile(
            folder / TEMPLATE,
            root=folder,
            format="pdf",
            ignore_system_fonts=True,
            timestamp=midnight,
            pdf_tags=False,  # five times the size; the workbook and JSON serve reading aids
        )
