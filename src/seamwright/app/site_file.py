"""Read the records file of a site: the same file, and the same sentences, as the command line."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from typing import Any

from seamwright.app.built import Built
from seamwright.app.contract.site_file import CrewNote, DiaryEntry, SealNote, SiteFileIn
from seamwright.errors import InputError
from seamwright.io.explain import problem_at
from seamwright.io.records import Records, read_records
from seamwright.io.records_model import RecordsFields
from seamwright.io.yaml_text import YamlText, read_yaml
from seamwright.leakage.hunt_types import Facts
from seamwright.report.leak_places import leak_places

_ALONE = "a page cannot bring the file of readings along"
_FLOW = "work the test out on the page of air, or write flow:, low: and high:"


def read_site_file(built: Built, given: SiteFileIn) -> tuple[Records, RecordsFields]:
    """Return what a records file says, and its fields as written.

    Raises
    ------
    InputError
        With every wrong value and every unknown place, its line and a remedy; where it names
        another file.
    """
    name = given.name
    yaml = read_yaml(given.text.encode(), what="records", name=name)
    _alone(yaml)
    records = read_records(given.text.encode(), leak_places(built.house), name=name)
    return records, RecordsFields.model_validate(yaml.tree)


def done_at_joints(built: Built, records: Records, given: SiteFileIn) -> Iterator[dict[str, Any]]:
    """Yield what to record of each joint; the same file sent twice yields the same keys."""
    for joint, fact in records.facts.items():
        if joint not in built.joints:
            continue
        for what in _done(fact):
            key = hashlib.sha256(f"{given.name} {joint} {what}".encode()).hexdigest()[:40]
            person = given.person if fact.crew is None else fact.crew
            yield {"key": key, "joint": joint, "what": what, "person": person[:80],
                   "note": given.name, "done_at": None}  # fmt: skip


def opened_since(joints: int) -> list[str]:
    """Return what to say of joints the file calls sealed that were opened again since."""
    if joints == 0:
        return []
    many = "1 joint" if joints == 1 else f"{joints} joints"
    return [f"{many} of the file had been opened again since; record the new seal at the joint."]


def diary_of(fields: RecordsFields) -> list[DiaryEntry]:
    """Return the diary in its order, flows in m³/h."""
    found = []
    for item in fields.log:
        row = item.model_dump(exclude_unset=True, exclude={"note", "readings"})
        row |= {word: _hourly(row[word]) for word in ("flow", "low", "high") if word in row}
        if item.look is not None:
            row["saw"] = {None: "something", 0: "nothing"}.get(item.saw, item.saw)
        found.append(DiaryEntry.model_validate(row))
    return found


def seal_notes(fields: RecordsFields) -> list[SealNote]:
    """Return what is known of how places were sealed, as written."""
    return [SealNote.model_validate(item.model_dump(exclude={"note"})) for item in fields.seals]


def crew_notes(fields: RecordsFields) -> list[CrewNote]:
    """Return the crews, as written."""
    return [CrewNote.model_validate(item.model_dump(exclude={"note"})) for item in fields.crews]


def target_of(fields: RecordsFields) -> str | None:
    """Return the flow to reach, in m³/h."""
    return None if fields.target is None else _hourly(fields.target)


def _done(fact: Facts) -> list[str]:
    told = []
    if fact.sealed is True or fact.checked is True:
        told.append("sealed")
    if fact.checked is True:
        told.append("checked")
    return told


def _hourly(flow: float) -> str:
    return f"{flow * 3600.0:.6g} m3/h"


def stands_alone(text: str, name: str) -> None:
    """Refuse records that name another file: a page must not read this machine's files.

    Raises
    ------
    InputError
        With each line that names one.
    """
    _alone(read_yaml(text.encode(), what="records", name=name))


def _alone(yaml: YamlText) -> None:
    log = yaml.tree.get("log") if isinstance(yaml.tree, Mapping) else None
    rows = log if isinstance(log, list) else []
    problems = [
        problem_at(yaml, ("log", i, "readings"), _ALONE, _FLOW)
        for i, row in enumerate(rows)
        if isinstance(row, Mapping) and "readings" in row
    ]
    if problems:
        raise InputError(problems)
