"""What a leak hunt starts from: records, the history of tests, own figures, moisture margins."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from seamwright.io.forecast_json import read_history
from seamwright.io.leak_figures import Figures, read_figures
from seamwright.io.moisture_margins import read_margins
from seamwright.io.records import Records, read_records
from seamwright.leakage.hunt_priors import Start, hunt_start
from seamwright.leakage.hunt_types import Event, FanTest
from seamwright.leakage.learn import HouseTest, learn
from seamwright.leakage.margins import Margin, tolerated
from seamwright.leakage.places import Place
from seamwright.leakage.rank import Aim
from seamwright.report.house import SealedHouse
from seamwright.report.leak_places import leak_places

FIXED = (
    "The order by consequence goes by fixed weights of kinds (1 to 5: common practice, no source); "
    "add --dryness FILE for what each joint tolerates."
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Given:
    """The files named on the command line, and who made what no record names."""

    records: Path | None = None
    history: Path | None = None
    crew: str = ""
    dryness: Path | None = None
    figures: Path | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Known:
    """What is known before the hunt; `margins` by place id, `target` a flow at 50 Pa [m³/s], and
    `notes` what must be said about it.
    """

    start: Start
    diary: tuple[Event, ...]
    margins: dict[str, Margin]
    target: float | None
    notes: tuple[str, ...]


def gather(house: SealedHouse, given: Given, aim: Aim) -> Known:
    """Return where the hunt of a house starts, from the files given."""
    places = leak_places(house, crew=given.crew)
    known = Records(facts={}, diary=())
    if given.records is not None:
        known = read_records(given.records, places)
    own = Figures() if given.figures is None else read_figures(given.figures)
    tests, learned = _history(given.history, house.plan.site.name, known.diary)
    margins, wet = _margins(given.dryness, house, places, aim)
    start = hunt_start(
        places,
        known.facts,
        known.workmanship,
        crews=known.crews,
        table=own.table,
        knowledge=learn(tests, own.table.spreads),
    )
    return Known(
        start=start,
        diary=known.diary,
        margins=margins,
        target=known.target,
        notes=(*known.notes, *learned, *wet),
    )


def _history(
    file: Path | None, name: str, diary: tuple[Event, ...]
) -> tuple[tuple[HouseTest, ...], tuple[str, ...]]:
    """Return the tests to learn from and what to say of them.

    A test of this house is left out where the records hold its tests, so that none counts twice.
    """
    if file is None:
        return (), ()
    tests = read_history(file)
    tested = any(isinstance(event, FanTest) for event in diary)
    if tested and any(test.id == name for test in tests):
        tests = tuple(test for test in tests if test.id != name)
        left = "the test of this house in it is left out, because the records tell of it"
        return tests, (f"Started from {_tests(len(tests))} ({file.name}); {left}.",)
    return tests, (f"Started from {_tests(len(tests))} ({file.name}).",)


def _tests(count: int) -> str:
    return "1 test of a finished house" if count == 1 else f"{count} tests of finished houses"


def _margins(
    file: Path | None, house: SealedHouse, places: tuple[Place, ...], aim: Aim
) -> tuple[dict[str, Margin], tuple[str, ...]]:
    """Return what each place tolerates and what to say of it."""
    if file is None:
        return {}, (FIXED,) if aim == "consequence" else ()
    margins = read_margins(file)
    meeting = {node.id: node.joints for node in house.register.nodes}
    found = tolerated(places, margins, meeting)
    told = (
        f"What {len(found)} of {len(places)} places tolerate is from {file.name}; the others go by "
        "fixed weights of kinds (1 to 5: common practice, no source)."
    )
    strange = sorted(set(margins) - {place.id for place in places})
    if not strange:
        return found, (told,)
    many = f"{len(strange)} joints of {file.name} are" if len(strange) > 1 else (
        f"1 joint of {file.name} is"
    )  # fmt: skip
    doubt = f"{many} not in this house ({strange[0]}): is it from another version of the plan?"
    return found, (told, doubt)
