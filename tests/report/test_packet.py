"""The packet as a document."""

from __future__ import annotations

import math

from tests.hand_house import house

from seamwright.report.packet import Picture, member_table, numbered, packet_document
from seamwright.report.seal_types import joint_seals, seal_types
from seamwright.report.types import Caution, Figure, Heading, Quantity, Table


def texts(document) -> str:
    """Return every word of a document, cells and paragraphs alike."""
    found: list[str] = []
    for block in document.blocks:
        if isinstance(block, Table):
            cells = [*block.columns, *(c for row in block.rows for c in row), block.caption]
            found += [c if isinstance(c, str) else getattr(c, "text", "") for c in cells if c]
        else:
            text = getattr(block, "text", "")
            found.append(text if isinstance(text, str) else text.text)
    return "\n".join(found)


def test_every_joint_and_node_is_in_the_packet() -> None:
    """No joint and no node of the register is missing from the packet."""
    small = house()
    words = texts(packet_document(small))
    assert [j.id for j in small.register.joints if j.id not in words] == []
    assert [n.id for n in small.register.nodes if n.id not in words] == []


def test_tables_and_figures_are_numbered_through() -> None:
    """Captions count 1, 2, 3 ... over the whole packet, tables and figures apart."""
    pictures = [Picture(name=n, title=n, caption="c") for n in ("plan-1", "roof")]
    blocks = packet_document(house(), pictures).blocks
    tables = [b.caption.split(".")[0] for b in blocks if isinstance(b, Table)]
    figures = [b.caption.split(".")[0] for b in blocks if isinstance(b, Figure)]
    assert tables == [f"Table {n}" for n in range(1, len(tables) + 1)]
    assert figures == ["Figure 1", "Figure 2"]


def test_numbering_leaves_other_blocks_alone() -> None:
    """Only tables and figures get a number."""
    assert numbered([Heading(text="h"), Caution(text="c")]) == (
        Heading(text="h"),
        Caution(text="c"),
    )


def test_every_joint_is_listed_under_its_type_and_section() -> None:
    """The members of the types are all joints, once, beside the figure that shows them."""
    small = house()
    types = seal_types(joint_seals(small.register, small.schedule))
    pictures = (
        Picture(name="plan-1", title="Plan", caption="", joints=("A.1-A.2",)),
        Picture(name="section-1", title="Spline", caption="", joints=("A.1-A.2",), section=True),
    )
    rows = member_table(pictures, types).rows
    ids = [joint_id for row in rows for joint_id in row[3].split(", ")]
    assert sorted(ids) == sorted(j.id for j in small.register.joints)
    assert [(r[0], r[1]) for r in rows if r[3] == "A.1-A.2"] == [("S2", "Figure 2. Spline")]
    assert [(r[0], r[1]) for r in rows if r[3] == "A.2-A.3"] == [("S2", None)]


def test_every_table_is_rectangular() -> None:
    """Rows, totals and widths have one entry for each column."""
    for block in packet_document(house(price=41.0)).blocks:
        if isinstance(block, Table):
            size = len(block.columns)
            assert {len(row) for row in block.rows} <= {size}
            assert len(block.widths) == size
            assert block.total is None or len(block.total) == size
            assert set(block.right) <= set(range(size + 1))


def test_cover_opens_with_the_numbers_and_the_findings() -> None:
    """The first table holds the numbers, and they equal the sums of the records."""
    small = house()
    first = packet_document(small).blocks[0]
    assert isinstance(first, Table)
    values = {row[0]: row[1].value for row in first.rows}
    assert values["Joints"] == len(small.register.joints)
    assert values["Joint length"] == math.fsum(j.length for j in small.register.joints)
    assert values["Joints whose face is UNSIGNED"] == 3
    assert values["Places where a line does not close"] == 1


def test_the_place_facts_say_which_edition_the_zone_is_of() -> None:
    """A climate zone without its edition could mean two things."""
    assert ("Climate zone", "4C, IECC 2021") in packet_document(house()).facts


def test_quantities_stay_numbers_until_an_edge_prints_them() -> None:
    """No length is turned into text inside the document's numeric columns."""
    for block in packet_document(house()).blocks:
        if isinstance(block, Table) and block.caption.endswith("Joints by kind"):
            assert all(isinstance(row[2], Quantity) for row in block.rows)
            break
    else:
        raise AssertionError
