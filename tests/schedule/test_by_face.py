"""Tasks that ask for the hours of their own face."""

from __future__ import annotations

from tests.schedule.houses import network

from seamwright.io.plan import builtin_house, read_plan
from seamwright.schedule.by_face import asked_faces, by_face
from seamwright.schedule.calendar import make_calendar, with_rain
from seamwright.schedule.outer_faces import outer_faces
from seamwright.schedule.outlook import TIMBERS
from seamwright.shell.build import build_shell

NAME = "cypress_house"
SHELL = build_shell(read_plan(builtin_house(NAME), name=NAME).plan)
FACES = [face.id for face in outer_faces(SHELL)]
KNOWN = [
    "bead, fresh",
    *(f"{work}/{face}" for work in ("tape/outer/wall", "bead") for face in FACES),
    *(f"tape/outer/roof/{face}, fresh" for face in FACES),
]


def test_strips_of_a_wall_ask_for_its_face_on_both_storeys() -> None:
    """Strips on the wall below and above ask for the one face; no other task changes."""
    before = {task.id: task for task in network(NAME).tasks}
    after = {task.id: task for task in by_face(network(NAME), SHELL, KNOWN).tasks}
    strips = [n for n, t in before.items() if t.window == "tape/outer/wall"]
    asked = {before[n].zone: after[n].window for n in strips}
    assert asked["outer/A"] == asked["outer/2A"] == "tape/outer/wall/A"
    assert asked["outer/B"] == "tape/outer/wall/B"
    changed = {n for n in after if after[n].window != before[n].window}
    assert all(
        str(after[n].window).startswith(("tape/outer/wall/", "tape/outer/roof/", "bead"))
        for n in changed
    )


def test_a_roof_covered_the_same_day_asks_for_a_fresh_one() -> None:
    """Strips of a roof panel wait for no board; strips over timbers keep the class of all roofs."""
    after = by_face(network(NAME), SHELL, KNOWN).tasks
    windows = {t.window for t in after if t.work == "tape" and t.same_day_as is not None}
    assert windows
    assert all(str(w).endswith(", fresh") for w in windows)
    assert {t.window for t in after if t.work == "drape_strip"} == {"tape/outer/roof"}


def test_beads_of_a_standing_wall_wait_for_it_and_those_of_fresh_parts_do_not() -> None:
    """A wall's beads ask for its face, those of roofs and sills for fresh ones, others for all."""
    after = {t.id: t for t in by_face(network(NAME), SHELL, KNOWN).tasks}
    beads = {t.zone: t.window for t in after.values() if str(t.window).startswith("bead")}
    assert (beads["A"], beads["2A"]) == ("bead/A", "bead/A")
    assert (beads["R1"], beads["A.sill"]) == ("bead, fresh", "bead, fresh")
    assert beads["2A.rim"] == "bead"


def test_only_faces_that_work_waits_for_are_run() -> None:
    """Walls and timbers are asked for, no roof: its panels come dry from the stack."""
    asked = asked_faces(network(NAME), SHELL)
    assert TIMBERS.id in asked
    assert {"A", "B", "C", "D"} <= asked
    assert not {name for name in asked if name.startswith("R")}


def test_without_weather_nothing_changes() -> None:
    """Where no class of a face is known every task keeps its own."""
    assert by_face(network(NAME), SHELL, ()) == network(NAME)


def test_a_day_of_rain_takes_the_hours_of_each_face_too() -> None:
    """Rain of the user's closes the class of a face, and that of a task with bans."""
    names = ("tape/outer/wall/A", "bead, not x's bans", "tape/inner")
    calendar = make_calendar(
        "2027-04-05", first_day=739_712, days=2, windows={name: range(48) for name in names}
    )
    left = dict(with_rain(calendar, [0]).windows)
    assert min(left["tape/outer/wall/A"]) == min(left["bead, not x's bans"]) == 24
    assert min(left["tape/inner"]) == 0
