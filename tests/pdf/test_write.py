"""The packet as PDF."""

from __future__ import annotations

import datetime as dt
import io
import re

import pypdf
import pytest
from tests.hand_house import NASTY, house

from seamwright.pdf import pdf_bytes, write_pdf
from seamwright.report.packet import Picture, packet_document
from seamwright.report.types import Document, Heading, Paragraph, Table
from seamwright.seals.types import Sentence

DAY = dt.date(2026, 3, 2)
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="279.4mm" height="215.9mm" '
    'viewBox="0 0 279.4 215.9"><path d="M8 8L270 200" stroke="#000000" stroke-width="0.5"/>'
    '<text x="20" y="60" font-family="DejaVu Sans Mono" font-size="4">R1.1-R2.1</text></svg>'
)


def read(data: bytes) -> pypdf.PdfReader:
    """Return a reader of PDF bytes."""
    return pypdf.PdfReader(io.BytesIO(data))


def words(data: bytes) -> str:
    """Return all text of a PDF without any white space, so that line ends do not matter."""
    return re.sub(r"\s+", "", "".join(page.extract_text() for page in read(data).pages))


@pytest.fixture(scope="module")
def packet() -> bytes:
    """Return the packet of the small house with one drawing."""
    pictures = [Picture(name="roof plan", title="Roof plan", caption="Joints by kind.")]
    document = packet_document(house(), pictures)
    return pdf_bytes(document, {"roof plan": SVG}, paper="letter", system="us", date=DAY)


def test_every_joint_can_be_found_in_the_pdf(packet: bytes) -> None:
    """Each joint id stands in the text of the PDF, and so can be searched for."""
    text = words(packet)
    assert [j.id for j in house().register.joints if j.id not in text] == []


def test_unsigned_shows_where_nobody_signed(packet: bytes) -> None:
    """UNSIGNED is on the cover and on each sheet with an unsigned joint."""
    pages = [page.extract_text() for page in read(packet).pages]
    assert "UNSIGNED" in pages[0]
    schedule = next(p for p in pages if "Seal schedule: wall spline" in p)
    assert schedule.count("UNSIGNED") == 3


def test_every_sheet_says_which_of_how_many(packet: bytes) -> None:
    """Each page carries the project, the date and its number of all sheets."""
    pages = [page.extract_text() for page in read(packet).pages]
    assert 8 <= len(pages) <= 14
    for number, text in enumerate(pages, start=1):
        assert f"Sheet {number} of {len(pages)}" in text
        assert "Test cabin" in text
        assert "2026-03-02" in text


def test_the_list_of_sheets_names_drawings_and_groups_sections() -> None:
    """A plan has its own line on the cover; all sections share one, and a bookmark each."""
    pictures = [Picture(name="plan-1", title="Plan of storey 1", caption="c")] + [
        Picture(name=f"s{n}", title=f"Section kind {n}", caption="c", section=True) for n in (1, 2)
    ]
    document = packet_document(house(), pictures)
    drawn = dict.fromkeys(("plan-1", "s1", "s2"), SVG)
    reader = read(pdf_bytes(document, drawn, paper="letter", system="us", date=DAY))
    cover = reader.pages[0].extract_text()
    assert "Plan of storey 1" in cover
    assert cover.count("Sections: how each joint is built") == 1
    assert "Section kind 1" not in cover
    assert "Section kind 2" in str(reader.outline)


def test_the_same_packet_is_the_same_bytes(packet: bytes) -> None:
    """Nothing but the arguments gets into the file: no clock, no path."""
    pictures = [Picture(name="roof plan", title="Roof plan", caption="Joints by kind.")]
    document = packet_document(house(), pictures)
    again = pdf_bytes(document, {"roof plan": SVG}, paper="letter", system="us", date=DAY)
    assert again == packet


@pytest.mark.parametrize(("paper", "size"), [("letter", (792, 612)), ("a4", (842, 595))])
def test_every_sheet_has_the_paper_asked_for(paper, size) -> None:
    """All sheets lie landscape on the chosen paper."""
    data = pdf_bytes(packet_document(house()), {}, paper=paper, system="us", date=DAY)
    for page in read(data).pages:
        assert (round(page.mediabox.width), round(page.mediabox.height)) == size


def test_units_follow_the_reader() -> None:
    """The same joint reads in feet and inches or in metres."""
    document = packet_document(house())
    us = words(pdf_bytes(document, {}, paper="letter", system="us", date=DAY))
    metric = words(pdf_bytes(document, {}, paper="a4", system="metric", date=DAY))
    assert "24'-0\"" in us
    assert "7.315m" in metric
    assert "24'-0\"" not in metric


def test_text_of_the_user_is_never_read_as_markup() -> None:
    """Names full of markup come out as they were typed, in every place that prints them."""
    table = Table(columns=(NASTY,), rows=((NASTY,),), widths=(1,), caption=NASTY, total=(NASTY,))
    document = Document(
        title=NASTY,
        subtitle=NASTY,
        facts=((NASTY, NASTY),),
        blocks=(Heading(text=NASTY), Paragraph(text=Sentence(text=NASTY)), table),
    )
    text = words(pdf_bytes(document, {}, paper="letter", system="us", date=DAY))
    typed = '#panic("x")$a^2$\\"quoted"<label>@ref*bold*_it_[b]{c}'
    assert text.count(typed) >= 9
    assert "\u202e" not in text


def test_a_figure_that_was_not_drawn_is_refused() -> None:
    """A document that shows a drawing nobody made cannot be printed."""
    document = packet_document(house(), [Picture(name="gone", title="Gone", caption="")])
    with pytest.raises(KeyError, match="gone"):
        pdf_bytes(document, {}, paper="letter", system="us", date=DAY)


def test_a_table_longer_than_a_page_repeats_its_titles() -> None:
    """A table that runs over several sheets shows its column titles on each."""
    rows = tuple((f"J{n}", "wall spline") for n in range(200))
    table = Table(columns=("Joint", "Kind of seam"), rows=rows, widths=(1, 1))
    document = Document(title="Long", subtitle="", facts=(), blocks=(table, table))
    data = pdf_bytes(document, {}, paper="letter", system="us", date=DAY)
    pages = [page.extract_text() for page in read(data).pages]
    assert len(pages) > 5
    assert all("Kind of seam" in page for page in pages)


def test_the_file_is_written_where_asked(tmp_path) -> None:
    """`write_pdf` leaves a PDF at the path."""
    path = tmp_path / "packet.pdf"
    write_pdf(packet_document(house()), {}, path, paper="a4", system="metric", date=DAY)
    assert path.read_bytes().startswith(b"%PDF-")
