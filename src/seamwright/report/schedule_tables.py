"""The seal schedule as tables: seal types with their arithmetic, then every joint, then nodes."""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType

from seamwright.report.dryness_marks import NOT_EVEN, TURNED, DryMark
from seamwright.report.seal_types import JointSeal, SealType
from seamwright.report.types import Cell, Quantity, Table
from seamwright.report.words import (
    FACES,
    MARKS,
    NO_SIZE,
    NO_STOCK,
    STAGE_SHORT,
    kind_word,
    node_word,
    side_word,
    strip_manner,
)
from seamwright.seals.types import Bead, SealSchedule, Sentence, Strip

_COLUMNS = ("Joint", "Storey", "Type", "Primary face", "Strip, lap each side, when", "Strip run",
            "Bead run", "Foam", "Dams")  # fmt: skip

NOT_RUN: Mapping[str, DryMark] = MappingProxyType({})
"""Where nobody worked out how dry the joints stay."""


def seal_type_table(types: tuple[SealType, ...]) -> Table:
    """Return each seal type once: face, strip with its arithmetic, beads, fill and stages."""
    return Table(
        columns=(
            "Type",
            "Joints",
            "Run",
            "Primary face",
            "Strip and its arithmetic",
            "Beads and gaskets, per joint",
            "Foam, all joints",
        ),
        rows=tuple(_type_row(kind) for kind in types),
        widths=(2.3, 0.9, 1.7, 2.5, 6.2, 5.5, 1.7),
        right=(1, 2, 6),
        caption="Seal types: how each kind of joint in this house is sealed",
        total=(
            "All",
            Quantity(value=float(sum(len(t.joint_ids) for t in types)), dimension="count"),
            Quantity(value=math.fsum(t.length for t in types), dimension="length"),
            None,
            None,
            None,
            Quantity(value=math.fsum(t.void for t in types), dimension="sealant_volume"),
        ),
        marks=MARKS,
    )


def schedule_table(
    seals: tuple[JointSeal, ...],
    types: tuple[SealType, ...],
    kind: str,
    dry: Mapping[str, DryMark] = NOT_RUN,
) -> Table:
    """Return the seal of every joint of one kind; `type` leads back to the arithmetic.

    `dry` has by joint what its dryness says; without any the two columns for it are left out.
    """
    type_of = {joint_id: t.id for t in types for joint_id in t.joint_ids}
    chosen = [seal for seal in seals if seal.joint.kind == kind]
    strip_run = math.fsum(s.length for seal in chosen for s in seal.strips)
    bead_run = math.fsum(b.count * b.length for seal in chosen for b in seal.beads)
    void = math.fsum(f.volume for seal in chosen for f in seal.fills)
    dams = sum(len(seal.dams) for seal in chosen)
    marks = [dry.get(seal.joint.id) for seal in chosen]
    run = any(mark is not None for mark in marks)
    known = any(mark is not None and (mark.leak is not None or mark.bound) for mark in marks)
    more = (("Dryness", 2.6),) * run + (("May leak at 50 Pa", 2.2),) * known
    return Table(
        columns=(*_COLUMNS, *(title for title, _ in more)),
        rows=tuple(
            (*_joint_row(seal, type_of[seal.joint.id]), *_dry_cells(mark)[: len(more)])
            for seal, mark in zip(chosen, marks, strict=True)
        ),
        widths=(3.6, 1.4, 1.0, 2.8, 7.0, 1.9, 1.9, 1.9, 1.0, *(width for _, width in more)),
        right=(5, 6, 7, 8, *((10,) if known else ())),
        caption=f"Seal schedule: {kind_word(kind)}",
        total=(
            f"{len(chosen)} in all",
            None,
            None,
            None,
            None,
            *_amounts(strip_run, bead_run, void, dams),
            *(None for _ in more),
        ),
        marks=(*MARKS, "OUTSIDE", "TOO CLOSE", NOT_EVEN, TURNED),
    )


def patch_table(schedule: SealSchedule) -> Table:
    """Return the patch of every node, and how it goes on."""
    return Table(
        columns=("Node", "Kind", "Face", "Side of patch", "How", "When"),
        rows=tuple(
            (
                patch.node_id,
                node_word(patch.kind),
                FACES[patch.face],
                Quantity(value=patch.side, dimension="width"),
                patch.how,
                STAGE_SHORT[patch.stage],
            )
            for patch in schedule.patches
        ),
        widths=(1.2, 4, 1.2, 1.4, 7, 1.8),
        right=(3,),
        caption="Node patches",
    )


def strip_arithmetic(strip: Strip) -> Sentence:
    """Return the sum behind a strip's width, term by term, and the stock that covers it."""
    lengths = {f"t{i}": term.value for i, term in enumerate(strip.terms)}
    summands = [
        f"{'' if term.count == 1 else f'{term.count} × '}{term.label} {{t{i}}}"
        for i, term in enumerate(strip.terms)
    ]
    lengths["need"] = strip.required
    total = f"{' + '.join(summands)} = {{need}}" if summands else "{need}"
    if strip.width is None:
        return Sentence(text=f"{total}; {NO_STOCK} covers it", lengths=lengths)
    lengths |= {"width": strip.width, "lap": strip.lap}
    return Sentence(text=f"{total} ≤ {{width}} strip, lap {{lap}} each side", lengths=lengths)


def _type_row(kind: SealType) -> tuple[Cell, ...]:
    seal = kind.example
    spline = "" if seal.joint.spline is None else f", {kind_word(seal.joint.spline)} spline"
    return (
        f"{kind.id} {kind_word(seal.joint.kind)}{spline}",
        Quantity(value=float(len(kind.joint_ids)), dimension="count"),
        Quantity(value=kind.length, dimension="length"),
        side_word(seal.side),
        _joined([_strip_sentence(strip) for strip in seal.strips]),
        _joined([*map(_bead_sentence, seal.beads), *_gasket_sentences(seal)]),
        Quantity(value=kind.void, dimension="sealant_volume") if kind.void else None,
    )


def _joint_row(seal: JointSeal, type_id: str) -> tuple[Cell, ...]:
    void = math.fsum(fill.volume for fill in seal.fills)
    beads = math.fsum(bead.count * bead.length for bead in seal.beads)
    strips = math.fsum(s.length for s in seal.strips)
    return (
        seal.joint.id,
        seal.joint.storey,
        type_id,
        side_word(seal.side),
        _joined([_short_strip(strip) for strip in seal.strips]),
        *_amounts(strips, beads, void, len(seal.dams)),
    )


def _dry_cells(mark: DryMark | None) -> tuple[Cell, Cell]:
    if mark is None:
        return (None, None)
    if mark.leak is None:
        return (mark.verdict, mark.bound or None)
    return (
        mark.verdict,
        Quantity(value=mark.leak, dimension="leak_rate", before=mark.bound),
    )


def _amounts(strips: float, beads: float, void: float, dams: int) -> tuple[Cell, ...]:
    """Return four amounts as cells, those that are zero left empty."""
    return (
        Quantity(value=strips, dimension="length") if strips else None,
        Quantity(value=beads, dimension="length") if beads else None,
        Quantity(value=void, dimension="sealant_volume") if void else None,
        Quantity(value=float(dams), dimension="count") if dams else None,
    )


def _strip_sentence(strip: Strip) -> Sentence:
    sum_ = strip_arithmetic(strip)
    manner = strip_manner(strip)
    tail = f" ({manner})" if manner else ""
    text = f"{FACES[strip.face]}: {sum_.text}, {STAGE_SHORT[strip.stage]}{tail}"
    return Sentence(text=text, lengths=sum_.lengths)


def _short_strip(strip: Strip) -> Sentence:
    when = STAGE_SHORT[strip.stage]
    if strip.width is None:
        text = f"{FACES[strip.face]}: {NO_STOCK} covers {{need}}, {when}"
        return Sentence(text=text, lengths={"need": strip.required})
    return Sentence(
        text=f"{FACES[strip.face]}: {{width}} strip, lap {{lap}}, {when}",
        lengths={"width": strip.width, "lap": strip.lap},
    )


def _bead_sentence(bead: Bead) -> Sentence:
    when = STAGE_SHORT[bead.stage]
    if bead.diameter is None:
        return Sentence(text=f"{bead.count} × {NO_SIZE} {bead.place}, {when}")
    return Sentence(text=f"{bead.count} × {{d}} {bead.place}, {when}", lengths={"d": bead.diameter})


def _gasket_sentences(seal: JointSeal) -> list[Sentence]:
    return [
        Sentence(text=f"gasket {gasket.place}, {STAGE_SHORT[gasket.stage]}")
        for gasket in seal.gaskets
    ]


def _joined(sentences: list[Sentence]) -> Cell:
    """Return sentences as one, their placeholders kept apart."""
    if not sentences:
        return None
    texts: list[str] = []
    lengths: dict[str, float] = {}
    for number, sentence in enumerate(sentences):
        text = sentence.text
        for name, value in sentence.lengths.items():
            text = text.replace(f"{{{name}}}", f"{{s{number}_{name}}}")
            lengths[f"s{number}_{name}"] = value
        texts.append(text)
    return Sentence(text="; ".join(texts), lengths=lengths)
