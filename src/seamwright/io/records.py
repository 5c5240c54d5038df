"""Read a records file: what the site wrote down about seals, tests, looks and mends."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from pydantic import ValidationError

from seamwright.errors import InputError, Problem, SeamwrightError
from seamwright.io.explain import explain, nearest, problem_at
from seamwright.io.fan_readings import read_fan_test
from seamwright.io.records_model import LogFields, RecordsFields
from seamwright.io.yaml_text import Path_, YamlText, read_yaml
from seamwright.leakage.fan import analyze_fan_test
from seamwright.leakage.hunt_types import Event, Facts, FanTest, Look, Mend
from seamwright.leakage.places import Place
from seamwright.leakage.prior_rows import Workmanship
from seamwright.leakage.types import Accuracy

USUAL_ERROR = 0.10
"""95 % limits of a test whose own are not given: `common practice, no source`."""

_OF_TEST = ("flow", "low", "high", "readings", "masked", "unsealed")
_OF_LOOK = ("by", "saw", "pressure")


@dataclass(frozen=True, kw_only=True, slots=True)
class Records:
    """What the site wrote down. `facts` by place id; `diary` in the order of the file; `crews` how
    each named crew works where the file says so; `target` is the flow at 50 Pa to reach [m³/s];
    `notes` say what was assumed.
    """

    facts: dict[str, Facts]
    diary: tuple[Event, ...]
    workmanship: Workmanship = "ordinary"
    target: float | None = None
    notes: tuple[str, ...] = ()
    crews: Mapping[str, Workmanship] = field(default_factory=dict)

    @property
    def made_by(self) -> dict[str, str]:
        """Return who made each place that the file names a crew for, by its id."""
        return {at: fact.crew for at, fact in self.facts.items() if fact.crew is not None}


def read_records(
    path_or_text: Path | str | bytes, places: Sequence[Place], *, name: str | None = None
) -> Records:
    """Return the records of a house whose places are known.

    Raises
    ------
    FormatError
        When the file is missing, too large, binary, empty or not YAML.
    InputError
        With every wrong value and every unknown place, its line and a remedy.
    """
    yaml = read_yaml(path_or_text, what="records", name=name)
    if not isinstance(yaml.tree, dict):
        told = "the records are a list or a single word, not sections with names"
        raise InputError([problem_at(yaml, (), told, "start with seals: or log:")])
    try:
        fields = RecordsFields.model_validate(yaml.tree)
    except ValidationError as error:
        raise InputError(explain(error, yaml, RecordsFields)) from None
    beside = path_or_text.parent if isinstance(path_or_text, Path) else Path()
    reading = _Reading(yaml, places, beside)
    facts = reading.facts(fields)
    diary = tuple(e for i, item in enumerate(fields.log) if (e := reading.event(i, item)))
    if reading.problems:
        raise InputError(sorted(reading.problems, key=lambda p: (p.line or 0, p.column or 0)))
    return Records(
        facts=facts,
        diary=diary,
        workmanship=fields.workmanship,
        target=fields.target,
        notes=tuple(reading.notes),
        crews={crew.name: crew.work for crew in fields.crews if crew.work is not None},
    )


class _Reading:
    """The file, the places it may name, and every problem found on the way."""

    def __init__(self, yaml: YamlText, places: Sequence[Place], beside: Path) -> None:
        self.yaml = yaml
        self.beside = beside
        self.ids = {place.id for place in places}
        self.by_kind: dict[str, list[str]] = {}
        for place in places:
            self.by_kind.setdefault(place.kind, []).append(place.id)
        self.problems: list[Problem] = []
        self.notes: list[str] = []
        self.tests: set[str] = set()

    def facts(self, fields: RecordsFields) -> dict[str, Facts]:
        """Return the facts of every place named, later entries over earlier ones."""
        found = self._crews(fields)
        for i, item in enumerate(fields.seals):
            given = {
                word: value
                for word in ("sealed", "checked", "photo", "taped", "crew")
                if (value := getattr(item, word)) is not None
            }
            for k, at in enumerate(item.at):
                for place_id in self._named(at, ("seals", i, "at", k)):
                    found[place_id] = replace(found.get(place_id, Facts()), **given)
        return found

    def _crews(self, fields: RecordsFields) -> dict[str, Facts]:
        """Return who made each place that a crew names as its own."""
        found: dict[str, Facts] = {}
        names: set[str] = set()
        for i, crew in enumerate(fields.crews):
            if crew.name in names:
                told = f"there is a crew {crew.name[:40]} before"
                self._tell(("crews", i, "name"), told, "write each crew once")
            names.add(crew.name)
            for k, at in enumerate(() if crew.made is None else crew.made):
                for place_id in self._named(at, ("crews", i, "made", k)):
                    if place_id in found and found[place_id].crew != crew.name:
                        told = f"{place_id} was made by {found[place_id].crew} above"
                        self._tell(("crews", i, "made", k), told, "name one crew for each place")
                    found[place_id] = Facts(crew=crew.name)
        return found

    def event(self, i: int, item: LogFields) -> Event | None:
        """Return one entry of the diary, or None with its problems told."""
        kinds = [word for word in ("test", "look", "mend") if getattr(item, word) is not None]
        if len(kinds) != 1:
            told = "this entry is " + (" and ".join(kinds) if kinds else "no test, look or mend")
            self._tell(("log", i), told, "write one of test:, look: or mend: to an entry")
            return None
        kind = kinds[0]
        wrong = {"test": _OF_LOOK, "look": _OF_TEST, "mend": (*_OF_TEST, *_OF_LOOK)}[kind]
        for word in sorted(set(wrong) & item.model_fields_set):
            self._tell(("log", i, word), f"‘{word}’ does not belong to a {kind}", "leave it out")
        line = None if (at := self.yaml.place(("log", i))) is None else at.line
        day = "" if item.day is None else item.day
        if kind == "test":
            return self._test(i, item, day, line)
        place_id = item.look if item.look is not None else item.mend
        if place_id is None or place_id not in self.ids:
            self._stranger(str(place_id), ("log", i, kind), self.ids)
            return None
        if kind == "mend":
            return Mend(place=place_id, day=day, line=line)
        return self._look(i, item, place_id, day, line)

    def _look(
        self, i: int, item: LogFields, place_id: str, day: str, line: int | None
    ) -> Look | None:
        if "saw" not in item.model_fields_set:
            remedy = "add saw: nothing, something, or a strength from 1 to 5"
            self._tell(("log", i), "what was seen is missing", remedy)
            return None
        return Look(
            place=place_id,
            method="smoke" if item.by is None else item.by,
            found=item.saw != 0,
            strength=None if item.saw is None or item.saw == 0 else item.saw,
            pressure=item.pressure,
            day=day,
            line=line,
        )

    def _test(self, i: int, item: LogFields, day: str, line: int | None) -> FanTest | None:
        name = str(item.test)
        if name in self.tests:
            self._tell(("log", i, "test"), f"there is a test {name} before", "give it its own name")
        self.tests.add(name)
        limits = self._limits(i, item, name)
        if limits is None:
            return None
        low, flow, high = limits
        if not low <= flow <= high:
            told = f"the flow of test {name} lies outside its own limits"
            self._tell(("log", i, "flow"), told, "check flow, low and high, and their units")
            return None
        return FanTest(
            id=name,
            flow=flow,
            low=low,
            high=high,
            masked=self._set(item.masked, ("log", i, "masked")),
            unsealed=self._set(item.unsealed, ("log", i, "unsealed")),
            day=day,
            line=line,
        )

    def _limits(self, i: int, item: LogFields, name: str) -> tuple[float, float, float] | None:
        """Return a test's flow between its 95 % limits, as given or from its readings."""
        if item.readings is not None:
            if {"flow", "low", "high"} & item.model_fields_set:
                told = "a test with readings has its flow and limits from them"
                self._tell(("log", i, "readings"), told, "leave flow, low and high out")
                return None
            return self._worked_out(i, item.readings, name)
        if item.flow is None:
            remedy = "add flow: 640 m3/h, say, at 50 Pa, or readings: FILE"
            self._tell(("log", i), "a test without its flow", remedy)
            return None
        if item.low is None or item.high is None:
            self.notes.append(f"Test {name}: limits of ±{USUAL_ERROR * 100:.0f} % assumed.")
            return item.flow * (1 - USUAL_ERROR), item.flow, item.flow * (1 + USUAL_ERROR)
        return item.low, item.flow, item.high

    def _worked_out(self, i: int, file: str, name: str) -> tuple[float, float, float] | None:
        """Return the flow of a file of readings by ISO 9972; its faults are told with its lines."""
        try:
            test = read_fan_test(self.beside / file)
            result = analyze_fan_test(
                test.series, test.conditions, test.envelope, devices=test.devices,
                accuracy=test.accuracy if test.accuracy != Accuracy() else None,
            )  # fmt: skip
        except InputError as error:
            self.problems += error.problems
            return None
        except SeamwrightError as error:
            self._tell(("log", i, "readings"), str(error), "see seamwright fan on that file")
            return None
        checks = [*result.checks, *(c for one in result.series for c in one.checks)]
        if any(check.required and not check.holds for check in checks):
            self.notes.append(f"Test {name}: {file} breaks a rule of ISO 9972; see seamwright fan.")
        flow = result.flow_50
        return flow.low, flow.value, flow.high

    def _set(self, names: tuple[str, ...] | None, path: Path_) -> frozenset[str]:
        found: list[str] = []
        for k, name in enumerate(() if names is None else names):
            found += self._named(name, (*path, k))
        return frozenset(found)

    def _named(self, name: str, path: Path_) -> list[str]:
        """Return the ids that a name stands for: itself, or all places of a kind."""
        word = name.strip().lower().replace(" ", "_")
        if name in self.ids:
            return [name]
        if word in self.by_kind:
            return self.by_kind[word]
        self._stranger(name, path, self.ids | set(self.by_kind))
        return []

    def _stranger(self, name: str, path: Path_, known: set[str]) -> None:
        self._tell(path, f"this house has no place ‘{name[:40]}’", nearest(name, known))

    def _tell(self, path: Path_, sentence: str, remedy: str) -> None:
        self.problems.append(problem_at(self.yaml, path, sentence, remedy))
