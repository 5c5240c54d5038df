"""``seamwright demo``: the main job on the built-in houses."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from seamwright.cli.options import Day, Paper, Units, day_of
from seamwright.cli.packet import Made, Manner, write_packet
from seamwright.cli.say import say
from seamwright.cli.source import read_source, shelf
from seamwright.io.plan import builtin_house_names
from seamwright.report.house import SealedHouse
from seamwright.workflow import seal_house


def run(
    *,
    house: Annotated[
        str | None,
        typer.Option(
            "--house", metavar="NAME", help="One built-in house; default: all.", show_default=False
        ),
    ] = None,
    out: Annotated[Path, typer.Option("--out", help="The folder to write into.")] = Path("demo"),
    units: Units = "us",
    paper: Paper = "letter",
    date: Day = None,
) -> None:
    """Run the main job on the built-in houses and write every packet."""
    manner = Manner(units=units, paper=paper, date=day_of(date))
    names = builtin_house_names() if house is None else (house,)
    packets: list[Path] = []
    for name in names:
        source = read_source(name)
        with source.placed():
            sealed = seal_house(source.plan, shelf(source, None))
        folder = out / name
        files = write_packet(source, sealed, folder, manner)
        _tell(name, sealed, files, folder)
        packets.append(files[0].path)
    say("Open first:")
    for packet in packets:
        say(f"  {packet}")


def _tell(name: str, house: SealedHouse, files: tuple[Made, ...], folder: Path) -> None:
    """Say what the house came to, and which files were made."""
    register, schedule = house.register, house.schedule
    unsigned = sum(not side.signed for side in schedule.sides)
    urgent = sum(finding.severity != "note" for finding in schedule.findings)
    say(f"{name}: {house.plan.site.name}")
    say(
        f"  {len(house.shell.panels)} panels, {len(register.joints)} joints, "
        f"{len(register.nodes)} nodes; {unsigned} joints UNSIGNED; "
        f"{urgent} findings to look at; {len(register.breaks)} breaks in the line."
    )
    drawings = [made for made in files if made.path.suffix == ".svg"]
    for made in files:
        if made.path.suffix != ".svg":
            say(f"  {made.path}  {made.what}")
    say(f"  {folder / 'drawings'}  {len(drawings)} drawings to scale (SVG)")
    say()
