"""The dryness of a house's joints in tables and sentences."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from seamwright.moisture.verdict.advise import BINDS
from seamwright.moisture.verdict.judge import worst
from seamwright.moisture.verdict.types import UNDECIDED, FaceOption, Verdict
from seamwright.report.dryness_marks import NOT_EVEN, OVER, TURNED, leak_cell, state_word
from seamwright.report.dryness_types import (
    HeightDryness,
    HouseDryness,
    JointDryness,
    years_word,
)
from seamwright.report.types import (
    Block,
    Caution,
    Cell,
    Figure,
    Heading,
    Paragraph,
    Quantity,
    Table,
)
from seamwright.seals.types import Sentence

MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September",
          "October", "November", "December")  # fmt: skip

MOST = 0.6
"""Wettest months above this are told as over it: free water in pores, how much hangs on the grid.
[kg/kg] common practice, no source"""

NOT_A_RULE = (
    "A proposal to the building's designer, who signs. The approved details, the makers' data "
    "sheets and the local code come first."
)
"""What stands above every verdict."""

GENERATED_WORDS = (
    "GENERATED weather: made from monthly figures, it never happened. No ground for a sign-off; "
    "bring a measured year with --weather FILE."
)
"""What stands on every sheet that rests on a generated year."""

LIMITS = (
    "The section leaks evenly along its length; real leaks are spots, wetter there and drier else.",
    "Nothing flows along a joint from another one, save the loops.",
    "No ice, ground or construction water; rain only as far as stated above.",
    "Two dimensions: no nodes, no corners of three planes. Openings, pipes and flues are left out.",
    "Leaks lie evenly over the height of the house; fans move the neutral level (--fan-offset).",
)
"""What the model cannot see."""

_LEAKS = (
    "may leak: the largest leakage at 50 Pa, per length of joint, at which the wood stays within "
    f"every limit. “{OVER}”: the highest tried stays within, the largest lies above it. "
    f"“{NOT_EVEN}”: the lowest tried is outside already; tighter was not tried, and the proposal "
    f"says what else may help. “{TURNED}”: the lowest tried is outside, a higher one within; none "
    "counts as the largest, and a joint is not left leaky to dry it: seal the other face."
)
_USUAL = (
    "usually leaks: what the leak table expects of the joint, sealed so, under ordinary work. "
    "Verdict, margin, wettest 30 days and what decides are those of this leakage."
)
_MARGIN = (
    "margin: how far the worst criterion lies from its limit, as a part of the limit; below zero "
    f"it is outside. Nearer to zero than {UNDECIDED:g} it reads TOO CLOSE: a finer grid moves it "
    "by up to that, so take it as not decided."
)
READ = (_LEAKS, _USUAL, _MARGIN)
"""How to read the table, under it."""

_PER_HOUR = 1.0 / 3600.0


def dryness_table(found: HouseDryness) -> Table:
    """Return one row for each joint type, height and face: leak tolerated, verdict, wettest.

    The short answer looks for no largest leakage and has no column of it.
    """
    short = found.asked.short
    rows = tuple(row for one in found.joints for row in _rows(one, short=short))
    columns = [
        ("type", 0.5), ("joint", 1.8), ("where", 0.7), ("face", 0.6), ("may leak", 1.6),
        ("usually leaks", 1.2), ("verdict", 1.2), ("margin", 0.7), ("wettest 30 days", 3.0),
        ("what decides", 1.9),
    ]  # fmt: skip
    if short:
        columns = [*columns[:4], *columns[5:]]
        rows = tuple((*row[:4], *row[5:]) for row in rows)
    wet = "what becomes of the wood as usually made"
    return Table(
        caption=f"Joints: {wet}" if short else f"Joints: how much may leak at 50 Pa, and {wet}",
        columns=tuple(name for name, _ in columns),
        widths=tuple(width for _, width in columns),
        right=(4, 6) if short else (4, 5, 7),
        rows=rows,
        marks=("OUTSIDE", "TOO CLOSE", "NOT CONVERGED", NOT_EVEN, TURNED),
    )


def _rows(one: JointDryness, *, short: bool) -> Iterator[tuple[Cell, ...]]:
    for height in one.heights:
        where = height.height if len(one.heights) > 1 else "highest" if short else "all"
        for option in height.options:
            yield (
                one.joint.name, one.joint.title, where, option.face, leak_cell(option),
                _leak_cell(option.leak_expected), *_verdict_cells(height, option),
            )  # fmt: skip
        for run in height.runs:
            if run.expected and not run.converged:
                yield (
                    one.joint.name, one.joint.title, where, run.face, None,
                    _leak_cell(run.leakage), "NOT CONVERGED", None, run.advice, None,
                )  # fmt: skip


def _leak_cell(leak: float | None) -> Cell:
    return None if leak is None else Quantity(value=leak * _PER_HOUR, dimension="leak_rate")


def _verdict_cells(height: HeightDryness, option: FaceOption) -> tuple[Cell, ...]:
    least = worst(option.verdicts)
    run = next(r for r in height.runs if r.expected and r.face == option.face)
    wet = run.wettest
    told = "" if wet is None else (
        f"{'over ' if wet.moisture > MOST else ''}{min(wet.moisture, MOST):.0%}, {wet.place}, "
        f"{MONTHS[wet.month]}"
    )  # fmt: skip
    return (state_word(least.margin), f"{least.margin:+.2f}", told, _decides(least))


def _decides(least: Verdict) -> str:
    """Return the criterion that decides with its limit."""
    found = next(c for c in least.criteria if c.name == least.binding)
    limit = f"{found.limit:.0%}" if found.unit == "kg/kg" else f"{found.limit:g}"
    return f"{BINDS[least.binding]} (limit {limit})"


def how_to_read(found: HouseDryness) -> tuple[str, ...]:
    """Return what the words and numbers of the table mean."""
    return READ[1:] if found.asked.short else READ


def left_out_table(found: HouseDryness) -> Table:
    """Return the joint types that were not run, and why."""
    return Table(
        caption="Joints without a way for air through them: not run",
        columns=("type", "joint", "count", "why"),
        widths=(0.5, 2.0, 0.6, 4.0),
        right=(2,),
        rows=tuple(
            (one.name, one.title, str(len(one.joint_ids)), one.why_not) for one in found.left_out
        ),
    )


def proposals(found: HouseDryness) -> Iterator[tuple[str, str]]:
    """Yield for each joint type and height its name and the proposal as a sentence."""
    for one in found.joints:
        for height in one.heights:
            where = f", {height.height}" if len(one.heights) > 1 else ""
            count = len(one.joint.joint_ids)
            many = f"{count} joints" if count > 1 else "1 joint"
            name = f"{one.joint.name} {one.joint.title}{where} ({many})"
            if height.recommendation is None:
                yield name, "no run converged: nothing can be said."
            else:
                yield name, height.recommendation.sentences[0]


def climate_sentence(found: HouseDryness) -> str:
    """Return the origin of the weather and the rule of the rooms."""
    return f"Weather: {found.origin}. Rooms: {found.room}."


def balance_sentence(found: HouseDryness) -> str:
    """Return how well the runs close their balances."""
    runs = [run for one in found.joints for height in one.heights for run in height.runs]
    water = max((run.water_error for run in runs), default=0.0)
    heat = max((run.heat_error for run in runs), default=0.0)
    failed = sum(not run.converged for run in runs)
    words = "all converged" if failed == 0 else f"{failed} did NOT CONVERGE and are not used"
    return (
        f"{len(runs)} runs of {years_word(found.asked.years)} on up to {found.cells} volumes, "
        f"{words}; water balances close within {_power(water)} of what passed through, heat within "
        f"{_power(heat)}."
    )


def _power(error: float) -> str:
    return "1e-15" if error <= 0.0 else f"1e{math.ceil(math.log10(error)):+03d}"


def disagreements(found: HouseDryness) -> tuple[str, ...]:
    """Return published advice that differs from a proposal, each sentence once."""
    told = (
        sentence
        for one in found.joints
        for height in one.heights
        if height.recommendation is not None
        for sentence in height.recommendation.sentences
        if sentence.startswith("Published advice")
    )
    return tuple(dict.fromkeys(told))


SHORT = (
    "In short: only the highest roof line (without one the highest wall spline), where room air "
    "leaves, for one year on a coarser grid, leaking as usually made. How much each may leak, the "
    "other joints and the second year: print with --dryness all (minutes; kept for the next print)."
)
"""What was cut short to save time."""


def dryness_sheet(found: HouseDryness, charts: Sequence[tuple[str, str]] = ()) -> tuple[Block, ...]:
    """Return the sheets of the packet, with these charts: name of each, and the types it shows."""
    warned = (Caution(text=GENERATED_WORDS),) if found.generated else ()
    short = (Paragraph(text=Sentence(text=SHORT)),) if found.asked.short else ()
    left = (left_out_table(found),) if found.left_out else ()
    assumed = " ".join(found.assumed)
    made = " (GENERATED weather)" if found.generated else ""
    return (
        Heading(text="Dryness: which face, how tight", level=1),
        *warned,
        Paragraph(text=Sentence(text=NOT_A_RULE)),
        Paragraph(text=Sentence(text=climate_sentence(found))),
        *short,
        dryness_table(found),
        *(Paragraph(text=Sentence(text=words)) for words in how_to_read(found)),
        Heading(text="What is proposed"),
        Table(
            caption="Proposal for each joint type, for the designer's signature",
            columns=("joint", "proposal", "designer"),
            widths=(1.6, 6.0, 1.2),
            rows=tuple((name, text, "UNSIGNED") for name, text in proposals(found)),
        ),
        *(Paragraph(text=Sentence(text=words)) for words in disagreements(found)),
        *(
            Figure(
                name=name,
                caption=f"{types}: moisture of the wood under each face, and the limit{made}",
            )
            for name, types in charts
        ),
        Heading(text="What it rests on"),
        Paragraph(text=Sentence(text=assumed)),
        Paragraph(text=Sentence(text=balance_sentence(found))),
        Paragraph(text=Sentence(text=" ".join(LIMITS))),
        *left,
    )


def is_outside(found: HouseDryness) -> bool:
    """Return whether some joint as usually made, sealed on the face proposed, leaves the limits or
    is too close to them to say.
    """
    return any(
        height.recommendation is None
        or height.recommendation.face is None
        or height.recommendation.margin < UNDECIDED
        for one in found.joints
        for height in one.heights
    )
