"""``seamwright demo``: the main job on the built-in houses."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from itertools import repeat
from multiprocessing import get_context
from pathlib import Path
from typing import Annotated

import typer

from seamwright.cli.folder import folder_for
from seamwright.cli.inventory import told
from seamwright.cli.options import Day, Paper, Units, day_of
from seamwright.cli.packet import Manner, write_packet
from seamwright.cli.packet_dryness import DrynessOf
from seamwright.cli.say import say
from seamwright.cli.source import built_in, shelf
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
    dryness: DrynessOf = "main",
    date: Day = None,
) -> None:
    """Run the main job on the built-in houses and write every packet."""
    manner = Manner(units=units, paper=paper, date=day_of(date), dryness=dryness)
    names = builtin_house_names() if house is None else (house,)
    folder_for(out)
    packets: list[Path] = []
    for words, packet in _made(names, out, manner):
        say(words)
        packets.append(packet)
    say("Open first:")
    for packet in packets:
        say(f"  {packet}")


def _made(names: tuple[str, ...], out: Path, manner: Manner) -> Iterator[tuple[str, Path]]:
    """Yield what was made of each house, several houses side by side on as many cores."""
    if len(names) == 1:
        yield make_house(names[0], out, manner)
        return
    with ProcessPoolExecutor(mp_context=get_context("spawn")) as cores:
        yield from cores.map(make_house, names, repeat(out), repeat(manner))


def make_house(name: str, out: Path, manner: Manner) -> tuple[str, Path]:
    """Write the packet of one built-in house; return what to say and the file to open."""
    source = built_in(name)
    with source.placed(manner.units):
        sealed = seal_house(source.plan, shelf(source, None))
    folder = out / name
    files = write_packet(source, sealed, folder, manner)
    return "\n".join([*_sum(name, sealed), *told(folder, files), ""]), files[0].path


def _sum(name: str, house: SealedHouse) -> list[str]:
    """Return what the house came to."""
    register, schedule = house.register, house.schedule
    unsigned = sum(not side.signed for side in schedule.sides)
    urgent = sum(finding.severity != "note" for finding in schedule.findings)
    return [
        f"{name}: {house.plan.site.name}",
        (
            f"  {len(house.shell.panels)} panels, {len(register.joints)} joints, "
            f"{len(register.nodes)} nodes; {unsigned} joints UNSIGNED; "
            f"{urgent} findings to look at; {len(register.breaks)} breaks in the line."
        ),
    ]
