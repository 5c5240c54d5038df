"""The order of work as tables: tasks with what they wait for, hold points, and bury events."""

from __future__ import annotations

from collections import Counter, defaultdict

from seamwright.report.types import (
    Block,
    Caution,
    Cell,
    Document,
    Heading,
    Paragraph,
    Quantity,
    Table,
)
from seamwright.report.words import listed
from seamwright.schedule.hold import HOLDS, bury_events
from seamwright.schedule.links_order import nearest
from seamwright.schedule.rules import RULES
from seamwright.schedule.types import Network, Task
from seamwright.seals.types import Sentence

_KINDS = {
    "gasket": ("gasket", "gaskets"),
    "bead": ("row of beads", "rows of beads"),
    "dam": ("dam", "dams"),
    "fill": ("foam filling", "foam fillings"),
    "strip": ("strip", "strips"),
    "patch": ("patch", "patches"),
}
_MOST = 8
"""Names listed in one cell before the rest is counted."""

CAUTION = (
    "The order of setting is a proposal. The erection plan of whoever answers for the structure, "
    "the lifting plan, the product sheets and local codes outrank it. Work at height, under "
    "hanging loads and with sealants and foam only by people trained and equipped for it."
)


def network_document(
    network: Network, title: str, facts: tuple[tuple[str, str], ...] = ()
) -> Document:
    """Return the order of work of a house: bury events, hold points, tasks, rules."""
    return Document(
        title=title,
        subtitle="Order of work",
        facts=facts,
        blocks=(
            *bury_blocks(network),
            *hold_blocks(network),
            *task_blocks(network),
            *rule_blocks(network),
        ),
    )


def task_blocks(network: Network) -> tuple[Block, ...]:
    """Return every task in an order that holds, with its time and what it waits for.

    A task waits for what is listed and for all that those wait for.
    """
    waits: dict[str, list[str]] = defaultdict(list)
    for link in nearest(network.links):
        waits[link.after].append(f"{link.before}*" if link.buries else link.before)
    rows = tuple(_task_row(task, waits[task.id]) for task in network.tasks)
    return (
        Heading(text="Tasks", level=1),
        Caution(text=CAUTION),
        _text(
            "Times are working time of one crew, quick to slow; where they come from is common "
            "practice, no source, unless the catalog gives the crew's own rates. A star marks what "
            "the task hides for good."
        ),
        Table(
            columns=("Id", "Task", "Likely", "Quick", "Slow", "Crew", "Needs", "After"),
            rows=rows,
            widths=(3.2, 5, 1.5, 1.5, 1.6, 1.9, 2.4, 5),
            right=(2, 3, 4),
            caption=f"{len(rows)} tasks in an order that holds",
        ),
    )


def hold_blocks(network: Network) -> tuple[Block, ...]:
    """Return the hold points in use: what is signed, by whom, how often, with room to sign."""
    tasks: dict[str, list[str]] = defaultdict(list)
    for task in network.tasks:
        if task.hold_point is not None:
            tasks[task.hold_point].append(task.id)
    rows: list[tuple[Cell, ...]] = []
    for point in HOLDS.values():
        where = tasks.get(point.sentence, [])
        if where:
            rows.append((point.sentence, point.released_by, str(len(where)), _some(where), ""))
    return (
        Heading(text="Hold points", level=1),
        _text(
            "Nothing goes on past a hold point before it is looked at, photographed and signed. "
            "A code, a program or a contract may ask for more."
        ),
        Table(
            columns=("To sign", "Released by", "Times", "Tasks", "Signed, date"),
            rows=tuple(rows),
            widths=(6.5, 2.6, 1, 5.5, 2.4),
            right=(2,),
            caption="Hold points in the order of the work",
        ),
    )


def bury_blocks(network: Network) -> tuple[Block, ...]:
    """Return every task that hides seals: what, made by whom, and why it cannot wait."""
    events = bury_events(network)
    rows: list[tuple[Cell, ...]] = [
        (
            event.task_id,
            event.title,
            _counted(event.seals),
            _some(list(event.made_by)),
            "; ".join(event.reasons),
            "",
        )
        for event in events
    ]
    findings = tuple(_text(finding) for finding in network.findings)
    return (
        Heading(text="What hides what", level=1),
        _text(
            "Each row is a task after which the seals beside it can no longer be reached or seen. "
            "All of them must be made, and their hold points signed, before it begins."
        ),
        *findings,
        Table(
            columns=("Id", "This task", "hides", "made in", "because", "Released, by"),
            rows=tuple(rows),
            widths=(2.6, 4.2, 3.6, 4.5, 5, 2),
            caption=f"{len(rows)} bury events",
        ),
    )


def rule_blocks(network: Network) -> tuple[Block, ...]:
    """Return the rules that put the tasks in order, how often each is used, and its source."""
    used = Counter(link.rule for link in network.links)
    own = sorted(link.reason for link in network.links if link.rule == "user")
    rows: list[tuple[Cell, ...]] = [
        (rule.id, rule.reason, str(used[rule.id]), rule.source)
        for rule in RULES.values()
        if used[rule.id]
    ]
    return (
        Heading(text="Rules", level=1),
        _text("Why one task waits for another. " + (f"Yours: {'; '.join(own)}." if own else "")),
        Table(
            columns=("Rule", "Reason", "Used", "Source"),
            rows=tuple(rows),
            widths=(2.6, 8, 1, 3),
            right=(2,),
            caption="Rules of the order of work",
        ),
    )


def _task_row(task: Task, waits: list[str]) -> tuple[Cell, ...]:
    needs = [task.window] if task.window is not None else []
    needs += ["crane"] if task.crane else []
    needs += [f"same day as {task.same_day_as}"] if task.same_day_as not in {None, task.id} else []
    return (
        task.id,
        task.title,
        *(_time(span) for span in (task.duration.likely, task.duration.low, task.duration.high)),
        f"{task.skill}, {task.crew_size}",
        listed(tuple(needs)),
        _some(waits),
    )


def _time(seconds: float) -> Cell:
    return Quantity(value=seconds, dimension="time") if seconds > 0 else "–"


def _counted(seals: tuple[str, ...]) -> str:
    """Return seals by kind and number: ``5 rows of beads, 2 dams``."""
    counts = Counter(seal.split(":", maxsplit=1)[0] for seal in seals)
    return ", ".join(
        f"{counts[kind]} {one if counts[kind] == 1 else many}"
        for kind, (one, many) in _KINDS.items()
        if counts[kind]
    )


def _some(names: list[str]) -> str:
    """Return names as one cell, the rest counted when there are many."""
    if len(names) <= _MOST:
        return listed(tuple(names))
    return f"{', '.join(names[:_MOST])} and {len(names) - _MOST} more"


def _text(words: str) -> Paragraph:
    plain = words.replace("{", "(").replace("}", ")")
    return Paragraph(text=Sentence(text=plain.strip()))
