"""Materials and films of the user's own."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from seamwright.errors import FormatError, InputError
from seamwright.io.materials_file import NOT_STATED, read_materials
from seamwright.moisture.materials import sd_of_permeance
from seamwright.moisture.transient.materials import HYGRO

EXAMPLE = Path(__file__).parents[2] / "examples" / "own_materials.yaml"
BOARD = "materials:\n  - id: b\n    like: osb\n"


def wrong(text: str) -> str:
    """Return what is said of a wrong file."""
    with pytest.raises(InputError) as error:
        read_materials(text, name="m.yaml")
    return str(error.value)


def test_the_example_is_read() -> None:
    """Units of the US and of SI, cups in perms, points over humidity, films by perms and sd."""
    own = read_materials(EXAMPLE)
    board, core = own.materials["roof-board"], own.materials["dense-core"]
    assert board.density == pytest.approx(40 * 16.018463)
    assert board.vapor_factor.y[1:3] == pytest.approx(
        [sd_of_permeance(0.8) / 0.015875, sd_of_permeance(2.4) / 0.015875]
    )
    at_65 = board.sorption.y[board.sorption.x.index(0.65)]
    assert at_65 == pytest.approx(0.095 * board.density)
    assert board.sorption.y[-1] == 500.0
    assert "board sheet, page 2" in board.note
    assert core.conductivity == pytest.approx(0.0254 / 0.17611 / 4.2)
    assert core.vapor_factor.y[0] == pytest.approx(sd_of_permeance(3.0) / 0.0254)
    assert own.films["wide-strip"].perms == pytest.approx(0.3)
    assert own.films["wide-strip"].retarder == "II"
    assert own.films["roof-membrane"].sd == pytest.approx(0.15)


def test_the_file_of_the_docs_is_the_example() -> None:
    """What the docs show is what is read."""
    page = (EXAMPLE.parents[1] / "docs" / "materials.md").read_text()
    shown = re.findall(r"```yaml\n(.*?)```", page, flags=re.DOTALL)[0]
    assert shown in EXAMPLE.read_text()


def test_what_is_not_given_stays_and_says_so() -> None:
    """A material with one figure of its own keeps all else of the built-in one."""
    own = read_materials(BOARD + "    conductivity: 0.11 W/(m·K)\n").materials["b"]
    assert own.conductivity == 0.11
    assert own.sorption == HYGRO["osb"].sorption
    assert own.note.startswith(f"conductivity: {NOT_STATED}; all else as osb")


def test_a_heavier_board_holds_the_same_share_of_its_mass() -> None:
    """A new density carries the water contents with it, and those of the liquid flow."""
    own = read_materials(BOARD + "    density: 715 kg/m3\n").materials["b"]
    base = HYGRO["osb"]
    assert own.sorption.y == pytest.approx([1.1 * w for w in base.sorption.y])
    assert own.liquid.x == pytest.approx([1.1 * w for w in base.liquid.x])


def test_sd_and_points_over_humidity() -> None:
    """Cups by sd at a thickness; a table by points; sorption by volume; no liquid flow."""
    text = (
        "    vapor: {unit: sd, dry: 2 , wet: 1, thickness: 10 mm}\n"
        "    sorption: {per: volume, points: [[0.5, 40], [0.9, 90]], saturation: 300}\n"
        "    absorption: 0\n"
    )
    own = read_materials(BOARD + text).materials["b"]
    assert own.vapor_factor.y[1:3] == pytest.approx([200.0, 100.0])
    assert own.sorption.y[1:3] == (40.0, 90.0)
    assert own.liquid is None
    table = "    vapor: {points: [[0 %, 60], [50 %, 40], [100 %, 12]]}\n"
    assert read_materials(BOARD + table).materials["b"].vapor_factor.y == (60.0, 40.0, 12.0)


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("    conductivity: 0.13\n", "line 4"),
        ("    conductivity: 0.13\n", "is not a conductivity with its unit"),
        ("    conductivity: 1300 W/(m K)\n", "outside 0.005 to 500 W/mK"),
        ("    density: 0.6 kg/m3\n", "outside 1 to 12000"),
        ("    thicknes: 3\n", "unknown word ‘thicknes’"),
        ("    vapor: {unit: perms, dry: 0.7, wet: 2}\n", "none is given; add thickness"),
        ("    vapor: {unit: mu}\n", "needs dry and wet, or points"),
        ("    vapor: {dry: 60, points: [[0.5, 3]]}\n", "needs dry and wet, or points"),
        ("    vapor: {dry: 20, wet: 60}\n", "resists vapor more when wet"),
        ("    vapor: {unit: perms, dry: 900, wet: 990, thickness: 1 in}\n", "below that of still"),
        ("    sorption: {points: [[65 %, 10 %], [30 %, 5 %]]}\n", "do not rise"),
        ("    sorption: {points: [[65, 10 %]]}\n", "is not within 0 to 100 %"),
        ("    sorption: {points: [[30 %, 9 %], [65 %, 5 %]]}\n", "must rise with humidity"),
        ("    sorption: {points: [[30 %, 5 %]], saturation: 900}\n", "more than there is room for"),
        ("    sorption: {points: [[50 %, 5 %], [100 %, 30 %]]}\n", "as saturation"),
        ("    sorption: {points: some}\n", "no points stand here"),
        ("    conductivity: 0.1 W/(m K)\n    r_per_inch: 3\n", "are both given"),
    ],
)
def test_each_slip_is_told_with_what_to_do(line: str, told: str) -> None:
    """Wrong units, ranges, orders and halves are told in a sentence with its line."""
    said = wrong(BOARD + line).replace("m.yaml:4", "line 4")
    assert told in said
    assert "m.yaml" in wrong(BOARD + line)


def test_unknown_base_and_double_names() -> None:
    """`like` must name a built-in material; an id serves once; a film has perms or sd."""
    assert "like" in wrong("materials:\n  - id: a\n    like: osbb\n")
    assert "is used before" in wrong(BOARD + "films:\n  - {id: b, perms: 1}\n")
    assert "either perms or sd" in wrong("films:\n  - {id: f}\n")
    assert "either perms or sd" in wrong("films:\n  - {id: f, perms: 1, sd: 1 m}\n")


def test_what_is_no_file_of_materials() -> None:
    """An empty text and a list are refused."""
    with pytest.raises(FormatError):
        read_materials("\n")
    assert "start with materials" in wrong("- a\n- b\n")
