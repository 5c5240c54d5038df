"""The files of a fan test: the test sheet as PDF, the chart as SVG, the result as JSON."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory

from seamwright.cli.folder import folder_for
from seamwright.cli.inventory import Made
from seamwright.cli.options import Paper, Units
from seamwright.draw.fan_chart import draw_fan_chart
from seamwright.io.json_text import Json, to_text
from seamwright.pdf import pdf_bytes
from seamwright.report.fan_sheet import fan_document
from seamwright.report.fan_tables import FanSheet


@dataclass(frozen=True, kw_only=True, slots=True)
class Manner:
    """How a test sheet is printed; `title` heads the chart, `limit` is the flow allowed. [m³/s]"""

    units: Units
    paper: Paper
    date: dt.date
    title: str
    limit: float | None


def write_fan_files(sheet: FanSheet, data: Json, out: Path, manner: Manner) -> tuple[Made, ...]:
    """Write the files of a test into `out` and return them, the one to open first in front."""
    folder = folder_for(out)
    chart = draw_fan_chart(
        sheet.result, title=manner.title, system=manner.units, limit=manner.limit
    )
    document = fan_document(replace(sheet, chart=chart.caption))
    pdf = pdf_bytes(
        document,
        {chart.name: chart.svg},
        paper=manner.paper,
        system=manner.units,
        date=manner.date,
    )
    return (
        _put(folder / "fan-test.pdf", pdf, "the test sheet"),
        _put(folder / "fan-chart.svg", chart.svg.encode(), "readings and fit"),
        _put(folder / "fan-test.json", to_text(data).encode(), "the result as data"),
    )


def _put(path: Path, content: bytes, what: str) -> Made:
    """Write beside the place and move into it, so that a stop leaves no half file."""
    with TemporaryDirectory(dir=path.parent, prefix=".part-") as name:
        spare = Path(name) / path.name
        spare.write_bytes(content)
        spare.replace(path)
    return Made(path=path, what=what)
