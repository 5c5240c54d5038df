"""The cover: what the house is, what must be looked at first, what was assumed."""

from __future__ import annotations

import math
from collections import Counter, defaultdict

from seamwright.joints.types import JointKind
from seamwright.report.cautions import cautions, deferral
from seamwright.report.house import SealedHouse
from seamwright.report.register_tables import break_table
from seamwright.report.types import Block, Cell, Heading, Paragraph, Quantity, Table
from seamwright.report.words import FACES, KINDS, MARKS, UNSIGNED, kind_word, listed
from seamwright.seals.types import Finding, Sentence, Severity

SEVERITY: dict[Severity, str] = {"stop": "STOP", "attention": "Look", "note": "Note"}


_TOLD_BY_OTHER_TABLES = ("break-", "unsigned:")
"""How the ids of findings begin that stand on the cover as breaks and as faces to sign."""


def cover(house: SealedHouse, assumed: tuple[Sentence, ...] = ()) -> tuple[Block, ...]:
    """Return the cover's blocks: numbers, findings, signatures, assumptions, cautions."""
    return (
        numbers_table(house),
        *_attention(house),
        *_signatures(house),
        *_assumptions(house, assumed),
        Heading(text="Cautions"),
        *cautions(house),
        Heading(text="What outranks this packet"),
        *deferral(),
    )


def numbers_table(house: SealedHouse) -> Table:
    """Return the house in a few numbers, each the sum of a table further on."""
    schedule, register = house.schedule, house.register
    strips = math.fsum(s.length for s in schedule.strips)
    beads = math.fsum(b.count * b.length for b in schedule.beads)
    joints = math.fsum(j.length for j in register.joints)
    unsigned = sum(not side.signed for side in schedule.sides)
    rows: tuple[tuple[Cell, ...], ...] = (
        ("Panels", _count(len(house.shell.panels))),
        ("Joints", _count(len(register.joints))),
        ("Joint length", Quantity(value=joints, dimension="length")),
        ("Nodes", _count(len(register.nodes))),
        ("Strip to place, laps not counted", Quantity(value=strips, dimension="length")),
        ("Beads to lay", Quantity(value=beads, dimension="length")),
        ("Dams", _count(len(schedule.dams))),
        (f"Joints whose face is {UNSIGNED}", _count(unsigned)),
        ("Places where a line does not close", _count(len(register.breaks))),
    )
    return Table(
        columns=("In numbers", ""),
        rows=rows,
        widths=(4, 1.6),
        right=(1,),
        caption="The house in numbers",
    )


def findings_table(findings: tuple[Finding, ...]) -> Table:
    """Return the findings, gravest first, like ones on one line with all they concern."""
    grave = list(SEVERITY)
    groups: defaultdict[tuple[object, ...], list[Finding]] = defaultdict(list)
    for finding in sorted(findings, key=lambda f: grave.index(f.severity)):
        groups[_likeness(finding)].append(finding)
    return Table(
        columns=("", "Concerns", "What", "Way out"),
        rows=tuple(
            (
                SEVERITY[group[0].severity],
                listed(tuple(dict.fromkeys(f.subject for f in group))),
                group[0].sentence,
                group[0].way_out,
            )
            for group in groups.values()
        ),
        widths=(1.0, 4, 6, 6),
        caption="Findings, the gravest first",
        marks=MARKS,
    )


def unsigned_table(house: SealedHouse) -> Table:
    """Return what nobody has signed for: the face proposed, for how many joints, and why."""
    kind_of = {joint.id: joint.kind for joint in house.register.joints}
    groups: defaultdict[tuple[str, str], Counter[JointKind]] = defaultdict(Counter)
    for side in house.schedule.sides:
        if not side.signed and side.joint_id in kind_of:
            groups[side.face, side.reason][kind_of[side.joint_id]] += 1
    return Table(
        columns=("Proposed", "Joints", "For", "Why"),
        rows=tuple(
            (
                f"{FACES[face]} {UNSIGNED}",
                _count(counts.total()),
                listed(tuple(f"{kind_word(k)} {counts[k]}" for k in KINDS if k in counts)),
                reason,
            )
            for (face, reason), counts in groups.items()
        ),
        widths=(1.9, 0.9, 4.6, 8),
        right=(1,),
        caption=f"Faces that are {UNSIGNED}: proposals only, for the designer to sign or change",
    )


def decisions_table(house: SealedHouse) -> Table:
    """Return the decisions that are signed, as the plan holds them."""
    return Table(
        columns=("Signed by", "As", "Date", "Face", "For", "Note"),
        rows=tuple(
            (
                decision.signed_by,
                decision.role,
                decision.date,
                FACES[decision.face],
                listed((*(kind_word(k) for k in decision.kinds), *decision.joints))
                if decision.kinds or decision.joints
                else "all joints",
                decision.note,
            )
            for decision in house.plan.decisions
        ),
        widths=(2.2, 2, 1.4, 1.2, 4, 3),
        caption="Signed decisions",
    )


def _attention(house: SealedHouse) -> tuple[Block, ...]:
    """Return findings, breaks and lost corrections, or the sentence that there are none."""
    blocks: list[Block] = [Heading(text="Look at these first")]
    findings = tuple(
        f for f in house.schedule.findings if not f.id.startswith(_TOLD_BY_OTHER_TABLES)
    )
    if findings:
        blocks.append(findings_table(findings))
    if house.register.breaks:
        blocks.append(break_table(house.register.breaks))
    lost = house.register.lost_overrides
    if lost:
        text = f"Corrections in the plan whose joint no longer exists: {listed(lost)}."
        blocks.append(Paragraph(text=Sentence(text=text)))
    if len(blocks) == 1:
        text = "Nothing was found that needs attention, and both lines close around the shell."
        blocks.append(Paragraph(text=Sentence(text=text)))
    return tuple(blocks)


def _signatures(house: SealedHouse) -> tuple[Block, ...]:
    blocks: list[Block] = [Heading(text="Who decided the face of the air seal")]
    unsigned = unsigned_table(house)
    if unsigned.rows:
        blocks.append(unsigned)
    if house.plan.decisions:
        blocks.append(decisions_table(house))
    if len(blocks) == 1:
        blocks.append(Paragraph(text=Sentence(text="No joint needs a face decided.")))
    return tuple(blocks)


def _assumptions(house: SealedHouse, assumed: tuple[Sentence, ...]) -> tuple[Block, ...]:
    shelf = f"Products, laps, beads and reserves: {house.catalog.source}."
    made = (Sentence(text=words) for words in (*house.shell.assumptions, shelf))
    paragraphs = (Paragraph(text=sentence) for sentence in (*assumed, *made))
    return (Heading(text="What was assumed"), *paragraphs)


def _likeness(finding: Finding) -> tuple[object, ...]:
    def alike(sentence: Sentence) -> tuple[object, ...]:
        rounded = {name: round(value, 4) for name, value in sentence.lengths.items()}
        return (sentence.text, tuple(sorted(rounded.items())))

    return (finding.severity, alike(finding.sentence), alike(finding.way_out))


def _count(number: int) -> Quantity:
    return Quantity(value=float(number), dimension="count")
