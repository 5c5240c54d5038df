"""Panel lists as CSV: read, refused with lines, and written back."""

from __future__ import annotations

import random
from fractions import Fraction
from pathlib import Path

import pytest

from seamwright.errors import FormatError, InputError, Problem
from seamwright.io.panel_list import read_panel_list, split_row, write_panel_list
from seamwright.shell.plan import GivenPanel

INCH = Fraction(127, 5000)
HEADER = "id,type,role,x,y,z,along,up,length,height\n"
ROW = "A.1,w,wall,0,0,0,east,up,4' 6\",8'\n"


def test_a_plain_list_is_read_exactly() -> None:
    """One row is one panel with exact lengths and its directions."""
    (panel,) = read_panel_list(HEADER + ROW)
    zero = Fraction(0)
    assert panel == GivenPanel(
        id="A.1",
        panel_type="w",
        role="wall",
        origin=(zero, zero, zero),
        along=(1.0, 0.0, 0.0),
        up=(0.0, 0.0, 1.0),
        outline=((zero, zero), (54 * INCH, zero), (54 * INCH, 96 * INCH), (zero, 96 * INCH)),
    )


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
def test_any_common_delimiter_serves(delimiter: str) -> None:
    """The header's own delimiter is found."""
    text = (HEADER + ROW).replace(",", delimiter)
    assert read_panel_list(text) == read_panel_list(HEADER + ROW)


@pytest.mark.parametrize(
    "length", ["4' 6\"", '"4\' 6"""', "4′ 6″", '54"', '"54"""', "1371.6 mm", "1.3716 m"]
)
def test_inch_marks_may_stand_or_be_doubled(length: str) -> None:
    """An inch mark in a cell is read whether or not the cell is quoted."""
    row = f"A.1,w,wall,0,0,0,east,up,{length},8'\n"
    assert read_panel_list(HEADER + row) == read_panel_list(HEADER + ROW)


def test_units_in_the_header_serve_bare_numbers() -> None:
    """A unit in brackets or parentheses is that column's; a written unit outranks it."""
    text = (
        "ID;Type;Role;X [mm];Y (ft);z;along;up;Length [mm];height [mm]\n"
        "A.1;w;wall;1500;3;0.5;1 0 0;0 0 1;1371.6;8'\n"
    )
    (panel,) = read_panel_list(text, default_unit="m")
    assert panel.origin == (Fraction(3, 2), 36 * INCH, Fraction(1, 2))
    assert panel.outline[2] == (54 * INCH, 96 * INCH)


def test_columns_in_any_order_with_outline_and_bevels() -> None:
    """Optional columns may follow anywhere; comments and empty lines are passed over."""
    text = (
        "# roof\n\n"
        "up,along,z,y,x,role,type,id,outline [m],bevels,storey,plane\n"
        'north at 8/12,bearing 90,0,0,0,roof,r,R1.1,"0,0; 2,0; 2,5; 0,5",0; 0; 33.7; 0,1,R1\n'
        ",,,,,,,,,,,\n"
    )
    (panel,) = read_panel_list(text)
    assert panel.outline == ((0, 0), (2, 0), (2, 5), (0, 5))
    assert panel.bevels_deg == (0.0, 0.0, 33.7, 0.0)
    assert (panel.storey, panel.plane) == ("1", "R1")
    assert panel.along == pytest.approx((1.0, 0.0, 0.0))
    assert panel.up[2] / panel.up[1] == pytest.approx(2 / 3)


def problems(text: str | bytes | Path) -> list[Problem]:
    """Return what is wrong with a list."""
    with pytest.raises(InputError) as caught:
        read_panel_list(text, name="list.csv")
    return list(caught.value.problems)


@pytest.mark.parametrize(
    ("old", "new", "sentence", "remedy"),
    [
        ("wall", "wal", "panel A.1, role: ‘wal’ is not a known role", "‘wall’"),
        ("8'", "8", "panel A.1, height: ‘8’ has no unit", "7500 mm"),
        ("8'", "-8'", "‘-8'’ is not more than zero", "as built"),
        ("8'", "", "panel A.1, height: the length is empty", "7.5 m"),
        ("east", "eest", "‘eest’ cannot be read as a direction", "bearing 30"),
        ("up", "0 0 0", "‘0 0 0’ has no usable length", "bearing 30"),
        ("A.1", "A 1", "row 2, id: ‘A 1’ cannot serve as an id", "A.1"),
        (",w,", ",,", "panel A.1, type: the panel type is missing", "a panel type"),
        ("8'", "8',9'", "there are more cells than columns", "double quotes"),
    ],
)
def test_a_wrong_cell_says_which(old: str, new: str, sentence: str, remedy: str) -> None:
    """A wrong cell is told with panel, column and line."""
    (found,) = problems(HEADER + ROW.replace(old, new, 1))
    assert sentence in found.sentence
    assert remedy in found.remedy
    assert (found.file, found.line) == ("list.csv", 2)


def test_every_wrong_row_is_told() -> None:
    """Problems of several rows come together; an id used twice is one of them."""
    found = problems(HEADER + ROW + ROW + ROW.replace("A.1", "A.2").replace("east", "eest"))
    assert [(p.subject, p.line) for p in found] == [("panel A.1", 3), ("panel A.2", 4)]


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "the panel list is empty"),
        ("# nothing\n\n", "the panel list is empty"),
        (HEADER, "a header and no panels"),
        ("id,type,role\nA,w,wall\n", "the header lacks x, y, z, along, up"),
        (HEADER.replace("length", "lenght") + ROW, "unknown column ‘lenght’"),
        (HEADER.replace("length", "length [yd]") + ROW, "unknown unit ‘yd’"),
        (HEADER.replace("height", "length") + ROW, "length stands twice"),
        (b"PK\x03\x04\x00\x00", "is not text"),
    ],
)
def test_a_file_that_is_no_list_is_told(text: str | bytes, sentence: str) -> None:
    """Empty, headless and binary files are refused in a sentence."""
    found = problems(text)
    assert any(sentence in problem.sentence for problem in found), found


def test_a_huge_list_is_refused_unread(tmp_path: Path) -> None:
    """A list past the limit is refused by its size."""
    path = tmp_path / "huge.csv"
    with path.open("wb") as file:
        file.truncate(50_000_000)
    with pytest.raises(FormatError, match="more than the 2 MB"):
        read_panel_list(path)


def test_a_written_list_reads_back_the_same() -> None:
    """Writing and reading returns the same panels, fractions and all."""
    rng = random.Random(3)
    panels = tuple(
        GivenPanel(
            id=f"P-{i}",
            panel_type="w",
            role="roof",
            origin=(rng.randint(-999, 999) * INCH / 64, Fraction(i, 1000), Fraction(0)),
            along=(rng.random(), rng.random(), 0.0),
            up=(0.0, rng.random(), 1e-12 + rng.random()),
            outline=((Fraction(0), Fraction(0)), (96 * INCH, Fraction(0)), (INCH / 16, 7 * INCH)),
            storey=None if i % 2 else "1",
            plane="R1",
            bevels_deg=None if i % 3 else (0.0, 33.7, -5.5),
        )
        for i in range(20)
    )
    assert read_panel_list(write_panel_list(panels)) == panels


def test_cells_are_split_as_spreadsheets_write_them() -> None:
    """Quoted cells may hold the delimiter; an empty last cell counts."""
    assert split_row('a,"b,c",,"d ""e"" f",', ",") == ["a", "b,c", "", 'd "e" f', ""]


def test_spoiled_lists_end_in_sentences() -> None:
    """Random wounds to a list never end in another error."""
    rng = random.Random(11)
    good = HEADER + ROW * 3
    found: list[Problem] = []
    for _ in range(400):
        at = rng.randrange(len(good))
        wound = rng.choice(['"', ",", ";", "\n", "\0", "∞", "", "'", "9" * 30, "[", "e5"])
        text = good[:at] + wound + good[at + rng.randint(0, 6) :]
        try:
            read_panel_list(text + "\n")
        except InputError as error:
            found.extend(error.problems)
    assert len(found) > 300
    assert all(problem.sentence and problem.remedy for problem in found)
