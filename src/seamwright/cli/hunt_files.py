"""The files of a leak hunt: the sheet for the site as PDF, the charts as SVG, the data as JSON."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from seamwright.cli.folder import folder_for
from seamwright.cli.inventory import Made
from seamwright.cli.options import Paper, Units
from seamwright.draw.hunt_chart import hunt_charts
from seamwright.io.json_text import Json, to_text
from seamwright.leakage.hunt_story import Step
from seamwright.pdf import pdf_bytes
from seamwright.report.types import Block, Document, Figure, Heading


@dataclass(frozen=True, kw_only=True, slots=True)
class Manner:
    """How a hunt is printed; `title` names the house, `target` is the flow to reach. [m³/s]"""

    units: Units
    paper: Paper
    date: dt.date
    title: str
    target: float | None


def write_hunt_files(
    sheet: Sequence[Block], steps: Sequence[Step], data: Json, out: Path, manner: Manner
) -> tuple[Made, ...]:
    """Write the files of a hunt into `out` and return them, the one to open first in front."""
    folder = folder_for(out)
    charts = hunt_charts(steps, system=manner.units, target=manner.target)
    figures = [Figure(name=chart.name, caption=chart.caption) for chart in charts]
    document = Document(
        title="Leak hunt",
        subtitle=manner.title,
        facts=(("Date", manner.date.isoformat()),),
        blocks=(*sheet, Heading(text="How the hunt went", level=1), *figures),
    )
    pdf = pdf_bytes(
        document,
        {chart.name: chart.svg for chart in charts},
        paper=manner.paper,
        system=manner.units,
        date=manner.date,
    )
    return (
        _put(folder / "hunt.pdf", pdf, "the sheet for the site"),
        *(_put(folder / f"{c.name}.svg", c.svg.encode(), c.title.lower()) for c in charts),
        _put(folder / "hunt.json", to_text(data).encode(), "the result as data"),
    )


def _put(path: Path, content: bytes, what: str) -> Made:
    """Write beside the place and move into it, so that a stop leaves no half file."""
    with TemporaryDirectory(dir=path.parent, prefix=".part-") as name:
        spare = Path(name) / path.name
        spare.write_bytes(content)
        spare.replace(path)
    return Made(path=path, what=what)
