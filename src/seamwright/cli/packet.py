"""The packet of one house as a folder of files: PDF, drawings, order, data, model, questions."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from importlib.util import find_spec
from pathlib import Path
from tempfile import TemporaryDirectory

import seamwright
from seamwright.cli.folder import folder_for
from seamwright.cli.forecast_target import plan_target
from seamwright.cli.infiltration_year import over_a_year
from seamwright.cli.inventory import Made, write_inventory
from seamwright.cli.options import Paper, Units
from seamwright.cli.packet_dryness import Dryness, Extent, packet_dryness
from seamwright.cli.source import Source
from seamwright.cli.stage import stage
from seamwright.draw.forecast_chart import forecast_chart, parts_chart
from seamwright.draw.sheets import draw_sheets
from seamwright.draw.types import Drawing
from seamwright.geometry.types import Vec3
from seamwright.io.bcf import NOWHERE, questions_from, write_bcf
from seamwright.io.forecast_json import forecast_document
from seamwright.io.ifc import write_ifc
from seamwright.io.leak_figures import Figures
from seamwright.io.register_json import (
    continuity_document,
    order_document,
    register_document,
    seals_document,
    write_json,
)
from seamwright.io.spreadsheet import write_workbook
from seamwright.pdf import pdf_bytes
from seamwright.report.fan_blank import blank_fan_sheet
from seamwright.report.forecast_sheet import FIGURES, forecast_sheet
from seamwright.report.house import SealedHouse
from seamwright.report.outlook import Outlook, look_ahead
from seamwright.report.packet import Picture, packet_document
from seamwright.report.workbook import workbook_tables


@dataclass(frozen=True, kw_only=True, slots=True)
class Manner:
    """How a packet is printed, and whose limits and leak figures it goes by."""

    units: Units
    paper: Paper
    date: dt.date
    figures: Figures | None = None
    dryness: Extent | Path = "none"

    @property
    def moment(self) -> str:
        """The beginning of the date, as files that hold a time want it (ISO 8601)."""
        return f"{self.date.isoformat()}T00:00:00"


@dataclass(frozen=True, kw_only=True, slots=True)
class _Job:
    """What a packet is made from, and how it is printed."""

    source: Source
    house: SealedHouse
    outlook: Outlook
    manner: Manner
    dryness: Dryness


def write_packet(source: Source, house: SealedHouse, out: Path, manner: Manner) -> tuple[Made, ...]:
    """Write every file of the packet into `out` and return them, the one to open first in front."""
    stage("2 of 7: drawing the sheets")
    drawings = draw_sheets(
        house.shell, house.register, house.schedule, house.sections,
        system=manner.units, paper=manner.paper, title=house.plan.site.name,
    )  # fmt: skip
    folder = folder_for(out)
    site = house.plan.site
    own = Figures() if manner.figures is None else manner.figures
    goal = plan_target(site.climate_zone, site.zone_edition, own.limits)[0]
    stage("3 of 7: forecasting the fan test")
    ahead = look_ahead(house, target=goal, table=own.table)
    outlook, _ = over_a_year(ahead, source, table=own.table)
    stage("4 of 7: following the dryness")
    job = _Job(source=source, house=house, outlook=outlook, manner=manner,
               dryness=packet_dryness(source, house, manner.dryness, manner.units))  # fmt: skip
    files = (
        _pdf(job, drawings, folder),
        *_drawings(drawings, folder),
        *_data(job, folder),
        *_model(source, house, folder, manner),
    )
    stage()
    about = {
        "project": house.plan.site.name,
        "plan": source.name,
        "date": manner.date.isoformat(),
        "units": manner.units,
        "paper": manner.paper,
        "version": seamwright.__version__,
    }
    return (*files, write_inventory(folder, files, about))


def _pdf(job: _Job, drawings: dict[str, Drawing], folder: Path) -> Made:
    stage("5 of 7: setting the packet")
    source, house, manner = job.source, job.house, job.manner
    pictures = [
        Picture(
            name=d.name,
            title=d.title,
            caption=f"{d.caption} Scale: {d.scale}.",
            joints=d.shown,
            section=d.name.startswith("section-"),
        )
        for d in drawings.values()
    ]
    facts = (
        ("Plan", source.name),
        ("Date", manner.date.isoformat()),
        ("Made with", f"Seamwright {seamwright.__version__}"),
    )
    dry = job.dryness
    more = (
        *dry.sheet,
        *forecast_sheet(job.outlook),
        *blank_fan_sheet(house, job.outlook.enclosure),
    )
    document = packet_document(
        house, pictures, facts=facts, assumed=source.assumed, more=more, dry=dry.marks
    )
    charts = [chart(job.outlook.forecast, manner.units) for chart in (forecast_chart, parts_chart)]
    svgs = {name: drawing.svg for name, drawing in drawings.items()}
    svgs |= {name: chart.svg for name, chart in zip(FIGURES, charts, strict=True)}
    svgs |= dry.charts
    path = folder / "packet.pdf"
    data = pdf_bytes(document, svgs, paper=manner.paper, system=manner.units, date=manner.date)
    _replace(path, partial(Path.write_bytes, data=data))
    return Made(path=path, what="the packet: cover, drawings, schedules, stages, order, register")


def _drawings(drawings: dict[str, Drawing], folder: Path) -> Iterator[Made]:
    sheets = folder_for(folder / "drawings")
    for name, drawing in drawings.items():
        path = sheets / f"{name}.svg"
        _replace(path, partial(Path.write_text, data=drawing.svg, encoding="utf-8"))
        yield Made(path=path, what=f"{drawing.title}, {drawing.scale}")


def _data(job: _Job, folder: Path) -> Iterator[Made]:
    stage("6 of 7: writing order and data")
    house, manner, dry = job.house, job.manner, job.dryness
    workbook = folder / "order.xlsx"
    sheets = workbook_tables(house, dry.marks, dry.table)
    _replace(workbook, lambda p: write_workbook(p, sheets, manner.units))
    yield Made(path=workbook, what="the order, cutting plan, schedule and register as a workbook")
    documents = {
        "joints.json": (register_document(house.register), "the joint register"),
        "continuity.json": (
            continuity_document(house.register),
            "where the line closes, and every panel edge",
        ),
        "seals.json": (seals_document(house.schedule), "the seal schedule"),
        "order.json": (order_document(house.order), "the order"),
        "forecast.json": (forecast_document(job.outlook), "the forecast of the fan test"),
    }
    if dry.data is not None:
        documents["dryness.json"] = (dry.data, "the dryness of the joints")
    for name, (document, what) in documents.items():
        path = folder / name
        _replace(path, partial(write_json, document))
        yield Made(path=path, what=f"{what} as data")


def _model(source: Source, house: SealedHouse, folder: Path, manner: Manner) -> Iterator[Made]:
    """Write the model and the questions, where the optional kernel for models is installed."""
    if find_spec("ifcopenshell") is None:
        return
    stage("7 of 7: writing the model")
    path = folder / "model.ifc"
    write = partial(
        write_ifc,
        shell=house.shell,
        register=house.register,
        schedule=house.schedule,
        project_name=house.plan.site.name,
        timestamp=manner.moment,
        shift=_place(source),
    )
    _replace(path, write)
    yield Made(path=path, what="the model with joints and seals, for the designer's viewer")
    yield _questions(source, house, folder, manner)


def _place(source: Source) -> Vec3:
    """Return where the plan's origin stands in the designer's model. [m]"""
    if source.model is None:
        return NOWHERE
    x, y, z = map(float, source.model.shift)
    return (x, y, z)


def _questions(source: Source, house: SealedHouse, folder: Path, manner: Manner) -> Made:
    """Write the questions beside the designer's own model, or beside ours when there is none."""
    questions = questions_from(house.schedule, house.register, system=manner.units)
    model = source.model
    write = partial(
        write_bcf,
        questions=questions,
        project_name=house.plan.site.name,
        author="Seamwright",
        timestamp=manner.moment,
        ifc_file="model.ifc" if model is None else source.name,
        global_ids={} if model is None else dict(model.global_ids),
        shift=_place(source),
    )
    path = folder / "questions.bcf"
    _replace(path, write)
    return Made(path=path, what=f"questions for the designer ({len(questions)})")


def _replace(path: Path, write: Callable[[Path], object]) -> None:
    """Write under the same name in a folder beside it, then move into place, so that a stop leaves
    no half file.
    """
    with TemporaryDirectory(dir=path.parent, prefix=".part-") as name:
        spare = Path(name) / path.name
        write(spare)
        spare.replace(path)
