"""The options that several commands share, each described once."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Annotated, Literal, TypeAlias

import typer

PlanName: TypeAlias = Annotated[
    str,
    typer.Argument(
        metavar="PLAN",
        help="A .yaml plan, a .csv panel list, an .ifc model, or the name of a built-in house.",
        show_default=False,
    ),
]
Json: TypeAlias = Annotated[
    bool, typer.Option("--json", help="Print the result as JSON, in SI with the unit in the key.")
]
Units: TypeAlias = Annotated[
    Literal["us", "metric"],
    typer.Option("--units", help="Feet and inches, or metres and millimetres."),
]
Paper: TypeAlias = Annotated[
    Literal["letter", "a4"], typer.Option("--paper", help="Paper of the packet and drawings.")
]
CatalogFile: TypeAlias = Annotated[
    Path | None,
    typer.Option(
        "--catalog",
        metavar="FILE",
        help="The products on your shelf, their limits and prices; default: common practice.",
        show_default=False,
    ),
]
FiguresFile: TypeAlias = Annotated[
    Path | None,
    typer.Option(
        "--figures", metavar="FILE", show_default=False,
        help="Your own limits by edition and leak figures by kind or seal, with their sources.",
    ),
]  # fmt: skip
PanelTypes: TypeAlias = Annotated[
    Path | None,
    typer.Option(
        "--types",
        metavar="PLAN.yaml",
        help="For a .csv panel list: the plan that holds the panel types, site and signatures.",
        show_default=False,
    ),
]
Day: TypeAlias = Annotated[
    dt.datetime | None,
    typer.Option(
        "--date",
        formats=["%Y-%m-%d"],
        metavar="YYYY-MM-DD",
        help="The date printed on every sheet; default: today.",
        show_default=False,
    ),
]
Force: TypeAlias = Annotated[
    bool, typer.Option("--force", help="Write into a folder that holds other files.")
]


def day_of(given: dt.datetime | None) -> dt.date:
    """Return the given date, or today where this machine stands."""
    return dt.datetime.now().astimezone().date() if given is None else given.date()
