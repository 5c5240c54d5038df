"""The packet: every result of a house as one document, sheet after sheet."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sized
from dataclasses import dataclass, replace

from seamwright.report.cover import cover
from seamwright.report.dryness_marks import DryMark
from seamwright.report.house import SealedHouse
from seamwright.report.order_tables import (
    cutting_sentence,
    cutting_table,
    labor_table,
    left_out_table,
    order_table,
    piece_totals,
)
from seamwright.report.register_tables import (
    break_table,
    joint_table,
    joint_totals,
    kinds_present,
    ledger_table,
    node_table,
    node_totals,
)
from seamwright.report.schedule_tables import (
    NOT_RUN,
    patch_table,
    schedule_table,
    seal_type_table,
)
from seamwright.report.seal_types import SealType, joint_seals, seal_types
from seamwright.report.stage_tables import stage_intro, stage_tables
from seamwright.report.types import (
    Block,
    Cell,
    Document,
    Figure,
    Heading,
    Paragraph,
    Quantity,
    Table,
)
from seamwright.report.words import STAGES, listed
from seamwright.seals.types import Sentence
from seamwright.sources import SOURCES

_DRY = (
    "Dryness: its type on the sheets of that name, and its margin to the limits if sealed on the "
    "face shown and leaking as usual: a proposal, for the designer's signature."
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Picture:
    """A drawing that goes into the packet: its file's name, its words, the joints it shows.

    A `section` stands for all of them, the one drawn and those built like it.
    """

    name: str
    title: str
    caption: str
    joints: tuple[str, ...] = ()
    section: bool = False


def packet_document(
    house: SealedHouse,
    pictures: Iterable[Picture] = (),
    *,
    facts: tuple[tuple[str, str], ...] = (),
    assumed: tuple[Sentence, ...] = (),
    more: tuple[Block, ...] = (),
    dry: Mapping[str, DryMark] = NOT_RUN,
) -> Document:
    """Return the packet of a house, its tables and figures numbered through.

    `facts` are printed on the cover after those of the site (plan file, date, program version),
    and what the reader of the plan `assumed` before what its layout did. `more` are sheets that go
    between the order and the register (the forecast of the fan test). `dry` has what the schedule
    says of each joint's dryness.
    """
    pictures = tuple(pictures)
    blocks: tuple[Block, ...] = (
        *cover(house, assumed),
        *_drawing_sheets(pictures),
        *_schedule_sheets(house, pictures, dry),
        *_stage_sheets(house),
        *_order_sheets(house),
        *more,
        *_register_sheets(house),
        *_source_sheet(),
    )
    return Document(
        title=house.plan.site.name,
        subtitle="Joints, seals and order",
        facts=(*site_facts(house), *facts),
        blocks=numbered(blocks),
    )


def member_table(pictures: tuple[Picture, ...], types: tuple[SealType, ...]) -> Table:
    """Return the joints of each seal type, and the section that shows how they are built."""
    sections = [(f"Figure {n}", p) for n, p in enumerate(pictures, start=1) if p.section]
    rows: list[tuple[Cell, ...]] = []
    for kind in types:
        left = dict.fromkeys(kind.joint_ids)
        for figure, picture in sections:
            shown = tuple(joint_id for joint_id in left if joint_id in picture.joints)
            if shown:
                rows.append((kind.id, f"{figure}. {picture.title}", _count(shown), listed(shown)))
            for joint_id in shown:
                del left[joint_id]
        if left:
            rows.append((kind.id, None, _count(left), listed(tuple(left))))
    return Table(
        columns=("Type", "Shown in", "Joints", "Which"),
        rows=tuple(rows),
        widths=(0.8, 4.2, 0.9, 9),
        right=(2,),
        caption="The joints of each seal type",
    )


def site_facts(house: SealedHouse) -> tuple[tuple[str, str], ...]:
    """Return what the plan says about the place."""
    site = house.plan.site
    edition = "" if site.zone_edition is None else f", {site.zone_edition}"
    zone = "not given" if site.climate_zone is None else f"{site.climate_zone}{edition}"
    place = () if site.place is None else (("Place", site.place),)
    return (("Project", site.name), *place, ("Climate zone", zone))


def numbered(blocks: Iterable[Block]) -> tuple[Block, ...]:
    """Return the blocks with ``Table 3.`` and ``Figure 2.`` in front of their captions."""
    tables = figures = 0
    out: list[Block] = []
    for block in blocks:
        if isinstance(block, Table):
            tables += 1
            out.append(replace(block, caption=f"Table {tables}. {block.caption}"))
        elif isinstance(block, Figure):
            figures += 1
            out.append(replace(block, caption=f"Figure {figures}. {block.caption}"))
        else:
            out.append(block)
    return tuple(out)


def _drawing_sheets(pictures: tuple[Picture, ...]) -> tuple[Block, ...]:
    return tuple(
        Figure(
            name=p.name,
            caption=p.caption,
            full_sheet=True,
            title=p.title,
            group="Sections: how each joint is built" if p.section else "",
        )
        for p in pictures
    )


def _schedule_sheets(
    house: SealedHouse, pictures: tuple[Picture, ...], dry: Mapping[str, DryMark]
) -> tuple[Block, ...]:
    seals = joint_seals(house.register, house.schedule)
    types = seal_types(seals)
    legend = (
        "Run is the length along the joints. A strip's width is the developed span between sound "
        "skins, both laps and the allowances, and must not pass a width in stock."
    )
    tables = [schedule_table(seals, types, kind, dry) for kind in kinds_present(house.register)]
    patches = (patch_table(house.schedule),) if house.schedule.patches else ()
    return (
        Heading(text="Seal types", level=1),
        Paragraph(text=Sentence(text=legend)),
        seal_type_table(types),
        member_table(pictures, types),
        Heading(text="Seal schedule", level=1),
        *((Paragraph(text=Sentence(text=_DRY)),) if dry else ()),
        *tables,
        *patches,
    )


def _stage_sheets(house: SealedHouse) -> tuple[Block, ...]:
    blocks: list[Block] = [
        Heading(text="Stages: seal this before the next step hides it", level=1),
        Paragraph(
            text=Sentence(
                text="Every stage ends at a hold point: do not go on until each line is done, "
                "looked at, photographed and signed. The joints of S1, S2 and so on stand with "
                "the seal types."
            )
        ),
    ]
    types = seal_types(joint_seals(house.register, house.schedule))
    for stage, table in stage_tables(house.schedule, types):
        blocks += [Heading(text=STAGES[stage]), Paragraph(text=stage_intro(stage)), table]
    return tuple(blocks)


def _order_sheets(house: SealedHouse) -> tuple[Block, ...]:
    order = house.order
    labor = (labor_table(order),) if any(w.time is not None for w in order.labor) else ()
    left_out = (left_out_table(order),) if order.left_out else ()
    cutting: list[Block] = []
    for plan in order.cutting:
        cutting += [Paragraph(text=cutting_sentence(plan)), cutting_table(plan, order.pieces)]
    return (
        Heading(text="Order", level=1),
        order_table(order),
        *left_out,
        *labor,
        Heading(text="Cutting plan", level=1),
        piece_totals(order),
        *cutting,
    )


def _register_sheets(house: SealedHouse) -> tuple[Block, ...]:
    register = house.register
    breaks = (break_table(register.breaks),) if register.breaks else ()
    nodes = (node_totals(register), node_table(register)) if register.nodes else ()
    legend = (
        "Angle is between the inner faces, measured through the room: 180 degrees is flush. Step "
        "is the offset of the two skins across the joint."
    )
    return (
        Heading(text="Joint register", level=1),
        Paragraph(text=Sentence(text=legend)),
        joint_totals(register),
        ledger_table(register),
        *breaks,
        *(joint_table(register, kind) for kind in kinds_present(register)),
        Heading(text="Nodes", level=1),
        *nodes,
    )


def _source_sheet() -> tuple[Block, ...]:
    text = (
        "A figure marked 'common practice, no source' is custom of the trade that nobody here has "
        "seen in print; 'from memory' is a printed figure nobody here has checked."
    )
    return (
        Heading(text="Sources", level=1),
        Paragraph(text=Sentence(text=text)),
        Table(
            columns=("Source", "Used for"),
            rows=tuple((source.citation, source.used_for) for source in SOURCES.values()),
            widths=(7, 4),
            caption="Standards, papers and handbooks leaned on",
        ),
    )


def _count(things: Sized) -> Quantity:
    return Quantity(value=float(len(things)), dimension="count")
