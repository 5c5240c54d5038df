"""The stages sheet: what must be sealed before the next step hides it."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator

from seamwright.report.seal_types import SealType
from seamwright.report.types import Cell, Quantity, Table
from seamwright.report.words import FACES, MARKS, NO_SIZE, NO_STOCK, STAGE_ENDS, STAGES, listed
from seamwright.seals.types import SealSchedule, Sentence, Stage

_DAMS = {
    "panel_end": "Dams in the channel at panel ends",
    "chase_crossing": "Dams where a chase crosses",
    "wall_line": "Dams over the wall line",
}

_Work = tuple[Stage, int, Sentence, Quantity, str]
"""Stage, place within the stage, the work in words, how much of it, and the joint or node."""


def stage_tables(
    schedule: SealSchedule, types: tuple[SealType, ...]
) -> tuple[tuple[Stage, Table], ...]:
    """Return a table of the work of each stage that has any, in the order of the work.

    Where all joints of a seal type take part, the type stands for them.
    """
    works = [*_strips(schedule), *_beads(schedule), *_channels(schedule), *_patches(schedule)]
    tables = []
    for stage in STAGES:
        chosen = [work for work in works if work[0] == stage]
        if chosen:
            tables.append((stage, _stage_table(stage, chosen, types)))
    return tuple(tables)


def stage_intro(stage: Stage) -> Sentence:
    """Return what ends a stage, as a sentence."""
    return Sentence(text=f"What hides it: {STAGE_ENDS[stage]}")


def _stage_table(stage: Stage, works: list[_Work], types: tuple[SealType, ...]) -> Table:
    """Return the work of one stage, like work on one line."""
    groups: defaultdict[tuple[int, str, tuple[tuple[str, float], ...]], list[_Work]]
    groups = defaultdict(list)
    for work in works:
        sentence = work[2]
        groups[work[1], sentence.text, tuple(sorted(sentence.lengths.items()))].append(work)
    rows: list[tuple[Cell, ...]] = []
    for _, group in sorted(groups.items()):
        amount = math.fsum(work[3].value for work in group)
        ids = tuple(dict.fromkeys(work[4] for work in group))
        quantity = Quantity(value=amount, dimension=group[0][3].dimension)
        rows.append((group[0][2], quantity, _where(ids, types), ""))
    return Table(
        columns=("Seal", "How much", "Where", "Done, by, date"),
        rows=tuple(rows),
        widths=(5, 1.8, 8.5, 2.4),
        right=(1,),
        caption=f"{STAGES[stage]}: what to seal",
        total=("Hold point", None, "all of it looked at, photographed and signed", None),
        marks=MARKS,
    )


def _where(ids: tuple[str, ...], types: tuple[SealType, ...]) -> str:
    """Return the joints or nodes, those that make up a whole seal type under its name."""
    left = dict.fromkeys(ids)
    whole: list[str] = []
    for kind in types:
        if len(kind.joint_ids) > 1 and left.keys() >= set(kind.joint_ids):
            whole.append(f"all {len(kind.joint_ids)} of {kind.id}")
            for joint_id in kind.joint_ids:
                del left[joint_id]
    return listed((*whole, *left))


def _strips(schedule: SealSchedule) -> Iterator[_Work]:
    for strip in schedule.strips:
        line = "" if strip.primary else ", second line"
        manner = ", over the timber, liner left on the wings" if strip.wings_open else ""
        run = Quantity(value=strip.length, dimension="length")
        if strip.width is None:
            text = f"Strip, {NO_STOCK} wide enough, {FACES[strip.face]}{line}{manner}"
            sentence = Sentence(text=text)
        else:
            text = f"Strip {{width}}, {FACES[strip.face]}{line}{manner}"
            sentence = Sentence(text=text, lengths={"width": strip.width})
        yield (strip.stage, 3, sentence, run, strip.joint_id)


def _beads(schedule: SealSchedule) -> Iterator[_Work]:
    for gasket in schedule.gaskets:
        run = Quantity(value=gasket.length, dimension="length")
        yield (gasket.stage, 0, Sentence(text=f"Gasket {gasket.place}"), run, gasket.joint_id)
    for bead in schedule.beads:
        run = Quantity(value=bead.count * bead.length, dimension="length")
        if bead.diameter is None:
            sentence = Sentence(text=f"Beads {NO_SIZE}, {bead.place}")
        else:
            sentence = Sentence(text=f"Beads {{d}}, {bead.place}", lengths={"d": bead.diameter})
        yield (bead.stage, 1, sentence, run, bead.joint_id)


def _channels(schedule: SealSchedule) -> Iterator[_Work]:
    one = Quantity(value=1.0, dimension="count")
    for dam in schedule.dams:
        yield (dam.stage, 2, Sentence(text=_DAMS[dam.why]), one, dam.joint_id)
    for fill in schedule.fills:
        volume = Quantity(value=fill.volume, dimension="sealant_volume")
        yield (fill.stage, 4, Sentence(text="Foam in the void"), volume, fill.joint_id)


def _patches(schedule: SealSchedule) -> Iterator[_Work]:
    one = Quantity(value=1.0, dimension="count")
    for patch in schedule.patches:
        text = f"Patch {{side}}, {FACES[patch.face]}: {patch.how}"
        sentence = Sentence(text=text, lengths={"side": patch.side})
        yield (patch.stage, 5, sentence, one, patch.node_id)
